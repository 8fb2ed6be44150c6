"""``python -m beamcheck`` is ``bearline``."""

import gc

_YOUNG = 200_000  # a start makes many objects that live to the end: looking through them costs a tenth of a check


def main() -> None:
    """Entry point of ``bearline``."""
    gc.set_threshold(_YOUNG)
    from beamcheck.cli import run

    try:
        run()
    finally:
        gc.freeze()  # the process ends and gives everything back at once: nothing needs to be looked for any more


if __name__ == "__main__":
    main()
