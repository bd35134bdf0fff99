"""The mass axis: the balls of the rack are its ticks; round masses fill the gaps between them."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

ROUND_G = (1, 5, 10, 50, 100, 500, 1000)
MOST_STEPS = 60  # of one kind along the axis: finer ones are not looked at
AIRY = 1.7  # times the room of a written mass that a round one keeps from its neighbours
SAME_G = 0.05


@dataclass(frozen=True)
class Tick:
    """A tick of the mass axis: mass (g), and whether it is a ball of the rack."""

    mass_g: float
    rack: bool


def mass_ticks(
    rack_g: Sequence[float], ends_g: tuple[float, float], place: Callable[[float], float], room_px: float
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
    for step in reversed(ROUND_G):
        if (ends_g[1] - ends_g[0]) / step > MOST_STEPS:
            break
        for count in range(max(1, math.ceil(ends_g[0] / step)), math.floor(ends_g[1] / step) + 1):
            mass_g = float(count * step)
            if all(abs(mass_g - ball) > SAME_G for ball in rack_g) and fits(mass_g, AIRY):
                chosen.append(Tick(mass_g, False))
    return tuple(sorted(chosen, key=lambda tick: tick.mass_g))
