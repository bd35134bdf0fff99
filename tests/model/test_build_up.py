"""Plans, held against whole curves, exhaustive search, and small cases by hand."""

from dataclasses import replace
from itertools import pairwise, product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.ball import Ball
from model.build_up import (
    BACKWARD,
    METRICS,
    OFF_PATTERN,
    RISES,
    ROUNDING,
    NoPlan,
    Plan,
    PlanLimits,
    check_plan,
    steps_of,
)
from model.checks import InputError
from model.person import Person
from model.plan_nodes import Nodes, Order, nodes_of
from model.plan_search import costs, find_plan
from model.readouts import read_curves
from model.staircase import cheapest
from model.throw import Throw, curves
from tests.model.speed_cases import ADULT, OWN, RACK
from tests.model.start_cases import HEAVY, LIGHT, WHOLE_RACK, measured

FULL = (OWN, 1.0)
FEW = (LIGHT, OWN, Ball(0.275), HEAVY)
PEOPLE = (ADULT, Person("male", 1.50, 42.0, 12.0), Person("female", 1.70, 66.0, 22.0))


def anew(plan: Plan) -> list[dict[str, float]]:
    """Every metric of every step, read off whole curves."""
    found = []
    for step in plan.steps:
        thrown = curves(Throw(plan.person, step.ball, step.speed_m_s))
        elbow, shoulder, after = (
            read_curves(thrown, key) for key in ("varus", "internal_rotation", "horizontal_abduction")
        )
        found.append(
            {
                "rise_rate": elbow.rise_rate,
                "peak": elbow.peak,
                "shoulder_peak": shoulder.peak,
                "loaded_s": elbow.loaded_s,
                "area": elbow.area,
                "braking": after.peak,
                "speed": step.speed_m_s,
            }
        )
    return found


def scaled(factor: float) -> PlanLimits:
    return PlanLimits({key: factor * rise for key, rise in RISES.items()})


@settings(max_examples=15)
@given(
    st.sampled_from(PEOPLE),
    st.sampled_from([0.1, 0.4, 0.7, 1.0]),
    st.lists(st.sampled_from(RACK), min_size=1, max_size=4, unique=True),
    st.integers(4, 14),
    st.floats(0.6, 0.95),
    st.dictionaries(st.sampled_from(sorted(METRICS)), st.floats(0.05, 0.5), min_size=1),
    st.floats(0.9, 1.3),
    st.sampled_from(sorted(METRICS)),
)
def test_every_step_of_every_plan_keeps_its_limits_read_off_whole_curves(
    person, p, rack, steps, share, rises, room, lead
):
    profile, start = measured(p, 36.0 if person is ADULT else 22.0, person), (rack[0], share)
    goal = steps_of(person, profile, [FULL])[0].metrics
    limits = PlanLimits(rises, {key: room * goal[key] for key in ("peak", "braking")})

    def search():
        return find_plan(person, profile, rack, FULL, steps, start=start, limits=limits, lead=lead, share_step=0.05)

    found = search()
    if isinstance(found, NoPlan):  # then the tightest limits that leave a plan: those that it tells
        a_little = 1.0 + 1e-9
        if found.loosenings:
            one = found.loosenings[0]
            kind = "rises" if one.kind == "rise" else "caps"
            limits = replace(limits, **{kind: {**getattr(limits, kind), one.key: one.needed * a_little}})
        elif found.together is not None:
            limits = replace(
                limits, rises={key: rise * found.together.factor * a_little for key, rise in rises.items()}
            )
        else:
            goal_is_over = {breach.key for breach in found.shut if breach.step} == {"peak", "braking"}
            assert goal_is_over is (room * (1.0 + ROUNDING) < 1.0)
            assert found.shut
            return
        found = search()
    assert isinstance(found, Plan)
    assert len(found.steps) == steps
    read = anew(found)
    for row, step in zip(read, found.steps, strict=True):
        assert row == pytest.approx(step.metrics, rel=1e-9)
        assert all(row[key] <= cap * (1.0 + 1e-8) for key, cap in limits.caps.items())
    for before, after in pairwise(read):
        assert all(after[key] <= before[key] * (1.0 + rise) * (1.0 + 1e-8) for key, rise in limits.rises.items())
    assert (found.steps[-1].ball, found.steps[-1].share) == FULL
    assert (found.steps[0].ball, found.steps[0].share) == start


