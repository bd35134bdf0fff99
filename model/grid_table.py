"""What the grid of solved motions came to: a table, one row a solve, and how far each lies from the clock law.

    D = ln(re-solved / re-solved own throw) - ln(clock law / clock law's own throw)

of every readout of every reading: nothing where the clock law holds. The table (`motion_grid.csv`) keeps what was read
off each solved motion, so that D follows the program's clock law whatever becomes of it; `levelpeak solve-grid` makes
it.
"""

import csv
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import numpy as np
from numpy.typing import NDArray

from model.ball import Ball, beyond_the_hand_m
from model.band_table import KEYS, Key
from model.chain import angular_velocities, frames_of
from model.channels import CHANNELS, INDEX, READINGS
from model.identity import throw_loads
from model.motion import PHASES, Motion
from model.motion_grid import BODIES, Task, problem_of
from model.readouts import PhaseReadouts, Readouts, read, read_curves
from model.segments import arm_of
from model.solve_motion import Solution
from model.solve_recipe import REFERENCE_BALL, Throwing
from model.throw import Throw, curves

Array = NDArray[np.float64]
ONE_HUMP = 0.05  # largest second rise of a sensible varus curve, as a share of its peak (the targets of the reference)
FLATTEST = 0.265  # largest share of the time to release above 90 % of the peak; 0.18 in the reference motion


@dataclass(frozen=True)
class Row:
    """One solve.

    Attributes
    ----------
    solved_on : str
        Date, ISO 8601.
    cost, landmark_sd : float
        Half the sum of squares, and root mean square distance from the landmarks in their spreads.
    second_rise, top_share : float
        Of the varus curve before release: largest second rise as a share of the peak, and share of the time above 90 %.
    read : dict of (str, str) to float
        By reading and readout, SI; NaN where there is none.
    """

    task: Task
    solved_on: str
    evaluations: int
    cost: float
    landmark_sd: float
    second_rise: float
    top_share: float
    read: dict[Key, float]

    @property
    def sensible(self) -> bool:
        """Whether it is a throw as throws are: one hump, and no flat top."""
        return self.second_rise <= ONE_HUMP and self.top_share <= FLATTEST

    def logs(self) -> Array:
        """Natural logarithm of the size of what was read, in the order of `KEYS`; NaN where there is nothing."""
        return _logs(self.read[key] for key in KEYS)


def _logs(values: Iterable[float]) -> Array:
    sizes = np.abs(np.fromiter(values, dtype=float))
    return np.log(np.where(sizes > 0.0, sizes, np.nan))


def read_motion(motion: Motion, throwing: Throwing) -> dict[str, PhaseReadouts]:
    """Read every quantity off a motion run at a throw's own clock, by the full recursion.

    Returns
    -------
    dict of str to PhaseReadouts
        By key of `channels.READINGS`, over phase.
    """
    loads = _loads(motion, throwing)
    turning = angular_velocities(frames_of(motion.state(PHASES)))
    found = {}
    for key, reading in READINGS.items():
        turn = CHANNELS[reading.channel].turns
        rate = None if turn is None else reading.sign * turning[turn] * motion.duration_s
        curve = reading.sign * loads[:, INDEX[reading.channel]]
        found[key] = read(PHASES, curve, window=(reading.start_phase, reading.end_phase), rate=rate)
    return found


def _loads(motion: Motion, throwing: Throwing) -> Array:
    arm, beyond_m = arm_of(throwing.person), beyond_the_hand_m(throwing.ball.diameter_m)
    return throw_loads(motion, arm, throwing.ball.mass_kg, beyond_m, throwing.clock, PHASES)


def row_of(task: Task, solution: Solution, solved_on: str) -> Row:
    """Read a solved task.

    Parameters
    ----------
    solved_on : str
        Date, ISO 8601.
    """
    throwing = problem_of(task)[1]
    motion = solution.motion
    varus = _loads(motion, throwing)[PHASES <= 1.0, INDEX["varus"]]
    top = int(varus.argmax())
    sides = (varus[top:], varus[top::-1])
    second_rise = max(float((side - np.minimum.accumulate(side)).max()) for side in sides) / float(varus[top])
    phase_s = motion.duration_s / throwing.clock
    read_off = {key: found.in_time(phase_s) for key, found in read_motion(motion, throwing).items()}
    return Row(
        task,
        solved_on,
        solution.evaluations,
        sum(solution.cost.values()),
        float(np.sqrt(np.mean([z**2 for _, z in solution.landmark_z]))),
        second_rise,
        float(np.mean(varus > 0.9 * varus[top])),
        _values(read_off),
    )


