"""One quantity of many throws of one arm: a reading and what is read off it, at any ball mass and speed.

Only the one channel is formed, from the mass-speed identity; then `readouts.read` does the reading.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.ball import BALL_LIMITS
from model.channels import INDEX, READINGS, Reading
from model.checks import check_choice
from model.identity import PathLoads
from model.interval import check_numbers
from model.readouts import read
from model.throw import SPEED_LIMIT

Array = NDArray[np.float64]

ROWS = 400  # throws formed at once: a block that stays in the processor's cache


@dataclass(frozen=True)
class Readout:
    """What can be held level.

    Attributes
    ----------
    label, unit_factor : str
        Plain name, and what its unit is: the reading's times this ('' for the same, 's' for a time alone).
    power : int
        k of the first-order law: the readout goes as (m + mu) s^k, a time as 1 / s.
    """

    label: str
    unit_factor: str
    power: int


READOUTS = {
    "rise_rate": Readout("rise rate", "/s", 3),
    "peak": Readout("peak", "", 2),
    "area": Readout("area under the curve", "·s", 1),
    "loaded_s": Readout("time loaded", "s", -1),
}


@dataclass(frozen=True)
class Quantity:
    """A readout of a reading, as the varus torque's peak.

    Parameters
    ----------
    reading : str
        A key of `channels.READINGS`.
    readout : str
        A key of `READOUTS`.

    Raises
    ------
    InputError
        If either is unknown.
    """

    reading: str = "varus"
    readout: str = "peak"

    def __post_init__(self) -> None:
        check_choice("reading", self.reading, READINGS)
        check_choice("readout", self.readout, READOUTS)

    @property
    def source(self) -> Reading:
        """The reading: channel, sign and window."""
        return READINGS[self.reading]

    @property
    def unit(self) -> str:
        """Unit of the value."""
        factor = READOUTS[self.readout].unit_factor
        return factor if factor == "s" else self.source.unit + factor

    @property
    def label(self) -> str:
        """Plain name."""
        return f"{self.source.label}, {READOUTS[self.readout].label}"


def curve_parts(loads: PathLoads, reading: Reading, mass_kg: ArrayLike) -> tuple[Array, Array]:
    """The two curves that a clock combines: s2 inertial + weight.

    Parameters
    ----------
    loads : PathLoads
        Of one arm.
    mass_kg : array_like (M,)
        Ball mass (kg).

    Returns
    -------
    inertial, weight : ndarray (M, N)
        sign (A + m B) and sign (G_A + m G_B).
    """
    channel, mass = INDEX[reading.channel], np.asarray(mass_kg, dtype=float)[:, None]
    inertial = reading.sign * (loads.arm[:, channel] + mass * loads.ball[:, channel])
    return inertial, reading.sign * (loads.arm_weight[:, channel] + mass * loads.ball_weight[:, channel])


def quantity_at(loads: PathLoads, quantity: Quantity, mass_kg: ArrayLike, speed_m_s: ArrayLike) -> Array:
    """Read a quantity off many throws.

    Parameters
    ----------
    loads : PathLoads
        Of one arm and ball radius.
    mass_kg, speed_m_s : array_like (...)
        Ball mass (kg) and release speed (m/s), broadcast together.

    Returns
    -------
    ndarray (...)
        In `quantity.unit`; NaN where it does not exist (a rise rate of a curve loaded from the start).

    Raises
    ------
    InputError
        If a mass or a speed is not accepted.
    """
    mass = check_numbers("ball_mass_kg", mass_kg, BALL_LIMITS["mass_kg"])
    speed = check_numbers("speed_m_s", speed_m_s, SPEED_LIMIT)
    mass, speed = np.broadcast_arrays(mass, speed)
    flat_mass, clock = mass.ravel(), loads.clock(speed.ravel())
    window = (quantity.source.start_phase, quantity.source.end_phase)
    found = np.empty(flat_mass.size)
    for start in range(0, flat_mass.size, ROWS):
        rows = slice(start, start + ROWS)
        inertial, weight = curve_parts(loads, quantity.source, flat_mass[rows])
        inertial *= clock[rows, None] ** 2
        inertial += weight
        readouts = read(loads.phase, inertial, window=window).in_time(loads.duration_s / clock[rows])
        found[rows] = getattr(readouts, quantity.readout)
    return found.reshape(mass.shape)


def weight_share(loads: PathLoads, quantity: Quantity, mass_kg: float, speed_m_s: float) -> float:
    """How much of a peak or an area the weight of arm and ball makes by itself.

    Parameters
    ----------
    loads : PathLoads
        Of one arm and ball radius.
    mass_kg, speed_m_s : float
        Ball mass (kg) and release speed (m/s).

    Returns
    -------
    float
        The readout of s^2 = 0 at the throw's own duration, over that of the whole throw.
    """
    _, weight = curve_parts(loads, quantity.source, [mass_kg])
    window = (quantity.source.start_phase, quantity.source.end_phase)
    seconds = loads.duration_s / np.atleast_1d(loads.clock(speed_m_s))
    alone = getattr(read(loads.phase, weight, window=window).in_time(seconds), quantity.readout)
    return float(alone[0] / quantity_at(loads, quantity, mass_kg, speed_m_s))