@pytest.mark.parametrize("p", [0.1, 0.55])
@pytest.mark.parametrize("factor", [1.5, 2.5, 10.0])
def test_no_sequence_of_steps_costs_less_than_the_plan(p, factor):
    # two balls at three shares, four steps: every one of the 36 ways through the middle
    profile, limits = measured(p), scaled(factor)
    nodes = nodes_of(ADULT, profile, [OWN, HEAVY], [0.8, 0.9, 1.0])
    first, last = nodes.place(HEAVY, 0.8), nodes.place(*FULL)
    read = {i: anew(Plan(ADULT, (nodes.step(i),), limits, "rise_rate", 0.0, ""))[0] for i in range(6)}
    logs = [np.log(read[i]["rise_rate"]) for i in range(6)]
    stairs = np.linspace(logs[first], logs[last], 4)

    def cost(path):
        total = 0.0
        for i, j in pairwise(path):
            if i == j or any(read[j][key] > read[i][key] * (1.0 + rise) for key, rise in limits.rises.items()):
                return np.inf
            same, climbs = nodes.balls[i] == nodes.balls[j], logs[j] > logs[i]
            faster, held = nodes.share[j] > nodes.share[i] + 1e-9, abs(nodes.share[j] - nodes.share[i]) < 1e-9
            lighter = nodes.balls[j].mass_kg < nodes.balls[i].mass_kg
            if not (faster if same else lighter):
                total += BACKWARD
            elif not (nodes.balls[i] == HEAVY if same else held and climbs):
                total += OFF_PATTERN
        return total + sum((logs[i] - stair) ** 2 for i, stair in zip(path, stairs, strict=True))

    least = min(cost((first, *middle, last)) for middle in product(range(6), repeat=2))
    found = find_plan(ADULT, profile, [HEAVY], FULL, 4, start=(HEAVY, 0.8), limits=limits, share_step=0.1)
    if np.isinf(least):
        assert isinstance(found, NoPlan)
    else:
        assert found.cost == pytest.approx(least, rel=1e-9)


def by_hand(lead: dict[tuple[float, float], float]) -> Nodes:
    """Nodes with a made-up lead readout, for (mass, share); every other metric is level."""
    balls = tuple(Ball(mass) for mass, _ in lead)
    metrics = {key: np.ones(len(lead)) for key in METRICS} | {"rise_rate": np.array(list(lead.values()))}
    return Nodes(balls, np.array([share for _, share in lead]), np.ones(len(lead)), metrics)


def test_by_hand_the_plan_climbs_by_the_node_on_the_stair():
    # from 100 to 400 in three steps: the stair in the middle is at 200. Heavy ball at full: 200, on it and on the
    # pattern (first faster, then lighter at a held share): nothing. Own ball at 0.8: 220, ln 1.1 squared off it.
    nodes = by_hand({(0.4, 0.8): 100.0, (0.4, 1.0): 200.0, (0.145, 0.8): 220.0, (0.145, 1.0): 400.0})
    place, move = costs(nodes, 0, 3, 3, PlanLimits({"rise_rate": 1.5}), "rise_rate")
    assert cheapest(place, move, 0, 3) == (pytest.approx(0.0, abs=1e-15), (0, 1, 3))
    # with the heavy ball's way shut by a cap the other is left: the mass falls at a held share, then faster with a
    # ball that is not the start's, which is off the pattern
    nodes.metrics["peak"][1] = 2.0
    place, move = costs(nodes, 0, 3, 3, PlanLimits({"rise_rate": 1.5}, {"peak": 1.5}), "rise_rate")
    assert cheapest(place, move, 0, 3) == (pytest.approx(np.log(1.1) ** 2 + OFF_PATTERN), (0, 2, 3))
    # and no way is left where the rise rate may not more than double by 10 %: 400 / 100 needs two doublings exactly
    tight = costs(nodes, 0, 3, 3, PlanLimits({"rise_rate": 0.99}), "rise_rate")
    assert cheapest(*tight, 0, 3) is None


