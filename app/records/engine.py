"""The way to the database: how it is opened, and a transaction that writes."""

import json
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event

from app.records.faults import LOCKED, UNCHANGED, UnreachableError, telling
from app.records.place import Place

BUSY_S = 20.0
"""How long one waits for another who writes."""

NO_DRIVER = (
    'What speaks with a PostgreSQL server is not installed: python -m pip install "psycopg[binary]" in the environment '
    "that Levelpeak runs in."
)
MOST_CONNECTIONS = 40
WRITES = "writes"
PLAINLY = "plainly"


class Database:
    """A database and its place.

    Attributes
    ----------
    place : Place
    engine : Engine
    busy_s : float
        How long to wait for others who write (s).
    """

    def __init__(self, place: Place, busy_s: float = BUSY_S, foreign_keys: bool = True) -> None:
        self.place = place
        self.busy_s = busy_s
        self.engine = _engine(place, busy_s, foreign_keys)
        self._turn = threading.Lock()  # SQLite wakes those who wait in no order: here one after another

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """A transaction that may write: kept as a whole when the block ends, or not at all."""
        with telling(self.place.words):
            one_at_a_time = not self.place.on_server
            if one_at_a_time and not self._turn.acquire(timeout=self.busy_s):
                kind, words = LOCKED
                raise kind(f"{words.format(where=self.place.words)} {UNCHANGED}")
            try:
                with self.engine.connect().execution_options(**{WRITES: True}) as connection, connection.begin():
                    yield connection
            finally:
                if one_at_a_time:
                    self._turn.release()

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A transaction that only reads, and sees one state from its beginning to its end."""
        with telling(self.place.words), self.engine.connect() as connection:
            if self.place.on_server:
                connection = connection.execution_options(isolation_level="REPEATABLE READ", postgresql_readonly=True)
            with connection.begin():
                yield connection

    @contextmanager
    def plainly(self) -> Iterator[Connection]:
        """A connection without a transaction around its statements."""
        with telling(self.place.words), self.engine.connect() as connection:
            # SQLite begins none but in `begun`; its own way of switching would not be switched back
            yield connection.execution_options(
                **({"isolation_level": "AUTOCOMMIT"} if self.place.on_server else {PLAINLY: True})
            )

    def close(self) -> None:
        """Let go of every connection."""
        self.engine.dispose()


def from_json(kept: str | bytes) -> Any:
    """What a column of JSON holds; most of them hold nothing, in thousands of rows."""
    return {} if kept in ("{}", b"{}") else json.loads(kept)


def _engine(place: Place, busy_s: float, foreign_keys: bool) -> Engine:
    pool: dict[str, Any] = {"pool_size": 8, "max_overflow": MOST_CONNECTIONS - 8, "pool_timeout": busy_s}
    pool["json_deserializer"] = from_json
    if place.on_server:
        options = f"-c lock_timeout={round(1000 * busy_s)} -c timezone=UTC"
        words = {"options": options, "application_name": "levelpeak", "connect_timeout": max(2, round(busy_s))}
        try:
            return create_engine(place.engine_url, pool_pre_ping=True, connect_args=words, **pool)
        except ModuleNotFoundError as error:
            raise UnreachableError(NO_DRIVER) from error
    engine = create_engine(place.engine_url, connect_args={"timeout": busy_s}, **pool)

    @event.listens_for(engine, "connect")
    def connected(connection: Any, _: Any) -> None:
        connection.isolation_level = None  # transactions begin where `begun` says so, also around changes of tables
        cursor = connection.cursor()
        for pragma in (
            "journal_mode = WAL",
            "synchronous = FULL",  # an answer is given when it is on the disk
            f"foreign_keys = {'ON' if foreign_keys else 'OFF'}",
            "secure_delete = ON",
        ):
            cursor.execute(f"PRAGMA {pragma}")
        cursor.close()

    @event.listens_for(engine, "begin")
    def begun(connection: Connection) -> None:
        options = connection.get_execution_options()
        if options.get(PLAINLY):
            return
        connection.exec_driver_sql("BEGIN IMMEDIATE" if options.get(WRITES) else "BEGIN")

    return engine
