"""How long the records take: `pytest -n 0 -s tests/benchmarks/bench_records.py`.

On a file, and on a server where `LEVELPEAK_TEST_POSTGRES` names one. 200 athletes have 5 000 readings each.
"""

import time
from datetime import date, timedelta
from itertools import count
from pathlib import Path

import pytest
from sqlalchemy import create_engine, insert, text

from app.records.acts import TEAM, Add, Edit, Hand
from app.records.csv_readings import preview_readings, take_readings
from app.records.lines import athlete_lines
from app.records.opening import open_store
from app.records.place import Place
from app.records.reads import athlete_data
from app.records.rows import table_of
from app.records.store import Store
from app.records.tables import new_uid
from tests.app.records.conftest import EMPTIED, place_on_server
from tests.app.records.conftest import server as server

HAND = Hand("bench")
ATHLETES, READINGS = 200, 5000
FIRST = date(2024, 1, 1)
SINCE = FIRST + timedelta(days=365)


@pytest.fixture(scope="module", params=["sqlite", "postgres"])
def place(request, tmp_path_factory) -> Place:
    folder: Path = tmp_path_factory.mktemp(f"bench-{request.param}")
    return Place(folder) if request.param == "sqlite" else place_on_server(request.getfixturevalue("server"), folder)


@pytest.fixture(scope="module")
def club(place) -> Store:
    """200 athletes, each with an own ball, four balls of the team, and 5 000 readings over two years."""
    store = open_store(place)
    if place.on_server:
        engine = create_engine(place.engine_url)
        with engine.begin() as connection:
            for one in EMPTIED:
                connection.execute(text(one))
        engine.dispose()
    balls = [
        store.act(TEAM, Add("ball", {"mass_kg": mass}), HAND).outcomes[0].row for mass in ("95", "210", "275", "360")
    ]
    for number in range(ATHLETES):
        uid = store.new_athlete(f"A{number:03d}", HAND)
        own = store.act(uid, Add("ball", {"mass_kg": "145"}), HAND).outcomes[0].row
        with store.database.writing() as connection:
            ids = dict(connection.execute(text("SELECT uid, id FROM ball")).all())
            athlete = connection.execute(text("SELECT id FROM athlete WHERE uid = :uid"), {"uid": uid}).scalar()
            rows = [
                {
                    "uid": new_uid(),
                    "athlete_id": athlete,
                    "ball_id": ids[[own, *balls][one % 5]],
                    "day": FIRST + timedelta(days=one % 730),
                    "speed_m_s": 25 + one % 100 / 10,
                }
                for one in range(READINGS)
            ]
            connection.execute(insert(table_of("reading")), rows)
    if place.on_server:
        with store.database.plainly() as connection:
            connection.execute(text("ANALYZE"))
    yield store
    store.close()


def test_a_save(benchmark, club):  # 5 ms at most at the median
    uid = club.find("A007").uid
    row = club.act(uid, Add("reading", {"speed_m_s": "30"}), HAND).outcomes[0].row
    numbers = count()

    def save() -> None:
        assert club.act(uid, Edit("reading.speed_m_s", f"{20 + next(numbers) % 3000 / 100:.2f}", row), HAND).done

    benchmark.pedantic(save, rounds=300, warmup_rounds=20)


def test_the_list_of_two_hundred_athletes_and_all_of_one(benchmark, club, place):  # 0.5 s at most, from opening on
    def look() -> int:
        store = open_store(place)
        lines = athlete_lines(store, SINCE)
        data = athlete_data(store, lines[7].code)
        store.close()
        return len(data.readings)

    assert benchmark.pedantic(look, rounds=5, warmup_rounds=1) >= READINGS


def test_two_hundred_thousand_rows_of_a_table(place):  # 30 s at most, looked through and kept
    store = open_store(place)
    rows = "".join(
        f"T{one % 40},2026-01-{1 + one % 28:02d},{(95, 145, 275)[one % 3]},{20 + one % 2000 / 100:.2f},\n"
        for one in range(200_000)
    )
    table = f"athlete,day,ball_mass_g,speed_m_s,asked_effort\n{rows}".encode()
    began = time.perf_counter()
    preview = preview_readings(store, table)
    looked = time.perf_counter()
    added = take_readings(store, preview, HAND)
    print(f"\n{added} rows: looked through in {looked - began:.1f} s, kept in {time.perf_counter() - looked:.1f} s")
    store.close()
