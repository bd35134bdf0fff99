"""Tables from a spreadsheet and CSV files land in the right cells, as they were, or not at all."""

import pytest

from app.pages.athlete.paste import PasteError, from_csv, pasted
from app.show.profile_form import MOST_READINGS, BallRow, Cell, ProfileForm

RACK = ProfileForm((BallRow("b1", "95"), BallRow("b2", "145", "73", (Cell("33.0"),)), BallRow("b3", "275")))


def speeds(form) -> dict[str, list[str]]:
    return {row.mass_g: [cell.speed for cell in row.cells] for row in form.rows}


def test_a_column_goes_after_the_readings_of_its_ball():
    added = pasted(RACK, "33.2\r\n32,9\r\n\r\n", "b2")
    assert speeds(added.form)["145"] == ["33.0", "33.2", "32,9"]
    assert added.notice == "Put in: 2 readings."


def test_a_line_is_readings_of_one_ball_too():
    assert speeds(pasted(RACK, "28.1\t28.4", "b3").form)["275"] == ["28.1", "28.4"]


def test_a_table_with_the_mass_first_in_each_line():
    added = pasted(RACK, "ball\tone\ttwo\n95\t35.0\t35.4\n275 g\t28.3\t\n360\t26.1\t26.0", "")
    assert speeds(added.form) == {"95": ["35.0", "35.4"], "145": ["33.0"], "275": ["28.3"], "360": ["26.1", "26.0"]}


def test_a_table_with_the_masses_on_top():
    added = pasted(RACK, "95;275\n35,0;28,3\n35,4;28,7", "")
    assert speeds(added.form) == {"95": ["35,0", "35,4"], "145": ["33.0"], "275": ["28,3", "28,7"]}


def test_a_block_pasted_into_a_cell_fills_the_grid_from_there():
    added = pasted(RACK, "33.1\t33.2\n28.3\t28.4", "b2", 1)
    assert speeds(added.form) == {"95": [], "145": ["33.0", "33.1", "33.2"], "275": ["", "28.3", "28.4"]}


def test_what_is_no_number_is_put_in_all_the_same():
    assert speeds(pasted(RACK, "28.3\nmisread\n28.4", "b3").form)["275"] == ["28.3", "misread", "28.4"]


@pytest.mark.parametrize(
    ("given", "key", "reason"),
    [
        ("", "b1", "Nothing to put in"),
        ("  \n\t\n", "b1", "Nothing to put in"),
        ("33.1\n33.2", "", "choose the ball"),
        ("33.1\t33.2\n28.3\t28.4", "b1", "the first column, or the first line, is the ball’s mass"),
        ("33\n" * (MOST_READINGS + 1), "b1", "more than 40 readings of the 95 g ball"),
    ],
)
def test_what_cannot_be_put_in_is_refused_with_its_reason(given, key, reason):
    with pytest.raises(PasteError, match=reason):
        pasted(RACK, given, key)


def test_a_csv_file_is_added_with_day_and_effort():
    data = b"\xef\xbb\xbfspeed_m_s,ball_mass_g,asked_effort,date\r\n28.5,275,75,2026-02-20\r\n33.4,145.0,100,\r\n"
    added = from_csv(RACK, data)
    rows = {row.mass_g: row.cells for row in added.form.rows}
    assert rows["275"] == (Cell("28.5", "2026-02-20", "75"),)
    assert rows["145"] == (Cell("33.0"), Cell("33.4"))
    assert added.notice == "Read from the file: 2 readings."


def test_a_bad_line_of_a_csv_file_is_left_out_and_named():
    data = b"ball_mass_g,speed_m_s,lane\n275,28.5,1\n275,fast,2\n,28.1,3\n275,28.7\n275,28.6,4\n"
    added = from_csv(RACK, data)
    assert speeds(added.form)["275"] == ["28.5", "28.6"]
    assert "Columns passed over: lane." in added.notice
    assert "row 2: speed_m_s: 'fast' given; accepted: 1 to 60 m/s" in added.notice
    assert "row 3: ball_mass_g: '' given" in added.notice
    assert "row 4: row: 2 values given; accepted: 3" in added.notice


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