def test_by_hand_a_ball_beyond_the_goals_counts_as_a_move_back():
    # the lightest ball stands on the stair at 200, the goal's own at 230; past the goal's ball and back is a move back
    nodes = by_hand({(0.4, 0.8): 100.0, (0.1, 0.8): 200.0, (0.2, 0.8): 230.0, (0.2, 1.0): 400.0})
    place, move = costs(nodes, 0, 3, 3, PlanLimits({}), "rise_rate")
    assert (move[0, 1], move[0, 2], move[2, 3]) == (BACKWARD, 0.0, OFF_PATTERN)
    assert move[1, 3] == BACKWARD  # back up to the goal's mass
    on_the_stair, beside_it = BACKWARD * 2.0, np.log(230.0 / 200.0) ** 2 + OFF_PATTERN
    assert on_the_stair < beside_it  # 0.005 against 0.0196: still taken, a preference and no wall
    assert cheapest(place, move, 0, 3) == (pytest.approx(on_the_stair), (0, 1, 3))


@settings(max_examples=8)
@given(st.floats(1.0, 2.5), st.floats(1.0, 1.5), st.sampled_from([0.1, 0.55]))
def test_looser_limits_never_give_a_plan_that_climbs_less_evenly(factor, looser, p):
    tight, wide = (
        find_plan(ADULT, measured(p), FEW, FULL, 10, start=(HEAVY, 0.7), limits=scaled(f), share_step=0.05)
        for f in (factor, factor * looser)
    )
    if isinstance(tight, Plan):
        assert isinstance(wide, Plan)
        assert wide.cost <= tight.cost + 1e-12


def test_the_mass_goes_to_the_own_one_and_it_is_told_whether_heavier_is_lower_for_this_athlete():
    slows, does_not = (
        find_plan(ADULT, measured(p), WHOLE_RACK, FULL, 15, start=(ball, 0.7))
        for p, ball in ((0.55, HEAVY), (0.1, LIGHT))
    )
    masses = [[step.ball.mass_kg for step in plan.steps] for plan in (slows, does_not)]
    assert masses[0] == sorted(masses[0], reverse=True)
    assert masses[1] == sorted(masses[1])
    # the sentence's per cents, from whole curves at full speed
    for plan, pair, side in ((slows, (HEAVY, OWN), "below"), (does_not, (OWN, LIGHT), "above")):
        profile = measured(0.55 if plan is slows else 0.1)
        rates = [
            read_curves(curves(Throw(ADULT, ball, profile.mean_speed(ball.mass_kg).estimate)), "varus").rise_rate
            for ball in pair
        ]
        assert f"{abs(rates[0] / rates[1] - 1.0):.0%} {side}" in plan.why
    assert "heavier is lower here; along the plan the mass only falls" in slows.why
    assert "heavier is not lower here; along the plan the mass only rises" in does_not.why


def test_the_lead_readout_climbs_evenly_from_start_to_goal():
    plan = find_plan(ADULT, measured(0.55), WHOLE_RACK, FULL, 15, start=(HEAVY, 0.7))
    logs = np.log([row["rise_rate"] for row in anew(plan)])
    # the grid of whole per cents moves the rise rate by some 4 %, and rises are limited to ln 1.15 = 0.14
    assert logs == pytest.approx(np.linspace(logs[0], logs[-1], 15), abs=0.06)


@pytest.mark.parametrize("case", range(3))
def test_without_a_plan_the_least_change_told_opens_one_and_a_little_less_does_not(case):
    profile = measured(0.55)
    limits, steps = [
        (PlanLimits({"rise_rate": 0.1}), 6),
        (PlanLimits({"rise_rate": 0.5, "speed": 0.03}), 8),
        (PlanLimits({"rise_rate": 1.0}, {"braking": 40.0, "peak": 90.0}), 6),
    ][case]
    found = find_plan(ADULT, profile, FEW, FULL, steps, start=(HEAVY, 0.7), limits=limits, share_step=0.05)
    assert isinstance(found, NoPlan)
    assert [one.size for one in found.loosenings] == sorted(one.size for one in found.loosenings)
    for one in found.loosenings:
        for value, opens in ((one.needed * (1.0 + 1e-9), True), (one.needed * (1.0 - 1e-6), False)):
            changed = {**(limits.rises if one.kind == "rise" else limits.caps), one.key: value}
            looser = replace(limits, **{"rises" if one.kind == "rise" else "caps": changed})
            again = find_plan(ADULT, profile, FEW, FULL, steps, start=(HEAVY, 0.7), limits=looser, share_step=0.05)
            assert isinstance(again, Plan) is opens


