"""What the page says beside its numbers: whose path it is, and what leaves the checked range."""

from collections.abc import Collection

from app.pages.compare.answers import Answer, Comparison, Thrower
from app.show.cautions import path_note, unlike_adult_men
from app.show.checked_range import CHECK, CHECKED_BALL_KG, CHECKED_SPEED_M_S, checked_in
from app.show.invented import INVENTED
from app.show.person_words import person_words
from app.units.conversion import range_in
from app.units.systems import System
from model.checks import Limit


def path_of(comparison: Comparison) -> str:
    """Say the same of all whose throws are drawn.

    Parameters
    ----------
    comparison : Comparison

    Returns
    -------
    str
        Nothing if they are all adult men.
    """
    called = {answer.who: answer.person for answer in comparison.drawn}
    if "" in called or not called:
        return path_note(next(iter(comparison.people), None))
    differ = [(who, unlike_adult_men(person)) for who, person in called.items() if person is not None]
    said = [f"{who} is {differs}" for who, differs in differ if differs]
    return f"The path comes from adult men; {' and '.join(said)}." if said else ""


def warnings(comparison: Comparison) -> list[str]:
    """Name each throw outside the range in which the calculation was checked, and say what kind of check that was.

    Parameters
    ----------
    comparison : Comparison

    Returns
    -------
    list of str
    """
    said = list(dict.fromkeys(text for answer in comparison.drawn if (text := _beyond(answer))))  # of equal throws, one
    return [*said, CHECK] if said else []


def _beyond(answer: Answer) -> str:
    ball, speed = answer.throw.ball, answer.throw.speed_m_s
    if ball is None or speed is None:
        return ""
    system = answer.system
    balls = range_in(Limit(*CHECKED_BALL_KG, "kg"), system.unit("g"))
    speeds = range_in(Limit(*CHECKED_SPEED_M_S, "m/s"), system.unit("m/s"))
    beyond = []
    if not CHECKED_BALL_KG[0] <= ball.mass_kg <= CHECKED_BALL_KG[1]:
        beyond.append(f"balls from {balls}")
    if not CHECKED_SPEED_M_S[0] <= speed <= CHECKED_SPEED_M_S[1]:
        beyond.append(f"speeds from {speeds}")
    return checked_in(answer.name, beyond) if beyond else ""


def held(answer: Answer) -> str:
    """Say what release speed follows from how a throw is held; nothing where it is held at that speed itself.

    Parameters
    ----------
    answer : Answer

    Returns
    -------
    str
    """
    line = answer.throw
    if line.hold == "speed" or line.speed_m_s is None:
        return ""
    system = answer.system
    speed = f"Released at {system.text(line.speed_m_s, 'm/s', least=1, most=1)}"
    if line.full_speed_m_s is None:
        return f"{speed}."
    share = line.speed_m_s / line.full_speed_m_s.estimate
    ends = (share * end for end in (line.full_speed_m_s.low, line.full_speed_m_s.high))
    low, high = (system.number(end, "m/s", least=1, most=1) for end in ends)
    return f"{speed}; by the readings {low} to {high} (90 %)."


def invented_words(comparison: Comparison, invented: Collection[str]) -> str:
    """Say who is invented.

    Parameters
    ----------
    comparison : Comparison
    invented : collection of str
        Which throwers are of the demo data: of "" and "other".

    Returns
    -------
    str
        Nothing if nobody is.
    """
    real = [key for key, who in comparison.throwers.items() if who.person is not None and key not in invented]
    if not invented or not real:
        return INVENTED if invented else ""
    codes = [comparison.throwers[key].code for key in comparison.throwers if key in invented]
    return f"{' and '.join(codes)}: invented demo data."


def summary(comparison: Comparison) -> str:
    """Say in a line who throws, and against which throw; it stands on the printed page.

    Parameters
    ----------
    comparison : Comparison

    Returns
    -------
    str
    """
    shown = dict.fromkeys(("", *(answer.thrower for answer in comparison.drawn)), "")
    parts = [said for thrower in shown if (said := described(comparison.throwers[thrower], comparison.system))]
    if comparison.reference is not None:
        parts.append(f"reference {comparison.reference.name}, {comparison.known}")
    return " · ".join(parts)


def described(thrower: Thrower, system: System) -> str:
    """A thrower's code and measures.

    Parameters
    ----------
    thrower : Thrower
    system : System
        The units of the measures.

    Returns
    -------
    str
    """
    said = person_words(thrower.code, thrower.person, system)
    return said if thrower.person is None else f"{said} · {thrower.person.handedness}-handed"
