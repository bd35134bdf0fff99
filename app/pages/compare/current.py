"""The comparison that the page shows, as the records have it, and what the numbers are worked out from."""

from dataclasses import dataclass
from functools import cached_property

from app.bind.visit import Visit
from app.pages.compare.answers import Comparison, Thrower, compare
from app.records import tables
from app.records.faults import GoneError
from app.records.reads import AthleteData, athlete_data
from app.show.from_records import case_of, person_of
from app.show.listed_throw import OTHER, ListedThrow, listed
from app.show.subject import Case
from model.speed import SpeedProfile

ASKED = "comparison"
"""What the uid of a comparison is called in an address."""

READ = (tables.Measures, tables.Comparison, tables.Throw)
"""What a comparison is drawn from; years of readings and sessions are not read for it, and no plans."""

A_THIRD = "Two athletes can be compared at a time: a third one’s throw is not drawn."


@dataclass(frozen=True)
class Current:
    """A comparison of the visited athlete.

    Attributes
    ----------
    visit : Visit
    data : AthleteData
        Of what is in `READ`.
    row : app.records.tables.Comparison
    rows : tuple of app.records.tables.Throw
        In the order of the list.
    other : AthleteData or None
        The second thrower, where one of the throws is another athlete's.
    """

    visit: Visit
    data: AthleteData
    row: tables.Comparison
    rows: tuple[tables.Throw, ...]
    other: AthleteData | None

    @cached_property
    def known(self) -> dict[str, AthleteData]:
        """What is kept of the first thrower ("") and of the second (`OTHER`), where there is one."""
        return {"": self.data} | ({OTHER: self.other} if self.other else {})

    @cached_property
    def throwers(self) -> dict[str, Thrower]:
        """Who throws."""
        today = self.visit.today
        return {by: Thrower(data.athlete.code, *person_of(data, today)) for by, data in self.known.items()}

    @cached_property
    def cases(self) -> dict[str, Case]:
        """Each thrower with own ball, reference and readings."""
        whole = {
            by: self.visit.data if not by else self.visit.of_athlete(who.code) for by, who in self.throwers.items()
        }
        return {by: case_of(data, self.visit.today) for by, data in whole.items()}

    def profile(self, by: str) -> SpeedProfile | None:
        """The speed profile of a thrower; the readings are read for it."""
        return self.cases[by].profile if by in self.cases else None

    @cached_property
    def throws(self) -> tuple[ListedThrow, ...]:
        """The list, worked out."""
        return tuple(self._listed(row) for row in self.rows)

    def _listed(self, row: tables.Throw) -> ListedThrow:
        by = "" if row.thrower_id is None else OTHER
        if by and (self.other is None or self.other.athlete.id != row.thrower_id):
            return ListedThrow(row.uid, row.hold, thrower=by, missing=A_THIRD)
        profile = self.profile(by) if row.hold == "profile" else None
        return listed(row, self.throwers[by].person, profile, by, self.visit.system)

    @property
    def invented(self) -> frozenset[str]:
        """Which throwers are invented: of "" and `OTHER`."""
        return frozenset(by for by, data in self.known.items() if data.athlete.invented)

    def thrower_uid(self, row: tables.Throw) -> str:
        """The uid of who throws, where that is another athlete."""
        if row.thrower_id is None:
            return ""
        if self.other is not None and self.other.athlete.id == row.thrower_id:
            return self.other.athlete.uid
        found = self.visit.store.find(self.data.codes.get(row.thrower_id, ""))
        return found.uid if found else ""

    def compared(self) -> Comparison:
        """All that the page shows, worked out."""
        return compare(self.row, self.throws, self.throwers, self.visit.system)

    def place(self, uid: str | None) -> int:
        """A throw's place in the list; -1 if it is not there."""
        return next((i for i, row in enumerate(self.rows) if row.uid == uid), -1)


def current_of(visit: Visit) -> Current | None:
    """The comparison in the address, else the newest; None where the athlete has none."""
    data = _read(visit, visit.code)
    if data is None or not data.comparisons:
        return None
    asked = visit.asked.get(ASKED)
    row = next((one for one in data.comparisons if one.uid == asked), data.comparisons[-1])
    rows = data.throws_of(row)
    codes = [data.codes[one.thrower_id] for one in rows if one.thrower_id is not None and one.thrower_id in data.codes]
    return Current(visit, data, row, rows, _read(visit, min(codes)) if codes else None)


def _read(visit: Visit, code: str) -> AthleteData | None:
    if code == visit.code and "data" in visit.__dict__:
        return visit.data
    try:
        return athlete_data(visit.store, code, only=READ)
    except GoneError:
        return None
