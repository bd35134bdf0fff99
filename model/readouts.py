"""What is read off a curve: peak, durations, area, rise rate and work.

A sampled curve is taken as straight between its samples. Passings of a level, times above it and areas are exact for
that curve; only the peak is refined, by the parabola through the highest sample and its two neighbours, and levels
given as a share of the peak are shares of the refined one. Only the positive part of a curve counts.

Everything is read in phase first and put on a clock afterwards: at time-scale factor s a phase lasts T / s seconds, so
times and areas are multiplied by it, rise rates divided, peaks and work left alone.

How odd curves are read:

flat and positive
    peak is its value (at the window's edge), loaded the whole window, no rise rate
never positive
    peak, times, area and work 0; no time of the peak, no rise rate
truncated
    a peak on the window's first or last sample is that sample's value and flagged; a curve already above 10 % where the
    window begins has no rise rate unless it falls below and rises again
two humps
    peak of the higher one, the earlier of two equals; times, area and work are totals over both; the rise is that to
    the first passing of 90 %
empty, or with NaN or an infinity
    refused with an `InputError`

"No" is NaN.
"""

from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.chain import angular_velocities, frames_of
from model.channels import CHANNELS, END_PHASE, READINGS, RELEASE_PHASE, Reading
from model.checks import InputError
from model.motion import PHASES, reference_motion
from model.sampled import SAME_PLACE, crossings, cut, highest_point, integrals_of_positive, rise
from model.throw import Curves

Array = NDArray[np.float64]

LOADED_SHARE = 0.10  # "time loaded" is above this share of the throw's own peak, unless another is asked for
HALF_SHARE = 0.50
RISE_FROM, RISE_TO = 0.10, 0.90  # shares of the peak between which the rise rate is taken


@dataclass(frozen=True)
class Readouts:
    """What is read off one curve, or off many (then every number is an array over the curves).

    Attributes
    ----------
    peak : float or ndarray
        Largest value (N m or N); 0 if the curve is never positive.
    peak_before_release_s : float or ndarray
        When it is reached (s before release; negative after it); NaN if there is none.
    loaded_s, above_s, half_height_s : float or ndarray
        Total time (s) above a share of the own peak, above a level fixed for all throws (NaN if none was given), and
        above half the own peak.
    area : float or ndarray
        Integral over time of the positive part (N m s or N s): an angular impulse, not work.
    rise_rate : float or ndarray
        0.8 peak / (first passing of 90 % - last upward passing of 10 % before it) (N m/s or N/s).
    work_in_j, work_out_j : float or ndarray
        Integral of torque times angular velocity (J) of the positive part of the torque: taken in while the joint turns
        against it (zero or negative) and given out while it turns along (zero or positive). NaN for what does not turn.
    peak_at_edge : bool or ndarray
        Whether the peak lies on the window's first or last sample, so that the curve may go on rising beyond.
    """

    peak: Any
    peak_before_release_s: Any
    loaded_s: Any
    above_s: Any
    half_height_s: Any
    area: Any
    rise_rate: Any
    work_in_j: Any
    work_out_j: Any
    peak_at_edge: Any


@dataclass(frozen=True)
class PhaseReadouts:
    """The same as `Readouts` over phase; arrays (...).

    Attributes
    ----------
    peak : ndarray
        In the unit of the curve.
    peak_phase : ndarray
        Where the peak is.
    loaded, above, half_height : ndarray
        Times, in phases.
    area, rise_rate : ndarray
        The unit of the curve times a phase, and for each phase.
    work_in_j, work_out_j : ndarray
        As `Readouts` has them (J).
    peak_at_edge : ndarray of bool
        As `Readouts` has it.
    """

    peak: Array
    peak_phase: Array
    loaded: Array
    above: Array
    half_height: Array
    area: Array
    rise_rate: Array
    work_in_j: Array
    work_out_j: Array
    peak_at_edge: NDArray[np.bool_]

    def in_time(self, phase_s: ArrayLike) -> Readouts:
        """Put them on a clock.

        Parameters
        ----------
        phase_s : array_like (...)
            Duration of one phase, T / s: from foot contact to release (s).

        Returns
        -------
        Readouts
            Of arrays (...).
        """
        phase_s = np.asarray(phase_s, dtype=float)
        return Readouts(
            self.peak,
            (RELEASE_PHASE - self.peak_phase) * phase_s,
            self.loaded * phase_s,
            self.above * phase_s,
            self.half_height * phase_s,
            self.area * phase_s,
            self.rise_rate / phase_s,
            self.work_in_j,
            self.work_out_j,
            self.peak_at_edge,
        )