def _values(found: dict[str, Readouts]) -> dict[Key, float]:
    return {(key, field): float(getattr(found[key], field)) for key, field in KEYS}


def differences(rows: Iterable[Row]) -> Iterator[tuple[Row, Array]]:
    """How far each solve lies from the clock law.

    Parameters
    ----------
    rows : iterable of Row
        Each body's and recipe's own throw among them.

    Yields
    ------
    Row
        All but the own throws.
    ndarray (K,)
        D in the order of `KEYS`; NaN where a readout is not there.
    """
    rows = tuple(rows)
    own = {row.task.key: row for row in rows if row.task == row.task.own}
    for row in rows:
        if row.task.key not in own:
            law, start = _clock_law(row.task), _clock_law(row.task.own)
            yield row, row.logs() - own[row.task.own.key].logs() - law + start


@cache
def _law_of(body: str, mass_kg: float, speed_m_s: float) -> Array:
    found = curves(Throw(BODIES[body].person, Ball(mass_kg, REFERENCE_BALL.diameter_m), speed_m_s))
    return _logs(_values({key: read_curves(found, key) for key in READINGS}).values())


def _clock_law(task: Task) -> Array:
    return _law_of(task.body, task.mass_kg, task.speed_m_s)


_TASK = ("body", "recipe", "mass_kg", "speed_m_s", "alpha", "beta", "duration", "held_out")
_FACTS = ("solved_on", "evaluations", "cost", "landmark_sd", "second_rise", "top_share")
COLUMNS = (*_TASK, *_FACTS, *(f"{key}.{field}" for key, field in KEYS))


def cells_of(row: Row) -> list[str]:
    """Write a row.

    Returns
    -------
    list of str
        For each of `COLUMNS`; numbers read off to four digits, nothing where there is none.
    """
    task, facts = row.task, row
    numbers = [f"{getattr(task, name):.6g}" for name in _TASK[2:7]]
    told = [f"{getattr(facts, name):.4g}" for name in _FACTS[2:]]
    read_off = ["" if np.isnan(row.read[key]) else f"{row.read[key]:.4g}" for key in KEYS]
    head = [task.body, task.recipe, *numbers, str(int(task.held_out)), row.solved_on, str(row.evaluations)]
    return [*head, *told, *read_off]


def parse_rows(lines: Iterable[str], tasks: Iterable[Task]) -> tuple[Row, ...]:
    """Read a table.

    Parameters
    ----------
    lines : iterable of str
        The lines of a CSV file with `COLUMNS`.
    tasks : iterable of Task
        Those that count; rows of others are passed over.

    Returns
    -------
    tuple of Row
        In the order of the file.
    """
    known = {_name(task): task for task in tasks}
    found = []
    for cells in csv.DictReader(lines):
        task = known.get(tuple(cells[name] for name in _TASK[:7]))
        if task is None:
            continue
        read_off = {
            (key, field): float(cells[f"{key}.{field}"]) if cells[f"{key}.{field}"] else np.nan for key, field in KEYS
        }
        cost, landmark_sd, second_rise, top_share = (float(cells[name]) for name in _FACTS[2:])
        count = int(cells["evaluations"])
        found.append(Row(task, cells["solved_on"], count, cost, landmark_sd, second_rise, top_share, read_off))
    return tuple(found)


def _name(task: Task) -> tuple[str, ...]:
    return (task.body, task.recipe, *(f"{getattr(task, name):.6g}" for name in _TASK[2:7]))


def stored_lines() -> list[str]:
    """The lines of the table that comes with the program."""
    return files("model").joinpath("motion_grid.csv").read_text(encoding="utf-8").splitlines()
