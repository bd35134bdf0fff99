"""A throw of a comparison: from its row to ball and release speed, however it is held, or to what of it is missing."""

from dataclasses import dataclass, replace

from app.records import tables
from app.records.field_list import field_of
from app.records.fields import in_words
from app.show.kept import to_mend
from app.units.conversion import from_si, range_in
from app.units.systems import METRIC, System
from model.ball import Ball
from model.checks import InputError
from model.hold import AtClock, AtSpeed, Hold, OnProfile, held
from model.interval import Interval
from model.person import Person
from model.speed import SpeedProfile
from model.throw import SPEED_LIMIT

OTHER = "other"
"""Who throws, where it is the second thrower; the first is ""."""

MOST_THROWS = 8
"""In the list of a comparison."""

HOLDS = {"speed": "release speed", "clock": "same clock", "profile": "speed profile"}
"""How a throw can be held when something else changes, in words; see `model.hold`."""

REFERENCE_HELD = {"clock": "clock-held", "profile": "profile"}
"""The word beside every per cent where the reference is not held at a release speed."""

NO_PROFILE = (
    "Share of full speed: there is no speed profile yet; enter radar readings on the Athlete page, "
    "or hold the reference throw at a release speed."
)


@dataclass(frozen=True)
class ListedThrow:
    """A line of the list of throws.

    Attributes
    ----------
    uid : str
        Of its row.
    hold : str
        A key of `HOLDS`.
    ball : Ball or None
    value : float or None
        What it is held at: a release speed (m/s), or a share of the reference motion's clock or of full speed.
    speed_m_s : float or None
        The release speed that comes of it; None while something is missing.
    full_speed_m_s : Interval or None
        Full speed with that ball, where it is held at a share of that.
    thrower : str
        "" or `OTHER`.
    missing : str
        What it lacks to be drawn, in words; nothing for a line that nobody has filled in.
    """

    uid: str
    hold: str = "speed"
    ball: Ball | None = None
    value: float | None = None
    speed_m_s: float | None = None
    full_speed_m_s: Interval | None = None
    thrower: str = ""
    missing: str = ""

    @property
    def percent(self) -> float | None:
        """The share that it is held at (%); None of a throw held at a release speed."""
        return None if self.hold == "speed" or self.value is None else from_si(self.value, "%")


def listed(
    row: tables.Throw,
    person: Person | None,
    profile: SpeedProfile | None = None,
    thrower: str = "",
    system: System = METRIC,
) -> ListedThrow:
    """Work out a line of the list.

    Parameters
    ----------
    row : app.records.tables.Throw
        What was refused in one of its fields changes nothing: the value that was accepted before counts.
    person : Person or None
        Who throws. Without, a throw that is not held at a release speed has none.
    profile : SpeedProfile, optional
        The person's.
    thrower : str
        "" or `OTHER`.
    system : System
        The units of what is said.

    Returns
    -------
    ListedThrow
    """
    ball = None if row.mass_kg is None or row.diameter_m is None else Ball(row.mass_kg, row.diameter_m)
    line = ListedThrow(row.uid, row.hold, ball, row.number, thrower=thrower)
    if row.mass_kg is None and (row.number is None or row.hold == "profile"):
        return line
    if ball is None or row.number is None:
        fields = (field_of(f"throw.{name}", {"hold": row.hold}) for name in ("mass_kg", "diameter_m", "number"))
        return replace(line, missing=to_mend(field.label for field in fields if getattr(row, field.name) is None))
    if row.hold == "speed":
        return replace(line, speed_m_s=row.number)
    if person is None:
        return line
    hold = hold_of(row.hold, row.number, profile)
    if hold is None:
        return replace(line, missing=NO_PROFILE)
    try:
        speed = held(person, ball, hold).speed_m_s
    except InputError:
        number = field_of("throw.number", {"hold": row.hold})
        accepted = f"what gives a release speed of {range_in(SPEED_LIMIT, system.unit('m/s'))}"
        return replace(line, missing=in_words(InputError(number.label, number.kept(row.number), accepted)))
    full = hold.profile.mean_speed(ball.mass_kg) if isinstance(hold, OnProfile) else None
    return replace(line, speed_m_s=speed, full_speed_m_s=full)


def hold_of(key: str, value: float, profile: SpeedProfile | None) -> Hold | None:
    """How a throw is held, by its key and what it is held at; None where that needs a profile and there is none."""
    if key == "clock":
        return AtClock(value)
    if key == "speed":
        return AtSpeed(value)
    return None if profile is None or profile.posterior.own is None else OnProfile(profile, value)
