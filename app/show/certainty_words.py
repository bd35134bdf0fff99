"""How sure a difference is, in words: probabilities in tenths, what becomes of a claim, one sentence for all."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from app.show.numbers import difference, whole_percent
from app.units.conversion import range_in
from app.units.systems import METRIC, System
from model.ball import Ball
from model.band_table import SOLVED_MASS_KG, SOLVED_Y
from model.checks import Limit
from model.person import Person
from model.speed_readings import SAME_BALL_KG
from model.structural_band import NO_DIFFERENCE, SUPPORTED, Answer, BandDifference

NEAR = 0.05  # probability within which a claim is said to be close to the other side of a border (judgement)
LEAST_PERCENT = 100.0 * NO_DIFFERENCE  # a smaller difference is called none
NEARLY_SURE = 0.95  # probability above which no tenth is said


@dataclass(frozen=True)
class ReadoutWords:
    """A readout in a sentence: its name, and what a larger and a smaller one is called."""

    name: str
    more: str
    less: str


READOUT_WORDS = {
    "peak": ReadoutWords("peak", "higher", "lower"),
    "loaded_s": ReadoutWords("time loaded", "longer", "shorter"),
    "rise_rate": ReadoutWords("rise", "steeper", "gentler"),
    "area": ReadoutWords("area", "larger", "smaller"),
}
"""By their names in `model.quantity.READOUTS`."""

RULE = (
    f"Supported: {100 * SUPPORTED:.0f} % or more. Not supported: {100 * (1 - SUPPORTED):.0f} % or less, or the whole "
    f"interval within ±{100 * NO_DIFFERENCE:g} %. Between: cannot tell. Within {100 * NEAR:.0f} % of a border it says "
    f"so. Probabilities are told in tenths, and above {100 * NEARLY_SURE:.0f} % only as more than nine in ten."
)
"""Where the words change, to be printed beside them."""

ALLOWED_FOR = (
    "The interval allows for what is not known of movement, arm, ball and speeds. A claim looks at one side of 0 only, "
    "so it can be supported while the interval reaches a little across."
)
NO_CLAIM = "How people change this from throw to throw is known too little to say more."
NOT_DEFINED = "not defined for these throws"
NOTHING_TO_SPEAK_OF = f"no difference to speak of, under {100 * NO_DIFFERENCE:g} %"


def tenths(probability: float) -> str:
    """Say a probability in tenths: "about nine in ten", and never as certain."""
    words = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
    if probability > NEARLY_SURE:
        return "more than nine in ten"
    if 1.0 - probability > NEARLY_SURE:
        return "less than one in ten"
    return f"about {words[min(max(math.floor(10.0 * probability + 0.5), 1), 9) - 1]} in ten"


def signed_percent(share: float) -> str:
    """Write a relative difference in per cent, without the sign of per cent: whole, and under one with a decimal."""
    percent = 100.0 * share
    return difference(percent, 0 if abs(percent) >= 0.95 else 1)


def low_high(low: float, high: float) -> str:
    """Write an interval of a relative difference, for example "−18 to +4 %"; one number where both ends print alike."""
    ends = signed_percent(low), signed_percent(high)
    return " to ".join(dict.fromkeys(ends)) + "\u00a0%"


def differs(readout: str, share: float) -> str:
    """Say a relative difference of a readout: "peak 8 % lower", or "peak the same" under half a per cent."""
    return change_words(READOUT_WORDS[readout], 100.0 * share)


def change_words(words: ReadoutWords, percent: float) -> str:
    """Say a change in per cent: "peak 8 % lower"; "the same" for one that would print as 0 %."""
    if math.isnan(percent):
        return f"{words.name} not defined"
    if abs(percent) < LEAST_PERCENT:
        return f"{words.name} the same"
    return f"{words.name} {whole_percent(percent)} {words.more if percent > 0.0 else words.less}"


def verdict(found: BandDifference, more: bool) -> str:
    """Say what becomes of the claim that a readout is larger, or smaller, and where it is close to a border."""
    if found.not_defined:
        return NOT_DEFINED
    answer = found.answer(more)
    near = nearness(answer)
    if found.none_to_speak_of or not near:
        return answer.verdict
    return f"{answer.verdict}, {near}"


def nearness(answer: Answer) -> str:
    """Say which border of the three answers is close; nothing if none is."""
    for chance, supported in ((answer.probability, "supported"), (1.0 - answer.probability, "not supported")):
        if answer.verdict == "cannot tell" and chance >= SUPPORTED - NEAR:
            return f"but close to {supported}"
        if answer.verdict == supported and chance < SUPPORTED + NEAR:
            return "but barely"
    return ""


@dataclass(frozen=True)
class Circumstance:
    """What two throws have in common and what not, for a sentence.

    Attributes
    ----------
    alike : str
        What the best estimate takes for granted: "he moves the same with both balls".
    change : str
        Why that need not be so: "People change how they move with a heavy ball".
    unseen : str
        What no radar can see: "how he moves with each ball".
    """

    alike: str
    change: str
    unseen: str


def circumstance(
    person: Person, own_ball: Ball, throw: tuple[Ball, float], against: tuple[Ball, float]
) -> Circumstance:
    """Say what one athlete's two throws differ in.

    Parameters
    ----------
    person : Person
        Who throws both.
    own_ball : Ball
        By which a ball is heavy or light.
    throw, against : (Ball, float)
        Ball and release speed (m/s).
    """
    subject = "she moves" if person.sex == "female" else "he moves"
    masses = throw[0].mass_kg, against[0].mass_kg
    if abs(masses[0] - masses[1]) >= SAME_BALL_KG:
        farthest = max(masses, key=lambda mass: abs(math.log(mass / own_ball.mass_kg)))
        ball = "a heavy ball" if farthest > own_ball.mass_kg else "a light ball"
        change = f"People change how they move with {ball}"
        return Circumstance(f"{subject} the same with both balls", change, f"how {subject} with each ball")
    speed = "slower" if throw[1] < against[1] else "faster"
    change = f"People change how they move when they throw {speed}"
    return Circumstance(f"{subject} the same at both speeds", change, f"how {subject} at each speed")


TWO_ATHLETES = Circumstance("both move the same", "People of one size move differently", "how each of them moves")
"""For the throws of two athletes."""


def uncertainty(found: Mapping[str, BandDifference], where: Circumstance, told: bool = False) -> str:
    """Say how surely readouts differ, in one breath.

    Parameters
    ----------
    found : mapping of str to BandDifference
        By readout, in the order of the sentence.
    where : Circumstance
    told : bool
        Whether the best estimates stand before it.

    Returns
    -------
    str
        "If he moves the same with both balls: peak 8 % lower. People change how they move with a heavy ball; allowing
        for that, lower with about nine in ten."
    """
    best = ", ".join(differs(readout, one.best) for readout, one in found.items())
    said = f"That is if {where.alike}." if told else f"If {where.alike}: {best}."
    open_ = {readout: one for readout, one in found.items() if not (one.not_defined or one.none_to_speak_of)}
    claimed = [readout for readout, one in open_.items() if not one.no_claim]
    if claimed:
        sure = ", ".join(_sure(readout, open_[readout], len(found) > 1) for readout in claimed)
        return f"{said} {where.change}; allowing for that, {sure}."
    if open_:
        return f"{said} {where.change}, and how much is known too little to say whether that is so."
    return said


def _sure(readout: str, one: BandDifference, several: bool) -> str:
    words, more = READOUT_WORDS[readout], one.best > 0.0
    side, chance = (words.more, one.probability_more) if more else (words.less, one.probability_less)
    named = f"{words.name} " if several else ""
    return f"{named}{side} with {tenths(chance)}"


def what_would_help(answer: Answer, where: Circumstance, read: bool) -> str:
    """Say, where it cannot be told, whether more radar readings could change that.

    Parameters
    ----------
    answer : Answer
    where : Circumstance
    read : bool
        Whether the speeds come from readings, not from somebody who gave them as exact.

    Returns
    -------
    str
        Nothing where it can be told.
    """
    if answer.verdict != "cannot tell":
        return ""
    if read and answer.readings_help:
        return "more radar readings could settle it"
    if read:
        return f"more radar readings would hardly settle it: what is not known is {where.unseen}"
    return f"what is not known is {where.unseen}"


def outside_words(system: System = METRIC) -> str:
    """Say what a throw lies beyond where `BandDifference.outside` holds."""
    balls = range_in(Limit(*SOLVED_MASS_KG, "kg"), system.unit("g"))
    low, high = (100.0 * math.exp(side * SOLVED_Y) for side in (-1.0, 1.0))
    return (
        f"Outside what was solved: the movement was worked out anew for balls from {balls}, thrown at {low:.0f} to "
        f"{high:.0f} % of full speed. Beyond, the interval is a guess that grows with the distance."
    )
