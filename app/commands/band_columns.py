"""Columns of what is not known: the readouts that have a band, as `compare` and `readouts --band` call them.

A readout's stem is its column in `readouts` without the unit: peak_varus, loaded, area, internal_rotation_loaded.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from app.commands.readout_columns import MAIN, QUANTITIES, Column
from model.band_table import KEYS, Key
from model.channels import READINGS
from model.drawn_throws import Subject, Thrown
from model.solve_recipe import REFERENCE_BALL
from model.structural_band import levels
from model.throw import Throw

FIRST = (
    "peak_varus",
    "loaded",
    "half_height",
    "area",
    "rise",
    "peak_internal_rotation",
    "peak_shoulder_force",
    "peak_elbow_force",
)
"""The readouts given unless all are asked for."""

_NAMES = {
    "peak": "peak",
    "loaded_s": "loaded",
    "half_height_s": "half_height",
    "area": "area",
    "rise_rate": "rise",
    "work_in_j": "work_in",
    "work_out_j": "work_out",
}


@dataclass(frozen=True)
class BandReadout:
    """A readout with a band: its stem, its unit in the columns, its key in the model, and the factor from SI."""

    stem: str
    unit: str
    key: Key
    factor: float


def band_readouts(*, every: bool) -> tuple[BandReadout, ...]:
    """List the readouts that have a band.

    Parameters
    ----------
    every : bool
        Of every quantity, or only those of `FIRST`.

    Returns
    -------
    tuple of BandReadout
        Those of `FIRST` first.
    """
    order = [*MAIN, *(key for key in READINGS if key not in MAIN)]
    known = {one.stem: one for one in (_readout_of(key) for key in sorted(KEYS, key=lambda k: order.index(k[0])))}
    first = tuple(known.pop(stem) for stem in FIRST)
    return (*first, *known.values()) if every else first


def _readout_of(key: Key) -> BandReadout:
    reading, readout = key
    quantity, torque = QUANTITIES[reading], READINGS[reading].unit == "N·m"
    name = _NAMES[readout]
    if name == "peak":
        stem = f"peak_{quantity}"
    else:
        stem = name if reading == "varus" else f"{quantity}_{name}"
    if readout.endswith("_s"):
        return BandReadout(stem, "ms", key, 1e3)
    if name.startswith("work"):
        return BandReadout(stem, "j", key, 1.0)
    units = {"peak": ("nm", "n"), "area": ("nms", "ns"), "rise": ("nm_s", "n_s")}[name]
    return BandReadout(stem, units[0] if torque else units[1], key, 1.0)


def interval_names() -> frozenset[str]:
    """Names of all columns that `interval_columns` may give."""
    return frozenset(f"{one.stem}_{end}_{one.unit}" for one in band_readouts(every=True) for end in ("low", "high"))


def interval_columns(
    throws: Sequence[Throw], *, every: bool, progress: Callable[[int], None] | None = None
) -> tuple[Column, ...]:
    """Compute the 90 % intervals of throws' readouts.

    Nothing but the throw itself is known of its athlete here: the own ball is taken as the one that the motion was
    solved with (145 g), and the speed as no slower than the athlete can throw this ball.

    Parameters
    ----------
    throws : sequence of Throw
    every : bool
        Of every quantity, or only those of `FIRST`.
    progress : function, optional
        Told the number of throws done so far.

    Returns
    -------
    tuple of Column
        Low and high of each readout; NaN where there is none.
    """
    readouts = band_readouts(every=every)
    keys = [one.key for one in readouts]
    ends = np.full((len(throws), len(readouts), 2), np.nan)
    for i, throw in enumerate(throws):
        subject = Subject(throw.person, REFERENCE_BALL, throw.speed_m_s)
        found = levels(subject, Thrown(throw.ball, throw.speed_m_s), keys)
        for j, one in enumerate(readouts):
            ends[i, j] = one.factor * np.array([found[one.key].low, found[one.key].high])
        if progress is not None:
            progress(i + 1)
    return tuple(
        _column(f"{one.stem}_{end}_{one.unit}", one, ends[:, j, k])
        for j, one in enumerate(readouts)
        for k, end in enumerate(("low", "high"))
    )


def _column(name: str, one: BandReadout, values: np.ndarray) -> Column:
    return Column(name, one.key[0], lambda *_: values)
