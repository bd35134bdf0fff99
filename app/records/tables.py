"""The tables of the records. Every row belongs to an athlete, or to the team; numbers are in SI.

Each row has a `uid` that is the same wherever the row is taken. `typed` has the accepted text of a field where it says
more than its number does, and `draft` a text that was refused, so that it stands in its field again after a reload.
"""

import secrets
import time
from datetime import UTC, date, datetime
from typing import Any

from sqlalchemy import (
    JSON,
    BigInteger,
    CheckConstraint,
    Date,
    DateTime,
    Dialect,
    Double,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    String,
    Text,
    TypeDecorator,
    UniqueConstraint,
)
from sqlalchemy.orm import DeclarativeBase, Mapped, declared_attr, mapped_column

LONGEST_CODE = 24
LONGEST_NAME = 60
LONGEST_WORD = 40
LONGEST_INITIALS = 8
LONGEST_NOTE = 2000
LONGEST_UID = 24

TEAM_ID = 1
"""Of the one row of the team."""

NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s",
    "pk": "pk_%(table_name)s",
}
"""How keys and indexes are called, so that a migration can name them on every database."""


def new_uid() -> str:
    """Make a row's own name: the time (ms) and 48 random bits, so that new rows come last in an index."""
    return f"{time.time_ns() // 1_000_000:011x}{secrets.token_hex(6)}"


def now() -> datetime:
    """The present moment."""
    return datetime.now(UTC)


class Moment(TypeDecorator[datetime]):
    """A moment, kept in universal time by every database."""

    impl = DateTime
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002
        """Take the zone off."""
        return None if value is None else value.astimezone(UTC).replace(tzinfo=None)

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002
        """Put the zone on."""
        return None if value is None else value.replace(tzinfo=UTC)


class Base(DeclarativeBase):
    """All tables."""

    metadata = MetaData(naming_convention=NAMES)
    type_annotation_map = {  # noqa: RUF012
        float: Double,
        datetime: Moment,
        date: Date,
        dict[str, Any]: JSON(none_as_null=True),
        dict[str, str]: JSON(none_as_null=True),
        Any: JSON(none_as_null=True),
    }


def _athlete(delete: str = "CASCADE") -> Any:
    return mapped_column(ForeignKey("athlete.id", ondelete=delete))


class Row:
    """What every row has. No number of a removed row is given again: a late edit must not land on a new row."""

    id: Mapped[int] = mapped_column(Integer, primary_key=True)
    uid: Mapped[str] = mapped_column(String(LONGEST_UID), unique=True, default=new_uid)
    typed: Mapped[dict[str, str]] = mapped_column(default=dict)
    draft: Mapped[dict[str, str]] = mapped_column(default=dict)

    @declared_attr.directive
    def __tablename__(cls) -> str:  # noqa: N805
        """The class's name, in small letters with low lines."""
        name: str = cls.__name__  # type: ignore[attr-defined]
        return "".join(f"_{one.lower()}" if one.isupper() else one for one in name).lstrip("_")

    @declared_attr.directive
    def __table_args__(cls) -> tuple[Any, ...]:  # noqa: N805
        """The row's own rules, and the counting of SQLite that gives no number twice."""
        return *getattr(cls, "RULES", ()), {"sqlite_autoincrement": True}


class OfAthlete(Row):
    """A row that belongs to an athlete, and goes with the athlete."""

    @declared_attr
    def athlete_id(cls) -> Mapped[int]:  # noqa: N805
        """Whose it is."""
        made: Mapped[int] = _athlete()
        return made


class Team(Base):
    """The team: counts the versions of what belongs to no single athlete."""

    __tablename__ = "team"
    id: Mapped[int] = mapped_column(Integer, primary_key=True)
    version: Mapped[int] = mapped_column(default=0)
    compacted: Mapped[int] = mapped_column(default=0)


class Athlete(Row, Base):
    """An athlete. Archived, not deleted; `erase` deletes for good."""

    code: Mapped[str] = mapped_column(String(LONGEST_CODE), unique=True)
    sex: Mapped[str | None] = mapped_column(String(LONGEST_WORD))
    handedness: Mapped[str | None] = mapped_column(String(LONGEST_WORD))
    still_growing: Mapped[bool | None]
    invented: Mapped[bool] = mapped_column(default=False)
    archived_at: Mapped[datetime | None]
    opened_at: Mapped[datetime | None]
    created: Mapped[datetime] = mapped_column(default=now)
    version: Mapped[int] = mapped_column(default=0)
    compacted: Mapped[int] = mapped_column(default=0)


class Measures(OfAthlete, Base):
    """Measures of a day. Of each the newest counts; age goes on from its day."""

    RULES = (Index(None, "athlete_id", "day"),)
    day: Mapped[date]
    age_years: Mapped[float | None]
    stature_m: Mapped[float | None]
    body_mass_kg: Mapped[float | None]
    upper_arm_length_m: Mapped[float | None]
    forearm_length_m: Mapped[float | None]
    hand_length_m: Mapped[float | None]


