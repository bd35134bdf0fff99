"""The store: every change of the records goes through `Store.act`, one transaction and one version at a time."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy import func, insert, select, update
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from app.records.acting import Doer
from app.records.acts import GONE, KEPT, REFUSED, SAME, Act, Acted, Hand, Outcome
from app.records.compaction import EVERY, compact
from app.records.engine import Database
from app.records.faults import RecordsError, TakenError
from app.records.field_list import field_of
from app.records.place import Place
from app.records.rows import MARK, REVISION, history_of, table_of
from app.records.steps import Ahead, StepError, ahead, take
from app.records.tables import Athlete, Mark, new_uid, now
from app.records.writer import Owner, Writer, find_owner, lock_owner, same_version
from app.units.systems import METRIC, System

INVENTED_MARK = "invented"


@dataclass(frozen=True)
class Steps:
    """What undo and redo would do now; None where there is nothing."""

    version: int
    back: Ahead | None
    again: Ahead | None


class Store:
    """The records of one database.

    Attributes
    ----------
    database : Database
    invented : bool
        Whether all of it is invented: the demo.
    """

    def __init__(self, database: Database) -> None:
        self.database = database
        with database.reading() as connection:
            found = select(MARK.c.key).where(MARK.c.key == INVENTED_MARK)
            self.invented = connection.execute(found).first() is not None

    @property
    def place(self) -> Place:
        """Where the records lie."""
        return self.database.place

    def close(self) -> None:
        """Let go of the database."""
        self.database.close()

    @contextmanager
    def session(self) -> Iterator[Session]:
        """Rows as objects, all of one moment; they can be read on after the block, and changing them keeps nothing."""
        with self.database.reading() as connection, Session(connection, expire_on_commit=False) as session:
            yield session
            session.expunge_all()

    def version(self, owner: str) -> int:
        """The last version of an athlete, or of the team; `GoneError` if there is no such athlete."""
        with self.database.reading() as connection:
            return find_owner(connection, owner).version

    def new_athlete(self, code: str, hand: Hand, *, invented: bool = False) -> str:
        """Make an athlete.

        Parameters
        ----------
        code : str
            As typed.
        hand : Hand
        invented : bool

        Returns
        -------
        str
            The uid.

        Raises
        ------
        InputError
            If the code is not accepted.
        TakenError
            If another athlete has it.
        """
        wanted = field_of("athlete.code").parse(code).value
        of, uid = table_of("athlete"), new_uid()
        try:
            with self.database.writing() as connection:
                self._free(connection, wanted)
                made = {"uid": uid, "code": wanted, "invented": invented or self.invented, "version": 0}
                connection.execute(insert(of).values(made))
                writer = Writer(connection, lock_owner(connection, uid), hand)
                writer.write("add", "athlete", uid, "", None, [{"table": "athlete", "code": wanted}])
        except RecordsError as error:
            if isinstance(error.__cause__, IntegrityError):  # two at the same moment
                raise _taken(wanted, False) from None
            raise
        return uid

    def _free(self, connection: Any, code: str) -> None:
        of = table_of("athlete").c
        row = connection.execute(select(of.archived_at).where(of.code == code)).first()
        if row is not None:
            raise _taken(code, row.archived_at is not None)

    def find(self, code: str) -> Athlete | None:
        """Find an athlete by the code; None if there is none."""
        with self.session() as session:
            return session.scalars(select(Athlete).where(Athlete.code == code)).first()

    def code_of(self, uid: str) -> str | None:
        """The code of an athlete; None if there is none."""
        with self.database.reading() as connection:
            of = table_of("athlete").c
            code: str | None = connection.execute(select(of.code).where(of.uid == uid)).scalar()
            return code

    def codes(self) -> tuple[str, ...]:
        """The codes of the athletes who are not archived, those looked at last first."""
        with self.database.reading() as connection:
            of = table_of("athlete").c
            found = select(of.code, of.opened_at).where(of.archived_at.is_(None))
            rows = sorted(connection.execute(found).all(), key=lambda row: row.code.casefold())
        recent = sorted(rows, key=lambda row: -row.opened_at.timestamp() if row.opened_at else 0.0)
        return tuple(row.code for row in recent)

    def count_archived(self) -> int:
        """How many athletes are archived."""
        with self.database.reading() as connection:
            of = table_of("athlete").c
            found = select(func.count()).select_from(table_of("athlete")).where(of.archived_at.is_not(None))
            return connection.execute(found).scalar_one()

    def last_opened(self) -> str:
        """The code of the athlete who was looked at last; without one the first of the list, empty if there is none."""
        return next(iter(self.codes()), "")

    def opened(self, athlete: str) -> None:
        """Note that an athlete was looked at now: the recent ones come first in a list of athletes."""
        of = table_of("athlete")
        with self.database.writing() as connection:
            connection.execute(update(of).where(of.c.uid == athlete).values(opened_at=now()))

    def act(
        self,
        owner: str,
        acts: Sequence[Act] | Act,
        hand: Hand,
        system: System = METRIC,
        today: date | None = None,
        stays: bool = False,
    ) -> Acted:
        """Do something: all of it as one version, in one transaction.

        Parameters
        ----------
        owner : str
            uid of an athlete, or TEAM.
        acts : sequence of Act, or one
        hand : Hand
        system : System
            The units that the fields showed, and those of the messages.
        today : date, optional
            The last day that is accepted, and the day of new rows.
        stays : bool
            Whether no undo takes it back: that something was handed out.

        Returns
        -------
        Acted
            When this returns, what was kept is on the disk. A text that cannot be accepted is kept as a draft of its
            field and changes nothing; where one act meets a conflict, or its row is gone, none is done.

        Raises
        ------
        GoneError
            If there is no such athlete.
        RecordsError
            If the database did not take it; then nothing was changed.
        InputError
            If a field or table is named that there is not.
        """
        asked = acts if isinstance(acts, Sequence) else (acts,)
        try:
            with self.database.writing() as connection:
                found = lock_owner(connection, owner)
                mode = "stay" if stays else "do"
                doer = Doer(Writer(connection, found, hand, mode=mode), hand, system, today)
                outcomes = tuple(doer.do(act) for act in asked)
                acted = Acted(found.version, outcomes)
                if wrong := doer.astray():
                    raise _NothingToKeepError(
                        Acted(found.version - 1, tuple(Outcome(REFUSED, "", wrong) for _ in asked))
                    )
                if acted.stopped or not (doer.writer.changed or doer.writer.noted):
                    raise _NothingToKeepError(Acted(found.version - 1, outcomes))
                if not doer.writer.changed:
                    same_version(connection, found)
                    acted = Acted(found.version, outcomes, noted=True)
        except _NothingToKeepError as nothing:
            return nothing.acted
        except RecordsError as error:
            if isinstance(error.__cause__, IntegrityError):
                words = "Somebody else entered the same at this moment. Look at what stands there now."
                return Acted(self.version(owner), tuple(Outcome(GONE, "", words) for _ in asked))
            raise
        self._compact_now_and_then(found)
        return acted

    def _compact_now_and_then(self, owner: Owner) -> None:
        if owner.version % EVERY == 0:
            with self.database.writing() as connection:
                compact(connection, lock_owner_quietly(connection, owner.uid))

    def steps(self, owner: str) -> Steps:
        """What undo and redo would do now.

        Parameters
        ----------
        owner : str

        Returns
        -------
        Steps
        """
        with self.database.reading() as connection:
            found = find_owner(connection, owner)
            return Steps(found.version, ahead(connection, found, True), ahead(connection, found, False))

    def step(self, owner: str, hand: Hand, back: bool = True, expected: int | None = None) -> Acted:
        """Take the last act back, or do again what was taken back last.

        Parameters
        ----------
        owner : str
        hand : Hand
        back : bool
            Undo; else redo.
        expected : int, optional
            The version that the page said it would take back, or do again: another one is not touched.

        Returns
        -------
        Acted
            Its outcome is SAME where there is nothing to take back.

        Raises
        ------
        StepError
            If somebody has acted since, or the value has changed.
        RecordsError
            If the database did not take it.
        """
        with self.database.writing() as connection:
            found = lock_owner(connection, owner)
            next_one = ahead(connection, found, back)
            if next_one is None:
                same_version(connection, found)
                return Acted(found.version, (Outcome(SAME),))
            if expected is not None and next_one.version != expected:
                raise StepError("Something else was entered in the meantime. Look at it, then undo again.")
            writer = Writer(connection, found, hand, mode="undo" if back else "redo", of=next_one.version)
            take(writer, next_one.taken)
        return Acted(found.version, (Outcome(KEPT),))

    def others_since(self, owner: str, version: int, tab: str) -> bool:
        """Whether another tab has changed something after a version."""
        of = REVISION.c
        with self.database.reading() as connection:
            whose = history_of(find_owner(connection, owner).id)
            found = select(of.id).where(whose, of.version > version, of.tab != tab).limit(1)
            return connection.execute(found).first() is not None

    def mark_invented(self) -> None:
        """Mark the whole database as invented."""
        with self.database.writing() as connection:
            connection.execute(insert(Mark), [{"key": INVENTED_MARK, "text": ""}])
        self.invented = True


class _NothingToKeepError(Exception):
    """Ends a transaction without keeping it."""

    def __init__(self, acted: Acted) -> None:
        super().__init__()
        self.acted = acted


def _taken(code: str, archived: bool) -> TakenError:
    where = ", who is archived" if archived else ""
    return TakenError(f"Code: “{code}” given; it is another athlete’s here{where}. Accepted: a code not yet in use.")


def lock_owner_quietly(connection: Any, uid: str) -> Owner:
    """Hold an owner's records without a new version."""
    found = lock_owner(connection, uid)
    same_version(connection, found)
    return found
