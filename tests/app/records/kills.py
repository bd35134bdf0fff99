"""Kill a program with signal 9 in the middle of saving, taking in and changing tables, and see that nothing is lost.

    python -m tests.app.records.kills 1000 [--database URL]

Each round works on records in a folder of their own; with an address, in that database, which must be empty and whose
user may make schemas. It prints how often what was killed, and fails on the first row lost or half of a change found.
"""

import argparse
import os
import random
import shutil
import signal
import struct
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path

from sqlalchemy import inspect, text

from app.records.acts import Add, Hand
from app.records.csv_readings import preview_readings, take_readings
from app.records.engine import Database
from app.records.history import history
from app.records.migrating import version_of
from app.records.migrations import SCRIPTS, VERSION_TABLE
from app.records.opening import open_store
from app.records.place import VARIABLE, Place, find_place
from app.records.reads import athlete_data

HAND = Hand("kills")
ROWS = 400
CODE = "B12"
NEXT = '''"""A next step."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Change a table with many rows."""
    with op.batch_alter_table("reading") as table:
        table.add_column(sa.Column("wind_m_s", sa.Double))
    op.execute("UPDATE reading SET wind_m_s = speed_m_s")
    with op.batch_alter_table("athlete") as table:
        table.add_column(sa.Column("nickname", sa.String(20)))
'''


def killed(work: Callable[[int], None], after_s: float) -> tuple[list[int], bool]:
    """Run work in a process of its own and kill it so long after its first word; its words, and whether it was done."""
    listening, telling = os.pipe()
    child = os.fork()
    if not child:
        os.close(listening)
        try:
            work(telling)
        finally:
            os._exit(0)
    os.close(telling)
    said = os.read(listening, 4)  # it has begun
    time.sleep(after_s)
    os.kill(child, signal.SIGKILL)
    while more := os.read(listening, 1 << 16):
        said += more
    os.close(listening)
    _, status = os.waitpid(child, 0)
    whole = len(said) // 4 * 4
    return [one for (one,) in struct.iter_unpack("<i", said[:whole])][1:], not os.WIFSIGNALED(status)


def tell(telling: int, number: int) -> None:
    os.write(telling, struct.pack("<i", number))


def speeds_of(place: Place, code: str) -> list[float]:
    store = open_store(place)
    try:
        return [one.speed_m_s for one in athlete_data(store, code).readings] if store.find(code) else []
    finally:
        store.close()


def saving(place: Place, chance: random.Random, number: int) -> bool:
    """Every reading that was answered for is there, in the rows, the history and the version."""
    store = open_store(place)
    code = f"S{number}"
    uid = store.new_athlete(code, HAND)
    store.close()

    def work(telling: int) -> None:
        mine = open_store(place)
        tell(telling, 0)
        for one in range(1, 5000):
            mine.act(uid, Add("reading", {"speed_m_s": f"{10 + one / 1000:.3f}"}), HAND)
            tell(telling, one)

    said, _ = killed(work, chance.uniform(0.0, 0.08))
    found = speeds_of(place, code)
    wanted = [10 + one / 1000 for one in said]
    assert found[: len(wanted)] == wanted, f"lost: {sorted(set(wanted) - set(found))}"
    assert len(found) <= len(wanted) + 1  # one may have been kept whose answer was not heard
    store = open_store(place)
    assert (
        store.version(uid) == 1 + len(found) == 1 + len({one.version for one in history(store, uid, most=10_000)} - {1})
    )
    store.close()
    return bool(found)


def taking_in(place: Place, chance: random.Random, number: int) -> bool:
    """A table is there as a whole or not at all."""
    code = f"I{number}"
    rows = "".join(f"{code},2026-01-01,145,{10 + one / 1000:.3f}\n" for one in range(ROWS))
    table = f"athlete,day,ball_mass_g,speed_m_s\n{rows}".encode()

    def work(telling: int) -> None:
        store = open_store(place)
        preview = preview_readings(store, table)
        tell(telling, 0)
        take_readings(store, preview, HAND)
        tell(telling, 1)
        time.sleep(5)

    said, _ = killed(work, chance.uniform(0.0, 0.12))
    found = speeds_of(place, code)
    assert len(found) in ((ROWS,) if said else (0, ROWS)), f"{len(found)} of {ROWS} rows"
    return bool(found)


