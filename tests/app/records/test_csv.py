"""Tables of readings and sessions: each row taken or refused with its reason, nothing kept before it is confirmed."""

import csv
import io
from datetime import date

import pytest

from app import places
from app.csv_files import TableError
from app.records.acts import TEAM, Add
from app.records.csv_readings import preview_readings, readings_table, take_readings
from app.records.csv_sessions import preview_sessions, sessions_table, take_sessions
from app.records.csv_verdicts import REFUSED, TAKEN, THERE
from app.records.opening import open_store
from app.records.place import Place
from app.records.reads import athlete_data, team_data
from tests.app.records.hands import HAND, TODAY

TABLE = """athlete,day,ball_mass_g,speed_m_s,asked_effort
B12,2026-02-01,145,33.1,100
B12,2026-02-01,145,33.1,
C3,2026-02-01,275,28.5,75
C3,2026-02-30,275,28.5,75
C3,2026-02-01,275,99,75
,2026-02-01,275,28,75
"""


@pytest.fixture
def elsewhere(tmp_path):
    opened = open_store(Place(tmp_path / "elsewhere"))
    yield opened
    opened.close()


def states(preview):
    return [one.state for one in preview.verdicts]


def reasons(preview):
    return [one.reason for one in preview.verdicts if one.state == REFUSED]


def test_each_row_is_taken_or_refused_with_its_reason(store):
    preview = preview_readings(store, TABLE.encode())
    assert states(preview) == [TAKEN] * 3 + [REFUSED] * 3
    assert reasons(preview)[0].startswith("day: “2026-02-30” given; accepted: year-month-day from 1990-01-01")
    assert reasons(preview)[1:] == [
        "speed_m_s: “99” given; accepted: 1 to 60 m/s.",
        "Athlete: nothing given; accepted: a code.",
    ]
    assert preview.athletes == ("B12", "C3")
    assert [mass for mass, _ in preview.balls] == [0.145, 0.275]
    assert "3 readings to be added." in preview.lines


def test_nothing_is_kept_until_it_is_confirmed_and_then_all_of_it(store):
    preview = preview_readings(store, TABLE.encode())
    assert store.find("B12") is None
    assert team_data(store).balls == ()
    assert take_readings(store, preview, HAND) == 3
    data = athlete_data(store, "C3")
    (row,) = data.readings
    assert (row.speed_m_s, row.asked_effort, row.day) == (28.5, 0.75, date(2026, 2, 1))
    assert data.balls[row.ball_id].mass_kg == 0.275
    assert len(athlete_data(store, "B12").readings) == 2  # two throws of one speed are two


def test_twice_adds_nothing_and_a_longer_table_adds_what_it_has_more(store):
    take_readings(store, preview_readings(store, TABLE.encode()), HAND)
    again = preview_readings(store, TABLE.encode())
    assert states(again)[:3] == [THERE] * 3
    assert take_readings(store, again, HAND) == 0
    longer = preview_readings(store, (TABLE + "B12,2026-02-01,145,33.1,100\n").encode())
    assert take_readings(store, longer, HAND) == 1


def test_full_effort_is_the_same_whether_it_was_written_or_not(store):
    take_readings(store, preview_readings(store, TABLE.encode()), HAND)
    assert take_readings(store, preview_readings(store, TABLE.replace("33.1,100", "33.1,").encode()), HAND) == 0


def test_confirming_twice_at_once_adds_the_rows_once(store):
    first, second = (preview_readings(store, TABLE.encode()) for _ in range(2))
    assert (take_readings(store, first, HAND), take_readings(store, second, HAND)) == (3, 0)


def test_what_came_in_is_one_act_that_can_be_taken_back(store, athlete):
    take_readings(store, preview_readings(store, TABLE.encode()), HAND)
    store.step(athlete, HAND)
    assert athlete_data(store, "B12").readings == ()
    store.step(athlete, HAND, back=False)
    assert len(athlete_data(store, "B12").readings) == 2


