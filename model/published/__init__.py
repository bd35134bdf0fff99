"""The cited values, as data: read by the tests and by every page that shows a source."""

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files


@dataclass(frozen=True)
class PublishedValue:
    """One row of `values.csv`, as printed there; `status` says how it was seen (found, memory, derived)."""

    id: str
    topic: str
    quantity: str
    value: str
    sd_or_range: str
    units: str
    population: str
    n: str
    ball_mass_g: str
    condition: str
    citation: str
    doi: str
    status: str
    remark: str

    @property
    def number(self) -> float:
        """The value as a number, in `units`."""
        return float(self.value)

    @property
    def spread(self) -> float:
        """The standard deviation as a number, in `units`."""
        return float(self.sd_or_range)


@cache
def values() -> dict[str, PublishedValue]:
    """All cited values.

    Returns
    -------
    dict of str to PublishedValue
        By their id.
    """
    text = files(__name__).joinpath("values.csv").read_text(encoding="utf-8")
    rows = [PublishedValue(**row) for row in csv.DictReader(text.splitlines())]
    return {row.id: row for row in rows}
