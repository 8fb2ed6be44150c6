"""Every way a study is shown; each draws the same tree and computes nothing."""
