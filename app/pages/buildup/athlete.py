"""Who a plan is for: measures, speeds, the reference, what came over from Start, and the stop signs so far."""

from dataclasses import dataclass

from app.pages.buildup.aims import Care, aim_named
from app.pages.buildup.given import Given
from app.pages.buildup.known import NOTHING_KNOWN, Known
from app.pages.buildup.record import KnownReference
from app.records.plan_fields import OWN
from app.show.cautions import is_growing
from app.show.hundred import own_speed_known_by
from app.show.rack import picked_texts, texts_of
from app.show.subject import Case, is_same
from model.ball import Ball
from model.checks import InputError

UNKNOWN = KnownReference()


@dataclass(frozen=True)
class Athlete:
    """Who a plan is for, and what is known beside measures and speeds.

    Attributes
    ----------
    case : Case
    invented : bool
        Whether of the demo data.
    reference : KnownReference
    given : Given or None
        What came over from Start for this athlete.
    known : Known
        Stop signs, and what a plan starts no higher than after one.
    """

    case: Case
    invented: bool = False
    reference: KnownReference = UNKNOWN
    given: Given | None = None
    known: Known = NOTHING_KNOWN

    def care(self, aim: str) -> Care:
        """What an aim asks for with this athlete."""
        before = self.reference.kind == "before_injury"
        before |= self.given is not None and self.given.reference.kind == "before_injury"
        return Care(aim, aim == "after_injury" or before, is_growing(self.case.person))


def reference_of(case: Case) -> KnownReference:
    """Say how the reference throw is known."""
    speed = case.reference.speed_m_s
    if speed is None:
        return KnownReference("measured") if own_speed_known_by(case) == "readings" else KnownReference()
    kind = case.reference.kind
    return KnownReference(kind, None if kind == "estimated" else case.reference.day, speed)


def speeds_words(case: Case) -> str:
    """Say where the full speeds come from."""
    profile = case.profile
    if profile is None:
        return ""
    full = [reading for reading in case.found.used if reading.asked_effort == 1.0]
    if profile.exponent_is_prior:
        told = "one ball only" if full else "no radar reading"
        return (
            f"{told}: how much this athlete slows down with another ball is taken from published groups. "
            "Measure full speed with the balls of the plan before it begins"
        )
    balls = len({round(reading.ball_mass_kg, 4) for reading in full})
    return f"{len(full)} full-effort radar readings with {balls} balls"


def goal_ball(care: Care, chosen: str | None, athlete: Athlete) -> Ball:
    """The goal's ball: the own one, unless another may be and was chosen."""
    case = athlete.case
    free = not (care.guarded or aim_named(care.aim).only_own)
    if not free or chosen in ("", None, OWN):
        return case.own_ball
    found = ball_among(chosen, case.rack)
    if found is None:
        raise InputError("To the ball", "", "a ball of the rack")
    return found


def given_balls(athlete: Athlete) -> tuple[Ball, ...]:
    """The ball that came over from Start, if any, as the rack has it."""
    given = athlete.given
    if given is None:
        return ()
    return (next((ball for ball in athlete.case.rack if is_same(ball, given.ball)), given.ball),)


def ball_value(ball: Ball) -> str:
    """The value of a ball in a choice, as `app.show.rack.rack_of` has it."""
    return "|".join(texts_of(ball))


def ball_among(picked: object, balls: tuple[Ball, ...]) -> Ball | None:
    """Find a chosen ball among those there are; None if it is none of them."""
    texts = picked_texts(picked)
    return next((ball for ball in balls if texts == texts_of(ball)), None)