def test_columns_are_known_by_their_names_and_units_and_can_be_said(store, athlete):
    table = "Date;Ball mass (oz);Speed [mph];Pitcher’s mood\n2026-02-01;5;75,5;fine\n"
    preview = preview_readings(store, table.encode(), code="B12")
    assert [(use.meaning, use.unit) for use in preview.uses] == [
        ("day", ""),
        ("mass", "oz"),
        ("speed", "mph"),
        ("", ""),
    ]
    assert "Columns passed over: Pitcher’s mood." in preview.lines
    take_readings(store, preview, HAND)
    (row,) = athlete_data(store, "B12").readings
    assert row.speed_m_s == pytest.approx(33.7515, abs=1e-4)  # 75.5 mph of 0.44704 m/s
    assert row.typed == {"speed_m_s": "75.5\u00a0mph"}


def test_a_column_without_a_unit_is_said_to_be_a_guess(store, athlete):
    preview = preview_readings(store, b"day,mass,speed\n2026-02-01,145,30\n", code="B12")
    assert {use.header: use.sure for use in preview.uses} == {"day": True, "mass": False, "speed": False}
    assert "Column speed: m/s assumed." in preview.lines
    said = {"speed": ("speed", "km/h"), "mass": ("mass", "g")}
    preview = preview_readings(store, b"day,mass,speed\n2026-02-01,145,108\n", code="B12", said=said)
    assert all(use.sure for use in preview.uses)
    take_readings(store, preview, HAND)
    assert athlete_data(store, "B12").readings[0].speed_m_s == pytest.approx(30.0)  # 108 km/h


def test_the_own_ball_is_found_before_one_of_the_team(store, act, athlete):
    act(Add("ball", {"mass_kg": "145", "diameter_m": "73"}))
    act(Add("ball", {"mass_kg": "145", "diameter_m": "73", "name": "spare"}), owner=TEAM)
    take_readings(store, preview_readings(store, TABLE.encode()), HAND)
    data = athlete_data(store, "B12")
    assert {one.ball_id for one in data.readings} == {data.own_ball.id}


def test_a_ball_can_be_called_by_its_name(store, athlete, ball):
    table = b"athlete,day,ball,speed_m_s\nB12,2026-02-01,green,28\nB12,2026-02-01,blue,28\n"
    preview = preview_readings(store, table)
    assert states(preview) == [TAKEN, REFUSED]
    assert reasons(preview) == ["Ball: “blue” given; accepted: the name of a ball of the team, or a mass."]


def test_rows_without_a_day_need_one_to_be_said(store, athlete):
    table = b"ball_mass_g,speed_m_s\n145,33\n"
    assert reasons(preview_readings(store, table, code="B12")) == ["Day: nothing given; accepted: year-month-day."]
    take_readings(store, preview_readings(store, table, code="B12", day=TODAY), HAND)
    assert athlete_data(store, "B12").readings[0].day == TODAY


@pytest.mark.parametrize(
    ("table", "words"),
    [
        (b"", "empty"),
        (b"athlete,day,speed_m_s\n", "no column for ball_mass or ball"),
        (b"athlete,day,ball_mass_g\n", "no column for speed"),
        (b"day,ball_mass_g,speed_m_s\n", "no column for athlete"),
        ("athlete,day,ball_mass_g,speed_m_s".encode("utf-16"), "UTF-16"),
    ],
)
def test_a_table_that_cannot_be_used_is_refused_and_told(store, table, words):
    with pytest.raises(TableError, match=words):
        preview_readings(store, table)


def test_readings_go_out_and_come_in_unchanged(store, athlete, added, ball, elsewhere):
    store.act(athlete, Add("ball", {"mass_kg": "5 oz", "diameter_m": "73", "name": "own"}), HAND)
    for text in ("33.1", "75.5 mph", "30,25"):
        added("reading", speed_m_s=text, ball=ball, day="2026-02-01")
    added("reading", speed_m_s="20", ball=ball, asked_effort="75", distance_m="30", speed_is="release")
    other = store.new_athlete("=cmd", HAND)
    store.act(other, Add("reading", {"speed_m_s": "31", "ball": ball}), HAND, today=TODAY)
    table = "".join(readings_table(store))
    assert "'=cmd" in table  # no formula for a spreadsheet
    assert take_readings(elsewhere, preview_readings(elsewhere, table.encode()), HAND) == 5
    assert "".join(readings_table(elsewhere)) == table.replace(",green,", ",,")
    assert take_readings(store, preview_readings(store, table.encode()), HAND) == 0


