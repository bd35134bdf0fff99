"""From typed text to the model's things: every value is checked where it was typed, and a message says what to mend.

A point and a comma both mark the decimals (28.5 and 28,5 are the same); there are no thousands separators, so that no
typed number can be read in two ways. A unit may stand behind the number, see `app.units.typed`; messages are in the
units of the reader.
"""

from app.show.checks import CheckedAthlete, CheckedThrow, check_athlete, message, read_number
from app.show.form_fields import (
    ABOVE_LIMITS,
)
from app.show.throw_form import OTHER, Form
from app.units.systems import METRIC, System
from model.checks import InputError
from model.person import Person
from model.throw import Throw


def check_throwers(form: Form, system: System = METRIC) -> dict[str, CheckedAthlete]:
    """Read the measures of both throwers.

    Parameters
    ----------
    form : Form
    system : System
        The units of the messages.

    Returns
    -------
    dict of str to CheckedAthlete
        Of the first thrower ("") and of the second (`OTHER`).
    """
    return {thrower: check_athlete(form.measures(thrower), system) for thrower in ("", OTHER)}


def check_above(text: str, unit: str) -> tuple[float | None, str]:
    """Read the level of "time above".

    Parameters
    ----------
    text : str
        As typed; empty for half the reference throw's peak.
    unit : str
        'N·m' or 'N'.

    Returns
    -------
    float or None
        The level, None if left out or wrong.
    str
        What is wrong with it, or nothing.
    """
    if not text.strip():
        return None, ""
    try:
        return read_number(text, "Level", ABOVE_LIMITS[unit], unit), ""
    except InputError as error:
        return None, message(error)


def throw_of(person: Person, checked: CheckedThrow) -> Throw | None:
    """Make the model's throw of a person and a line that could be read; None of one that could not."""
    if checked.ball is None or checked.speed_m_s is None:
        return None
    return Throw(person, checked.ball, checked.speed_m_s)
