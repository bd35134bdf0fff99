"""The document of the records: everything, or one athlete, as plain data (JSON) that goes out and comes in unchanged.

It is the shape of what is exchanged, and changes only with its version. What comes in is read with distrust: the types
are Pydantic's matter, what a value may be is the fields'.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from datetime import date, datetime
from typing import Annotated, Any, ClassVar, Literal, Self

from pydantic import BaseModel, ConfigDict, Field, StringConstraints, ValidationError, model_validator

from app.records.field_list import COUNTED, DEPENDENT, FIELDS, field_of, from_kept, is_setting
from app.records.fields import LATEST_DAY, in_words
from app.records.tables import KEPT, LONGEST_INITIALS, LONGEST_NAME, LONGEST_WORD
from app.version import VERSION as MADE_WITH
from model.checks import InputError

KIND: Literal["levelpeak records"] = "levelpeak records"
VERSION: Literal[1] = 1
TOLD = 6
"""Troubles of a document that are named; of more the number is told."""

LARGEST_BODY = 1_000_000  # characters

Uid = Annotated[str, StringConstraints(pattern=r"^[0-9a-z]{8,24}$")]
Word = Annotated[str, StringConstraints(max_length=LONGEST_WORD)]
Name = Annotated[str, StringConstraints(max_length=LONGEST_NAME)]
Count = Annotated[int, Field(ge=0, le=2**53)]
Initials = Annotated[str, StringConstraints(max_length=LONGEST_INITIALS)]
Text = Annotated[str, StringConstraints(max_length=200)]

LISTS = {
    "measures": "measures",
    "readings": "reading",
    "references": "reference",
    "comparisons": "comparison",
    "limits": "limits",
    "plans": "plan",
    "sessions": "session_log",
    "stop_signs": "stop_sign",
    "notes": "note",
    "settings": "setting",
}
"""The lists of an athlete, and the tables they are of."""

CHILDREN = {"comparison": ("throws", "throw"), "plan": ("sessions", "session_log")}
"""The lists in rows, and the tables they are of."""

WITH_FIELD = FIELDS.keys() | set(DEPENDENT.values())
"""Paths of the columns that are held to a field."""


class ExchangeError(ValueError):
    """A file that cannot be taken in; the text says why."""


class Strict(BaseModel):
    """Takes what it knows and nothing else, each of its own kind."""

    model_config = ConfigDict(extra="forbid", strict=True, allow_inf_nan=False)


class RowIn(Strict):
    """A row; each value is held to its field."""

    table: ClassVar[str]
    uid: Uid
    typed: dict[Word, Text] = {}
    draft: dict[Word, Text] = {}

    @model_validator(mode="after")
    def held_to_its_fields(self) -> Self:
        """Refuse a value that nobody could have entered."""
        row = self.__dict__
        fields = {name: field_of(f"{self.table}.{name}", row) for name in row if f"{self.table}.{name}" in WITH_FIELD}
        for name, field in fields.items():
            if row[name] is None:
                continue
            try:
                field.check(row[name], today=LATEST_DAY)
            except InputError as error:
                raise ValueError(in_words(error)) from None
            if name == "body" and len(str(row[name])) > LARGEST_BODY:
                raise ValueError("a body that is too large")
        texts = self.typed.items()
        self.typed = {name: text for name, text in texts if name in fields and fields[name].says(text, row[name])}
        return self


class MeasuresIn(RowIn):
    """Measures of a day."""

    table = "measures"
    day: date
    age_years: float | None = None
    stature_m: float | None = None
    body_mass_kg: float | None = None
    upper_arm_length_m: float | None = None
    forearm_length_m: float | None = None
    hand_length_m: float | None = None


class BallIn(RowIn):
    """A ball."""

    table = "ball"
    name: str = ""
    mass_kg: float | None = None
    diameter_m: float | None = None
    position: int = 0
    archived_at: datetime | None = None


class ReadingIn(RowIn):
    """A reading; its ball by uid."""

    table = "reading"
    ball: Uid | None = None
    day: date
    speed_m_s: float | None = None
    speed_is: str = "radar"
    asked_effort: float | None = None
    distance_m: float | None = None


class ReferenceIn(RowIn):
    """A reference throw; its ball by uid."""

    table = "reference"
    ball: Uid | None = None
    day: date | None = None
    kind: str = "measured"
    speed_m_s: float | None = None
    relative_sd: float | None = None


class ThrowIn(RowIn):
    """A throw of a comparison; another thrower by uid."""

    table = "throw"
    thrower: Uid | None = None
    position: int = 0
    mass_kg: float | None = None
    diameter_m: float | None = None
    hold: str = "speed"
    number: float | None = None


class ComparisonIn(RowIn):
    """A comparison with its throws."""

    table = "comparison"
    name: str = ""
    reference: Uid | None = None
    headline: Uid | None = None
    kind: str = "measured"
    day: date | None = None
    quantity: str = "varus"
    above: float | None = None
    align: str = "release"
    scale: str = "plain"
    throws: list[ThrowIn] = []


class LimitsIn(RowIn):
    """A limit."""

    table = "limits"
    key: str
    counted: str = "share"
    amount: float | None = None


class SessionIn(RowIn):
    """A session that was thrown."""

    table = "session_log"
    position: int = 0
    day: date
    body: dict[str, Any] = {}


class PlanIn(RowIn):
    """A plan with its sessions."""

    table = "plan"
    name: str = ""
    start: date | None = None
    body: dict[str, Any] = {}
    archived_at: datetime | None = None
    sessions: list[SessionIn] = []


class StopSignIn(RowIn):
    """A stop sign."""

    table = "stop_sign"
    sign: str
    since: date
    session: Uid | None = None
    entered_by: str
    entered_role: str
    entered_on: date
    entered_words: str = ""
    cleared_by: str | None = None
    cleared_role: str | None = None
    cleared_on: date | None = None
    cleared_words: str | None = None
    withdrawn_by: str | None = None
    withdrawn_role: str | None = None
    withdrawn_on: date | None = None
    withdrawn_words: str | None = None


class NoteIn(RowIn):
    """A note."""

    table = "note"
    day: date
    text: str = ""


class SettingIn(RowIn):
    """A setting, by its path."""

    table = "setting"
    key: Name
    value: bool | int | float | str | None = None

    @model_validator(mode="after")
    def held_to_its_fields(self) -> Self:
        """What counts as a setting is held to its field; of one whose unit hangs on another, that it is a number."""
        if not is_setting(self.key):
            raise ValueError(f"“{self.key}” is no setting")
        text = self.typed.get("value", "")
        if self.key in DEPENDENT.values() or self.value is None:
            if isinstance(self.value, bool | str):
                raise ValueError(f"{self.key}: no number")
            units = [field_of(self.key, {f"{self.key}_counted": counted}) for counted in COUNTED]
        else:
            try:
                (field := field_of(self.key, {})).check(from_kept(field, self.value))
            except InputError as error:
                raise ValueError(str(error)) from None
            units = [field]
        if not any(one.says(text, from_kept(one, self.value)) for one in units):
            self.typed = {}
        return self


class LessonIn(RowIn):
    """A teaching session; its athlete by uid."""

    table = "lesson"
    athlete: Uid | None = None
    name: str = ""
    body: dict[str, Any] = {}


class LineIn(Strict):
    """A line of history."""

    version: Count
    at: datetime
    tab: Word = ""
    by: Initials = ""
    sent: Count = 0
    mode: Literal["do", "undo", "redo", "stay"] = "do"
    of: Count | None = None
    kind: Literal["set", "add", "remove"]
    table: Word
    row: Word = ""
    field: Name = ""
    before: Any = None
    after: Any = None

    @model_validator(mode="after")
    def of_the_records(self) -> Self:
        """Tables and rows are those that the records know."""
        if self.table not in KEPT:
            raise ValueError(f"“{self.table}” is no table of the records")
        rows = self.after if self.kind == "add" else self.before if self.kind == "remove" else None
        for row in rows or ():
            if not isinstance(row, dict) or row.get("table") not in KEPT or not isinstance(row.get("uid", ""), str):
                raise ValueError("a row that the records do not know")
        return self


class AthleteIn(RowIn):
    """An athlete with all that belongs to them."""

    table = "athlete"
    code: str
    sex: str | None = None
    handedness: str | None = None
    still_growing: bool | None = None
    invented: bool = False
    archived_at: datetime | None = None
    opened_at: datetime | None = None
    created: datetime
    version: Count = 0
    compacted: Count = 0
    own_ball: BallIn | None = None
    measures: list[MeasuresIn] = []
    readings: list[ReadingIn] = []
    references: list[ReferenceIn] = []
    comparisons: list[ComparisonIn] = []
    limits: list[LimitsIn] = []
    plans: list[PlanIn] = []
    sessions: list[SessionIn] = []
    stop_signs: list[StopSignIn] = []
    notes: list[NoteIn] = []
    settings: list[SettingIn] = []
    history: list[LineIn] = []

    def all_rows(self) -> Iterator[RowIn]:
        """The athlete's row, and every row beneath it."""
        yield from (self, *([self.own_ball] if self.own_ball else []))
        for name, table in LISTS.items():
            for row in getattr(self, name):
                yield row
                yield from getattr(row, CHILDREN[table][0]) if table in CHILDREN else ()


