"""What the grid asks of the solver: which throws, with which tolerances; solving again finds what is stored."""

from dataclasses import replace

import numpy as np
import pytest

from model.band_table import FIELDS
from model.grid_table import differences, parse_rows, read_motion, row_of, stored_lines
from model.motion import reference_motion
from model.motion_grid import BODIES, OWN_MASS_KG, Task, mu_kg, own_throw, problem_of, recipes, solve_task, tasks
from model.solve_motion import MotionProblem
from model.solve_recipe import REFERENCE_THROWING, Recipe
from model.throw import Throw, clock_of, curves

TASKS = tasks()


def test_every_task_is_asked_once_and_own_throws_come_first():
    keys = [task.key for task in TASKS]
    assert len(set(keys)) == len(keys)
    own = [task == task.own for task in TASKS]
    assert own == sorted(own, reverse=True)
    assert {task.own.key for task in TASKS} <= set(keys)


def test_the_grid_spans_what_was_asked_for():
    man = [task for task in TASKS if (task.body, task.recipe, task.held_out) == ("man", "recipe", False)]
    assert (min(t.mass_kg for t in man), max(t.mass_kg for t in man)) == (0.095, 0.800)
    assert min(t.y for t in man if t.mass_kg == OWN_MASS_KG) == pytest.approx(np.log(0.5))
    assert {t.duration for t in man} == {0.85, 1.0, 1.15}
    assert {(t.alpha, t.beta) for t in man} >= {(1.0, 1.0), (0.0, 0.0), (0.0, 1.0)}
    assert {task.body for task in TASKS} == {"man", "woman", "boy"}
    assert {task.recipe for task in TASKS} == set(recipes())
    assert BODIES["boy"].person.age_years == 13.0


def test_x_and_y_are_zero_for_the_own_ball_at_full_effort():
    for body, thrower in BODIES.items():
        own = own_throw(body)
        assert (own.x, own.y) == (0.0, 0.0)
        heavy = replace(own, mass_kg=0.470, speed_m_s=0.8 * thrower.own_speed_m_s)
        mu = mu_kg(body)
        assert heavy.x == pytest.approx(np.log((0.470 + mu) / (0.145 + mu)))
        assert heavy.y == pytest.approx(np.log(0.8))


def test_the_own_throw_of_the_man_is_the_reference_problem():
    recipe, throwing = problem_of(own_throw("man"))
    assert recipe == Recipe()
    assert throwing == REFERENCE_THROWING


def test_p_tolerates_as_much_as_the_clock_law_predicts_to_first_order():
    """R s2: the moment goes as m + mu, and as the square of the clock."""
    task = Task("man", "recipe", 0.275, 30.0)
    recipe, throwing = problem_of(task)
    mu, s = mu_kg("man"), 30.0 / 37.0
    factor = (0.275 + mu) / (0.145 + mu) * s**2
    assert recipe.torque_scale_nm["varus"] == pytest.approx(11.5 * factor)
    assert recipe.force_ceiling_n["shoulder_proximal"] == pytest.approx(1000.0 * factor)
    assert throwing.clock == pytest.approx(s)
    assert recipe.release_speed_m_s == 30.0
    unchanged = problem_of(replace(task, alpha=0.0, beta=0.0))[0]
    assert unchanged.torque_scale_nm == Recipe().torque_scale_nm


def test_another_body_is_asked_for_its_own_size():
    """Its clock releases the ball at its own speed; tolerances go with what the clock law says that its throw needs."""
    for body in ("woman", "boy"):
        recipe, throwing = problem_of(own_throw(body))
        thrown = Throw(BODIES[body].person, throwing.ball, BODIES[body].own_speed_m_s)
        assert throwing.clock == pytest.approx(clock_of(thrown))
        found, reference = (curves(t) for t in (thrown, Throw(REFERENCE_THROWING.person, throwing.ball, 37.0)))
        peaks = [one.values["varus"][one.phase <= 1.0].max() for one in (found, reference)]
        assert recipe.torque_scale_nm["varus"] / 11.5 == pytest.approx(peaks[0] / peaks[1])
        forces = [one.values["shoulder_proximal"].max() for one in (found, reference)]
        assert recipe.force_scale_n / 50.0 == pytest.approx(forces[0] / forces[1])


