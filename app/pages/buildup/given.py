"""What came over from Start: a first throw, and the limits it was found under."""

from dataclasses import dataclass
from datetime import date

from app.records.reads import AthleteData
from app.show.hundred import hundred_of, own_speed_known_by
from app.show.kept import setting_of, value_of
from app.show.subject import Case
from model.ball import Ball
from model.build_up import SHARE_LIMIT
from model.ceilings import BOUNDS, KINDS, Amount, Ceilings, Reference
from model.checks import InputError
from model.speed_readings import SAME_BALL_KG
from model.start import CERTAINTY_LIMIT

SHARE_PLACES = 1000.0  # a share is told to a tenth of a per cent
GIVEN_PATHS = tuple(f"plan.given_{name}" for name in ("mass_kg", "diameter_m", "speed_m_s", "on"))


@dataclass(frozen=True)
class Given:
    """A first throw as Start proposed it and a person chose it.

    Attributes
    ----------
    ball : Ball
    share : float
        Of full speed with the ball.
    ceilings : Ceilings
    certainty : float
    reference : Reference
    dated : str
        Its kind and day, as they stand beside every per cent.
    on : date or None
        When it was taken over.
    """

    ball: Ball
    share: float
    ceilings: Ceilings
    certainty: float
    reference: Reference
    dated: str
    on: date | None = None


def given_of(data: AthleteData, case: Case) -> Given | None:
    """What came over from Start, with the limits as they stand today.

    Returns
    -------
    Given or None
        None where nothing did, or the full speed with its ball or the reference throw is not known.
    """
    mass, diameter, speed, on = (setting_of(data, path) for path in GIVEN_PATHS)
    profile = case.profile
    if None in (mass, diameter, speed) or profile is None or profile.posterior.own is None:
        return None
    full = float(profile.mean_speed(mass).estimate)
    share = min(max(round(speed / full * SHARE_PLACES) / SHARE_PLACES, SHARE_LIMIT.low), SHARE_LIMIT.high)
    certainty = min(max(setting_of(data, "start.certainty"), CERTAINTY_LIMIT.low), CERTAINTY_LIMIT.high)
    limits = {
        key: Amount(value_of(row, "amount"), row.counted == "absolute")
        for key, row in data.limits.items()
        if key in BOUNDS and value_of(row, "amount") is not None
    }
    try:
        found = _reference(data, case)
        return found and Given(Ball(mass, diameter), share, Ceilings(**limits), certainty, *found, on)
    except InputError:
        return None


def _reference(data: AthleteData, case: Case) -> tuple[Reference, str] | None:
    """The throw that shares are taken of, with its kind and day in words."""
    hundred = hundred_of(case, data.settings["start.base"])
    profile = case.profile
    if hundred is None or profile is None:
        return None
    doubt = value_of(data.reference, "relative_sd")
    if hundred.of == "profile":  # what is not known of a speed from other balls is in the profile already
        kind, day = "estimated" if hundred.kind == "estimated" else "measured", _last_day(case)
        reference = Reference(kind, None, day, doubt or 0.0)
    else:
        kind = case.reference.kind
        day = None if kind == "estimated" else case.reference.day
        same = kind == "measured" and profile.own_speed_is_given and case.choices.own_speed_m_s is None
        reference = Reference(kind, None if same else hundred.throw.speed_m_s, day, doubt)
    said = KINDS["before_injury"] if kind == "before_injury" else hundred.kind
    return reference, f"{said}, {day.isoformat()}" if day else said


def _last_day(case: Case) -> date | None:
    """The last day of a full-effort reading with the own ball."""
    own = case.own_ball.mass_kg
    if own_speed_known_by(case) != "readings":
        return None
    used = [one for one in case.found.used if one.asked_effort == 1.0 and abs(one.ball_mass_kg - own) < SAME_BALL_KG]
    return max((one.on for one in used if one.on is not None), default=None)
