"""The mass axis: the balls of the rack are its ticks; round masses fill the gaps between them."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

ROUND_G = (1, 5, 10, 50, 100, 500, 1000)
ROUND_OZ = (0.5, 1, 2, 5, 10, 20, 50, 100)
MPH = (1, 2, 5, 10, 20, 50)
MOST_SPEEDS = 9
MOST_STEPS = 60  # of one kind along the axis: finer ones are not looked at
AIRY = 1.7  # times the room of a written mass that a round one keeps from its neighbours
SAME_G = 0.05


@dataclass(frozen=True)
class Tick:
    """A tick of the mass axis: mass (g, or oz where those are shown), and whether it is a ball of the rack."""

    mass_g: float
    rack: bool


def mass_ticks(
    rack_g: Sequence[float],
    ends_g: tuple[float, float],
    place: Callable[[float], float],
    room_px: float,
    steps: Sequence[float] = ROUND_G,
) -> tuple[Tick, ...]:
    """Choose the masses that are written on the axis.

    Parameters
    ----------
    rack_g : sequence of float
        Balls (g), the own one first: it is written in any case.
    ends_g : (float, float)
        Ends of the axis (g).
    place : callable
        From a mass (g) to its place on the axis (px).
    room_px : float
        What a written mass needs.
    steps : sequence of float
        Between round masses, rising; everything may be in another unit than g, if all of it is.

    Returns
    -------
    tuple of Tick
        Rising.
    """
    chosen: list[Tick] = []

    def fits(mass_g: float, times: float = 1.0) -> bool:
        apart = all(abs(place(mass_g) - place(tick.mass_g)) >= times * room_px for tick in chosen)
        return apart and ends_g[0] <= mass_g <= ends_g[1]

    for mass_g in rack_g:
        if fits(mass_g):
            chosen.append(Tick(mass_g, True))
    for step in reversed(steps):
        if (ends_g[1] - ends_g[0]) / step > MOST_STEPS:
            break
        for count in range(max(1, math.ceil(ends_g[0] / step)), math.floor(ends_g[1] / step) + 1):
            mass_g = float(count * step)
            if all(abs(mass_g - ball) > SAME_G for ball in rack_g) and fits(mass_g, AIRY):
                chosen.append(Tick(mass_g, False))
    return tuple(sorted(chosen, key=lambda tick: tick.mass_g))


def speed_ticks(low: float, high: float) -> tuple[float, ...]:
    """Choose round speeds for an axis that is drawn in another unit than it is written in.

    Parameters
    ----------
    low, high : float
        Ends of the axis, in the unit that is written.

    Returns
    -------
    tuple of float
        At most `MOST_SPEEDS`, rising.
    """
    step = next((step for step in MPH if (high - low) / step < MOST_SPEEDS), MPH[-1])
    return tuple(float(step * i) for i in range(math.ceil(low / step), math.floor(high / step) + 1))
