"""The solver of the reference motion: its Jacobian, and that solving again finds the same motion."""

from dataclasses import replace

import numpy as np
import pytest

from model.channels import INDEX
from model.identity import throw_loads
from model.motion import PHASES, reference_motion
from model.segments import arm_of
from model.solve_motion import MotionProblem, joined, solve
from model.solve_recipe import REFERENCE_PERSON, Recipe, landmarks
from tests.model.motion_facts import assert_varus_and_internal_rotation_reach_their_targets, facts_of


def loads_of(motion) -> np.ndarray:
    return throw_loads(motion, arm_of(REFERENCE_PERSON), 0.145, 0.073 / 4, 1.0, PHASES)


def test_the_jacobian_is_exact():
    # oracle: central differences of the residuals along random directions, off the kinks of the hinges
    problem = MotionProblem(Recipe(intervals=12))
    rng = np.random.default_rng(7)
    x = problem.start()
    for _ in range(4):
        direction = rng.normal(size=x.size)
        step = 1e-6
        ahead, behind = (joined(list(problem.blocks(x + s * step * direction).values())).value for s in (1, -1))
        here = joined(list(problem.blocks(x).values()))
        numeric, exact = (ahead - behind) / (2 * step), here.slope @ direction
        # 1e-6: cancellation of central differences with residuals of the order of 100
        assert np.median(np.abs(numeric - exact)) <= 1e-6 * np.abs(exact).max()
        assert np.mean(np.abs(numeric - exact) > 1e-5 * np.abs(exact).max()) < 0.01


def test_every_landmark_of_the_chain_is_used():
    marks = landmarks()
    assert len(marks) == 63  # rows of motion_landmarks.csv that name an angle of the chain
    assert {mark.coordinate for mark in marks} == set(Recipe().jerk_weight)


def test_no_varus_or_internal_rotation_torque_is_aimed_at():
    """Both stand in the recipe as penalties on size and roughness only: no ceiling, no target."""
    assert {key for key, *_ in Recipe().ceilings}.isdisjoint({"varus", "internal_rotation"})
    heavier = replace(Recipe(), intervals=12, torque_scale_nm={k: 2 * v for k, v in Recipe().torque_scale_nm.items()})
    problem, x = MotionProblem(heavier), MotionProblem(heavier).start()
    light, full = problem.blocks(x)["torques"], MotionProblem(Recipe(intervals=12)).blocks(x)["torques"]
    n = 7 * Recipe().phases
    assert light.value[:n] == pytest.approx(0.5 * full.value[:n], rel=1e-12)


@pytest.mark.slow
def test_solved_again_the_curves_are_the_stored_ones():
    stored, again = loads_of(reference_motion()), loads_of(solve().motion)
    for key, i in INDEX.items():
        difference = np.abs(again[:, i] - stored[:, i]).max()
        assert difference <= 0.005 * np.abs(stored[:, i]).max(), key  # 0.5 % of the channel's peak


@pytest.mark.slow
@pytest.mark.parametrize("seed", [1, 2])
def test_a_start_moved_by_a_fifth_of_a_radian_finds_the_same_motion(seed: int):
    problem = MotionProblem(Recipe())
    moved = problem.start() + np.random.default_rng(seed).normal(scale=0.2, size=problem.start().size)
    stored, again = loads_of(reference_motion()), loads_of(solve(start=moved).motion)
    a, b = stored[:, INDEX["varus"]], again[:, INDEX["varus"]]
    assert np.abs(a - b).max() <= 0.005 * np.abs(a).max()


@pytest.mark.slow
@pytest.mark.parametrize("intervals", [12, 16, 20, 32])
def test_the_unfitted_torques_reach_their_targets_at_any_fineness(intervals: int):
    assert_varus_and_internal_rotation_reach_their_targets(facts_of(solve(Recipe(intervals=intervals)).motion))
