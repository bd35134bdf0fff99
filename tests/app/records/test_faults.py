"""What can go wrong is told with what to do, and leaves the data as it was."""

import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from sqlalchemy import create_engine, text
from sqlalchemy.exc import DBAPIError

from app.records.acts import Add, Edit
from app.records.erase import erase
from app.records.faults import (
    FullError,
    LockedError,
    ReadOnlyError,
    RecordsError,
    UnreachableError,
    told,
)
from app.records.opening import open_store
from app.records.reads import athlete_data
from tests.app.records.conftest import statement
from tests.app.records.hands import HAND

ROOT = Path(__file__).resolve().parents[3]

LIMITED = """
import resource, signal, sys
from app.records.acts import Add, Hand
from app.records.faults import FullError
from app.records.opening import open_store
from app.records.place import find_place

store = open_store(find_place(sys.argv[1], None, {}))
uid = store.find("B12").uid
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[2]),) * 2)
kept = 0
try:
    while kept < 5000:
        store.act(uid, Add("note", {"text": "long " * 390}), Hand("limited"))
        kept += 1
except FullError as error:
    print(kept, error)
"""


@pytest.fixture
def read_only(store, act, reading, place):
    """The same records, opened where they may only be read."""
    if not place.on_server:
        with store.database.plainly() as connection:  # the pool hands this connection out again
            connection.exec_driver_sql("PRAGMA query_only = ON")
        yield store
        return
    store.close()
    reader = f"{place.url.database}_reader"
    statement(f"CREATE ROLE {reader} LOGIN")
    engine = create_engine(place.engine_url)
    with engine.begin() as connection:
        connection.execute(text(f"GRANT SELECT ON ALL TABLES IN SCHEMA public TO {reader}"))
    opened = open_store(replace(place, url=place.url.set(username=reader)))
    yield opened
    opened.close()
    with engine.begin() as connection:
        connection.execute(text(f"DROP OWNED BY {reader}"))
        connection.execute(text(f"DROP ROLE {reader}"))
    engine.dispose()


def test_a_database_that_may_only_be_read_can_be_read_and_takes_nothing(read_only, athlete, reading):
    match = r"(Give your user account the right|Ask whoever runs the server for the right).* Nothing was changed"
    with pytest.raises(ReadOnlyError, match=match):
        read_only.act(athlete, Edit("reading.speed_m_s", "40", reading), HAND)
    assert athlete_data(read_only, "B12").readings[0].speed_m_s == 33.1
    with pytest.raises(ReadOnlyError):
        read_only.new_athlete("C3", HAND)
    with pytest.raises(ReadOnlyError):
        erase(read_only, athlete)
    assert len(athlete_data(read_only, "B12").readings) == 1


@pytest.mark.skipif(sys.platform == "win32", reason="Windows knows no limit on a file's size")
def test_a_disk_that_is_full_keeps_what_was_answered_for_and_says_so(in_file):
    store = open_store(in_file)
    store.new_athlete("B12", HAND)
    store.close()
    limit = in_file.file.stat().st_size + 60_000
    ran = subprocess.run(
        [sys.executable, "-c", LIMITED, str(in_file.folder), str(limit)],
        env=os.environ | {"PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    kept, words = ran.stdout.split(" ", 1)
    assert int(kept) > 0, ran.stderr
    assert "Nothing was changed: what was kept before is as it was." in words
    assert str(in_file.file) in words
    store = open_store(in_file)
    assert len(athlete_data(store, "B12").notes) == int(kept)
    store.close()


def test_a_server_that_was_started_again_is_found_again(on_server):
    store = open_store(on_server)
    uid = store.new_athlete("B12", HAND)
    name = on_server.url.database
    statement(f"SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = '{name}'")
    assert store.act(uid, Add("note", {"text": "after"}), HAND).done
    store.close()


def test_a_server_that_ends_in_the_middle_is_told_and_nothing_is_kept(on_server):
    store = open_store(on_server)
    uid = store.new_athlete("B12", HAND)
    name = on_server.url.database

    def interrupted() -> None:
        with store.database.writing() as connection:
            connection.execute(text("UPDATE athlete SET sex = 'male' WHERE uid = :uid"), {"uid": uid})
            statement(f"SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = '{name}'")
            connection.execute(text("UPDATE athlete SET handedness = 'left' WHERE uid = :uid"), {"uid": uid})

    with pytest.raises(UnreachableError, match=r"cannot be reached\. See that the server runs, .* Nothing was changed"):
        interrupted()
    assert athlete_data(store, "B12").athlete.sex is None
    store.close()


class ServerError(Exception):
    """An error as a server sends it."""

    def __init__(self, state: str | None) -> None:
        super().__init__("reason")
        self.sqlstate = state


@pytest.mark.parametrize(
    ("state", "kind", "words"),
    [
        ("53100", FullError, "Make room on the disk"),
        ("55P03", LockedError, "Close other programs"),
        ("40P01", LockedError, "Close other programs"),
        ("25006", ReadOnlyError, "may only be read"),
        ("42501", ReadOnlyError, "Ask whoever runs the server for the right"),
        ("28P01", UnreachableError, "user and password are right"),
        ("3D000", UnreachableError, "cannot be reached"),
        ("53300", UnreachableError, "Try again in a moment"),
        ("57P01", UnreachableError, "cannot be reached"),
        (None, UnreachableError, "cannot be reached"),
        ("XX000", RecordsError, "did not take it (reason)"),
    ],
)
def test_what_a_server_refuses_is_put_into_words(state, kind, words):
    error = told(DBAPIError("statement", {}, ServerError(state)), "the database x on y")
    assert type(error) is kind
    assert words in str(error)
    assert str(error).startswith("The database x on y") or "the database x on y" in str(error)
    assert str(error).endswith("Nothing was changed: what was kept before is as it was.")
