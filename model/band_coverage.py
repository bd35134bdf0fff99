"""How well the structural band holds the solves it was not fitted to: what the band says of itself.

Each solve's D (`grid_table.differences`) is held against the band of 90 % of the difference from its own throw: the
quantiles of `structural_field.field` over its draws. Throws drawn at random that no fit saw say whether the band is
wide enough; the three laws of tolerance are the ends of what people might do, and are told apart.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

import numpy as np

from model.band_fit import ROUND, in_reach
from model.band_table import KEYS, Key, stored_band
from model.grid_table import Row, differences, parse_rows, stored_lines
from model.interval import LEVEL, tails_of
from model.motion_grid import BODIES, PREDICTED, SLOWED, UNCHANGED, tasks
from model.structural_field import Place, field

HELD: tuple[Key, ...] = (
    *(("varus", readout) for readout in ("peak", "area", "rise_rate", "half_height_s", "loaded_s")),
    *((reading, "peak") for reading in ("internal_rotation", "shoulder_proximal", "elbow_proximal")),
)
"""What is looked at, a reading and a readout of it: what most is decided by, and the forces, which are held worse."""
LAWS = {"P": PREDICTED, "k = 1": UNCHANGED, "s2": SLOWED}
"""(alpha, beta) of the tolerances: as the clock law predicts, unchanged, falling with speed alone."""


@dataclass(frozen=True)
class Coverage:
    """Which share of some solves the band of 90 % holds.

    Attributes
    ----------
    solves : {'unseen', 'man', 'woman', 'boy', 'P', 'k = 1', 's2'}
        All that no fit saw, those of a body among them; those of a law of tolerance that a fit may have seen.
    count : int
        How many.
    held : dict of (str, str) to float
        By reading and readout, those of `HELD`; 0 to 1.
    """

    solves: str
    count: int
    held: dict[Key, float]


@dataclass(frozen=True)
class GridStory:
    """What was solved, and what came of it.

    Attributes
    ----------
    solved, sensible, fitted : int
        All solves; those that are throws as throws are; those the law of the varus peak was fitted to.
    solved_on : str
        Date of the newest, ISO 8601.
    coverage : tuple of Coverage
        All that no fit saw first.
    """

    solved: int
    sensible: int
    fitted: int
    solved_on: str
    coverage: tuple[Coverage, ...]


def share_held(solves: Iterable[tuple[Row, np.ndarray]], key: Key) -> float:
    """Share of solves that the band of 90 % holds.

    Parameters
    ----------
    solves : iterable of (Row, ndarray (K,))
        As `grid_table.differences` gives them: solves with their D.
    key : (str, str)
        A reading and a readout of it.

    Returns
    -------
    float
        0 to 1; NaN of no solves.
    """
    own, (low, _, high) = Place(0.0, 0.0, 0.0, 0.0, False), tails_of(LEVEL)
    held = []
    for row, d in solves:
        # x and y as they are, not bent: what was solved up to 470 g and |y| = 0.5 is what the band was made for
        at = Place(row.task.x, row.task.y, row.task.x, row.task.y, False)
        least, most = np.quantile(field(key, at, own), (low, high))
        held.append(least <= d[KEYS.index(key)] <= most)
    return float(np.mean(held)) if held else np.nan


@cache
def grid_story() -> GridStory:
    """Tell the stored grid's story; the varus torque's law is what `fitted` counts."""
    rows = parse_rows(stored_lines(), tasks())
    found = list(differences(rows))
    unseen = [(row, d) for row, d in found if row.task.held_out and row.sensible]
    groups = {"unseen": unseen}
    groups |= {body: [(row, d) for row, d in unseen if row.task.body == body] for body in BODIES}
    plain = [
        (row, d) for row, d in found if in_reach(row) and not row.task.held_out and abs(row.task.duration - 1.0) < ROUND
    ]
    for name, law in LAWS.items():
        groups[name] = [(row, d) for row, d in plain if (row.task.alpha, row.task.beta) == law]
    return GridStory(
        len(rows),
        sum(row.sensible for row in rows),
        stored_band()["varus", "peak"].solves,
        max(row.solved_on for row in rows),
        tuple(Coverage(name, len(some), {key: share_held(some, key) for key in HELD}) for name, some in groups.items()),
    )
