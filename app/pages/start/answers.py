"""From the records to the answer: reference, region, what each ball allows and comes to, and the order of an aim."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from app.pages.start.found import Found, Listed, drawn_of, found_for
from app.pages.start.limits import Asked, asked_of, bound_of
from app.records.reads import AthleteData
from app.show.cautions import is_growing
from app.show.from_records import case_of
from app.show.hundred import Hundred, hundred_of, own_speed_known_by
from app.show.rack import balls_in
from app.show.subject import Case, Fitted, is_same
from app.units.systems import METRIC, System
from model.ball import Ball
from model.ceilings import KINDS, Amount, Reference
from model.checks import InputError
from model.effort import EffortCurve, effort_curve
from model.readouts import Readouts, read_curves
from model.speed_readings import SAME_BALL_KG
from model.start_list import BallRange
from model.throw import curves

BY_PROFILE = {
    "measured": "full speed by the readings",
    "typed": "full speed as typed",
    "estimated": "full speed by the readings with the other balls",
}
"""What 100 % is where it comes from the speed profile, by `Hundred.kind`."""

READ = ("varus", "internal_rotation", "horizontal_abduction")


@dataclass(frozen=True)
class Basis:
    """The reference throw.

    Attributes
    ----------
    hundred : Hundred
        Throw, kind and how it is known.
    dated : str
        Kind and day, to stand beside every per cent: ``measured, 2026-01-13``.
    reference : Reference
        As the model takes it.
    readouts : dict of str to Readouts
        By reading.
    same_throw : bool
        Whether it is the very throw that the full speed of now is known by: then the doubt of both is one.
    """

    hundred: Hundred
    dated: str
    reference: Reference
    readouts: dict[str, Readouts]
    same_throw: bool


@dataclass(frozen=True)
class StartAnswer:
    """All that the page shows, as numbers.

    Attributes
    ----------
    case : Case
    asked : Asked
    balls : tuple of Ball
        Those ticked, and the own one.
    effort : EffortCurve
    careful : tuple of str
        Why the own ball stands first whatever is chosen: 'growing', 'before_injury', 'no_other_ball'; mostly empty.
    basis : Basis or None
        None while measures or reference are missing.
    lacks_date : bool
        Whether it is missing because a reference from before an injury has no day.
    found : Found or None
        None while something is missing.
    means : dict of str to Amount
        Each amount that is asked for, counted the other way.
    owner : str
        uid of the athlete, for the buttons.
    """

    case: Case
    asked: Asked
    balls: tuple[Ball, ...]
    effort: EffortCurve
    careful: tuple[str, ...] = ()
    basis: Basis | None = None
    lacks_date: bool = False
    found: Found | None = None
    means: Mapping[str, Amount] = field(default_factory=dict)
    owner: str = ""

    @property
    def first(self) -> Listed | None:
        """The throw of the headline; None without an aim, or where the ball that is to stand first does not fit."""
        order = self.found.order if self.found else ()
        own_only = self.careful or self.asked.aim == "own"
        return order[0] if order and (order[0].own or not own_only) else None

    @property
    def own_range(self) -> BallRange | None:
        """What the own ball may be thrown at."""
        every = self.found.ranges if self.found else ()
        return next((one for one in every if is_same(one.ball, self.case.own_ball)), None)

    def place(self, one: Listed) -> int:
        """Where a ball stands in the order, from 1; 0 while there is none."""
        order = self.found.order if self.found else ()
        return next((place for place, other in enumerate(order, start=1) if other is one), 0)


def start_of(data: AthleteData, today: date, system: System = METRIC) -> StartAnswer:
    """Work out all that the page shows; without an answer while measures, reference or a limit are missing."""
    asked, case = asked_of(data), case_of(data, today, system)
    ticked = balls_in(case, asked.left_out)
    balls = tuple(ball for ball in case.rack if ball in ticked or is_same(ball, case.own_ball))
    effort = effort_curve(case.found.used if case.full_speed_m_s is not None else (), case.profile)
    hundred = hundred_of(case, asked.base)
    undated = case.reference.kind == "before_injury" and case.reference.day is None
    lacks_date = hundred is not None and hundred.of == "reference" and undated
    basis = None if hundred is None or lacks_date else basis_of(hundred, case, asked.doubt)
    careful = _careful(case, basis)
    found, means = None, {}
    if basis is not None and case.person is not None and case.profile is not None:
        thrown = (case.person, case.own_ball, Fitted(case.profile), basis.reference)
        drawn = drawn_of(thrown)
        means = {name: drawn.recounted(bound_of(name), amount) for name, amount in asked.amounts.items()}
        found = found_for(thrown, asked, balls, case, effort, own_first=bool(careful))
    return StartAnswer(case, asked, balls, effort, careful, basis, lacks_date, found, means, data.athlete.uid)


def basis_of(hundred: Hundred, case: Case, doubt: float | None) -> Basis | None:
    """Take the reference throw as the model does; None where its speed is none that a throw can have.

    Parameters
    ----------
    hundred : Hundred
    case : Case
    doubt : float or None
        Relative standard deviation of its speed, if one is kept.

    Returns
    -------
    Basis or None
    """
    profile, known = case.profile, case.reference
    if profile is None or profile.posterior.own is None:
        return None
    speed: float | None = hundred.throw.speed_m_s
    if hundred.of == "profile":
        # what is not known of a speed from other balls is in the profile already
        kind, day, same = "estimated" if hundred.kind == "estimated" else "measured", _last_day(case), True
        speed, doubt = None, doubt or 0.0
    else:
        kind, day = known.kind, known.day if known.kind != "estimated" else None
        same = kind == "measured" and profile.own_speed_is_given and case.choices.own_speed_m_s is None
        speed = None if same else speed
    try:
        reference = Reference(kind, speed, day, doubt)
    except InputError:
        return None
    thrown = curves(hundred.throw)
    readouts = {key: read_curves(thrown, key) for key in READ}
    said = BY_PROFILE[hundred.kind] if hundred.of == "profile" else KINDS[kind] if kind == "before_injury" else kind
    return Basis(hundred, f"{said}, {day.isoformat()}" if day else said, reference, readouts, same)


def _last_day(case: Case) -> date | None:
    """The last day of a full-effort reading with the own ball."""
    if own_speed_known_by(case) != "readings":
        return None
    own, used = case.own_ball.mass_kg, case.found.used
    days = [one.on for one in used if one.asked_effort == 1.0 and abs(one.ball_mass_kg - own) < SAME_BALL_KG]
    return max((day for day in days if day), default=None)


def _careful(case: Case, basis: Basis | None) -> tuple[str, ...]:
    """Why the own ball stands first whatever is chosen."""
    reasons = {
        "growing": is_growing(case.person),
        "before_injury": basis is not None and basis.reference.kind == "before_injury",
        "no_other_ball": all(abs(one.ball_mass_kg - case.own_ball.mass_kg) < SAME_BALL_KG for one in case.found.used),
    }
    return tuple(key for key, there in reasons.items() if there)