def test_a_slower_throw_with_the_own_ball_and_s2_is_the_same_problem_but_for_weight():
    """Residuals of kinematics are equal; those of torque differ by weight over s2, which knows no speed."""
    x = reference_motion().coefficients.ravel()
    full = MotionProblem(Recipe()).blocks(x)
    apart = {}
    for s in (0.5, 0.8):
        recipe, throwing = problem_of(Task("man", "recipe", OWN_MASS_KG, 37.0 * s))
        slow = MotionProblem(recipe, throwing).blocks(x)
        for block in ("landmarks", "release", "path"):
            assert slow[block].value == pytest.approx(full[block].value, abs=1e-9), block
            assert slow[block].slope == pytest.approx(full[block].slope, abs=1e-7 * np.abs(full[block].slope).max())
        apart[s] = (slow["torques"].value - full["torques"].value) / (1.0 / s**2 - 1.0)
    assert apart[0.5] == pytest.approx(apart[0.8], abs=1e-9)


def test_the_jacobian_of_another_throw_is_exact():
    # oracle: central differences along a random direction, off the kinks of the hinges
    recipe, throwing = problem_of(Task("boy", "recipe", 0.360, 18.0, 0.4, 0.9, 1.1))
    problem = MotionProblem(recipe, throwing)
    x = reference_motion().coefficients.ravel()
    direction = np.random.default_rng(3).normal(size=x.size)
    step = 1e-6
    for name, here in problem.blocks(x).items():
        ahead, behind = (problem.blocks(x + sign * step * direction)[name].value for sign in (1.0, -1.0))
        exact = here.slope @ direction
        close = np.abs((ahead - behind) / (2 * step) - exact) <= 1e-5 * np.abs(exact).max()
        assert close.mean() > 0.99, name


def test_a_longer_duration_runs_the_same_clock_over_more_time():
    task = Task("man", "recipe", OWN_MASS_KG, 37.0, duration=1.15)
    recipe, throwing = problem_of(task)
    assert recipe.duration_s == pytest.approx(1.15 * 0.145)
    assert throwing.clock == 1.0
    assert MotionProblem(recipe, throwing).landmarks == MotionProblem(Recipe()).landmarks


STORED = {row.task.key: row for row in parse_rows(stored_lines(), TASKS)}


@pytest.mark.slow
@pytest.mark.parametrize(
    "key",
    [
        "man|recipe|0.2750|32.1505|1.0000|1.0000|1.0000",
        "man|recipe|0.4700|27.0833|0.0000|0.0000|1.0000",
        "man|recipe|0.1450|31.4500|0.0000|0.0000|1.0000",
    ],
)
@pytest.mark.parametrize("moved_rad", [0.0, 0.2])
def test_solved_again_a_throw_reads_as_stored(key: str, moved_rad: float):
    task = STORED[key].task
    start = reference_motion().coefficients.ravel()
    start = start + np.random.default_rng(5).normal(scale=moved_rad, size=start.size)
    row = row_of(task, solve_task(task, start), "2026-01-01")
    for field in FIELDS[:5]:
        assert row.read["varus", field] == pytest.approx(STORED[key].read["varus", field], rel=0.01), field


def test_the_reference_motion_reads_as_the_stored_own_throw():
    found = read_motion(reference_motion(), REFERENCE_THROWING)["varus"].in_time(0.145)
    stored = STORED[own_throw("man").key]
    for field in FIELDS[:5]:
        assert float(getattr(found, field)) == pytest.approx(stored.read["varus", field], rel=0.005), field


def test_what_is_not_sensible_is_what_was_found_so_before():
    """k = 1 at half speed: a second hump (own ball and heavier). s2 at 800 g: a flat top."""
    rows = list(STORED.values())
    humps = [
        row
        for row in rows
        if (row.task.alpha, row.task.beta) == (0.0, 0.0) and row.task.recipe == "recipe" and row.task.y < -0.69
    ]
    assert humps
    assert not any(row.sensible for row in humps if row.task.mass_kg == OWN_MASS_KG)
    (flat,) = [row for row in rows if row.task.mass_kg == 0.8 and (row.task.alpha, row.task.beta) == (0.0, 1.0)]
    assert not flat.sensible
    assert np.mean([row.sensible for row in rows]) > 0.9


def test_differences_are_told_from_the_bodys_own_throw_by_the_same_recipe():
    rows = [STORED[key] for key in STORED if key.startswith(("man|recipe|", "man|12 intervals|"))]
    found = list(differences(rows))
    assert len(found) == len(rows) - 2
    for row, d in found[:3]:
        assert np.isfinite(d[:5]).all(), row.task.key