def test_the_demos_own_table_comes_in(store):
    data = (places.demo_data() / "readings.csv").read_bytes()
    preview = preview_readings(store, data)
    assert preview.count(REFUSED) == 0
    assert take_readings(store, preview, HAND) == preview.count(TAKEN) == len(data.splitlines()) - 1


def test_rows_that_say_they_are_invented_make_invented_athletes_and_go_to_no_real_one(store, athlete):
    table = b"athlete,day,ball_mass_g,speed_m_s,data\nB12,2026-02-01,145,33,invented demo data\n"
    assert states(preview_readings(store, table)) == [REFUSED]
    take_readings(store, preview_readings(store, table.replace(b"B12", b"W01")), HAND)
    assert athlete_data(store, "W01").athlete.invented


BODIES = (
    {"throws": 12, "ball": {"mass_kg": 0.14174761562, "diameter_m": 0.073}, "speed_m_s": 28.5, "note": "=wet, “cold”"},
    {"throws": 0, "notes": {"joint": [{"site": "elbow", "pain": 4}], "painkiller": True}, "by": "AB", "role": "coach"},
    {"throws": "many", "a.b": 1},
    {},
)


def test_sessions_go_out_and_come_in_unchanged(store, act, added, athlete, elsewhere):
    plan = added("plan", name="Spring")
    for place, body in enumerate(BODIES):
        act(Add("session_log", values={"body": body} | ({"plan": plan} if place == 0 else {})))
    table = "".join(sessions_table(store))
    assert states(preview_sessions(store, table.encode())) == [THERE] * 4
    uid = elsewhere.new_athlete("B12", HAND)
    assert states(preview_sessions(elsewhere, table.encode())) == [REFUSED] + [TAKEN] * 3  # it has no such plan
    elsewhere.act(uid, Add("plan", {"name": "Spring"}), HAND)
    preview = preview_sessions(elsewhere, table.encode())
    assert take_sessions(elsewhere, preview, HAND) == 4
    bodies = [one.body for one in athlete_data(elsewhere, "B12").sessions]
    assert all(body in bodies for body in BODIES)
    assert "".join(sessions_table(elsewhere)) == table
    assert take_sessions(elsewhere, preview, HAND) == 0


def test_sessions_from_a_spreadsheet_come_in_with_what_it_knows(store, athlete):
    table = "date,throws,ball_mass_g,top_speed_m_s,weather\n2026-02-01,30,145,33.5,rain\n2026-02-02,x,145,33,\n"
    preview = preview_sessions(store, table.encode(), code="B12")
    assert states(preview) == [TAKEN, REFUSED]
    assert reasons(preview) == ["throws: “x” given; accepted: a number."]
    take_sessions(store, preview, HAND)
    (session,) = athlete_data(store, "B12").sessions
    assert session.body == {"throws": 30, "ball": {"mass_kg": 0.145}, "top_speed_m_s": 33.5}


def test_progress_is_told_from_the_first_row_to_the_last(store):
    rows = "".join(f"B12,2026-01-01,145,{20 + i / 1000:.3f},\n" for i in range(5000))
    table = f"athlete,day,ball_mass_g,speed_m_s,asked_effort\n{rows}"
    read, kept = [], []
    preview = preview_readings(store, table.encode(), progress=lambda done, of: read.append((done, of)))
    take_readings(store, preview, HAND, progress=lambda done, of: kept.append((done, of)))
    assert read[0] == (0, 5000)
    assert read[-1] == kept[-1] == (5000, 5000)
    assert len(kept) > 1
    assert len(list(csv.reader(io.StringIO("".join(readings_table(store)))))) == 5001
