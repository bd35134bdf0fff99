"""Shortest paths of exactly so many nodes through a graph, and what would open one where there is none.

Dynamic programming over the place in the path: the best way to be at node j as the k-th is the best over all nodes i
that a move leads from. Sums give the cheapest path, largest members the one whose worst move is least.
"""

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array
from scipy.sparse.csgraph import shortest_path

Array = NDArray[np.float64]


def cheapest(
    place_cost: Array, move_cost: Array, start: int, goal: int, stays: int = 0, stay_cost: float = 0.0
) -> tuple[float, tuple[int, ...]] | None:
    """Find the path of K nodes with the least sum of costs.

    Parameters
    ----------
    place_cost : ndarray (K, n)
        Cost of each node as the k-th of the path; infinite where it may not stand.
    move_cost : ndarray (n, n)
        Cost of the move from row to column; infinite where there is none.
    start, goal : int
        First and last node.
    stays : int
        Among so many first nodes of the path one may come again right away.
    stay_cost : float
        Cost of that.

    Returns
    -------
    float, tuple of int
        The cost and the nodes; None if there is no such path.
    """
    steps, nodes = place_cost.shape
    total = np.full(nodes, np.inf)
    total[start] = place_cost[0, start]
    came_from = np.zeros((steps, nodes), dtype=int)
    for k in range(1, steps):
        through = total[:, None] + move_cost
        if k < stays:
            np.fill_diagonal(through, total + stay_cost)
        came_from[k] = through.argmin(axis=0)
        total = through.min(axis=0) + place_cost[k]
    if not np.isfinite(total[goal]):
        return None
    path = [goal]
    for k in range(steps - 1, 0, -1):
        path.append(int(came_from[k, path[-1]]))
    return float(total[goal]), tuple(reversed(path))


def least_worst(place: Array, move: Array, start: int, goal: int, stays: int = 0) -> float:
    """Find the smallest value that the largest member of a path of so many nodes can have.

    Parameters
    ----------
    place : ndarray (K, n)
        Value of each node as the k-th of the path; infinite where it may not stand.
    move : ndarray (n, n)
        Value of the move from row to column; infinite where there is none.
    stays : int
        Among so many first nodes one may come again right away.

    Returns
    -------
    float
        Infinite if there is no such path.
    """
    worst = np.full(place.shape[1], np.inf)
    worst[start] = place[0, start]
    for k, values in enumerate(place[1:], start=1):
        moved = np.maximum(worst[:, None], move).min(axis=0)
        worst = np.maximum(np.minimum(moved, worst) if k < stays else moved, values)
    return float(worst[goal])


def is_path(place: NDArray[np.bool_], move: NDArray[np.bool_], start: int, goal: int, stays: int = 0) -> bool:
    """Say whether there is any path of so many nodes.

    Parameters
    ----------
    place : ndarray (K, n)
        Whether a node may stand as the k-th of the path.
    move : ndarray (n, n)
        Whether there is a move from row to column.
    stays : int
        As for `least_worst`.
    """
    moves = move.astype(np.float32)
    there = np.zeros(place.shape[1], dtype=np.float32)
    there[start] = place[0, start]
    for k, allowed in enumerate(place[1:], start=1):
        reached = (there @ moves > 0.0) | ((there > 0.0) & (k < stays))
        there = (reached & allowed).astype(np.float32)
    return bool(there[goal] > 0.0)


def fewest(allowed: NDArray[np.bool_], start: int, goal: int) -> int | None:
    """Count the nodes of the path with the fewest.

    Parameters
    ----------
    allowed : ndarray (n, n)
        Whether there is a move from row to column.

    Returns
    -------
    int or None
        None if no path leads there.
    """
    moves = shortest_path(csr_array(allowed.astype(float)), unweighted=True, indices=start)[goal]
    return int(moves) + 1 if np.isfinite(moves) else None