class Ball(Row, Base):
    """A ball: the team's, or the one own ball of an athlete."""

    athlete_id: Mapped[int | None] = mapped_column(ForeignKey("athlete.id", ondelete="CASCADE"), unique=True)
    name: Mapped[str] = mapped_column(String(LONGEST_NAME), default="")
    mass_kg: Mapped[float | None]
    diameter_m: Mapped[float | None]
    position: Mapped[int] = mapped_column(default=0)
    archived_at: Mapped[datetime | None]


class Reading(OfAthlete, Base):
    """A speed that was read.

    `speed_is` says what the number is: as the radar showed it, or the release speed. Without an asked effort it was
    full effort, unless the throw was asked for as a distance.
    """

    RULES = (
        Index(None, "athlete_id", "day"),
        Index("ix_reading_of_ball", "ball_id", "day", "speed_m_s", "asked_effort", "distance_m"),
    )
    ball_id: Mapped[int | None] = mapped_column(ForeignKey("ball.id"))
    day: Mapped[date]
    speed_m_s: Mapped[float | None]
    speed_is: Mapped[str] = mapped_column(String(LONGEST_WORD), default="radar")
    asked_effort: Mapped[float | None]
    distance_m: Mapped[float | None]


class Reference(OfAthlete, Base):
    """The throw that shares are taken of, as it is known from a day on."""

    RULES = (Index(None, "athlete_id", "day"),)
    ball_id: Mapped[int | None] = mapped_column(ForeignKey("ball.id"))
    day: Mapped[date | None]
    kind: Mapped[str] = mapped_column(String(LONGEST_WORD), default="measured")
    speed_m_s: Mapped[float | None]
    relative_sd: Mapped[float | None]


class Comparison(OfAthlete, Base):
    """A comparison of throws that was kept. `reference` and `headline` are uids of its throws."""

    RULES = (Index(None, "athlete_id"),)
    name: Mapped[str] = mapped_column(String(LONGEST_NAME), default="")
    reference: Mapped[str | None] = mapped_column(String(LONGEST_UID))
    headline: Mapped[str | None] = mapped_column(String(LONGEST_UID))
    kind: Mapped[str] = mapped_column(String(LONGEST_WORD), default="measured")
    day: Mapped[date | None]
    quantity: Mapped[str] = mapped_column(String(LONGEST_WORD), default="varus")
    above: Mapped[float | None]
    align: Mapped[str] = mapped_column(String(LONGEST_WORD), default="release")
    scale: Mapped[str] = mapped_column(String(LONGEST_WORD), default="plain")


class Throw(OfAthlete, Base):
    """A throw of a comparison. `number` is what it is held by: a release speed, or a share of clock or full speed."""

    RULES = (Index(None, "comparison_id"), Index(None, "athlete_id"), Index(None, "thrower_id"))
    comparison_id: Mapped[int] = mapped_column(ForeignKey("comparison.id", ondelete="CASCADE"))
    thrower_id: Mapped[int | None] = _athlete()
    position: Mapped[int] = mapped_column(default=0)
    mass_kg: Mapped[float | None]
    diameter_m: Mapped[float | None]
    hold: Mapped[str] = mapped_column(String(LONGEST_WORD), default="speed")
    number: Mapped[float | None]


class Limits(OfAthlete, Base):
    """A limit that a first throw is to keep, by its key; a share of the reference throw's, or in its own unit."""

    RULES = (UniqueConstraint("athlete_id", "key"),)
    key: Mapped[str] = mapped_column(String(LONGEST_WORD))
    counted: Mapped[str] = mapped_column(String(LONGEST_WORD), default="share")
    amount: Mapped[float | None]


class Plan(OfAthlete, Base):
    """A build-up plan. Its body is the plan page's; the sessions thrown are rows of `session_log`."""

    RULES = (Index(None, "athlete_id"),)
    name: Mapped[str] = mapped_column(String(LONGEST_NAME), default="")
    start: Mapped[date | None]
    body: Mapped[dict[str, Any]] = mapped_column(default=dict)
    archived_at: Mapped[datetime | None]


class SessionLog(OfAthlete, Base):
    """A session that was thrown: of a plan, or of none."""

    RULES = (Index(None, "athlete_id", "day"), Index(None, "plan_id"))
    plan_id: Mapped[int | None] = mapped_column(ForeignKey("plan.id", ondelete="CASCADE"))
    position: Mapped[int] = mapped_column(default=0)
    day: Mapped[date]
    body: Mapped[dict[str, Any]] = mapped_column(default=dict)


