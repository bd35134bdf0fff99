"""What pages read of the records of an athlete and of the team; the list of athletes is in `lines`."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from types import MappingProxyType
from typing import Any

from sqlalchemy import select

from app.records.faults import GoneError
from app.records.field_list import field_of, from_kept, is_setting, settings_of
from app.records.fields import in_words
from app.records.store import Store
from app.records.tables import (
    Athlete,
    Ball,
    Comparison,
    Lesson,
    Limits,
    Measures,
    Note,
    Plan,
    Reading,
    Reference,
    Row,
    SessionLog,
    Setting,
    StopSign,
    Team,
    Throw,
)
from app.units.systems import METRIC, System
from model.checks import InputError
from model.person import MEASURED_LENGTHS, PERSON_LIMITS, Person

DAYS_PER_YEAR = 365.2425


@dataclass(frozen=True)
class AthleteData:
    """All that is kept of an athlete, as it is at one version.

    Attributes
    ----------
    athlete : Athlete
    measures : tuple of Measures
        By day.
    own_ball : Ball or None
    readings : tuple of Reading
        By day.
    references : tuple of Reference
        By day.
    comparisons : tuple of Comparison
    throws : tuple of Throw
        In the order of their list.
    limits : mapping of str to Limits
        By key.
    plans : tuple of Plan
    sessions : tuple of SessionLog
        By plan, in the order of its list.
    stop_signs : tuple of StopSign
    notes : tuple of Note
        By day.
    setting_rows : mapping of str to Setting
        Those that were set, by path: for their typed texts and drafts.
    balls : mapping of int to Ball
        The team's and the own one, by number.
    codes : mapping of int to str
        Codes of the other athletes who throw in a comparison, by number.
    """

    athlete: Athlete
    measures: tuple[Measures, ...]
    own_ball: Ball | None
    readings: tuple[Reading, ...]
    references: tuple[Reference, ...]
    comparisons: tuple[Comparison, ...]
    throws: tuple[Throw, ...]
    limits: Mapping[str, Limits]
    plans: tuple[Plan, ...]
    sessions: tuple[SessionLog, ...]
    stop_signs: tuple[StopSign, ...]
    notes: tuple[Note, ...]
    setting_rows: Mapping[str, Setting]
    balls: Mapping[int, Ball]
    codes: Mapping[int, str] = field(default_factory=lambda: MappingProxyType({}))

    @property
    def version(self) -> int:
        """The version that this is."""
        return self.athlete.version

    @cached_property
    def settings(self) -> dict[str, Any]:
        """Every setting's value, by path; its default where it was never set."""
        kept = {key: row.value for key, row in self.setting_rows.items() if row.value is not None and is_setting(key)}
        return settings_of({key: from_kept(field_of(key, kept), value) for key, value in kept.items()})

    @property
    def reference(self) -> Reference | None:
        """The newest reference."""
        return self.references[-1] if self.references else None

    def throws_of(self, comparison: Comparison) -> tuple[Throw, ...]:
        """The throws of a comparison, in order."""
        return tuple(one for one in self.throws if one.comparison_id == comparison.id)

    def sessions_of(self, plan: Plan | None) -> tuple[SessionLog, ...]:
        """The sessions of a plan, in order; of None, those of no plan."""
        number = None if plan is None else plan.id
        return tuple(one for one in self.sessions if one.plan_id == number)


def athlete_data(store: Store, code: str, only: Collection[type[Row]] | None = None) -> AthleteData:
    """Read all that is kept of an athlete.

    Parameters
    ----------
    store : Store
    code : str
    only : collection of tables, optional
        What is read; the others are empty then. Without, everything.

    Returns
    -------
    AthleteData

    Raises
    ------
    GoneError
        If there is no athlete of that code.
    """
    with store.session() as session:
        athlete = session.scalars(select(Athlete).where(Athlete.code == code)).first()
        if athlete is None:
            raise GoneError(f"There is no athlete with the code “{code}” here.")

        def rows(table: Any, *order: Any) -> tuple[Any, ...]:
            if only is not None and table not in only:
                return ()
            found = select(table).where(table.athlete_id == athlete.id).order_by(*order, table.id)
            return tuple(session.scalars(found))

        own = rows(Ball)
        of_team = select(Ball).where(Ball.athlete_id.is_(None)).order_by(Ball.position, Ball.id)
        team = tuple(session.scalars(of_team)) if only is None or Ball in only else ()
        throws = rows(Throw, Throw.comparison_id, Throw.position)
        others = {one.thrower_id for one in throws if one.thrower_id is not None}
        named = select(Athlete.id, Athlete.code).where(Athlete.id.in_(others))
        return AthleteData(
            athlete,
            rows(Measures, Measures.day),
            own[0] if own else None,
            rows(Reading, Reading.day),
            rows(Reference, Reference.day.is_not(None), Reference.day),
            rows(Comparison),
            throws,
            {one.key: one for one in rows(Limits)},
            rows(Plan),
            rows(SessionLog, SessionLog.plan_id, SessionLog.position, SessionLog.day),
            rows(StopSign, StopSign.since),
            rows(Note, Note.day),
            {one.key: one for one in rows(Setting)},
            {one.id: one for one in (*team, *own)},
            {number: text for number, text in session.execute(named)} if others else {},  # noqa: C416
        )


