"""The cautions that stand wherever a plan or a choice does, and what is said of a young or female thrower."""

from collections.abc import Iterable

from dash import html
from dash.development.base_component import Component

from app.units import plain
from model.person import Person

ADULT_AGE_YEARS = 18.0

GROWING = (
    "For throwers who are still growing: published opinion is against weighted-ball programmes, and a six-week "
    "programme in 13–18-year-olds raised speed and saw 24 % of throwers injured.",
    "Reinold MM, Macrina LC, Fleisig GS, Aune K, Andrews JR. Sports Health 2018;10(4):327–333 (programme); "
    "Anz AW. Arthroscopy 2023;39(3):728–729 (opinion).",
)

CAUTIONS = (
    "A model of joint torque, not of tissue: it does not predict injury.",
    "Pain, numbness, swelling, or loss of motion or speed ends the session.",
    "A return after injury or surgery is led by a licensed clinician, under local rules and throw-count limits.",
)


def is_growing(person: Person | None) -> bool:
    """Whether a thrower counts as still growing; nobody does while the measures are missing."""
    return person is not None and person.age_years < ADULT_AGE_YEARS


def path_note(person: Person | None) -> str:
    """Say at the number that the path comes from adult men, where the thrower is none.

    Parameters
    ----------
    person : Person or None

    Returns
    -------
    str
        Nothing for an adult man.
    """
    differs = "" if person is None else unlike_adult_men(person)
    return f"The path comes from adult men; this thrower is {differs}." if differs else ""


def unlike_adult_men(person: Person) -> str:
    """Say what a thrower is that those were not who the path comes from; nothing of an adult man."""
    young, female = is_growing(person), person.sex == "female"
    age = f"{plain(person.age_years, most=1)} years old"
    return f"female and {age}" if young and female else age if young else "female" if female else ""


def youngest(people: Iterable[Person | None]) -> Person | None:
    """Choose whose age the cautions are for."""
    known = [person for person in people if person is not None]
    return min(known, key=lambda person: person.age_years, default=None)


def cautions(person: Person | None) -> list[str]:
    """Return the cautions in short; for a thrower who is still growing, the one about that first.

    Parameters
    ----------
    person : Person or None

    Returns
    -------
    list of str
    """
    return [*([GROWING[0]] if is_growing(person) else []), *CAUTIONS]


def caution_part(person: Person | None) -> Component:
    """Make the list of cautions under its heading, with the source of the one about growing throwers.

    Parameters
    ----------
    person : Person or None

    Returns
    -------
    Component
        A section.
    """
    source = [html.P(GROWING[1], className="source")] if is_growing(person) else []
    return html.Section([html.H2("Cautions"), html.Ul([html.Li(text) for text in cautions(person)]), *source])