class StopSign(OfAthlete, Base):
    """A stop sign. It is cleared or withdrawn, and never taken out; `session` is the uid of what it was noted of."""

    RULES = (
        Index(None, "athlete_id"),
        CheckConstraint("entered_by <> ''", "entered_by_somebody"),
    )
    sign: Mapped[str] = mapped_column(String(LONGEST_WORD))
    since: Mapped[date]
    session: Mapped[str | None] = mapped_column(String(LONGEST_UID))
    entered_by: Mapped[str] = mapped_column(String(LONGEST_INITIALS))
    entered_role: Mapped[str] = mapped_column(String(LONGEST_WORD))
    entered_on: Mapped[date]
    entered_words: Mapped[str] = mapped_column(Text, default="")
    cleared_by: Mapped[str | None] = mapped_column(String(LONGEST_INITIALS))
    cleared_role: Mapped[str | None] = mapped_column(String(LONGEST_WORD))
    cleared_on: Mapped[date | None]
    cleared_words: Mapped[str | None] = mapped_column(Text)
    withdrawn_by: Mapped[str | None] = mapped_column(String(LONGEST_INITIALS))
    withdrawn_role: Mapped[str | None] = mapped_column(String(LONGEST_WORD))
    withdrawn_on: Mapped[date | None]
    withdrawn_words: Mapped[str | None] = mapped_column(Text)


class Note(OfAthlete, Base):
    """A note of a day."""

    RULES = (Index(None, "athlete_id", "day"),)
    day: Mapped[date]
    text: Mapped[str] = mapped_column(Text, default="")


class Setting(OfAthlete, Base):
    """What was chosen or typed once for an athlete and fits no other table; `key` is a path of `field_list`."""

    RULES = (UniqueConstraint("athlete_id", "key"),)
    key: Mapped[str] = mapped_column(String(LONGEST_NAME))
    value: Mapped[Any | None]


class Lesson(Row, Base):
    """A teaching session as it was set up: the team's."""

    athlete_id: Mapped[int | None] = _athlete("SET NULL")
    name: Mapped[str] = mapped_column(String(LONGEST_NAME), default="")
    body: Mapped[dict[str, Any]] = mapped_column(default=dict)


class Revision(Base):
    """One line of what was done, in the order of `version`; several lines of one version were one act.

    `kind` is set, add or remove; `mode` do, undo or redo, the latter two of version `of`; or stay, which no undo takes
    back. What a field was before and after stands as JSON; so do the rows that were added or removed.
    """

    __tablename__ = "revision"
    __table_args__ = (
        Index(None, "athlete_id", "version"),
        Index(None, "row", "field"),
        {"sqlite_autoincrement": True},
    )
    id: Mapped[int] = mapped_column(Integer, primary_key=True)
    athlete_id: Mapped[int | None] = _athlete()
    version: Mapped[int]
    at: Mapped[datetime]
    tab: Mapped[str] = mapped_column(String(LONGEST_WORD), default="")
    by: Mapped[str] = mapped_column(String(LONGEST_INITIALS), default="")
    sent: Mapped[int] = mapped_column(BigInteger, default=0)
    mode: Mapped[str] = mapped_column(String(LONGEST_WORD), default="do")
    of: Mapped[int | None]
    kind: Mapped[str] = mapped_column(String(LONGEST_WORD))
    table: Mapped[str] = mapped_column(String(LONGEST_WORD))
    row: Mapped[str] = mapped_column(String(LONGEST_UID), default="")
    field: Mapped[str] = mapped_column(String(LONGEST_NAME), default="")
    before: Mapped[Any | None]
    after: Mapped[Any | None]


class Chore(Base):
    """Work that could not be finished and is tried again at the next start, such as sweeping up after an erasure."""

    __tablename__ = "chore"
    __table_args__ = ({"sqlite_autoincrement": True},)
    id: Mapped[int] = mapped_column(Integer, primary_key=True)
    what: Mapped[str] = mapped_column(String(LONGEST_WORD))
    detail: Mapped[str] = mapped_column(Text, default="")
    since: Mapped[datetime] = mapped_column(default=now)


class Mark(Base):
    """A word about the database itself, such as that it holds invented data."""

    __tablename__ = "mark"
    key: Mapped[str] = mapped_column(String(LONGEST_WORD), primary_key=True)
    text: Mapped[str] = mapped_column(Text, default="")


KEPT: dict[str, type[Row]] = {
    "athlete": Athlete,
    "measures": Measures,
    "ball": Ball,
    "reading": Reading,
    "reference": Reference,
    "comparison": Comparison,
    "throw": Throw,
    "limits": Limits,
    "plan": Plan,
    "session_log": SessionLog,
    "stop_sign": StopSign,
    "note": Note,
    "setting": Setting,
    "lesson": Lesson,
}
"""The tables that people fill, by name; those that others refer to come first."""

LINKS = {"ball_id": "ball", "comparison_id": "comparison", "thrower_id": "athlete", "plan_id": "plan"}
"""Columns that point at a row of another table; outside of the database the row's uid stands for it."""

OWN_COLUMNS = ("id", "athlete_id")
"""Columns that mean nothing outside of their database."""
