"""Readouts of many throws: products of each arm's measures, one matrix product a channel, one reading of all rows."""

from collections.abc import Callable, Sequence
from dataclasses import fields
from operator import attrgetter

import numpy as np
from numpy.typing import NDArray

from model.ball import beyond_the_hand_m
from model.channels import CHANNELS, Reading
from model.path_basis import products_of_arm, products_of_ball, reference_basis
from model.person import Person
from model.readouts import LOADED_SHARE, Readouts, path_angular_velocity, read, reading_of
from model.segments import Arm, arm_of, stack
from model.throw import Throw

Array = NDArray[np.float64]

NO_MEASURE = ("handedness", "still_growing")  # of a person: the arm does not depend on them
ROWS_AT_ONCE = 256  # curves held at once: they stay in the processor's cache


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
    channels: dict[str, list[Reading]] = {}
    for reading in readings.values():
        channels.setdefault(reading.channel, []).append(reading)
    basis = reference_basis()
    found = {key: _blank(len(throws)) for key in readings}
    if not throws:
        return found
    arms, beyond_m, which = _arms_of(throws)
    of_arm, of_ball = products_of_arm(arms), products_of_ball(arms, beyond_m)
    clock = np.array([throw.speed_m_s for throw in throws]) / basis.path_speed_m_s(arms, beyond_m)[which]
    mass_kg = np.array([throw.ball.mass_kg for throw in throws])
    for start in range(0, len(throws), ROWS_AT_ONCE):
        rows = slice(start, start + ROWS_AT_ONCE)
        arm, ball, pace = of_arm[which[rows]], of_ball[which[rows]], clock[rows]
        for channel, of_channel in channels.items():
            samples = _samples(basis.phase, of_channel)
            curves = basis.curves(channel, arm, ball, mass_kg[rows], pace, samples)
            for reading in of_channel:
                rate = path_angular_velocity(reading)
                readouts = read(
                    basis.phase[samples],
                    curves if reading.sign > 0 else -curves,
                    window=(reading.start_phase, reading.end_phase),
                    share=share,
                    above=above_nm if CHANNELS[channel].unit == "N·m" else None,
                    rate=None if rate is None else rate[samples],
                ).in_time(basis.duration_s / pace)
                for name, values in vars(readouts).items():
                    getattr(found[reading.key], name)[rows] = values
        if progress is not None:
            progress(min(start + ROWS_AT_ONCE, len(throws)))
    return found


def _blank(count: int) -> Readouts:
    kinds = {"peak_at_edge": bool}
    return Readouts(**{field.name: np.empty(count, kinds.get(field.name, float)) for field in fields(Readouts)})


def _samples(phase: Array, readings: Sequence[Reading]) -> slice:
    """The samples that a channel's readings look at."""
    end = max(reading.end_phase for reading in readings)
    return slice(0, int(np.searchsorted(phase, end - 1e-9)) + 1)


def _arms_of(throws: Sequence[Throw]) -> tuple[Arm, Array, NDArray[np.intp]]:
    """The different arms with their balls' distances, and which of them each throw has."""
    measures = attrgetter(*(field.name for field in fields(Person) if field.name not in NO_MEASURE))
    places: dict[tuple[object, ...], int] = {}
    which = [places.setdefault((measures(t.person), t.ball.diameter_m), len(places)) for t in throws]
    first = {place: i for i, place in reversed(list(enumerate(which)))}
    some = [throws[first[place]] for place in range(len(places))]
    beyond_m = np.array([beyond_the_hand_m(throw.ball.diameter_m) for throw in some])
    return stack([arm_of(throw.person) for throw in some]), beyond_m, np.array(which)
