"""What is computed for the page, once while the server runs: nothing in it depends on who asks."""

from dataclasses import dataclass
from functools import lru_cache

from model.band_checks import BandCheck, band_checks
from model.band_coverage import GridStory, grid_story
from model.check_table import check_table
from model.comparison import Comparison


@dataclass(frozen=True)
class BandAnswer:
    """Differences in print held against the band, and how well the band holds what it never saw."""

    checks: tuple[BandCheck, ...]
    story: GridStory


@lru_cache(maxsize=1)
def compared() -> tuple[Comparison, ...]:
    """The check table, as `levelpeak check` has it."""
    return check_table()


@lru_cache(maxsize=1)
def of_band() -> BandAnswer:
    """What the band says of itself."""
    return BandAnswer(band_checks(), grid_story())
