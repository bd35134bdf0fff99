"""From the forms to the answer: reference, region, what each ball allows and comes to, and the order of an aim."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from app.pages.start.checks import CheckedStart, bound_of, check_start
from app.pages.start.form import AIMS, StartForm
from app.pages.start.found import Asked, Found, Listed, drawn_of, found_for
from app.show.cautions import is_growing
from app.show.from_records import Subject
from app.show.hundred import Hundred, hundred_of, own_speed_known_by
from app.show.rack import balls_in
from app.show.subject import Case, Fitted, is_same
from app.units.systems import METRIC, System
from model.ball import Ball
from model.ceilings import KINDS, Amount, Reference
from model.checks import InputError
from model.effort import EffortCurve, effort_curve
from model.flight import Launch
from model.limit_draws import Field
from model.readouts import Readouts, read_curves
from model.speed_readings import SAME_BALL_KG
from model.start_list import BallRange
from model.throw import curves

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
    form : StartForm
    aim : str
        A key of `AIMS`; empty while none is chosen.
    checked : CheckedStart
    balls : tuple of Ball
        Those ticked, and the own one.
    effort : EffortCurve
    launch : Launch
        How a throw for distance starts.
    careful : tuple of str
        Why the own ball stands first whatever is chosen: 'growing', 'before_injury', 'no_other_ball'; mostly empty.
    basis : Basis or None
        None while measures or reference are missing.
    lacks_date : bool
        Whether it is missing because a reference from before an injury has no day.
    found : Found or None
        None while something is missing.
    amounts, means : dict of str to Amount
        Each limit that was typed, and the same counted the other way.
    owner : str
        uid of the athlete, for the buttons.
    """

    case: Case
    form: StartForm
    aim: str
    checked: CheckedStart
    balls: tuple[Ball, ...]
    effort: EffortCurve
    launch: Launch = field(default_factory=Launch)
    careful: tuple[str, ...] = ()
    basis: Basis | None = None
    lacks_date: bool = False
    found: Found | None = None
    amounts: Mapping[str, Amount] = field(default_factory=dict)
    means: Mapping[str, Amount] = field(default_factory=dict)
    owner: str = ""

    @property
    def first(self) -> Listed | None:
        """The throw of the headline; None without an aim, or where the ball that is to stand first does not fit."""
        order = self.found.order if self.found else ()
        own_only = self.careful or self.aim == "own"
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


def start_of(form: StartForm, subject: Subject, today: date, system: System = METRIC) -> StartAnswer:
    """Work out all that the page shows; without an answer while measures, reference, a limit or a ball are missing."""
    case = subject.case(today, system)
    checked = check_start(form, system)
    basis, lacks_date = basis_of(form, case, checked.doubt)
    drawn = _drawn(case, basis)
    means = (
        {}
        if drawn is None
        else {name: drawn.recounted(bound_of(name), amount) for name, amount in checked.amounts.items()}
    )
    careful = _careful(case, basis)
    return StartAnswer(
        case,
        form,
        _aim(form),
        checked,
        balls_of(case, form),
        _effort(case),
        case.choices.launch or Launch(),
        careful,
        basis,
        lacks_date,
        _found(form, case, checked, basis, bool(careful)),
        checked.amounts,
        means,
    )


def balls_of(case: Case, form: StartForm) -> tuple[Ball, ...]:
    """The balls that are looked at, light to heavy: those ticked, and the own one in any case.

    Parameters
    ----------
    case : Case
    form : StartForm

    Returns
    -------
    tuple of Ball
    """
    ticked = balls_in(case, form.left_out)
    return tuple(ball for ball in case.rack if ball in ticked or is_same(ball, case.own_ball))


def field_for(form: StartForm, subject: Subject, today: date) -> Field | None:
    """Draw what is not known of the thrower; None while measures or reference are missing."""
    case = subject.case(today)
    basis, _ = basis_of(form, case, check_start(form).doubt)
    return _drawn(case, basis)


def _drawn(case: Case, basis: Basis | None) -> Field | None:
    if basis is None or case.person is None or case.profile is None:
        return None
    return drawn_of((case.person, case.own_ball, Fitted(case.profile), basis.reference))


def basis_of(form: StartForm, case: Case, doubt: float | None) -> tuple[Basis | None, bool]:
    """Find the reference throw.

    Parameters
    ----------
    form : StartForm
    case : Case
    doubt : float or None
        Relative standard deviation of its speed, if one was typed.

    Returns
    -------
    Basis or None
        None while measures, speed or the day of one from before an injury are missing.
    bool
        Whether only that day is.
    """
    hundred = hundred_of(case, form.base)
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
        kind = case.reference.kind
        day = None if kind == "estimated" else case.reference.day
        if kind == "before_injury" and day is None:
            return None, True
        same = kind == "measured" and profile.own_speed_is_given and case.choices.own_speed_m_s is None
        if same:
            speed = None
    try:
        reference = Reference(kind, speed, day, sd)
    except InputError:
        return None, False  # a speed beyond what a throw can be
    thrown = curves(hundred.throw)
    readouts = {key: read_curves(thrown, key) for key in READ}
    said = KINDS["before_injury"] if kind == "before_injury" else hundred.kind
    dated = f"{said}, {day.isoformat()}" if day else said
    return Basis(hundred, dated, reference, readouts, same), False


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


def _aim(form: StartForm) -> str:
    return form.aim if form.aim in AIMS else ""


def _careful(case: Case, basis: Basis | None) -> tuple[str, ...]:
    """Why the own ball stands first whatever is chosen."""
    reasons = {
        "growing": is_growing(case.person),
        "before_injury": basis is not None and basis.reference.kind == "before_injury",
        "no_other_ball": all(abs(one.ball_mass_kg - case.own_ball.mass_kg) < SAME_BALL_KG for one in case.found.used),
    }
    return tuple(key for key, there in reasons.items() if there)


def _found(form: StartForm, case: Case, checked: CheckedStart, basis: Basis | None, careful: bool) -> Found | None:
    if basis is None or case.person is None or case.profile is None:
        return None
    if checked.problems or checked.ceilings is None or checked.certainty is None:
        return None
    thrown = (case.person, case.own_ball, Fitted(case.profile), basis.reference)
    launch = case.choices.launch or Launch()
    asked = Asked(checked.ceilings, balls_of(case, form), checked.certainty, _aim(form), checked.wanted, careful)
    return found_for(thrown, asked, case, _effort(case), launch)
