"""The result columns of levelpeak readouts.

A name is put together from a readout and a quantity, its unit last; those of the varus torque leave the quantity out
where the readout has a name of its own (loaded_ms, area_nms). An empty cell: there is no such number.

  peak_{quantity}_nm, _n               largest value, N·m or N
  peak_{quantity}_percent_bwh          the same, torques only, in per cent of body weight times height
  peak_{quantity}_before_release_ms    when it is reached, ms before release; negative after it
  peak_{quantity}_at_edge              1 if that is an end of the window, so that it may be higher beyond; else 0
  {quantity}_loaded_ms                 total time above 10 % (or --share-percent) of the throw's own peak
  {quantity}_above_ms                  total time above --above-nm; torques only, if asked for
  {quantity}_half_height_ms            total time above 50 % of the throw's own peak
  {quantity}_area_nms, _ns             area under the curve, N·m·s or N·s; not work
  {quantity}_rise_nm_s, _n_s           rise rate from 10 % to 90 % of the peak, N·m/s or N/s; empty if it starts loaded
  {quantity}_work_in_j                 work taken in while the joint turns against the torque, J, zero or negative;
  {quantity}_work_out_j                work given out while it turns along; both only where the joint really turns

Only what is positive in the direction named counts. Torques are read from foot contact to release, forces to the end of
the follow-through, and what is called braking from release on: the hand is empty there, so that only speed counts.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from app.units.conversion import array_from_si, percent_bwh
from model.channels import CHANNELS, READINGS, Reading
from model.readouts import Readouts

Array = NDArray[np.float64]

ERROR = "error"
QUANTITIES = {
    key: {
        "shoulder_proximal": "shoulder_force",
        "elbow_proximal": "elbow_force",
        "horizontal_abduction": "braking_horizontal_abduction",
        "shoulder_proximal_braking": "braking_shoulder_force",
        "shoulder_posterior_braking": "braking_shoulder_posterior_force",
        "elbow_proximal_braking": "braking_elbow_force",
    }.get(key, key if reading.unit == "N·m" else f"{key}_force")
    for key, reading in READINGS.items()
}
"""What each reading of the model is called in the columns; plain shoulder and elbow force are the proximal ones."""

FIRST = (
    "peak_varus_nm",
    "peak_varus_before_release_ms",
    "loaded_ms",
    "half_height_ms",
    "area_nms",
    "rise_nm_s",
    "peak_internal_rotation_nm",
    "peak_shoulder_force_n",
    "peak_elbow_force_n",
)
"""The columns that come first, before `ERROR`."""

MAIN = (
    "varus",
    "internal_rotation",
    "horizontal_adduction",
    "elbow_flexion",
    "horizontal_abduction",
    "shoulder_proximal",
    "elbow_proximal",
)
"""The readings given unless all are asked for."""

Size = tuple[Any, Any]  # arrays: body mass (kg) and stature (m) of each thrower


@dataclass(frozen=True)
class Column:
    """A result column.

    Attributes
    ----------
    name : str
        In the first line of the file.
    key : str
        The reading it comes from, a key of `READINGS`.
    values : function
        From the readouts of that reading and the throwers' sizes to the numbers (n,), in the column's unit; NaN where
        there is none.
    """

    name: str
    key: str
    values: Callable[[Readouts, Size], Array]


def columns_of(*, above: bool, every: bool) -> tuple[tuple[Column, ...], tuple[Column, ...]]:
    """List the result columns.

    Parameters
    ----------
    above : bool
        Whether a level of "time above" is given.
    every : bool
        Whether every quantity is wanted, or only those of `MAIN`.

    Returns
    -------
    tuple of Column, tuple of Column
        Those before and those after the column of errors.
    """
    found = {column.name: column for key in (READINGS if every else MAIN) for column in _columns_of(key, above)}
    first = tuple(found.pop(name) for name in FIRST)
    return first, tuple(found.values())


def result_names() -> frozenset[str]:
    """Names of all columns that a result may have, whatever is asked for."""
    first, others = columns_of(above=True, every=True)
    return frozenset((*(column.name for column in first + others), ERROR))


def _columns_of(key: str, above: bool) -> list[Column]:
    reading = READINGS[key]
    quantity = QUANTITIES[key]
    prefix = "" if key == "varus" else f"{quantity}_"
    torque = reading.unit == "N·m"
    unit, area, rise = ("nm", "nms", "nm_s") if torque else ("n", "ns", "n_s")
    peak = f"peak_{quantity}"
    found: dict[str, Callable[[Readouts, Size], Array]] = {f"{peak}_{unit}": lambda r, _: r.peak}
    if torque:
        found[f"{peak}_percent_bwh"] = lambda r, size: np.asarray(percent_bwh(r.peak, *size))
    found |= {
        f"{peak}_before_release_ms": lambda r, _: array_from_si(r.peak_before_release_s, "ms"),
        f"{peak}_at_edge": lambda r, _: r.peak_at_edge.astype(float),
        f"{prefix}loaded_ms": lambda r, _: array_from_si(r.loaded_s, "ms"),
    }
    if torque and above:
        found[f"{prefix}above_ms"] = lambda r, _: array_from_si(r.above_s, "ms")
    found |= {
        f"{prefix}half_height_ms": lambda r, _: array_from_si(r.half_height_s, "ms"),
        f"{prefix}area_{area}": lambda r, _: r.area,
        f"{prefix}rise_{rise}": lambda r, _: r.rise_rate,
    }
    if _turns(reading):
        found |= {f"{prefix}work_in_j": lambda r, _: r.work_in_j, f"{prefix}work_out_j": lambda r, _: r.work_out_j}
    return [Column(name, key, values) for name, values in found.items()]


def _turns(reading: Reading) -> bool:
    return CHANNELS[reading.channel].turns is not None


def quantities_in_words() -> str:
    """List the quantities as the columns call them, a line each; those of `MAIN` first.

    Returns
    -------
    str
    """
    width = max(map(len, QUANTITIES.values()))
    lines = {key: f"  {QUANTITIES[key]:{width}}  {READINGS[key].label}" for key in READINGS}
    main = [lines.pop(key) for key in MAIN]
    return "\n".join([*main, "with --all also", *lines.values()])
