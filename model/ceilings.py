"""The limits a first throw is to keep, and the reference throw that their shares are taken of."""

from dataclasses import dataclass
from datetime import date

from model.ball import Ball
from model.checks import InputError, Limit, check_choice, check_number
from model.person import Person
from model.quantity import Quantity
from model.speed import SpeedProfile
from model.throw import SPEED_LIMIT

KINDS = {"measured": "measured", "before_injury": "from before an injury", "estimated": "estimated from the group"}

ESTIMATED_RELATIVE_SD = 0.10
"""Doubt of an estimated reference speed, as a relative standard deviation. Common practice, no source: about twice the
spread inside one group of collegiate pitchers (1.9 of 35.2 m/s, values.csv 2-kinematics-timing-60)."""

SHARE_LIMIT = Limit(0.01, 5.0, "of the reference throw's")
TORQUE_LIMIT = Limit(0.1, 1000.0, "N·m")
RATE_LIMIT = Limit(1.0, 100_000.0, "N·m/s")
AREA_LIMIT = Limit(0.01, 1000.0, "N·m·s")
TIME_LIMIT = Limit(0.001, 5.0, "s")
LABORATORY_SPREAD = 0.25
"""Relative spread of one torque between laboratories, at least: adult groups' means run from 64 to 90 N m in the same
units (LITERATURE.md)."""

DOUBT_LIMIT = Limit(0.0, 0.3, "of the speed")


@dataclass(frozen=True)
class Bound:
    """One limit.

    Attributes
    ----------
    key : str
        Field of `Ceilings`.
    label : str
        Plain name.
    quantity : Quantity or None
        What is limited; None for the release speed.
    upper_edge : bool
        Whether it limits how fast a ball may be thrown; else how slowly. A time loaded falls with speed: the least one
        limits how fast. A quantity that rises again in slow throws (`turns`) limits both.
    at_most : bool
        Whether the quantity is to stay below it; else above.
    accepted : Limit
        Range of an absolute amount, in the quantity's unit.
    """

    key: str
    label: str
    quantity: Quantity | None
    upper_edge: bool
    at_most: bool
    accepted: Limit

    @property
    def turns(self) -> bool:
        """Whether weight may make the quantity rise again in slow throws (`limit_speed.turning_speeds`)."""
        return self.key in ("area", "braking")


BOUNDS = {
    bound.key: bound
    for bound in (
        Bound("elbow_peak", "peak at the elbow (varus torque)", Quantity("varus", "peak"), True, True, TORQUE_LIMIT),
        Bound(
            "shoulder_peak",
            "peak at the shoulder (internal-rotation torque)",
            Quantity("internal_rotation", "peak"),
            True,
            True,
            TORQUE_LIMIT,
        ),
        Bound(
            "rise_rate", "rise rate at the elbow (varus torque)", Quantity("varus", "rise_rate"), True, True, RATE_LIMIT
        ),
        Bound(
            "area",
            "area under the curve at the elbow (varus torque)",
            Quantity("varus", "area"),
            True,
            True,
            AREA_LIMIT,
        ),
        Bound(
            "braking",
            "braking after release (horizontal-abduction torque)",
            Quantity("horizontal_abduction", "peak"),
            True,
            True,
            TORQUE_LIMIT,
        ),
        Bound(
            "least_loaded", "least time loaded (varus torque)", Quantity("varus", "loaded_s"), True, False, TIME_LIMIT
        ),
        Bound("most_loaded", "most time loaded (varus torque)", Quantity("varus", "loaded_s"), False, True, TIME_LIMIT),
        Bound("speed", "release speed", None, True, True, SPEED_LIMIT),
    )
}


@dataclass(frozen=True)
class Amount:
    """How much a limit is.

    Attributes
    ----------
    value : float
        A share of the reference throw's own; or, if `absolute`, in the quantity's unit (N m, N m/s, s, m/s).
    absolute : bool
        A torque in N m then differs between laboratories by a quarter and more: its spread is shown beside it.
    """

    value: float
    absolute: bool = False

    @property
    def between_laboratories(self) -> tuple[float, float]:
        """What an absolute torque may be elsewhere: `LABORATORY_SPREAD` less and more."""
        return self.value * (1.0 - LABORATORY_SPREAD), self.value * (1.0 + LABORATORY_SPREAD)


