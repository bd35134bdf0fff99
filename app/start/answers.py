"""From the forms to the answer: reference, region, what each ball allows, and the short list."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import lru_cache

import numpy as np

from app.athlete.answers import Case, Fitted, case_of
from app.athlete.caps import radar_factor
from app.compare.checks import check_reference
from app.compare.form import Form
from app.map.answers import Hundred, hundred_of, own_speed_known_by
from app.rack import balls_in
from app.start.checks import CheckedStart, bound_of, check_start
from app.start.form import StartForm
from app.systems import METRIC, System
from app.whose import Whose
from model.ball import BALL_LIMITS, Ball
from model.ceilings import Amount, Ceilings, Reference, Thrower
from model.checks import InputError
from model.effort import EffortCurve, effort_curve
from model.flight import Launch, fly
from model.person import Person
from model.readouts import Readouts, read_curves
from model.speed_readings import SAME_BALL_KG
from model.start import Field, Region, field_of, region
from model.start_list import AIMS, BallRange, Choice, NothingFits, ranges, short_list
from model.throw import curves

BESIDE_RACK = 1.15  # the region is drawn this much beyond the lightest and the heaviest ball
NODES = 25  # ball masses at which its edges are computed
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
class Listed:
    """A line of the short list, and what its speed is by other measures.

    Attributes
    ----------
    choice : Choice
    effort : float or None
        Lowest asked effort that brings the share; None where it lies below all that is known.
    distance_m : float or None
        How far such a throw flies; None where it never comes down at the asked height.
    radar_m_s : float
        What the radar shows of it.
    """

    choice: Choice
    effort: float | None
    distance_m: float | None
    radar_m_s: float


@dataclass(frozen=True)
class Found:
    """What follows from the limits.

    Attributes
    ----------
    region : Region
        Over balls of the own one's diameter.
    ranges : tuple of BallRange
        What each ball may be thrown at, in the order of the rack.
    listed : tuple of Listed
        The short list; empty if nothing fits.
    nothing : NothingFits or None
    """

    region: Region
    ranges: tuple[BallRange, ...]
    listed: tuple[Listed, ...]
    nothing: NothingFits | None = None


@dataclass(frozen=True)
class StartAnswer:
    """All that the page shows, as numbers.

    Attributes
    ----------
    case : Case
    form : StartForm
    aim : str
        A key of `AIMS`.
    checked : CheckedStart
    balls : tuple of Ball
        Those ticked.
    effort : EffortCurve
    launch : Launch
        How a throw for distance starts.
    basis : Basis or None
        None while measures or reference are missing.
    lacks_date : bool
        Whether it is missing because a reference from before an injury has no day.
    found : Found or None
        None while something is missing.
    amounts, means : dict of str to Amount
        Each limit that was typed, and the same counted the other way.
    """

    case: Case
    form: StartForm
    aim: str
    checked: CheckedStart
    balls: tuple[Ball, ...]
    effort: EffortCurve
    launch: Launch = field(default_factory=Launch)
    basis: Basis | None = None
    lacks_date: bool = False
    found: Found | None = None
    amounts: Mapping[str, Amount] = field(default_factory=dict)
    means: Mapping[str, Amount] = field(default_factory=dict)


def start_of(form: StartForm, whose: Whose, today: date, system: System = METRIC) -> StartAnswer:
    """Work out all that the page shows.

    Parameters
    ----------
    form : StartForm
    whose : Whose
    today : date
    system : System
        The units of what is said.

    Returns
    -------
    StartAnswer
        Without an answer while measures, reference, a limit or a ball are missing.
    """
    case = case_of(whose.compared, whose.profile, today, system)
    checked = check_start(form, system)
    basis, lacks_date = basis_of(form, case, whose.compared, checked.doubt, today)
    drawn = _drawn(case, basis)
    means = (
        {}
        if drawn is None
        else {name: drawn.recounted(bound_of(name), amount) for name, amount in checked.amounts.items()}
    )
    return StartAnswer(
        case,
        form,
        form.aim if form.aim in AIMS else "longest_loaded",
        checked,
        balls_in(case, form.left_out),
        _effort(case),
        case.found.checked.launch or Launch(),
        basis,
        lacks_date,
        _found(form, case, checked, basis),
        checked.amounts,
        means,
    )


def field_for(form: StartForm, whose: Whose, today: date) -> Field | None:
    """Draw what is not known of the thrower; None while measures or reference are missing.

    Parameters
    ----------
    form : StartForm
    whose : Whose
    today : date

    Returns
    -------
    model.start.Field or None
    """
    case = case_of(whose.compared, whose.profile, today)
    basis, _ = basis_of(form, case, whose.compared, check_start(form).doubt, today)
    return _drawn(case, basis)


def _drawn(case: Case, basis: Basis | None) -> Field | None:
    if basis is None or case.person is None or case.profile is None:
        return None
    return _field(case.person, case.own_ball, Fitted(case.profile), basis.reference)


def basis_of(
    form: StartForm, case: Case, compared: Form, doubt: float | None, today: date
) -> tuple[Basis | None, bool]:
    """Find the reference throw.

    Parameters
    ----------
    form : StartForm
    case : Case
    compared : app.compare.form.Form
    doubt : float or None
        Relative standard deviation of its speed, if one was typed.
    today : date

    Returns
    -------
    Basis or None
        None while measures, speed or the day of one from before an injury are missing.
    bool
        Whether only that day is.
    """
    hundred = hundred_of(case, compared, form.base, today)
    profile = case.profile
    if hundred is None or profile is None or profile.posterior.own is None:
        return None, False
    speed: float | None = hundred.throw.speed_m_s
    day, sd, same = None, doubt, True
    if hundred.of == "profile":
        # what is not known of a speed from other balls is in the profile already
        day, speed, sd = _last_day(case), None, 0.0 if doubt is None else doubt
        kind = "estimated" if hundred.kind == "estimated" else "measured"
    else:
        day = _day(compared, hundred, today)
        kind = {"measured": "measured", "pre-injury": "before_injury"}.get(hundred.kind, "estimated")
        if kind == "before_injury" and day is None:
            return None, True
        same = kind == "measured" and profile.own_speed_is_given and case.found.checked.own_speed_m_s is None
        if same:
            speed = None
    try:
        reference = Reference(kind, speed, day, sd)
    except InputError:
        return None, False  # a speed beyond what a throw can be
    thrown = curves(hundred.throw)
    readouts = {key: read_curves(thrown, key) for key in READ}
    dated = f"{hundred.kind}, {day.isoformat()}" if day else hundred.kind
    return Basis(hundred, dated, reference, readouts, same), False


def _day(compared: Form, hundred: Hundred, today: date) -> date | None:
    """The day of Compare's reference, if it was dated and is not held at something else than a speed."""
    if hundred.kind not in ("measured", "pre-injury") or check_reference(compared, today)[2]:
        return None
    return date.fromisoformat(compared.date.strip()) if compared.date.strip() else None