def changing_tables(place: Place, chance: random.Random, number: int) -> bool:
    """The tables are at one version or the other, with every row."""
    steps = Path(tempfile.mkdtemp(prefix="steps-")) / "steps"
    shutil.copytree(SCRIPTS, steps, ignore=shutil.ignore_patterns("__pycache__"))
    (steps / "versions" / "v0002_next.py").write_text(NEXT, encoding="utf-8")
    before = len(speeds_of(place, CODE))

    def work(telling: int) -> None:
        tell(telling, 0)
        open_store(place, scripts=steps)
        tell(telling, 1)
        time.sleep(5)

    said, _ = killed(work, chance.uniform(0.0, 0.35))
    database = Database(place)
    with database.reading() as connection:
        version = version_of(connection)
        columns = [{one["name"] for one in inspect(connection).get_columns(name)} for name in ("reading", "athlete")]
        after = connection.execute(
            text("SELECT count(*) FROM reading r JOIN athlete a ON a.id = r.athlete_id")
        ).scalar()
        changed = ("wind_m_s" in columns[0], "nickname" in columns[1])
    database.close()
    assert changed == (version == "0002",) * 2, f"half of a change: {version}, {changed}"
    assert version == "0002" or not said
    assert after is not None
    if version == "0002":
        _back(place)
    shutil.rmtree(steps.parent)
    assert len(speeds_of(place, CODE)) == before
    return version == "0002"


def _back(place: Place) -> None:
    """Take the step back, for the next round."""
    database = Database(place)
    with database.writing() as connection:
        connection.execute(text("ALTER TABLE reading DROP COLUMN wind_m_s"))
        connection.execute(text("ALTER TABLE athlete DROP COLUMN nickname"))
        connection.execute(text(f"UPDATE {VERSION_TABLE} SET version_num = '0001'"))
    database.close()


ROUNDS = (saving, taking_in, changing_tables)


def sound(place: Place) -> None:
    """See that the file has no fault in it."""
    if place.on_server:
        return
    database = Database(place)
    with database.plainly() as connection:
        assert connection.exec_driver_sql("PRAGMA integrity_check").scalar() == "ok"
        assert connection.exec_driver_sql("PRAGMA foreign_key_check").first() is None
    database.close()


def main(words: list[str] | None = None) -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("rounds", type=int)
    parser.add_argument("--database")
    parser.add_argument("--seed", type=int, default=1)
    args = parser.parse_args(words)
    folder = Path(tempfile.mkdtemp(prefix="kills-"))
    place = find_place(str(folder), None, {VARIABLE: args.database or ""})
    store = open_store(place)
    uid = store.new_athlete(CODE, HAND)
    for start in range(0, 3000, 1000):
        readings = [Add("reading", values={"speed_m_s": 10 + one / 1000}) for one in range(start, start + 1000)]
        store.act(uid, readings, HAND)
    store.close()
    chance, done, finished = random.Random(args.seed), Counter[str](), Counter[str]()
    for number in range(args.rounds):
        one = ROUNDS[number % len(ROUNDS)]
        finished[one.__name__] += one(place, chance, number)
        done[one.__name__] += 1
        if number % 20 == 0:
            sound(place)
    sound(place)
    shutil.rmtree(folder)
    told = ", ".join(
        f"{name.replace('_', ' ')} {count} times, {finished[name]} of them after something was kept"
        for name, count in done.items()
    )
    print(f"{args.rounds} kills ({told}): 0 rows lost")
    return 0


if __name__ == "__main__":
    sys.exit(main())
