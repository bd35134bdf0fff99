"""What the story says: for each step a title and at most two sentences, plain enough to be read from the back row."""

import math
from dataclasses import dataclass
from typing import Any

from app.pages.teach.answers import READING, Lesson, Thrown
from app.show.ball_words import ball_words, throw_words, value_words
from app.show.cautions import is_growing
from app.show.glossary import explained
from app.show.markup import to_html
from app.show.numbers import READOUT_NAMES, READOUT_ORDER, capital, difference, percent
from app.units.conversion import from_si
from model.quantity import READOUTS, Quantity
from model.segments import arm_of
from model.structural_band import NO_DIFFERENCE

ASKED = {
    "peak": "how high",
    "loaded_s": "how long",
    "rise_rate": "how steep",
    "area": "how much in all",
}
"""The four sizes of a curve, as they are asked for."""

TITLES = {
    "throw": "One throw and its curve",
    "hand": "A heavier hand",
    "forearm": "A longer forearm",
    "clock": "A faster clock",
    "ball": "Change only the ball",
    "speed": "Let the speed change as well",
    "three": "Three balls, one pair of axes",
    "vote": "Which of the four numbers grew?",
    "athlete": "It depends on the athlete",
    "build": "What it is good for",
    "limits": "What the model does not know",
}
"""Titles of the steps, by their keys."""


SHARED_NAMES = {"hand": "hand", "forearm": "forearm", "clock": "joints"}
"""How the changed curve is called on the picture."""


@dataclass(frozen=True)
class Told:
    """A step in words.

    Attributes
    ----------
    title : str
    sentences : tuple of str
        Two at most.
    slider : str
        What its slider changes; empty without one.
    rows : tuple of dict
        Of the vote: the four numbers.
    """

    title: str
    sentences: tuple[str, ...]
    slider: str = ""
    rows: tuple[dict[str, Any], ...] = ()


def told(lesson: Lesson) -> dict[str, Told]:
    """Put the story into words.

    Parameters
    ----------
    lesson : Lesson

    Returns
    -------
    dict of str to Told
        By the keys of `session.STEPS`.
    """
    sliders = {
        "hand": "Mass of the hand",
        "forearm": "Length of the forearm",
        "clock": "Speed of all joints",
        "ball": "Mass of the ball",
        "speed": "Speed of the throw",
    }
    rows = tuple(vote_row(name, lesson) for name in READOUT_ORDER)
    return {
        key: Told(title, sentences(key, lesson), sliders.get(key, ""), rows if key == "vote" else ())
        for key, title in TITLES.items()
    }


def sentences(step: str, lesson: Lesson) -> tuple[str, ...]:
    """What a step says: two sentences at most.

    Parameters
    ----------
    step : str
        A key of `TITLES`.
    lesson : Lesson

    Returns
    -------
    tuple of str
    """
    system, own, second = lesson.case.system, lesson.own.throw, lesson.second
    own_ball, other_ball = ball_words(own.ball, system), ball_words(second, system)
    heavier = second.mass_kg > own.ball.mass_kg
    match step:
        case "throw":
            peak = value_words(float(lesson.own.read.peak), "N·m")
            return (
                "The line is the torque: how hard the elbow must hold the forearm, from foot contact to release.",
                f"It is highest when the arm is laid back: {peak}.",
            )
        case "hand":
            return (
                "Make only the hand heavier, and let each joint turn just as fast.",
                "The curve gets higher, and the throw takes just as long.",
            )
        case "forearm":
            return (
                "Make only the forearm longer, and let each joint turn just as fast.",
                "The hand is farther out and moves faster, so the curve gets higher.",
            )
        case "clock":
            return (
                "Keep the arm and the ball, and let each joint turn faster or slower.",
                "Twice as fast makes the curve about four times as high, in half the time.",
            )
        case "ball":
            return (
                f"Go from {own_ball} to {other_ball}, and keep the speed of the throw.",
                f"At the same speed, the {'heavier' if heavier else 'lighter'} ball has the "
                f"{'higher' if heavier else 'lower'} curve.",
            )
        case "speed":
            return _speed_sentences(lesson)
        case "three":
            return (
                "The same arm throws three balls, each at its full speed.",
                "To say which one is more, first say more of what, and next to which throw.",
            )
        case "vote":
            first, then = (throw_words(t.throw, system) for t in (lesson.own, lesson.at_profile["second"]))
            return (f"We go from {first} to {then}.", "Raise a hand for each number that you think grew.")
        case "athlete":
            known = (
                "With no radar readings it is not known; the bar shows what other groups did."
                if lesson.on_prior
                else "The bar shows where the readings put this one."
            )
            return ("How much an athlete slows down with a heavier ball says which numbers grow.", known)
        case "build" if is_growing(own.person):
            return (
                "After time off, many start with a heavy ball, and throw it slowly.",
                "For an arm that still grows, the own ball comes first here, and slowly.",
            )
        case "build":
            return (
                "After time off, a heavy ball can be thrown first, and slowly.",
                "Then it is thrown faster, and later the ball gets lighter.",
            )
        case _:
            return (
                "It knows the torque at a joint, not what the tissue in your arm can take.",
                "Labs do not agree on the torque, so take each number as a band.",
            )