@dataclass(frozen=True)
class Ceilings:
    """Limits; what is None does not count.

    Parameters
    ----------
    elbow_peak, shoulder_peak : Amount, optional
        Peak of varus and of internal-rotation torque, at most.
    rise_rate : Amount, optional
        Of varus torque, at most.
    area : Amount, optional
        Under the varus torque of one throw, at most. A very slow throw has more of it than a quicker one: weight acts
        for long.
    braking : Amount, optional
        Peak of horizontal-abduction torque after release, at most: a lighter, faster throw raises it.
    least_loaded, most_loaded : Amount, optional
        Time loaded of varus torque, at least and at most.
    speed : Amount, optional
        Release speed, at most.

    Raises
    ------
    InputError
        If an amount is outside what is accepted, or the least time loaded is above the most.
    """

    elbow_peak: Amount | None = None
    shoulder_peak: Amount | None = None
    rise_rate: Amount | None = None
    area: Amount | None = None
    braking: Amount | None = None
    least_loaded: Amount | None = None
    most_loaded: Amount | None = None
    speed: Amount | None = None

    def __post_init__(self) -> None:
        for bound, amount in self.given():
            check_number(bound.key, amount.value, bound.accepted if amount.absolute else SHARE_LIMIT)
        least, most = self.least_loaded, self.most_loaded
        if least and most and least.absolute == most.absolute and least.value > most.value:
            raise InputError("least_loaded", least.value, f"no more than the most time loaded, {most.value:g}")

    def given(self) -> tuple[tuple[Bound, Amount], ...]:
        """The limits that count, each with its amount."""
        every = ((bound, getattr(self, key)) for key, bound in BOUNDS.items())
        return tuple((bound, amount) for bound, amount in every if amount is not None)


@dataclass(frozen=True)
class Reference:
    """The full-effort throw with the own ball that shares are taken of.

    Parameters
    ----------
    kind : {'measured', 'before_injury', 'estimated'}
        Stays visible wherever a share is shown.
    speed_m_s : float, optional
        Its release speed (m/s). None: the profile's own-ball speed, with what is not known of it; then the same unknown
        speed stands in the throw and in the reference, and mostly drops out of a share.
    measured_on : date, optional
        Needed for one from before an injury.
    relative_sd : float, optional
        Doubt of the speed, a relative standard deviation, counted beside what the profile does not know. If none is
        given, `ESTIMATED_RELATIVE_SD` of an estimated one, else 0.

    Raises
    ------
    InputError
        If a value is not accepted, or one from before an injury lacks speed or date.
    """

    kind: str = "measured"
    speed_m_s: float | None = None
    measured_on: date | None = None
    relative_sd: float | None = None

    def __post_init__(self) -> None:
        check_choice("kind", self.kind, KINDS)
        if self.speed_m_s is not None:
            check_number("speed_m_s", self.speed_m_s, SPEED_LIMIT)
        if self.relative_sd is not None:
            check_number("relative_sd", self.relative_sd, DOUBT_LIMIT)
        if self.kind == "before_injury":
            if self.speed_m_s is None:
                raise InputError("speed_m_s", None, "the speed measured before the injury")
            if self.measured_on is None:
                raise InputError("measured_on", None, "the day it was measured")

    @property
    def doubt(self) -> float:
        """Relative standard deviation of its speed."""
        if self.relative_sd is not None:
            return self.relative_sd
        return ESTIMATED_RELATIVE_SD if self.kind == "estimated" else 0.0


@dataclass(frozen=True)
class Thrower:
    """Who throws, and against which reference.

    Attributes
    ----------
    profile : SpeedProfile
        Of the speeds that the person has now.
    """

    person: Person
    own_ball: Ball
    profile: SpeedProfile
    reference: Reference
