"""What holds for every test."""

import signal

# started in the background a run ignores Ctrl-C, and so would the commands whose answer to Ctrl-C is tested
if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    signal.signal(signal.SIGINT, signal.default_int_handler)
