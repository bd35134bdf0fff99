"""The comparison that the page shows, as the records have it, and what the numbers are worked out from."""

from dataclasses import dataclass
from datetime import date
from functools import cached_property

from app.bind.visit import Visit
from app.pages.compare.answers import Comparison, compare
from app.records import tables
from app.records.faults import GoneError
from app.records.field_list import field_of
from app.records.reads import AthleteData, athlete_data
from app.show.form_fields import HOLD_FIELDS
from app.show.from_records import KIND_OF, case_of, compared_of, measures_of
from app.show.subject import Case
from app.show.throw_form import OTHER, Form, ThrowForm
from model.speed import SpeedProfile

ASKED = "comparison"
"""What the uid of a comparison is called in an address."""


@dataclass(frozen=True)
class Current:
    """A comparison of the visited athlete.

    Attributes
    ----------
    visit : Visit
    data : AthleteData
        Without the readings.
    row : app.records.tables.Comparison
    throws : tuple of app.records.tables.Throw
        In the order of the list.
    other : AthleteData or None
        The second thrower, where one of the throws is another athlete's.
    """

    visit: Visit
    data: AthleteData
    row: tables.Comparison
    throws: tuple[tables.Throw, ...]
    other: AthleteData | None

    @cached_property
    def form(self) -> Form:
        """Measures, throws and choices as texts; a throw's key is its uid."""
        today, row = self.visit.today, self.row
        return Form(
            measures_of(self.data, today),
            tuple(_throw(one, self.other) for one in self.throws),
            row.reference or "",
            KIND_OF.get(row.kind, row.kind),
            row.day.isoformat() if row.day else "",
            row.quantity,
            row.headline or "",
            accepted_text(row, "comparison.above"),
            row.align,
            row.scale,
            **({"other": measures_of(self.other, today)} if self.other else {}),
        )

    @cached_property
    def cases(self) -> dict[str, Case]:
        """Each thrower with own ball, reference and readings."""
        known = {"": self.visit.data}
        if self.other is not None:
            known[OTHER] = self.visit.of_athlete(self.other.athlete.code)
        return {by: case_of(data, self.visit.today) for by, data in known.items()}

    @property
    def profiles(self) -> dict[str, SpeedProfile]:
        """The speed profile of each thrower who has one, where a throw is held on it."""
        if not any(throw.hold == "profile" for throw in self.throws):
            return {}
        return self.all_profiles

    @property
    def all_profiles(self) -> dict[str, SpeedProfile]:
        """The speed profile of each thrower who has one."""
        return {by: case.profile for by, case in self.cases.items() if case.profile is not None}

    @property
    def invented(self) -> frozenset[str]:
        """Which throwers are invented: of "" and `OTHER`."""
        known = {"": self.data, OTHER: self.other}
        return frozenset(by for by, data in known.items() if data is not None and data.athlete.invented)

    def compared(self) -> Comparison:
        """All that the page shows, worked out."""
        return compare(self.form, self.visit.today, self.profiles, self.visit.system)

    def place(self, uid: str) -> int:
        """A throw's place in the list; -1 if it is not there."""
        return next((i for i, throw in enumerate(self.throws) if throw.uid == uid), -1)


def current_of(visit: Visit) -> Current | None:
    """The comparison in the address, else the newest; None where the athlete has none.

    The readings are read when a speed profile is asked for: a curve does not wait for years of them.
    """
    data = _without_readings(visit, visit.code)
    if data is None or not data.comparisons:
        return None
    asked = visit.asked.get(ASKED)
    row = next((one for one in data.comparisons if one.uid == asked), data.comparisons[-1])
    throws = data.throws_of(row)
    codes = {
        data.codes[one.thrower_id] for one in throws if one.thrower_id is not None and one.thrower_id in data.codes
    }
    return Current(visit, data, row, throws, _without_readings(visit, min(codes)) if codes else None)


def _without_readings(visit: Visit, code: str) -> AthleteData | None:
    try:
        return athlete_data(visit.store, code, since=date.max)
    except GoneError:
        return None


def accepted_text(row: tables.Row, path: str) -> str:
    """The text of a value that was accepted, in its metric unit; what was refused since stands in the field alone."""
    field = field_of(path, row.__dict__)
    return field.kept(getattr(row, field.name), row.typed.get(field.name, ""))


def first_form(visit: Visit) -> Form:
    """What an athlete's first comparison begins with: the reference throw as far as it is known, and an empty one."""
    if visit.data is None:
        return Form()
    known = compared_of(visit.data, visit.today)
    own = known.throws or (ThrowForm("own"),)
    return Form(
        known.athlete, (*own, ThrowForm("next")), own[0].key, known.kind if known.throws else "measured", known.date
    )


def _throw(row: tables.Throw, other: AthleteData | None) -> ThrowForm:
    """A line of the list. A throw of a third athlete, whose body is not known here, has no speed and so no curve."""
    mass, diameter = (accepted_text(row, f"throw.{name}") for name in ("mass_kg", "diameter_m"))
    by = "" if row.thrower_id is None else OTHER
    third = bool(by) and (other is None or other.athlete.id != row.thrower_id)
    hold = row.hold if row.hold in HOLD_FIELDS else "speed"
    return ThrowForm(row.uid, mass, diameter, by=by).holding(hold, "" if third else accepted_text(row, "throw.number"))
