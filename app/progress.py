"""A line that shows how far a long computation has come, where somebody is there to see it."""

import sys
import time
from typing import TextIO

BAR_WIDTH = 30
LEAST_INTERVAL_S = 0.1


class Progress:
    """A bar on a terminal; nothing at all anywhere else.

    Parameters
    ----------
    what : str
        What is being done, in words.
    total : int
        How many steps there are.
    stream : text file, optional
        Where to show it; the error stream if left out.
    """

    def __init__(self, what: str, total: int, stream: TextIO | None = None) -> None:
        self._what = what
        self._total = total
        self._stream = sys.stderr if stream is None else stream
        self._shown = self._stream.isatty() and total > 0
        self._last_s = -LEAST_INTERVAL_S

    def show(self, done: int) -> None:
        """Show how far it has come.

        Parameters
        ----------
        done : int
            Steps done so far.
        """
        now_s = time.monotonic()
        if not self._shown or (now_s - self._last_s < LEAST_INTERVAL_S and done < self._total):
            return
        self._last_s = now_s
        filled = BAR_WIDTH * done // self._total
        bar = "#" * filled + "-" * (BAR_WIDTH - filled)
        self._stream.write(f"\r{self._what} [{bar}] {done} of {self._total}")
        self._stream.flush()

    def show_of(self, done: int, of: int) -> None:
        """Show how far it has come, where only now is known of how many.

        Parameters
        ----------
        done, of : int
            Steps done so far, and steps in all.
        """
        self._total = of
        if of > 0:
            self.show(done)

    def clear(self) -> None:
        """Take the line away again."""
        if self._shown:
            self._stream.write("\r\x1b[K")
            self._stream.flush()
