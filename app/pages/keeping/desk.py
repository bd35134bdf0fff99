"""Files that were brought and lie on the desk until somebody has said whether they are to be kept."""

import time
from collections.abc import Callable
from dataclasses import dataclass, field
from threading import Lock

from app.records.arriving import Found, Said

LONGEST_S = 3600.0
MOST = 4
"""Files at once; of more the oldest are put away."""


@dataclass
class Brought:
    """A file on the desk.

    Attributes
    ----------
    name : str
        As whoever brought it calls it.
    data : bytes
    said : Said
        What was said of it.
    found : Found or None
        What would come of it; None where it cannot be taken in so.
    at : float
        When it was last looked at, by the clock of `Desk`.
    """

    name: str
    data: bytes
    said: Said = field(default_factory=Said)
    found: Found | None = None
    at: float = 0.0


class Desk:
    """Files that were brought, by their tokens; and how far the work on each has come.

    Parameters
    ----------
    clock : callable, optional
        Seconds.
    """

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._lock = Lock()
        self._files: dict[str, Brought] = {}
        self._progress: dict[str, str] = {}

    def put(self, token: str, brought: Brought) -> None:
        """Lay a file on the desk."""
        with self._lock:
            brought.at = self._clock()
            self._files[token] = brought
            old = sorted(self._files, key=lambda one: self._files[one].at)
            late = [one for one in old if brought.at - self._files[one].at > LONGEST_S]
            for one in {*late, *old[:-MOST]}:
                self._files.pop(one, None)

    def find(self, token: str) -> Brought | None:
        """The file of a token; None if it lies there no longer."""
        with self._lock:
            found = self._files.get(token)
            if found is not None:
                found.at = self._clock()
            return found

    def drop(self, token: str) -> None:
        """Put a file away."""
        with self._lock:
            self._files.pop(token, None)
            self._progress.pop(token, None)

    def tell(self, token: str, words: str) -> None:
        """Say how far the work on a file has come; nothing where it is done."""
        with self._lock:
            if words:
                self._progress[token] = words
            else:
                self._progress.pop(token, None)

    def progress(self, token: str) -> str:
        """How far the work on a file has come, in words; empty where there is none."""
        with self._lock:
            return self._progress.get(token, "")
