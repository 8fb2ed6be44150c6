"""A progress bar on the error stream, for work that takes longer than half a second; nothing where nobody watches."""

import sys
from time import monotonic
from typing import TYPE_CHECKING, Self

if TYPE_CHECKING:
    from rich.progress import Progress, TaskID

_PATIENCE = 0.5  # s


class Bar:
    """Called with the share that is done; it shows itself once patience is over, on a terminal only."""

    def __init__(self, title: str) -> None:
        self._title = title
        self._begun = monotonic()
        self._shown: tuple[Progress, TaskID] | None = None

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *raised: object) -> None:
        if self._shown is not None:
            self._shown[0].stop()

    def __call__(self, share: float) -> None:
        """Tell the share that is done, up to 1."""
        if self._shown is None:
            if not sys.stderr.isatty() or monotonic() - self._begun < _PATIENCE:
                return
            from rich.console import Console
            from rich.progress import Progress

            bar = Progress(console=Console(stderr=True), transient=True)
            self._shown = bar, bar.add_task(self._title, total=1.0)
            bar.start()
        self._shown[0].update(self._shown[1], completed=share)
