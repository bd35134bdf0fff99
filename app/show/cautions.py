"""The cautions that stand wherever a plan or a choice does, and what is said of a young or female thrower."""

from collections.abc import Iterable

from dash import html
from dash.development.base_component import Component

from app.units.conversion import plain
from model.person import Person

ADULT_AGE_YEARS = 18.0

GROWING = (
    "For throwers who are still growing: a published editorial calls for an end to weighted-ball programmes in the "
    "young, and in a six-week programme for 13- to 18-year-olds speed rose while 24 % of the group with weighted balls "
    "were injured: four elbow injuries, two of them while training.",
    "Reinold MM, Macrina LC, Fleisig GS, Aune K, Andrews JR. Sports Health 2018;10(4):327–333 (programme); "
    "Anz AW. Arthroscopy 2023;39(3):728–729 (editorial, known by its title).",
)

UNMEASURED = "Some measures are missing: until they are known, this thrower counts as still growing."

CAUTIONS = (
    "A model of joint torque, not of tissue: it does not predict injury.",
    "Pain, numbness, swelling, or loss of motion or speed ends the session.",
    "A return after injury or surgery is led by a licensed clinician, under local rules and throw-count limits.",
)


NO_VERDICT = (
    "This says how much, how long and how steep, compared with what; it passes no verdict. What is thrown is decided "
    "by those who are responsible for the thrower."
)
"""Said once on a page where a ball or a speed is chosen."""


def is_growing(person: Person | None) -> bool:
    """Whether a thrower counts as still growing: under 18, marked so, or not known, as some measures are missing."""
    return person is None or person.still_growing or person.age_years < ADULT_AGE_YEARS


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
    young = person.age_years < ADULT_AGE_YEARS
    age = f"{plain(person.age_years, most=1)} years old" if young else "still growing" if person.still_growing else ""
    return " and ".join(part for part in ("female" if person.sex == "female" else "", age) if part)


def cautioned(people: Iterable[Person | None]) -> Person | None:
    """Choose whose measures the cautions are for: those of one who counts as still growing, if there is one."""
    listed = list(people)
    return next((person for person in listed if is_growing(person)), listed[0] if listed else None)


def cautions(person: Person | None) -> list[str]:
    """Return the cautions in short; for a thrower who is still growing, the one about that first.

    Parameters
    ----------
    person : Person or None

    Returns
    -------
    list of str
    """
    unmeasured = [UNMEASURED] if person is None else []
    return [*unmeasured, *([GROWING[0]] if is_growing(person) else []), *CAUTIONS]


def beside_choice(person: Person | None) -> Component:
    """Make the list of cautions that stands beside a choice of throws: growing, signs that end a session, injury."""
    lines = [line for line in cautions(person) if line != CAUTIONS[0]]  # what the model is stands at the foot
    return html.Ul([html.Li(line) for line in lines], className="cautions-beside")


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
    return _section(cautions(person))


def general_cautions() -> Component:
    """Make the same for a page that is about nobody: the one about growing throwers first."""
    return _section([GROWING[0], *CAUTIONS])


def _section(lines: list[str]) -> Component:
    listed = [html.Li(text, className="growing" if text == GROWING[0] else None) for text in lines]
    source = [html.P(GROWING[1], className="source")] if GROWING[0] in lines else []
    return html.Section([html.H2("Cautions"), html.Ul(listed), *source])