class TeamIn(Strict):
    """What belongs to the team."""

    version: Count = 0
    compacted: Count = 0
    balls: list[BallIn] = []
    lessons: list[LessonIn] = []
    history: list[LineIn] = []


class Document(Strict):
    """The whole document."""

    kind: Literal["levelpeak records"] = KIND
    version: Literal[1] = VERSION
    made_with: Word = MADE_WITH
    whole: bool = False
    team: TeamIn = TeamIn()
    athletes: list[AthleteIn] = []

    @model_validator(mode="after")
    def nothing_twice(self) -> Self:
        """Refuse two athletes of one code, and two rows of one name."""
        _once("code", (one.code for one in self.athletes))
        rows: list[RowIn] = [*self.team.balls, *self.team.lessons]
        for athlete in self.athletes:
            _once("limit", (one.key for one in athlete.limits))
            _once("setting", (one.key for one in athlete.settings))
            rows += athlete.all_rows()
        _once("uid", (f"{one.uid} ({one.table.replace('_', ' ')})" for one in rows))
        return self


def _once(what: str, names: Iterable[str]) -> None:
    """Refuse what a database would refuse without saying which it is."""
    twice = [name for name, count in Counter(names).items() if count > 1]
    if twice:
        raise ValueError(f"the {what} “{twice[0]}” stands in it twice")


def read_document(data: bytes) -> Document:
    """Read a document, JSON in UTF-8.

    Parameters
    ----------
    data : bytes

    Returns
    -------
    Document

    Raises
    ------
    ExchangeError
        If it is none, was made by a newer version, or holds what nobody could have entered; the text says where.
    """
    try:
        return Document.model_validate_json(data.removeprefix(b"\xef\xbb\xbf"))
    except ValidationError as error:
        raise ExchangeError(_in_words(error)) from None


def _in_words(error: ValidationError) -> str:
    found = error.errors(include_url=False, include_input=False)
    if any(one["loc"] == ("version",) for one in found):
        return "the document was made by a newer version of Levelpeak; that version can read it"
    told = []
    for one in found[:TOLD]:
        words = one["msg"].removeprefix("Value error, ").rstrip(".")
        where = "".join(f" {part + 1}" if isinstance(part, int) else f", {part}" for part in one["loc"]).lstrip(", ")
        told.append(f"{where.replace('_', ' ')}: {words}" if where else words)
    rest = f"; and {len(found) - TOLD} more" if len(found) > TOLD else ""
    return f"the document is not as this program writes it: {'; '.join(told)}{rest}"
