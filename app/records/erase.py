"""Erasing."""

from collections.abc import Callable

from app.records.engine import Database


def finish(database: Database, tell: Callable[[str], None]) -> None:
    """Finish."""