def _speed_sentences(lesson: Lesson) -> tuple[str, ...]:
    system, slower = lesson.case.system, lesson.slowed.estimate < lesson.own.throw.speed_m_s
    at, own = (system.text(v, "m/s", least=1, most=1) for v in (lesson.slowed.estimate, lesson.own.throw.speed_m_s))
    way = "less" if slower else "more"
    source = "going by other groups" if lesson.on_prior else "going by the radar"
    first = (
        f"At full effort the ball of {ball_words(lesson.second, system)} leaves at {at}, {source}: {way} than {own}."
    )
    return (first, "Slide the speed down: the curve gets lower and longer.")


def change_words(share: float) -> str:
    """Write a relative difference with its sign; what is undefined in a word.

    Parameters
    ----------
    share : float

    Returns
    -------
    str
        For example "+12 %"; "not defined".
    """
    return f"{difference(100.0 * share, 0)} %" if math.isfinite(share) else "not defined"


def share_words(share: float) -> str:
    """Say how much something was changed: "+20 %", or "unchanged"."""
    return "unchanged" if math.isclose(share, 1.0) else change_words(share - 1.0)


def four_words(thrown: Thrown, than: Thrown) -> str:
    """Say how the four sizes of a curve differ from those of another.

    Parameters
    ----------
    thrown, than : Thrown

    Returns
    -------
    str
        For example "peak +12 %, time loaded 0 %, rise rate +12 %, area +12 %".
    """
    return ", ".join(f"{words} {change_words(thrown.change(than, name))}" for name, words in READOUT_NAMES.items())


def stop_words(step: str, thrown: Thrown, lesson: Lesson) -> dict[str, str]:
    """Say where a slider stands, and what has come of it.

    Parameters
    ----------
    step : str
    thrown : Thrown
    lesson : Lesson

    Returns
    -------
    dict
        ``amount`` and ``four``.
    """
    system, throw = lesson.case.system, thrown.throw
    speed = system.text(throw.speed_m_s, "m/s", least=1, most=1)
    if step == "speed":
        amount = speed
        if math.isclose(throw.speed_m_s, lesson.slowed.estimate):
            amount += ", full speed by other groups" if lesson.on_prior else ", full speed by the readings"
        elif math.isclose(throw.speed_m_s, lesson.own.throw.speed_m_s):
            amount += ", as the own ball"
    elif step == "ball":
        amount = f"{system.text(throw.ball.mass_kg, 'g', most=0)} at {speed}"
    else:
        amount = share_words(thrown.amount)  # and no more of the hand: its mass tells the thrower's
        if step == "forearm":
            amount += f", {system.text(arm_of(throw.person).forearm.length_m, 'cm', most=1)}, ball at {speed}"
        elif step == "clock":
            amount += f", ball at {speed}"
    return {"amount": amount, "four": four_words(thrown, lesson.own)}


def vote_row(name: str, lesson: Lesson) -> dict[str, Any]:
    """One of the four numbers of the vote.

    Parameters
    ----------
    name : str
        A key of `ASKED`.
    lesson : Lesson

    Returns
    -------
    dict
        ``name``, ``term`` (the same as HTML) and ``asked``; ``said``, the two values; ``change``; ``grew``.
    """
    second = lesson.at_profile["second"]
    values = [float(getattr(thrown.read, name)) for thrown in (lesson.own, second)]
    change = second.change(lesson.own, name)
    unit = Quantity(READING, name).unit
    if not math.isfinite(change):
        grew = "not defined for these throws"
    elif abs(change) < NO_DIFFERENCE:
        grew = "no difference to speak of"
    else:
        grew = "grew" if change > 0.0 else "did not grow"
    label = capital(READOUTS[name].label)
    return {
        "name": label,
        "term": to_html(explained(label)),
        "asked": ASKED[name],
        "said": " → ".join(value_words(value, unit) for value in values),
        "change": change_words(change),
        "grew": grew,
    }


def panel_words(lesson: Lesson) -> list[str]:
    """Titles of the three pictures of a build-up.

    Parameters
    ----------
    lesson : Lesson

    Returns
    -------
    list of str
        For example "First: 275 g, slowly".
    """
    system = lesson.case.system
    balls = [ball_words(thrown.throw.ball, system) for thrown in lesson.built]
    return [
        f"{when}: {ball}, {percent(thrown.amount)} of full speed"
        for when, ball, thrown in zip(("First", "Then", "Later"), balls, lesson.built, strict=True)
    ]


def who_words(lesson: Lesson) -> str:
    """Say who throws, with what a room is shown only if that is switched on: code, age and body mass."""
    person, system = lesson.own.throw.person, lesson.case.system
    parts = [lesson.case.code] if lesson.case.code else []
    parts += [f"{person.age_years:.0f} years", system.text(person.body_mass_kg, "kg", most=1)]
    return " · ".join(parts)


def ms_before(thrown: Thrown) -> str:
    """Say when a throw's peak comes: "27 ms before release"; empty without a peak."""
    when = float(thrown.read.peak_before_release_s)
    return f"{from_si(when, 'ms'):.0f} ms before release" if math.isfinite(when) else ""
