"""One value in print held against the model, raw and as a laboratory would see it."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from model.ball import Ball
from model.laboratory import Laboratory, View, seen_by
from model.motion import PHASES
from model.person import Person
from model.published import values
from model.throw import Throw

USUAL_HZ = 13.4  # a common cut-off in pitching laboratories (memory); taken where a source's own is not known
FAR_SD = 2.0  # a value farther from print than this is a failure
BETWEEN_LABORATORIES = 0.25  # where no spread is printed: what laboratories differ by (LITERATURE.md)
FINELY = Laboratory(None, 2000.0)


@dataclass(frozen=True)
class Comparison:
    """One value in print held against the model.

    Attributes
    ----------
    group : {'levels', 'forces', 'speeds and angles', 'timing', 'efforts', 'balls'}
    who : str
        Whose throw, and what was assumed of size and speed.
    sources : tuple of str
        Ids of the rows of `published/values.csv`.
    status : {'found', 'memory', 'derived'}
        How the printed value was seen.
    printed, spread : float
        Value and standard deviation; the spread NaN where none is printed.
    low, high : float
        Printed range; NaN where there is none. An end that is infinite is a direction.
    raw, seen : float
        The model's, and what a laboratory would see of it.
    cut_off_hz : float
        Of the laboratory.
    testable : bool
        Not where what is seen hangs on what lies beyond the record.
    """

    group: str
    what: str
    unit: str
    who: str
    sources: tuple[str, ...]
    status: str
    printed: float
    spread: float
    low: float
    high: float
    raw: float
    seen: float
    cut_off_hz: float
    calibrated: bool
    testable: bool

    @property
    def source_in_short(self) -> str:
        """First author and year of the source."""
        citation = values()[self.sources[0]].citation
        year = re.search(r"\b(?:19|20)\d\d\b", citation)
        return " ".join([re.split(r"[ ,;]", citation)[0], *([year.group()] if year else [])])

    @property
    def is_direction(self) -> bool:
        """Whether only a sign is printed."""
        return bool(np.isinf(self.low) or np.isinf(self.high))

    @property
    def distance_sd(self) -> float:
        """How far what is seen lies from print, in its spread; NaN without one."""
        return (self.seen - self.printed) / self.spread

    @property
    def agrees(self) -> bool | None:
        """Within `FAR_SD` of print, or within the range, or in the direction; None where it cannot be tested."""
        if not self.testable:
            return None
        if np.isfinite(self.spread):
            return bool(abs(self.distance_sd) <= FAR_SD)
        if np.isnan(self.low) and np.isnan(self.high):
            return bool(abs(self.seen / self.printed - 1.0) <= BETWEEN_LABORATORIES)
        return bool(self.low <= self.seen <= self.high)


@lru_cache(maxsize=128)
def views_of(person: Person, ball: Ball, speed_m_s: float, cut_off_hz: float) -> tuple[View, View]:
    """A throw as it is, finely sampled, and as a laboratory would see it.

    Parameters
    ----------
    speed_m_s : float
        Release speed (m/s).
    cut_off_hz : float
        Of the laboratory.
    """
    throw = Throw(person, ball, speed_m_s)
    return seen_by(FINELY, throw), seen_by(Laboratory(cut_off_hz), throw)


Value = Callable[[View], float]
Thrower = tuple[Person, Ball, float]  # who, what, and how fast (m/s)


def peak_of(key: str) -> Value:
    """Peak of a reading.

    Parameters
    ----------
    key : str
        A key of `channels.READINGS`.

    Returns
    -------
    function
        From a view to the peak, N m or N.
    """
    return lambda view: float(view.read(key).peak)


def fastest_deg_s(key: str, sense: int = 1) -> Value:
    """Greatest speed of a joint.

    Parameters
    ----------
    key : str
        A key of `chain.angular_velocities`.
    sense : int
        +1, or -1 for the other way.

    Returns
    -------
    function
        From a view to the speed, deg/s.
    """
    return lambda view: float(np.degrees((sense * view.speeds[key]).max()))


def fastest_at_percent(key: str, sense: int = 1) -> Value:
    """When a joint is fastest.

    Parameters
    ----------
    key : str
        A key of `chain.angular_velocities`.

    Returns
    -------
    function
        From a view to per cent of the time from foot contact to release.
    """
    return lambda view: 100.0 * float(PHASES[view.at_phases(sense * view.speeds[key]).argmax()])


def turn_before_release_ms(view: View) -> float:
    """When external rotation is greatest.

    Returns
    -------
    float
        ms before release.
    """
    return 1e3 * (1.0 - float(PHASES[view.at_phases(view.external_rotation).argmax()])) * view.phase_s


def held_against(
    group: str,
    what: str,
    unit: str,
    value: Value,
    throw: Thrower,
    who: str,
    source: str,
    spread: str | None = None,
    *,
    calibrated: bool = False,
    testable: bool = True,
    between: tuple[float, float] = (np.nan, np.nan),
    printed: float | None = None,
) -> Comparison:
    """Hold a value of one throw against print.

    Parameters
    ----------
    group, what, unit, who : str
        As of `Comparison`.
    value : function
        From a view to the value.
    throw : (Person, Ball, float)
        Who throws what at which release speed (m/s).
    source, spread : str
        Rows of `published/values.csv` with the value, and with its standard deviation; None where none is printed.
    between : (float, float)
        Printed range.
    printed : float, optional
        Instead of the row's own number.
    """
    found = values()[source]
    raw, seen = (value(view) for view in views_of(*throw, USUAL_HZ))
    return Comparison(
        group=group,
        what=what,
        unit=unit,
        who=who,
        sources=tuple(dict.fromkeys(row for row in (source, spread) if row)),
        status=found.status,
        printed=found.number if printed is None else printed,
        spread=values()[spread].spread if spread else np.nan,
        low=between[0],
        high=between[1],
        raw=raw,
        seen=seen,
        cut_off_hz=USUAL_HZ,
        calibrated=calibrated,
        testable=testable,
    )


def change_of(value: Value, one: Thrower, other: Thrower) -> tuple[float, float]:
    """Change of a value from one throw to another.

    Parameters
    ----------
    value : function
        From a view to the value.
    one, other : (Person, Ball, float)
        The second is what the first is held against.

    Returns
    -------
    (float, float)
        Per cent: raw, and as a laboratory would see it.
    """
    pairs = zip(views_of(*one, USUAL_HZ), views_of(*other, USUAL_HZ), strict=True)
    raw, seen = (100.0 * (value(here) / value(there) - 1.0) for here, there in pairs)
    return raw, seen


def change_held_against(
    group: str,
    what: str,
    unit: str,
    who: str,
    source: str,
    found: tuple[float, float],
    *,
    between: tuple[float, float] = (np.nan, np.nan),
    printed: float = np.nan,
) -> Comparison:
    """Hold a change from one throw to another against print.

    Parameters
    ----------
    found : (float, float)
        Raw, and as a laboratory would see it.
    between : (float, float)
        Printed range; an end that is infinite is a direction.
    printed : float
        The printed change; NaN where only a range or a direction is.
    """
    return Comparison(
        group=group,
        what=what,
        unit=unit,
        who=who,
        sources=(source,),
        status=values()[source].status,
        printed=printed,
        spread=np.nan,
        low=between[0],
        high=between[1],
        raw=found[0],
        seen=found[1],
        cut_off_hz=USUAL_HZ,
        calibrated=False,
        testable=True,
    )