def read_curves(curves: Curves, key: str, *, share: float = LOADED_SHARE, above: float | None = None) -> Readouts:
    """Read one quantity off a throw.

    Parameters
    ----------
    key : str
        A key of `channels.READINGS`, or of `channels.CHANNELS` for its positive side.
    share : float
        Share of the own peak above which the throw counts as loaded, between 0 and 1.
    above : float, optional
        Level (N m or N) of "time above", the same for all throws compared.

    Returns
    -------
    Readouts
        Of plain numbers.

    Raises
    ------
    InputError
        If the key is unknown, or as `read` says.
    """
    reading = reading_of(key)
    rate = path_angular_velocity(reading)
    found = read(
        curves.phase,
        reading.sign * curves.values[reading.channel],
        window=(reading.start_phase, reading.end_phase),
        share=share,
        above=above,
        rate=None if rate is None else np.interp(curves.phase, PHASES, rate),
    ).in_time(-curves.foot_contact_s)
    return Readouts(**{name: value.item() for name, value in vars(found).items()})


def reading_of(key: str) -> Reading:
    """Find what is to be read: the channel, its sign and its window.

    Parameters
    ----------
    key : str
        A key of `READINGS`; or of `CHANNELS`, which stands for its positive side, torques to release and forces to the
        end of the follow-through.

    Raises
    ------
    InputError
        If the key is neither.
    """
    if key in READINGS:
        return READINGS[key]
    if key not in CHANNELS:
        raise InputError("key", key, ", ".join(dict.fromkeys((*READINGS, *CHANNELS))))
    channel = CHANNELS[key]
    end_phase = RELEASE_PHASE if channel.unit == "N·m" else END_PHASE
    return Reading(key, channel.label, channel.unit, key, 1, 0.0, end_phase)


_READ = {reading.channel for reading in READINGS.values()}
QUANTITIES = READINGS | {key: reading_of(key) for key in CHANNELS if key not in _READ}
"""All that can be read: the readings, and the channels that none of them is taken from, for their positive side."""


@cache
def path_angular_velocity(reading: Reading) -> Array | None:
    """Turning of a reading's joint along the reference path, about the axis and in the sense of its torque.

    The path is the same for every arm and clock, and so is this.

    Returns
    -------
    ndarray (N,) or None
        At `motion.PHASES` (rad a phase); None if the joint does not turn that way.
    """
    turn = CHANNELS[reading.channel].turns
    if turn is None:
        return None
    motion = reference_motion()
    return reading.sign * angular_velocities(frames_of(motion.state(PHASES)))[turn] * motion.duration_s


