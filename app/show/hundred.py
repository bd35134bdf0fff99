"""Which throw is 100 %, and how its speed is known."""

from dataclasses import dataclass

from app.show.ball_words import throw_words
from app.show.subject import Case
from model.speed_readings import SAME_BALL_KG
from model.throw import Throw

BASES = {"reference": "reference throw", "profile": "own ball at full speed, by the profile"}
"""What 100 % is: key, and the words of the page."""

BY = {
    "readings": ("measured", "full speed by the readings of the Athlete page"),
    "typed": ("typed", "full speed as typed on the Athlete page"),
    "others": ("estimated", "full speed by the readings with the other balls"),
}
"""For each way in which the full speed with the own ball is known: the word beside every per cent, and in full."""


@dataclass(frozen=True)
class Hundred:
    """The throw that is 100 %.

    Attributes
    ----------
    throw : Throw
    kind : str
        The word beside every per cent: ``measured``, ``pre-injury``, ``estimated`` or ``typed``.
    known : str
        How it is known, in full.
    of : str
        Which it is: a key of `BASES`.
    """

    throw: Throw
    kind: str
    known: str
    of: str


def own_speed_known_by(case: Case) -> str:
    """How the Athlete page knows the full speed with the own ball.

    By "readings" with it, "typed", by "others" where only readings with other balls speak of it, or nothing.
    """
    profile = case.profile
    if profile is None or not profile.points:
        return ""
    if profile.own_speed_is_given:
        return "typed" if case.choices.own_speed_m_s is not None else ""
    own = any(abs(point.ball_mass_kg - profile.own_mass_kg) < SAME_BALL_KG for point in profile.points)
    return "readings" if own else "others"


def usual_base(case: Case) -> str:
    """What 100 % is without choosing, a key of `BASES`.

    The profile's full speed where the Athlete page knows it, for it is the newer one; but a reference from before an
    injury is the reference because it is from before, and stays.
    """
    before = case.reference.kind == "before_injury" and case.reference.speed_m_s is not None
    return "profile" if own_speed_known_by(case) and not before else "reference"


def hundred_of(case: Case, of: str | None) -> Hundred | None:
    """Find the throw that is 100 %, by one of `BASES` or what is usual; None while measures or speed are missing."""
    chosen = of if of in BASES else usual_base(case)
    by, reference = own_speed_known_by(case), case.reference
    if case.person is None:
        return None
    if reference.speed_m_s is not None and (chosen == "reference" or not by):
        throw = Throw(case.person, case.own_ball, reference.speed_m_s)
        return Hundred(throw, reference.word, reference.known, "reference")
    if case.throw is None or not by:
        return None
    return Hundred(case.throw, *BY[by], "profile")


def hundred_words(hundred: Hundred, case: Case) -> str:
    """Say which throw is 100 %, and if the reference throw has another speed, that one too."""
    where = " (the reference throw)" if hundred.of == "reference" else ""
    said = f"100 % is {throw_words(hundred.throw, case.system)}, {hundred.known}{where}."
    speed = case.reference.speed_m_s
    if hundred.of == "profile" and speed is not None and abs(speed - hundred.throw.speed_m_s) >= 0.05:
        said += f" The reference throw has another speed, {case.speed(speed)} {case.speed_unit}."
    return said
