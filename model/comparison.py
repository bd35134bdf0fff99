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
from model.published import PublishedValue, values
from model.throw import Throw

USUAL_HZ = 13.4  # a common cut-off in pitching laboratories (memory); taken where a source's own is not known
RECALLED_HZ = {"Fleisig": 13.4, "Dun": 13.4}
"""Cut-offs (Hz, at -3 dB) that are remembered of a source's laboratory, by first author (memory; none was seen)."""
NEAR_SD, FAR_SD = 1.0, 2.0  # a value farther from print than the second is a failure
BETWEEN_LABORATORIES = 0.25  # where no spread is printed: what laboratories differ by (LITERATURE.md)
FINELY = Laboratory(None, 2000.0)
STANDINGS = ("within 1 SD", "within 2 SD", "beyond 2 SD", "inside", "outside", "near", "far", "cannot be tested")
"""How a value stands to print: by its spread; by a printed range or direction; by `BETWEEN_LABORATORIES`."""

Thrower = tuple[Person, Ball, float]  # who, what, and how fast (m/s)


@dataclass(frozen=True)
class Comparison:
    """One value in print held against the model.

    Attributes
    ----------
    group : {'levels', 'forces', 'speeds and angles', 'timing', 'efforts', 'balls'}
    throws : tuple of (Person, Ball, float)
        Who throws what, how fast (m/s), in the model; of two the first is held against the second.
    note : str
        What of size and speed was assumed, as a source does not tell it.
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
    cut_off_known : bool
        Whether it is remembered of the source's own laboratory; else the usual one is taken.
    calibrated : bool
        Whether the value, or one beside it, was in view or a target when the motion was made.
    in_band : bool
        Whether the band of differences was made with it.
    testable : bool
        Not where what is seen hangs on what lies beyond the record.
    """

    group: str
    what: str
    unit: str
    throws: tuple[Thrower, ...]
    note: str
    sources: tuple[str, ...]
    status: str
    printed: float
    spread: float
    low: float
    high: float
    raw: float
    seen: float
    cut_off_hz: float
    cut_off_known: bool
    calibrated: bool
    in_band: bool
    testable: bool

    @property
    def source(self) -> PublishedValue:
        """The printed value."""
        return values()[self.sources[0]]

    @property
    def source_in_short(self) -> str:
        """First author and year of the source."""
        citation = self.source.citation
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
    def standing(self) -> str:
        """How what is seen stands to print: one of `STANDINGS`."""
        if not self.testable:
            return "cannot be tested"
        if np.isfinite(self.spread):
            apart = abs(self.distance_sd)
            return "within 1 SD" if apart <= NEAR_SD else "within 2 SD" if apart <= FAR_SD else "beyond 2 SD"
        if np.isnan(self.low) and np.isnan(self.high):
            return "near" if abs(self.seen / self.printed - 1.0) <= BETWEEN_LABORATORIES else "far"
        return "inside" if self.low <= self.seen <= self.high else "outside"

    @property
    def agrees(self) -> bool | None:
        """Within `FAR_SD` of print, or within the range, or in the direction; None where it cannot be tested."""
        standing = self.standing
        return None if standing == "cannot be tested" else standing in ("within 1 SD", "within 2 SD", "inside", "near")


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


def cut_off_of(source: str) -> tuple[float, bool]:
    """The cut-off a value in print is compared at.

    Parameters
    ----------
    source : str
        A row of `published/values.csv`.

    Returns
    -------
    float
        Hz.
    bool
        Whether it is remembered of the source's own laboratory.
    """
    recalled = RECALLED_HZ.get(values()[source].citation.split()[0])
    return (USUAL_HZ, False) if recalled is None else (recalled, True)


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
    note: str,
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
    group, what, unit, note : str
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
    cut_off_hz, known = cut_off_of(source)
    raw, seen = (value(view) for view in views_of(*throw, cut_off_hz))
    return Comparison(
        group=group,
        what=what,
        unit=unit,
        throws=(throw,),
        note=note,
        sources=tuple(dict.fromkeys(row for row in (source, spread) if row)),
        status=found.status,
        printed=found.number if printed is None else printed,
        spread=values()[spread].spread if spread else np.nan,
        low=between[0],
        high=between[1],
        raw=raw,
        seen=seen,
        cut_off_hz=cut_off_hz,
        cut_off_known=known,
        calibrated=calibrated,
        in_band=False,
        testable=testable,
    )


def change_held_against(
    group: str,
    what: str,
    unit: str,
    value: Value,
    throws: tuple[Thrower, Thrower],
    note: str,
    source: str,
    *,
    in_band: bool = False,
    between: tuple[float, float] = (np.nan, np.nan),
    printed: float = np.nan,
) -> Comparison:
    """Hold a change from one throw to another against print.

    Parameters
    ----------
    unit : str
        '%' for a change in per cent; else the change itself, in the unit of the value.
    throws : two of (Person, Ball, float)
        The first is held against the second.
    between : (float, float)
        Printed range; an end that is infinite is a direction.
    printed : float
        The printed change; NaN where only a range or a direction is.
    """
    cut_off_hz, known = cut_off_of(source)
    pairs = zip(*(views_of(*throw, cut_off_hz) for throw in throws), strict=True)
    both = [(value(here), value(there)) for here, there in pairs]
    raw, seen = (100.0 * (here / there - 1.0) if unit == "%" else here - there for here, there in both)
    return Comparison(
        group=group,
        what=what,
        unit=unit,
        throws=throws,
        note=note,
        sources=(source,),
        status=values()[source].status,
        printed=printed,
        spread=np.nan,
        low=between[0],
        high=between[1],
        raw=raw,
        seen=seen,
        cut_off_hz=cut_off_hz,
        cut_off_known=known,
        calibrated=False,
        in_band=in_band,
        testable=True,
    )