def test_where_no_single_change_is_enough_the_common_factor_and_the_number_of_steps_are_told():
    def of(limits: PlanLimits, steps: int):
        return find_plan(ADULT, measured(0.55), FEW, FULL, steps, start=(HEAVY, 0.7), limits=limits, share_step=0.05)

    found = of(scaled(1.5), 6)
    assert isinstance(found, NoPlan)
    assert not found.loosenings
    assert isinstance(of(scaled(1.5 * found.together.factor * (1.0 + 1e-9)), 6), Plan)
    assert isinstance(of(scaled(1.5 * found.together.factor * (1.0 - 1e-6)), 6), NoPlan)
    assert isinstance(of(scaled(1.5), found.fewest_steps), Plan)
    assert isinstance(of(scaled(1.5), found.fewest_steps - 1), NoPlan)


def test_a_step_edited_by_hand_shows_what_it_breaks_and_new_readings_what_has_moved():
    profile = measured(0.55)
    plan = find_plan(ADULT, profile, WHOLE_RACK, FULL, 15, start=(HEAVY, 0.7))
    assert check_plan(plan) == ()
    edited = replace(plan, steps=(*plan.steps[:5], *steps_of(ADULT, profile, [FULL]), *plan.steps[6:]))
    broken = check_plan(edited)
    read = anew(edited)
    rises = {(i, key): read[i][key] / read[i - 1][key] - 1.0 for i in range(1, 15) for key in METRICS}
    assert {(breach.step, breach.key): breach.value for breach in broken} == pytest.approx(
        {(i, key): rise for (i, key), rise in rises.items() if rise > RISES[key]}
    )
    assert {breach.step for breach in broken} == {5, 6}  # too fast after the step before, too slow before the next
    (capped,) = check_plan(plan, PlanLimits({}, {"speed": plan.steps[-1].speed_m_s - 0.01}))
    assert (capped.kind, capped.step) == ("cap", 14)
    slower = replace(plan, steps=steps_of(ADULT, measured(0.9), [(step.ball, step.share) for step in plan.steps]))
    assert [(step.ball, step.share) for step in slower.steps] == [(step.ball, step.share) for step in plan.steps]
    assert slower.steps[0].speed_m_s < plan.steps[0].speed_m_s
    assert check_plan(slower)  # the ball's next lighter is now faster by more


def test_a_typed_share_stays_to_the_digit_beside_a_grid_that_has_it_too():
    typed = 0.6000000000000001
    plan = find_plan(
        ADULT, measured(0.55), [HEAVY], FULL, 4, start=(HEAVY, typed), limits=PlanLimits({}), share_step=0.1
    )
    assert plan.steps[0].share == typed


def test_a_plan_of_one_step_is_the_goal_itself():
    (step,) = find_plan(ADULT, measured(0.55), WHOLE_RACK, FULL, 1, start=FULL).steps
    assert (step.ball, step.share) == FULL


def test_what_is_not_accepted_is_refused_by_name():
    with pytest.raises(InputError, match="steps"):
        find_plan(ADULT, measured(0.55), RACK, FULL, 1, start=(HEAVY, 0.7))
    with pytest.raises(InputError, match="goal share"):
        find_plan(ADULT, measured(0.55), RACK, (OWN, 1.4), 5, start=(HEAVY, 0.7))
    with pytest.raises(InputError, match="lead"):
        find_plan(ADULT, measured(0.55), RACK, FULL, 5, start=(HEAVY, 0.7), lead="score")
    with pytest.raises(InputError, match="rise of peak"):
        PlanLimits({"peak": -0.1})
    with pytest.raises(InputError, match="caps"):
        PlanLimits({}, {"work": 1.0})


