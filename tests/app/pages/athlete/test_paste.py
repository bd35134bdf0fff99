"""Tables from a spreadsheet and CSV files become readings of the right balls, as they were typed, or nothing at all."""

import pytest

from app.pages.athlete.paste import MOST_VALUES, PastedReading, PasteError, Place, from_csv, pasted
from app.units.systems import CUSTOMARY

RACK = {"light": 0.095, "own": 0.145, "heavy": 0.275, "new": None}


def speeds(found) -> dict[str, list[str]]:
    made: dict[str, list[str]] = {}
    for one in found.readings:
        made.setdefault(one.ball or one.mass_g, []).append(one.speed)
    return made


def test_a_column_is_readings_of_its_ball():
    found = pasted("33.2\r\n32,9\r\n\r\n", RACK, "own")
    assert speeds(found) == {"own": ["33.2", "32,9"]}
    assert found.notice == "Put in: 2 readings."


def test_a_line_is_readings_of_one_ball_too():
    assert speeds(pasted("28.1\t28.4", RACK, "heavy")) == {"heavy": ["28.1", "28.4"]}


def test_a_table_with_the_mass_first_in_each_line_also_of_a_ball_that_is_not_there_yet():
    found = pasted("ball\tone\ttwo\n95\t35.0\t35.4\n275 g\t28.3\t\n360\t26.1\t26.0", RACK, "")
    assert speeds(found) == {"light": ["35.0", "35.4"], "heavy": ["28.3"], "360": ["26.1", "26.0"]}
    assert [one.ball for one in found.readings][-1] == ""


def test_a_table_with_the_masses_on_top():
    assert speeds(pasted("95;275\n35,0;28,3\n35,4;28,7", RACK, "")) == {
        "light": ["35,0", "35,4"],
        "heavy": ["28,3", "28,7"],
    }


def test_a_block_pasted_into_a_cell_takes_the_place_of_what_stands_from_there_on():
    place = Place(("own", "heavy"), (("r1", "r2", ""), ("",)))
    found = pasted("33.1\t33.2\n28.3\t28.4", RACK, "", place)
    assert found.readings == (
        PastedReading("own", "", "33.1", row="r1"),
        PastedReading("own", "", "33.2", row="r2"),
        PastedReading("heavy", "", "28.3"),
        PastedReading("heavy", "", "28.4"),
    )


def test_what_is_no_number_is_put_in_all_the_same():
    assert speeds(pasted("28.3\nmisread\n28.4", RACK, "heavy")) == {"heavy": ["28.3", "misread", "28.4"]}


def test_in_ounces_a_mass_is_told_by_its_unit():
    found = pasted("5 oz\t75\t76", RACK, "", None, CUSTOMARY)
    assert speeds(found) == {"5 oz": ["75", "76"]}
    assert found.system == CUSTOMARY


@pytest.mark.parametrize(
    ("given", "key", "reason"),
    [
        ("", "own", "Nothing to put in"),
        ("  \n\t\n", "own", "Nothing to put in"),
        ("33.1\n33.2", "", "choose the ball"),
        ("33.1\t33.2\n28.3\t28.4", "own", "the first column, or the first line, is the ball’s mass"),
        ("33\n" * 2001, "own", "2001 lines? given|2002 lines given"),
        ("33\t33\t33\t33\n" * 1500, "own", "the first column"),
        ("\t".join(["33"] * (MOST_VALUES + 1)), "own", f"{MOST_VALUES + 1} readings given; accepted: up to 5000"),
    ],
)
def test_what_cannot_be_put_in_is_refused_with_its_reason(given, key, reason):
    with pytest.raises(PasteError, match=reason):
        pasted(given, RACK, key)


def test_a_block_with_more_lines_than_the_grid_is_refused():
    with pytest.raises(PasteError, match="2 lines given, and the grid has 1 from here"):
        pasted("33.1\t33.2\n28.3\t28.4", RACK, "", Place(("own",), (("",),)))


def test_a_csv_file_is_read_with_day_and_effort():
    data = b"\xef\xbb\xbfspeed_m_s,ball_mass_g,asked_effort,date\r\n28.5,275,75,2026-02-20\r\n33.4,145.0,100,\r\n"
    found = from_csv(RACK, data)
    assert found.readings == (
        PastedReading("heavy", "", "28.5", "2026-02-20", "75"),
        PastedReading("own", "", "33.4"),
    )
    assert found.notice == "Read from the file: 2 readings."


def test_a_bad_line_of_a_csv_file_is_left_out_and_named():
    data = b"ball_mass_g,speed_m_s,lane\n275,28.5,1\n275,fast,2\n,28.1,3\n275,28.7\n275,28.6,4\n"
    found = from_csv(RACK, data)
    assert speeds(found) == {"heavy": ["28.5", "28.6"]}
    assert "Columns passed over: lane." in found.notice
    assert "row 2: Reading: “fast” given; accepted: 1 to 60 m/s" in found.notice
    assert "row 3: Ball mass: nothing given; accepted: 1 to 3000 g" in found.notice
    assert "row 4: row: 2 values given; accepted: 3" in found.notice


def test_a_line_with_a_day_or_an_effort_that_cannot_be_is_left_out_and_named():
    found = from_csv(RACK, b"ball_mass_g,speed_m_s,date,asked_effort\n275,28.5,yesterday,\n275,28.6,,120\n275,28.7,,\n")
    assert speeds(found) == {"heavy": ["28.7"]}
    assert "row 1: Day of the reading: “yesterday” given" in found.notice
    assert "row 2: Asked effort: “120” given; accepted: 10 to 100 %" in found.notice


def test_a_new_ball_is_one_however_its_mass_is_typed():
    found = pasted("360\t26.1\n360,0\t26.0", RACK, "")
    assert {one.mass_g for one in found.readings} == {"360"}


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        (b"", "empty"),
        (b"ball_mass_g;speed_m_s;date\n1;2;3\n", "semicolons"),
        (b"ball_mass_g,speed\n1,2\n", "columns missing: speed_m_s"),
        (b"\xff\xfe\x00", "UTF-16"),
        (b'ball_mass_g,speed_m_s\n"275,28\n', "quote"),
    ],
)
def test_a_file_that_is_no_such_table_is_refused(data, reason):
    with pytest.raises(PasteError, match=reason):
        from_csv(RACK, data)
