"""Records of moving vectors with their derivatives, and the zero-phase low-pass filter that laboratories use.

Zero-phase fourth order means a second-order Butterworth filter run forward and backward. Each pass takes off 3 dB at
its own corner, so for 3 dB in all at the frequency named the corner is set higher, by (sqrt(2) - 1)^(-1/4) = 1.247. The
filter is linear and does not change over time, so it may be applied to velocities and accelerations as well as to
positions: that is exactly what differentiating the filtered positions gives. A record is turned about its end points.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.signal import butter, sosfiltfilt

from model.chain import cross, dot

Array = NDArray[np.float64]

ORDER = 2  # of one pass; two passes make four
PASSES = 2


@dataclass(frozen=True)
class Moving:
    """A vector now, its rate and that rate's change: the value and two derivatives by time, each (N, 3)."""

    now: Array
    rate: Array
    change: Array

    def middle(self, extra: int) -> "Moving":
        """Without so many samples at either end."""
        kept = slice(extra, len(self.now) - extra)
        return Moving(self.now[kept], self.rate[kept], self.change[kept])

    def __add__(self, other: "Moving") -> "Moving":
        return Moving(self.now + other.now, self.rate + other.rate, self.change + other.change)

    def times(self, factor: float) -> "Moving":
        """Multiplied by a number."""
        return Moving(factor * self.now, factor * self.rate, factor * self.change)

    def across(self, other: "Moving") -> "Moving":
        """Cross product with another."""
        return Moving(
            cross(self.now, other.now),
            cross(self.rate, other.now) + cross(self.now, other.rate),
            cross(self.change, other.now) + 2.0 * cross(self.rate, other.rate) + cross(self.now, other.change),
        )

    def unit(self) -> "Moving":
        """The unit vector along it: u' = (v' - n' u) / n, u'' = (v'' - n'' u - 2 n' u') / n, n' = u v'."""
        n = np.sqrt(dot(self.now, self.now))[:, None]
        u = self.now / n
        n1 = dot(u, self.rate)[:, None]
        u1 = (self.rate - n1 * u) / n
        n2 = (dot(u1, self.rate) + dot(u, self.change))[:, None]
        return Moving(u, u1, (self.change - n2 * u - 2.0 * n1 * u1) / n)


def corner_hz(cut_off_hz: float, rate_hz: float) -> float:
    """Corner (3 dB) of one pass, for 3 dB in all after two: tan(pi corner / rate) = tan(pi f / rate) / (2^1/2 - 1)^1/4.

    Parameters
    ----------
    cut_off_hz, rate_hz : float
        Frequency at which both passes together take off 3 dB, and samples a second (Hz).

    Returns
    -------
    float
        Hz.
    """
    bend = (2.0 ** (1.0 / PASSES) - 1.0) ** (-1.0 / (2.0 * ORDER))
    return float(rate_hz / np.pi * np.arctan(bend * np.tan(np.pi * cut_off_hz / rate_hz)))


def low_passed(record: Moving, cut_off_hz: float | None, rate_hz: float) -> Moving:
    """Zero-phase low-pass of a record, and of its derivatives alike.

    Parameters
    ----------
    cut_off_hz : float or None
        Frequency at which 3 dB are taken off in all (Hz); None leaves the record as it is.
    rate_hz : float
        Samples a second (Hz).
    """
    if cut_off_hz is None:
        return record
    sections = butter(ORDER, corner_hz(cut_off_hz, rate_hz), fs=rate_hz, output="sos")
    length = len(record.now)

    def low_pass(before: Array, part: Array, after: Array) -> Array:
        longer = np.concatenate((before[::-1], part, after))
        return np.asarray(sosfiltfilt(sections, longer, axis=0, padtype=None)[length - 1 : 2 * length - 1])

    ends = (_turned(record, way) for way in (1, -1))
    before, after = (vars(end).values() for end in ends)
    return Moving(*(map(low_pass, before, vars(record).values(), after)))


def _turned(record: Moving, way: int) -> Moving:
    """What is taken to lie beyond the first (way 1) or the last (way -1) sample: p(-t) = 2 p(0) - p(t), going away."""
    p, v, a = (part[::way] for part in vars(record).values())
    return Moving(2.0 * p[0] - p[1:], v[1:], -a[1:])
