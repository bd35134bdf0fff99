"""What goes over to Build up from the page: the throw that was pressed, with all it was found under."""

from app.pages.start.answers import StartAnswer
from app.pages.start.found import Listed
from app.pages.start.rounded import chosen
from app.pages.start.table import FIRST, ball_key
from app.show.from_start import FromStart


def pressed_throw(answer: StartAnswer, ball: object) -> Listed | None:
    """Find the throw that a button stands for.

    Parameters
    ----------
    answer : StartAnswer
    ball : object
        What its id says of the ball, as the browser sent it.

    Returns
    -------
    Listed or None
        None if there is no such throw, or no longer.
    """
    if ball == FIRST:
        return answer.first
    listed = answer.found.listed if answer.found else ()
    return next((one for one in listed if ball_key(one) == ball), None)


def from_start(answer: StartAnswer, ball: object) -> FromStart | None:
    """Put together what goes over.

    Parameters
    ----------
    answer : StartAnswer
    ball : object
        As for `pressed_throw`.

    Returns
    -------
    FromStart or None
        With the share as it is shown: rounded so as not to pass a limit.
    """
    throw, basis, checked = pressed_throw(answer, ball), answer.basis, answer.checked
    if throw is None or basis is None or checked.ceilings is None or checked.certainty is None:
        return None
    return FromStart(
        answer.form.who,
        answer.case.code,
        throw.choice.range.ball,
        chosen(throw.choice, answer.case.system).percent / 100.0,
        checked.ceilings,
        checked.certainty,
        basis.reference,
        basis.dated,
    )
