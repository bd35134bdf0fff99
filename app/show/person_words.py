"""Who throws, in a line, and which measures are missing."""

from app.show.subject import Case
from app.units.conversion import plain
from app.units.systems import System
from model.person import Person

ALL_MEASURES = "sex, throwing hand, age, stature and body mass"


def who_words(case: Case) -> str:
    """Say in a line who throws.

    Parameters
    ----------
    case : Case

    Returns
    -------
    str
        Code and measures, as far as there are any.
    """
    return person_words(case.code, case.person, case.system)


def person_words(code: str, person: Person | None, system: System) -> str:
    """Say in a line who a person is.

    Parameters
    ----------
    code : str
        Empty for none.
    person : Person or None
    system : System

    Returns
    -------
    str
    """
    parts = [code] if code else []
    if person is not None:
        parts += [
            person.sex,
            f"{plain(person.age_years, most=1)} years",
            *(["marked as still growing"] if person.still_growing else []),
            system.height(person.stature_m),
            system.text(person.body_mass_kg, "kg", most=1),
        ]
    return " · ".join(parts)


def measures_missing(case: Case) -> str:
    """Say which measures are missing or to be mended; nothing if the person is whole."""
    if case.person is not None:
        return ""
    return ", ".join(label.lower() for label in case.missing) or ALL_MEASURES
