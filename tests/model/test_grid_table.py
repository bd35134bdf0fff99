"""The table of solves: read back as written, complete, and told apart from the clock law by hand for one row."""

import csv
import io

import numpy as np
import pytest

from model.ball import Ball
from model.band_table import KEYS
from model.grid_table import COLUMNS, cells_of, differences, parse_rows, stored_lines
from model.motion_grid import BODIES, own_throw, tasks
from model.readouts import read_curves
from model.throw import Throw, curves

TASKS = tasks()
ROWS = parse_rows(stored_lines(), TASKS)


def text_of(rows) -> str:
    made = io.StringIO()
    csv.writer(made, lineterminator="\n").writerows([COLUMNS, *map(cells_of, rows)])
    return made.getvalue()


def test_the_stored_table_holds_every_task_once_in_order():
    assert [row.task for row in ROWS] == list(TASKS)
    assert all(len(row.solved_on) == 10 and row.evaluations > 0 for row in ROWS)


def test_written_again_the_table_is_the_stored_one():
    assert text_of(ROWS).splitlines() == stored_lines()


def test_rows_of_other_tasks_are_passed_over():
    assert parse_rows(text_of(ROWS[:5]).splitlines(), TASKS[2:]) != ()
    assert [row.task for row in parse_rows(text_of(ROWS[:5]).splitlines(), TASKS[2:])] == list(TASKS[2:5])


def test_a_difference_is_the_ratio_solved_over_the_ratio_of_the_clock_law():
    row = next(row for row in ROWS if row.task.body == "woman" and row.task != row.task.own)
    own = next(one for one in ROWS if one.task == own_throw("woman"))
    person, task = BODIES["woman"].person, row.task
    law, start = (
        read_curves(curves(Throw(person, Ball(one.mass_kg), one.speed_m_s)), "varus") for one in (task, own.task)
    )
    expected = np.log(row.read["varus", "area"] / own.read["varus", "area"]) - np.log(law.area / start.area)
    (d,) = [found for one, found in differences([own, row]) if one is row]
    assert d[KEYS.index(("varus", "area"))] == pytest.approx(expected, abs=1e-12)


def test_what_a_solve_does_not_have_is_no_number():
    lacking = [key for key in KEYS if np.isnan(ROWS[0].read[key])]
    assert ("elbow_flexion", "rise_rate") in lacking  # the elbow is flexed against from foot contact on
    assert ("varus", "peak") not in lacking
