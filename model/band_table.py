"""The structural band's numbers: which readouts have one, what is not known of a movement, and how large it is.

`structural_band.csv` is what `levelpeak solve-grid` fitted (`band_fit`); `structural_field` draws from it.
"""

import csv
from collections.abc import Iterable
from dataclasses import dataclass, fields
from functools import cache
from importlib.resources import files

import numpy as np

from model.channels import CHANNELS, READINGS

Key = tuple[str, str]  # a reading and a readout of it

FIELDS = ("peak", "loaded_s", "half_height_s", "area", "rise_rate", "work_in_j", "work_out_j")
"""The readouts that have a band, by their names in `readouts.Readouts`."""

KEYS: tuple[Key, ...] = tuple(
    (key, field)
    for key, reading in READINGS.items()
    for field in FIELDS
    if CHANNELS[reading.channel].turns is not None or not field.startswith("work")
)

ALPHA_MEAN, ALPHA_SD = 0.8, 0.45  # tolerance of torque goes as e^(alpha x) with the ball's mass (judgement)
LACK_MEAN, LACK_SD = 0.1, 0.2  # 1 - beta: it goes as s^(2 beta) with speed; effort studies, 4-effort-distance-09 to -12
TAU_SD = 0.4  # duration goes as v^-(1 + tau) (judgement)
SHARE_SQUARE, SHARE_MEAN = (
    1.0 / 3.0,
    0.5,
)  # of the share of the adaptation to mass that is made: even, 0 to 1 (judgement)
SOLVED_MASS_KG = (0.095, 0.470)  # where the differences are close to linear
SOLVED_Y = 0.5


@dataclass(frozen=True)
class Spread:
    """The band of one readout.

    Attributes
    ----------
    a0, a1, b0, b1, g : float
        The law of D.
    rest_x, rest_y : float
        Root mean square of what other recipes and bodies add.
    size_x, size_y : float
        S of the motion: of ln R for each unit of x and of y, root mean square about zero.
    misfit : float
        Root mean square of D about the law.
    solves : int
        Sensible solves it was fitted to; too few leave all others NaN.
    """

    a0: float
    a1: float
    b0: float
    b1: float
    g: float
    rest_x: float
    rest_y: float
    size_x: float
    size_y: float
    misfit: float
    solves: int

    @property
    def mean_slopes(self) -> tuple[float, float]:
        """Slopes of D in x, at the full share, and in y, at the mean tolerances."""
        return self.a0 + self.a1 * ALPHA_MEAN, self.b0 + self.b1 * LACK_MEAN

    @property
    def factor_variances(self) -> tuple[float, float]:
        """Variances of the factors' parts about their means, for each unit of x2 and of y2."""
        at_mean, _ = self.mean_slopes
        square = at_mean**2 + (self.a1 * ALPHA_SD) ** 2
        in_x = SHARE_SQUARE * square - (SHARE_MEAN * at_mean) ** 2
        return in_x, (self.b1 * LACK_SD) ** 2 + (self.g * TAU_SD) ** 2

    @property
    def along(self) -> tuple[float, float]:
        """What fills S along the mean adaptation, with its sign, for each unit of x and of y."""
        rests, sizes = (self.rest_x, self.rest_y), (self.size_x, self.size_y)
        found = [
            np.copysign(np.sqrt(max(size**2 - variance - rest**2, 0.0)), slope)
            for size, variance, rest, slope in zip(sizes, self.factor_variances, rests, self.mean_slopes, strict=True)
        ]
        return float(found[0]), float(found[1])


_NAMES = tuple(field.name for field in fields(Spread))


def band_lines(band: dict[Key, Spread]) -> list[list[str]]:
    """Write a band as a table.

    Parameters
    ----------
    band : dict of (str, str) to Spread
        By reading and readout.

    Returns
    -------
    list of list of str
        A line of names, then one for each readout; nothing where too few solves have it.
    """
    lines = [["reading", "readout", *_NAMES]]
    for (reading, readout), spread in band.items():
        values = (getattr(spread, name) for name in _NAMES)
        lines.append([reading, readout, *("" if np.isnan(value) else f"{value:.5g}" for value in values)])
    return lines


def parse_band(lines: Iterable[str]) -> dict[Key, Spread]:
    """Read a band.

    Parameters
    ----------
    lines : iterable of str
        Of the CSV file that `band_lines` makes.

    Returns
    -------
    dict of (str, str) to Spread
        By reading and readout.
    """
    found = {}
    for cells in csv.DictReader(lines):
        numbers = [float(cells[name] or "nan") for name in _NAMES[:-1]]
        a0, a1, b0, b1, g, rest_x, rest_y, size_x, size_y, misfit = numbers
        found[cells["reading"], cells["readout"]] = Spread(
            a0, a1, b0, b1, g, rest_x, rest_y, size_x, size_y, misfit, int(cells["solves"])
        )
    return found


@cache
def stored_band() -> dict[Key, Spread]:
    """The band that comes with the program.

    Returns
    -------
    dict of (str, str) to Spread
        By reading and readout.
    """
    text = files("model").joinpath("structural_band.csv").read_text(encoding="utf-8")
    return parse_band(text.splitlines())
