"""The bar of a long computation: on a terminal only."""

import io

from app.progress import Progress


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_on_a_terminal_the_bar_fills_and_goes_away() -> None:
    stream = Terminal()
    progress = Progress("reading throws", 4, stream)
    progress.show(2)
    progress.show(4)
    assert stream.getvalue().split("\r")[1:] == [
        "reading throws [" + "#" * 15 + "-" * 15 + "] 2 of 4",
        "reading throws [" + "#" * 30 + "] 4 of 4",
    ]
    progress.clear()
    assert stream.getvalue().endswith("\r\x1b[K")


def test_it_does_not_flicker() -> None:
    stream = Terminal()
    progress = Progress("reading throws", 10_000, stream)
    for done in range(1, 10_000):
        progress.show(done)
    assert stream.getvalue().count("\r") < 100


def test_elsewhere_nothing_is_shown() -> None:
    stream = io.StringIO()
    progress = Progress("reading throws", 4, stream)
    progress.show(4)
    progress.clear()
    assert stream.getvalue() == ""


def test_nothing_to_do_shows_nothing() -> None:
    stream = Terminal()
    Progress("reading throws", 0, stream).show(0)
    assert stream.getvalue() == ""