@dataclass(frozen=True)
class TeamData:
    """What belongs to the team: its balls in their order, its teaching sessions, and its version."""

    balls: tuple[Ball, ...]
    lessons: tuple[Lesson, ...]
    version: int


def team_data(store: Store, archived: bool = False) -> TeamData:
    """Read what belongs to the team; archived balls only where asked for."""
    with store.session() as session:
        found = select(Ball).where(Ball.athlete_id.is_(None)).order_by(Ball.position, Ball.id)
        if not archived:
            found = found.where(Ball.archived_at.is_(None))
        lessons = session.scalars(select(Lesson).order_by(Lesson.id))
        return TeamData(tuple(session.scalars(found)), tuple(lessons), session.scalars(select(Team.version)).one())


def in_field(
    path: str, row: Any, system: System = METRIC, settings: Mapping[str, Any] | None = None, today: date | None = None
) -> tuple[str, str]:
    """What stands in a field: a text that was refused until another is accepted, else the value as it was typed.

    Parameters
    ----------
    path : str
        Of a field that is typed into or chosen from; a link is found by its number.
    row : Row or None
        The field's; of a setting its row, or None where it was never set.
    system : System
        The reader's units.
    settings : mapping of str to object, optional
        The athlete's, for a setting whose unit follows another one.
    today : date, optional
        The last day that is accepted.

    Returns
    -------
    str
    str
        What is wrong with it; empty if nothing is.
    """
    field = field_of(path, settings if is_setting(path) else row.__dict__)
    column = "value" if is_setting(path) else field.name
    if row is None:
        return field.shown(field.default, "", system), ""
    draft = row.draft.get(column)
    if draft is None:
        value = getattr(row, column)
        value = field.default if is_setting(path) and value is None else from_kept(field, value)
        return field.shown(value, row.typed.get(column, ""), system), ""
    try:
        field.parse(draft, system, today=today)
    except InputError as error:
        return draft, in_words(error)
    return draft, ""


def age_on(row: Measures, day: date) -> float | None:
    """The age (years) on a day: as it was typed, and gone on since."""
    return None if row.age_years is None else row.age_years + (day - row.day).days / DAYS_PER_YEAR


def measures_on(rows: Iterable[Measures], day: date) -> dict[str, float]:
    """The measures that count on a day: of each the newest up to it, or the oldest where all are later.

    Parameters
    ----------
    rows : iterable of Measures
        By day.
    day : date

    Returns
    -------
    dict of str to float
        In SI, by the names of `model.person.Person`; what was never measured is left out. Age goes on.
    """
    made: dict[str, float] = {}
    known = sorted(rows, key=lambda row: (row.day, row.id))
    for row in [*(one for one in reversed(known) if one.day > day), *(one for one in known if one.day <= day)]:
        for name in PERSON_LIMITS:
            value = age_on(row, day) if name == "age_years" else getattr(row, name)
            if value is not None:
                made[name] = value
    return made


def person_on(data: AthleteData, day: date) -> tuple[Person | None, Sequence[str]]:
    """The person the model computes with.

    Parameters
    ----------
    data : AthleteData
    day : date

    Returns
    -------
    Person or None
        None while something is missing.
    sequence of str
        Paths of the fields that are missing.
    """
    athlete, measures = data.athlete, measures_on(data.measures, day)
    needed = {"sex": athlete.sex, "handedness": athlete.handedness}
    missing = [f"athlete.{name}" for name, value in needed.items() if value is None]
    missing += [f"measures.{name}" for name in PERSON_LIMITS if name not in (*MEASURED_LENGTHS, *measures)]
    if missing or athlete.sex is None or athlete.handedness is None:
        return None, missing
    limit = PERSON_LIMITS["age_years"]
    measures["age_years"] = min(measures["age_years"], limit.high)  # who was typed as 99 grows no older than accepted
    marked = bool(athlete.still_growing)
    return Person(sex=athlete.sex, handedness=athlete.handedness, still_growing=marked, **measures), ()