def read(
    phase: ArrayLike,
    curve: ArrayLike,
    *,
    window: tuple[float, float] = (0.0, RELEASE_PHASE),
    share: float = LOADED_SHARE,
    above: ArrayLike | None = None,
    rate: ArrayLike | None = None,
) -> PhaseReadouts:
    """Read curves over phase; many at once.

    Parameters
    ----------
    phase : array_like (N,)
        Phases of the samples, rising.
    curve : array_like (..., N)
        Torque (N m) or force (N), the side to be read positive.
    window : (float, float)
        First and last phase that count, within `phase`; a window's end between two samples cuts the line there.
    share : float
        Share of the own peak of "loaded", above 0 and below 1.
    above : array_like (...), optional
        Level of "time above", zero or more, in the curve's unit; one for all or one for each.
    rate : array_like (N,), optional
        Turning of the joint (rad a phase), positive along the torque; taken as straight between samples like the curve,
        so that the product is exact piece by piece between the zeros of both.

    Returns
    -------
    PhaseReadouts
        Of arrays (...).

    Raises
    ------
    InputError
        If the curve is empty or not finite, or an argument is not as described.
    """
    curve = np.asarray(curve, dtype=float)
    phase = np.asarray(phase, dtype=float)
    _check(phase, curve, window, share)
    shape = curve.shape[:-1]
    x, cut_rows = cut(phase, *window)
    y = cut_rows(curve.reshape(-1, phase.size))
    if not np.isfinite(y @ np.ones_like(x)).all():  # a sum shows whatever is not finite, and is the fastest look
        raise InputError("curve", "NaN or an infinity", "finite values")

    highest, place, at_edge = highest_point(x, y)
    scale = np.where(highest > 0.0, highest, 1.0)
    y = y / scale[:, None]  # of the own peak: one level for all
    shares = tuple(dict.fromkeys((0.0, share, HALF_SHARE, RISE_FROM, RISE_TO)))
    fixed = () if above is None else (_checked_above(above, shape) / scale,)
    *passed, last = crossings(x, y, (*shares, *fixed))
    at = dict(zip(shares, (*passed, last), strict=False))
    ground = at[0.0]
    factors = [np.ones_like(x)]
    if rate is not None:
        turning = cut_rows(_checked_rate(rate, phase.size)[None])[0]
        factors += [-turning, turning]
    area, *work = integrals_of_positive(x, y, ground, factors)

    positive = ground.length_over > 0.0
    peak = np.where(positive, highest, 0.0)
    no_value = np.full(len(y), np.nan)
    found: tuple[NDArray[Any], ...] = (
        peak,
        np.where(positive, place, np.nan),
        at[share].length_over,
        last.length_over if fixed else no_value,
        at[HALF_SHARE].length_over,
        area * scale,
        (RISE_TO - RISE_FROM) * peak / rise(at[RISE_FROM], at[RISE_TO]),
        0.0 - work[0] * scale if work else no_value,
        work[1] * scale if work else no_value,
        at_edge & positive,
    )
    return PhaseReadouts(*(values.reshape(shape) for values in found))


def _check(phase: Array, curve: Array, window: tuple[float, float], share: float) -> None:
    if phase.ndim != 1 or phase.size < 2 or not np.isfinite(phase).all() or not (np.diff(phase) > 0).all():
        raise InputError("phase", f"an array of shape {phase.shape}", "two or more finite phases, each above the last")
    if curve.ndim == 0 or curve.shape[-1] != phase.size:
        raise InputError("curve", f"an array of shape {curve.shape}", f"(..., {phase.size}), a value for each phase")
    slack = SAME_PLACE * (phase[-1] - phase[0])
    if not phase[0] - slack <= window[0] < window[1] <= phase[-1] + slack:
        raise InputError("window", window, f"two rising phases within {phase[0]:g} to {phase[-1]:g}")
    if not 0.0 < share < 1.0:
        raise InputError("share", share, "more than 0 and less than 1")


def _checked_rate(rate: ArrayLike, samples: int) -> Array:
    turning = np.asarray(rate, dtype=float)
    if turning.shape != (samples,) or not np.isfinite(turning).all():
        raise InputError("rate", f"an array of shape {turning.shape}", f"({samples},) finite values")
    return turning


def _checked_above(above: ArrayLike, shape: tuple[int, ...]) -> Array:
    level = np.asarray(above, dtype=float)
    if not (np.isfinite(level).all() and (level >= 0).all()):
        raise InputError("above", above, "zero or more")
    return np.broadcast_to(level, shape).reshape(-1)