def test_a_plan_whose_lead_is_to_fall_only_gets_slower_with_the_ball_of_start_and_goal():
    # by hand: with the own ball alone each step is 0.6^(1/8) = 0.938 of the one before, within the tenth of time loaded
    found = find_plan(ADULT, measured(0.55), WHOLE_RACK, (OWN, 0.6), 9, start=(OWN, 1.0), lead="peak")
    assert isinstance(found, Plan)
    assert {step.ball for step in found.steps} == {OWN}
    assert all(after.share < before.share for before, after in pairwise(found.steps))


@pytest.mark.parametrize("start", [OWN, HEAVY, LIGHT])
def test_from_a_twentieth_of_full_speed_there_is_a_plan_and_with_every_step_the_ball_is_no_further_from_the_own(start):
    order = Order(OWN, 0.8)
    few = find_plan(ADULT, measured(0.55), WHOLE_RACK, FULL, 2, start=(start, 0.05), order=order).fewest_steps
    plan = find_plan(ADULT, measured(0.55), WHOLE_RACK, FULL, few, start=(start, 0.05), order=order)
    assert isinstance(plan, Plan)
    apart = [abs(np.log(step.ball.mass_kg / OWN.mass_kg)) for step in plan.steps]
    assert apart == sorted(apart, reverse=True)
    assert isinstance(
        find_plan(ADULT, measured(0.55), WHOLE_RACK, FULL, few - 1, start=(start, 0.05), order=order), NoPlan
    )


def first_with(plan: Plan, ball: Ball) -> int:
    return next(i for i, step in enumerate(plan.steps) if step.ball == ball)


@pytest.mark.parametrize("count", [15, 18])
def test_the_own_ball_comes_within_two_thirds_of_the_steps_and_never_first_above_the_share_it_may(count):
    start = (HEAVY, 0.6)
    free = find_plan(ADULT, measured(0.55), WHOLE_RACK, FULL, count, start=start, limits=scaled(1.5))
    bound = find_plan(
        ADULT, measured(0.55), WHOLE_RACK, FULL, count, start=start, limits=scaled(1.5), order=Order(OWN, 0.8)
    )
    assert first_with(bound, OWN) + 1 <= 2 * count / 3 < first_with(free, OWN) + 1
    assert bound.steps[first_with(bound, OWN)].share <= 0.8
    assert all(step.ball == OWN for step in bound.steps[first_with(bound, OWN) :])


def test_steps_that_stand_already_count_for_the_two_thirds():
    # by hand: of 15 steps by the tenth; where four stand before, by the sixth of the eleven that are left
    assert Order(OWN).own_from(15) == 9
    assert Order(OWN, before=4).own_from(11) == 5
    assert Order(OWN, before=12).own_from(3) == 0


def test_the_first_steps_keep_the_limits_of_the_first_throw_and_a_ball_without_one_is_not_thrown_there():
    shares = {OWN: (0.05, 0.75), HEAVY: (0.05, 0.62)}
    order = Order(first_steps=4, first_shares=shares)
    found = find_plan(ADULT, measured(0.55), WHOLE_RACK, FULL, 15, start=(HEAVY, 0.6), limits=scaled(1.5), order=order)
    for step in found.steps[:4]:
        assert step.ball in shares
        assert step.share <= shares[step.ball][1]
    assert max(step.share for step in found.steps) == 1.0


def test_without_a_plan_in_an_order_the_fewest_steps_told_are_enough_and_one_fewer_is_not():
    order = Order(OWN, 0.8, 3, {HEAVY: (0.1, 0.6)})

    def of(count: int):
        return find_plan(ADULT, measured(0.55), WHOLE_RACK, FULL, count, start=(HEAVY, 0.6), order=order)

    told = of(4)
    assert isinstance(told, NoPlan)
    enough = of(told.fewest_steps)
    assert [(step.ball, step.share) for step in enough.steps[:3]] == [(HEAVY, 0.6)] * 3  # as it may not go on, it stays
    assert isinstance(of(told.fewest_steps - 1), NoPlan)


def test_an_own_ball_that_would_start_too_fast_is_refused():
    with pytest.raises(InputError, match="start share"):
        find_plan(ADULT, measured(0.55), [OWN], FULL, 5, start=(OWN, 0.85), order=Order(OWN, 0.8))
    with pytest.raises(InputError, match="first_steps"):
        Order(first_steps=-1)