def _last_day(case: Case) -> date | None:
    """The last day of a full-effort reading with the own ball."""
    if own_speed_known_by(case) != "readings":
        return None
    days = [
        used.on
        for used in case.found.used
        if used.on and used.asked_effort == 1.0 and abs(used.ball_mass_kg - case.own_ball.mass_kg) < SAME_BALL_KG
    ]
    return max(days, default=None)


def _effort(case: Case) -> EffortCurve:
    known = case.profile is not None and case.found.own_speed is not None
    return effort_curve(case.found.used if known else (), case.profile)


def _found(form: StartForm, case: Case, checked: CheckedStart, basis: Basis | None) -> Found | None:
    balls = balls_in(case, form.left_out)
    aim = form.aim if form.aim in AIMS else "longest_loaded"
    if basis is None or case.person is None or case.profile is None or not balls:
        return None
    if checked.problems or checked.ceilings is None or checked.certainty is None:
        return None
    core, listed = _answer(
        (case.person, case.own_ball, Fitted(case.profile), basis.reference),
        checked.ceilings,
        balls,
        aim,
        checked.wanted,
        checked.certainty,
    )
    if isinstance(listed, NothingFits):
        return Found(*core, (), listed)
    effort, launch = _effort(case), case.found.checked.launch or Launch()
    return Found(*core, tuple(_listed(choice, case, effort, launch) for choice in listed))


Thrown = tuple[Person, Ball, Fitted, Reference]


@lru_cache(maxsize=16)
def _field(person: Person, own: Ball, fitted: Fitted, reference: Reference) -> Field:
    return field_of(Thrower(person, own, fitted.profile, reference))


@lru_cache(maxsize=32)
def _core(
    thrown: Thrown, ceilings: Ceilings, balls: tuple[Ball, ...], certainty: float
) -> tuple[Region, tuple[BallRange, ...]]:
    drawn = _field(*thrown)
    low, high = min(ball.mass_kg for ball in balls) / BESIDE_RACK, max(ball.mass_kg for ball in balls) * BESIDE_RACK
    mass = np.geomspace(max(low, BALL_LIMITS["mass_kg"].low), min(high, BALL_LIMITS["mass_kg"].high), NODES)
    mass = np.clip(mass, BALL_LIMITS["mass_kg"].low, BALL_LIMITS["mass_kg"].high)
    return region(drawn, ceilings, mass, certainty=certainty), ranges(drawn, ceilings, balls, certainty=certainty)


@lru_cache(maxsize=32)
def _answer(
    thrown: Thrown,
    ceilings: Ceilings,
    balls: tuple[Ball, ...],
    aim: str,
    wanted: Amount | None,
    certainty: float,
) -> tuple[tuple[Region, tuple[BallRange, ...]], tuple[Choice, ...] | NothingFits]:
    core = _core(thrown, ceilings, balls, certainty)
    drawn = _field(*thrown)
    listed = short_list(drawn, ceilings, balls, aim, wanted_peak=wanted, certainty=certainty, every=core[1])
    return core, listed


def _listed(choice: Choice, case: Case, effort: EffortCurve, launch: Launch) -> Listed:
    ball = choice.range.ball
    try:
        asked: float | None = effort.effort_for(choice.share)
    except InputError:
        asked = None
    return Listed(
        choice,
        asked,
        _distance(ball, choice.speed_m_s, launch),
        choice.speed_m_s / radar_factor(ball, case),
    )


@lru_cache(maxsize=256)
def _distance(ball: Ball, speed_m_s: float, launch: Launch) -> float | None:
    far = fly(ball, speed_m_s, launch).distance_m
    return far if np.isfinite(far) else None
