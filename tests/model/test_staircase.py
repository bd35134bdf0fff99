"""Paths through small graphs, held against looking at every one of them."""

from itertools import pairwise, product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.staircase import cheapest, fewest, is_path, least_worst


def every_path(nodes: int, steps: int, start: int, goal: int):
    for middle in product(range(nodes), repeat=max(steps - 2, 0)):
        yield (start, *middle, goal)


@st.composite
def graphs(draw):
    nodes, steps = draw(st.integers(2, 5)), draw(st.integers(2, 5))
    rng = np.random.default_rng(draw(st.integers(0, 10**6)))
    move = rng.uniform(0.0, 1.0, (nodes, nodes))
    move[rng.uniform(size=move.shape) < draw(st.sampled_from([0.2, 0.5, 0.8]))] = np.inf
    place = rng.uniform(0.0, 1.0, (steps, nodes))
    place[rng.uniform(size=place.shape) < 0.1] = np.inf
    return place, move, int(rng.integers(nodes)), int(rng.integers(nodes))


@settings(max_examples=150)
@given(graphs())
def test_the_cheapest_path_costs_what_the_cheapest_of_all_paths_does(graph):
    place, move, start, goal = graph
    steps, nodes = place.shape

    def cost(path):
        return sum(move[i, j] for i, j in pairwise(path)) + sum(place[k, i] for k, i in enumerate(path))

    least = min(cost(path) for path in every_path(nodes, steps, start, goal))
    found = cheapest(place, move, start, goal)
    if np.isinf(least):
        assert found is None
    else:
        assert found[0] == pytest.approx(least, rel=1e-12)
        assert cost(found[1]) == pytest.approx(least, rel=1e-12)
        assert (len(found[1]), found[1][0], found[1][-1]) == (steps, start, goal)


@settings(max_examples=150)
@given(graphs())
def test_the_least_worst_member_is_that_of_all_paths(graph):
    place, move, start, goal = graph
    steps, nodes = place.shape
    worst = min(
        max(*(move[i, j] for i, j in pairwise(path)), *(place[k, i] for k, i in enumerate(path)))
        for path in every_path(nodes, steps, start, goal)
    )
    assert least_worst(place, move, start, goal) == worst
    assert is_path(np.isfinite(place), np.isfinite(move), start, goal) is bool(np.isfinite(worst))


@settings(max_examples=100)
@given(graphs())
def test_the_fewest_nodes_are_those_of_the_shortest_of_all_paths(graph):
    _, move, start, goal = graph
    allowed = np.isfinite(move)
    nodes = len(move)
    lengths = [1] if start == goal else []
    for steps in range(2, nodes + 1):  # a shortest path visits no node twice
        if any(all(allowed[i, j] for i, j in pairwise(path)) for path in every_path(nodes, steps, start, goal)):
            lengths.append(steps)
    assert fewest(allowed, start, goal) == (min(lengths) if lengths else None)


@settings(max_examples=100)
@given(graphs(), st.integers(2, 4))
def test_among_the_first_nodes_one_may_come_again(graph, stays):
    place, move, start, goal = graph
    move = move.copy()
    np.fill_diagonal(move, np.inf)
    stay_cost = 0.3

    def moved(path, stay):
        return [stay if i == j and k < stays else move[i, j] for k, (i, j) in enumerate(pairwise(path), start=1)]

    paths = list(every_path(len(move), len(place), start, goal))
    least = min(sum(moved(path, stay_cost)) + sum(place[k, i] for k, i in enumerate(path)) for path in paths)
    found = cheapest(place, move, start, goal, stays, stay_cost)
    assert (np.inf if found is None else found[0]) == pytest.approx(least, rel=1e-12)
    worst = min(max(*moved(path, -np.inf), *(place[k, i] for k, i in enumerate(path))) for path in paths)
    assert least_worst(place, move, start, goal, stays) == worst
    assert is_path(np.isfinite(place), np.isfinite(move), start, goal, stays) is bool(np.isfinite(worst))


def test_by_hand_the_longer_way_round_is_taken_where_the_place_in_the_middle_costs_less():
    move = np.array([[np.inf, 1.0, 1.0, np.inf], [np.inf, np.inf, np.inf, 1.0], [np.inf] * 3 + [1.5], [np.inf] * 4])
    place = np.zeros((3, 4))
    place[1] = [0.0, 2.0, 1.0, 0.0]
    assert cheapest(place, move, 0, 3) == (3.5, (0, 2, 3))  # 1 + 1 + 1.5 against 1 + 2 + 1
    assert cheapest(place[:2], move, 0, 3) is None
