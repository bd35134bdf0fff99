"""Readouts of many throws: each arm's identity is found once, and all its throws are then matrix products."""

from collections.abc import Callable, Sequence
from dataclasses import fields
from operator import attrgetter

import numpy as np
from numpy.typing import NDArray

from model.ball import beyond_the_hand_m
from model.channels import INDEX
from model.identity import PathLoads, path_loads_of
from model.motion import reference_motion
from model.person import Person
from model.readouts import LOADED_SHARE, Readouts, path_turning_rate, read, reading_of
from model.segments import arm_of, stack
from model.throw import Throw

Array = NDArray[np.float64]

ARMS_AT_ONCE = 64  # the recursion over many arms: some 40 MB
NO_MEASURE = ("handedness", "still_growing")  # of a person: the arm does not depend on them
ROWS_AT_ONCE = 512  # curves held at once: some 25 MB for a dozen channels


def read_throws(
    throws: Sequence[Throw],
    keys: Sequence[str],
    *,
    share: float = LOADED_SHARE,
    above_nm: float | None = None,
    progress: Callable[[int], None] | None = None,
) -> dict[str, Readouts]:
    """Read quantities off many throws, as `readouts.read_curves` reads each.

    Parameters
    ----------
    throws : sequence of Throw
        In any order; those of one arm share its identity, and a left-hander's readouts are a right-hander's.
    keys : sequence of str
        What to read, as for `readouts.reading_of`.
    share : float
        Share of the own peak of "time loaded".
    above_nm : float, optional
        Level of "time above" of torques (N m); forces have none.
    progress : function, optional
        Told the number of throws read so far, now and then.

    Returns
    -------
    dict of str to Readouts
        For each key, arrays (len(throws),) in the order of the throws.

    Raises
    ------
    InputError
        If a key is unknown, or share or level are not as `readouts.read` wants them.
    """
    readings = {key: reading_of(key) for key in keys}
    channels = list(dict.fromkeys(reading.channel for reading in readings.values()))
    found = {key: _blank(len(throws)) for key in readings}  # arm after arm
    groups = list(_by_arm(throws).values())
    done = 0
    for first in range(0, len(groups), ARMS_AT_ONCE):
        some = groups[first : first + ARMS_AT_ONCE]
        loads = _loads_of([throws[rows[0]] for rows in some])
        basis = _basis(loads, channels)
        speed_m_s = np.array([throws[i].speed_m_s for rows in some for i in rows])
        mass_kg = np.array([throws[i].ball.mass_kg for rows in some for i in rows])
        arm = np.repeat(np.arange(len(some)), [len(rows) for rows in some])
        for part in np.array_split(np.arange(arm.size), -(-arm.size // ROWS_AT_ONCE)):
            clock = speed_m_s[part] / loads.path_speed_m_s[arm[part]]
            curves = _curves(basis, arm[part], mass_kg[part], clock)
            place = slice(done, done + part.size)
            for key, reading in readings.items():
                curve = curves[channels.index(reading.channel)]
                readouts = read(
                    loads.phase,
                    curve if reading.sign > 0 else -curve,
                    window=(reading.start_phase, reading.end_phase),
                    share=share,
                    above=above_nm if reading.unit == "N·m" else None,
                    rate=path_turning_rate(reading),
                ).in_time(loads.duration_s / clock)
                for name, values in vars(readouts).items():
                    getattr(found[key], name)[place] = values
            done += part.size
            if progress is not None:
                progress(done)
    back = np.argsort([i for rows in groups for i in rows])
    return {key: Readouts(*(values[back] for values in vars(readouts).values())) for key, readouts in found.items()}


def _blank(count: int) -> Readouts:
    kinds = {"peak_at_edge": bool}
    return Readouts(**{field.name: np.empty(count, kinds.get(field.name, float)) for field in fields(Readouts)})


def _by_arm(throws: Sequence[Throw]) -> dict[tuple[object, ...], list[int]]:
    """Places in the list of the throws of each arm; an arm is a person's measures and a ball's diameter."""
    measures = attrgetter(*(field.name for field in fields(Person) if field.name not in NO_MEASURE))
    groups: dict[tuple[object, ...], list[int]] = {}
    for i, throw in enumerate(throws):
        groups.setdefault((measures(throw.person), throw.ball.diameter_m), []).append(i)
    return groups


def _loads_of(throws: Sequence[Throw]) -> PathLoads:
    arms = stack([arm_of(throw.person) for throw in throws])
    beyond_m = np.array([beyond_the_hand_m(throw.ball.diameter_m) for throw in throws])
    return path_loads_of(reference_motion(), arms, beyond_m)


def _basis(loads: PathLoads, channels: Sequence[str]) -> Array:
    """The four curves of the identity (arms, channels, 4, N), for the channels named only."""
    four = (loads.arm, loads.ball, loads.arm_weight, loads.ball_weight)
    return np.stack([np.stack([part[..., INDEX[key]] for part in four], axis=1) for key in channels], axis=1)


def _curves(basis: Array, arm: NDArray[np.intp], mass_kg: Array, clock: Array) -> Array:
    """Curves (channels, rows, N) of throws, those of one arm next to each other."""
    terms = np.stack([clock**2, clock**2 * mass_kg, np.ones_like(clock), mass_kg], axis=1)
    curves = np.empty((basis.shape[1], arm.size, basis.shape[-1]))
    starts = np.flatnonzero(np.diff(arm, prepend=-1))
    for start, end in zip(starts, [*starts[1:], arm.size], strict=True):
        np.matmul(terms[start:end], basis[arm[start]], out=curves[:, start:end])
    return curves
