"""Erased is erased: out of tables, history, copies and free pages; what may still be somewhere is told."""

import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import text

from app.records.acts import TEAM, Add, Edit, Remove
from app.records.copies import back_up, copies
from app.records.erase import erase
from app.records.faults import GoneError
from app.records.history import history
from app.records.opening import open_store
from app.records.outgoing import export
from app.records.reads import athlete_data, team_data
from app.records.schema_copy import restore_schema
from app.records.stop_signs import Signed, enter
from tests.app.records.hands import HAND, TODAY

SECRETS = ("ZQ-7391", "kept in the grey notebook", "blue seven", "threw in the barn", "54.321")


@pytest.fixture
def secret(store):
    """An athlete in every table, with texts and numbers that stand nowhere else."""
    uid = store.new_athlete("ZQ-7391", HAND)

    def act(*acts):
        return store.act(uid, acts, HAND, today=TODAY)

    act(Add("ball", {"name": "blue seven", "mass_kg": "145"}), Add("note", {"text": "kept in the grey notebook"}))
    reading = act(Add("reading", {"speed_m_s": "54.321"})).outcomes[0].row
    act(Edit("reading.speed_m_s", "54.3x21", reading))
    act(Edit("reading.speed_m_s", "20", reading), Add("measures", {"stature_m": "199.7"}))
    plan = act(Add("plan", {"name": "p"}, {"body": {"why": "threw in the barn"}})).outcomes[0].row
    act(Add("session_log", values={"plan": plan, "body": {"note": "threw in the barn"}}))
    act(Remove("note", act(Add("note", {"text": "threw in the barn too"})).outcomes[0].row))
    act(Edit("profile.own_speed_m_s", "54.321"), Edit("limits.amount", "77.7", "elbow_peak"))
    enter(store, uid, "swelling", TODAY, Signed("ZQ", "coach", TODAY, "threw in the barn"), HAND)
    for _ in range(50):  # pages that are freed again
        row = act(Add("note", {"text": "kept in the grey notebook " * 40})).outcomes[0].row
        act(Remove("note", row))
    return uid


def bytes_of(folder: Path) -> bytes:
    return b"".join(path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file())


def test_a_byte_search_of_the_files_finds_nothing_afterwards(in_file):
    store = open_store(in_file)
    back_up(store.database, "0001")
    uid = secret.__wrapped__(store)
    back_up(store.database, "0002")
    before = bytes_of(in_file.folder)
    assert all(one.encode() in before for one in SECRETS)
    done = erase(store, uid)
    assert (done.code, done.swept, done.copies) == ("ZQ-7391", True, 1)
    after = bytes_of(in_file.folder)
    assert [one for one in (*SECRETS, uid) if one.encode() in after] == [uid]  # a word about the sweeping that was done
    store.close()
    open_store(in_file).close()
    assert not any(one.encode() in bytes_of(in_file.folder) for one in SECRETS)


def test_nothing_of_the_athlete_is_left_in_any_table(store, secret, athlete, reading):
    done = erase(store, secret)
    assert done.swept
    assert "ZQ-7391" not in "".join(export(store))
    with store.database.reading() as connection:
        rest = connection.execute(text("SELECT count(*) FROM revision WHERE athlete_id IS NOT NULL")).scalar()
    assert rest == len(history(store, athlete))
    assert [one.uid for one in athlete_data(store, "B12").readings] == [reading]
    with pytest.raises(GoneError):
        erase(store, secret)
    with pytest.raises(GoneError, match="erased"):
        store.act(secret, Edit("athlete.sex", "male"), HAND)


def test_the_throws_in_others_comparisons_go_too_with_their_history(store, secret, act, added, athlete):
    kept = added("comparison", name="Two")
    theirs = added("throw", values={"comparison": kept, "thrower": secret}, number="54.321", mass_kg="145")
    added("throw", values={"comparison": kept}, number="30", mass_kg="145")
    act(Edit("throw.number", "54.4", theirs))
    act(Remove("throw", added("throw", values={"comparison": kept, "thrower": secret}, number="44.44", mass_kg="145")))
    version = store.version(athlete)
    erase(store, secret)
    assert [one.number for one in athlete_data(store, "B12").throws] == [30.0]
    assert store.version(athlete) > version
    told = json.dumps([[line.before, line.after] for line in history(store, athlete)], default=str)
    assert not any(number in told for number in ("54.4", "54.321", "44.44"))


def test_the_code_typed_elsewhere_is_told_and_a_lesson_stays_without_its_athlete(store, secret, act, added):
    added("note", text="as fast as ZQ-7391 today")
    store.act(TEAM, Add("lesson", {"name": "First"}), HAND)
    done = erase(store, secret)
    (told,) = [one for one in done.left if "still stands" in one]
    assert told == (
        "The code ZQ-7391 still stands in 1 note, 1 line of history of others or of the team, "
        "as somebody typed it there."
    )
    assert len(team_data(store).lessons) == 1


def test_what_a_server_or_a_disk_may_still_hold_is_told(store, secret):
    left = " ".join(erase(store, secret).left)
    assert "exported" in left
    assert ("write-ahead log" in left and "backups" in left) if store.place.on_server else "blocks of the disk" in left


def test_a_reader_that_holds_the_log_open_is_told_and_the_next_start_sweeps_up(in_file):
    store = open_store(in_file, busy_s=0.3)
    uid = secret.__wrapped__(store)
    with closing(sqlite3.connect(in_file.file, isolation_level=None)) as reader:
        reader.execute("BEGIN")
        reader.execute("SELECT count(*) FROM note").fetchone()
        done = erase(store, uid)
        assert not done.swept
        assert "The next start tries again" in done.left[0]
        store.close()
    told = []
    open_store(in_file, tell=told.append).close()
    assert told == []
    assert not any(one.encode() in bytes_of(in_file.folder) for one in SECRETS)


def test_a_copy_that_cannot_be_read_is_named_so_that_somebody_deletes_it(in_file):
    store = open_store(in_file)
    uid = secret.__wrapped__(store)
    name = back_up(store.database, "0001")
    (in_file.backups / name).write_bytes(b"broken" * 1000)
    done = erase(store, uid)
    assert not done.swept
    assert name in done.left[0]
    (in_file.backups / name).unlink()
    store.close()
    told = []
    open_store(in_file, tell=told.append).close()
    assert told == []


def test_the_copies_on_a_server_are_cleared_too(on_server):
    store = open_store(on_server)
    uid = secret.__wrapped__(store)
    name = back_up(store.database, "0001")
    other = store.new_athlete("B12", HAND)
    assert erase(store, uid).copies == 1
    assert name in [one.name for one in copies(store.database)]
    with store.database.reading() as connection:
        for table in ("athlete", "note", "revision", "session_log", "setting"):
            assert connection.execute(text(f'SELECT count(*) FROM "{name}"."{table}"')).scalar() == 0
    restore_schema(store.database, name)
    assert store.find("ZQ-7391") is None
    assert store.find("B12") is None  # came after the copy
    assert other
    with store.database.writing() as connection:
        connection.execute(text(f'DROP SCHEMA "{name}" CASCADE'))
    store.close()
