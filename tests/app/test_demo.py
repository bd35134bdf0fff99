"""The invented demo data: that all of it can be used, and that it is what it says."""

from datetime import date

import pytest

from app import places
from app.demo import DemoError, load_demo
from app.show.from_records import person_of
from app.show.listed_throw import listed
from model.ceilings import KINDS
from tests.app.kept_demo import kept
from tests.app.known import TODAY

RACK_G = [95, 125, 160, 210, 275, 360, 470]  # issue, part 4, and each athlete's own ball of 145 g


def test_the_rack_holds_the_balls_that_were_asked_for_and_the_own_ball():
    balls = load_demo().rack
    assert [float(ball.mass_g) for ball in balls] == [*RACK_G, 145]
    assert {ball.diameter_mm for ball in balls} == {"73"}


def test_there_is_a_left_hander_a_child_a_woman_and_a_clinicians_case():
    athletes = load_demo().athletes
    assert any(athlete.handedness == "left" for athlete in athletes)
    assert any(athlete.age_years == "13" for athlete in athletes)
    assert any(athlete.sex == "female" for athlete in athletes)
    assert any(athlete.reference_kind == KINDS["before_injury"] for athlete in athletes)


@pytest.mark.parametrize("athlete", load_demo().athletes, ids=lambda athlete: athlete.athlete)
def test_every_thrower_is_whole_and_has_throws_to_compare(athlete):
    data = kept(athlete.athlete)
    person, missing = person_of(data, TODAY)
    assert (person is not None, missing) == (True, ())
    (comparison,) = data.comparisons
    throws = data.throws_of(comparison)
    assert len(throws) >= 3
    assert all(listed(row, person).speed_m_s is not None for row in throws)
    assert comparison.reference == throws[0].uid
    assert comparison.day is not None or comparison.kind == "estimated"


def test_every_throw_of_the_block_is_by_a_thrower_with_a_ball_of_the_rack():
    demo = load_demo()
    codes = {athlete.athlete for athlete in demo.athletes}
    masses = {ball.mass_g for ball in demo.rack}
    assert {throw.athlete for throw in demo.throws} == codes
    assert {throw.ball_mass_g for throw in demo.throws} <= masses
    days = {date.fromisoformat(throw.date) for throw in demo.throws}
    assert (min(days), max(days)) == (date(2026, 1, 13), date(2026, 2, 20))
    assert all(5.0 < float(throw.speed_m_s) < 40.0 for throw in demo.throws)


def test_the_last_day_gives_each_ball_once_with_the_median_of_its_speeds():
    # throws.csv, 2026-02-20, W01, 275 g: 28.3, 28.7, 28.5
    assert ("275", "28.5") in load_demo().last_day("W01")
    assert load_demo().last_day("nobody") == ()


def test_the_data_say_that_they_are_invented():
    said = (places.demo_data() / "README.md").read_text(encoding="utf-8")
    assert "invented" in said.splitlines()[0]


def copy_with(folder, name: str, text: str) -> None:
    """Copy the demo data, one file of them with another text."""
    for path in places.demo_data().glob("*.csv"):
        folder.joinpath(path.name).write_text(path.read_text(encoding="utf-8"), encoding="utf-8")
    folder.joinpath(name).write_text(text, encoding="utf-8")


def test_a_file_with_other_columns_is_refused_by_name(tmp_path):
    copy_with(tmp_path, "rack.csv", "ball,mass_oz\nown,5\n")
    with pytest.raises(DemoError, match=r"rack\.csv: columns .*mass_oz.* found; accepted: .*mass_g"):
        load_demo(tmp_path)


def test_a_line_with_a_value_too_many_is_refused_by_number(tmp_path):
    copy_with(tmp_path, "rack.csv", "ball,mass_g,diameter_mm\nown ball,145,73,1\n")
    with pytest.raises(DemoError, match=r"rack\.csv, line 2: 4 values found; accepted: 3"):
        load_demo(tmp_path)


def test_a_cut_quotation_is_an_error_and_not_a_value(tmp_path):
    copy_with(tmp_path, "rack.csv", 'ball,mass_g,diameter_mm\n"own ball,145,73\n')
    with pytest.raises(DemoError, match=r"rack\.csv: cannot be read as a table"):
        load_demo(tmp_path)


def test_an_empty_file_is_refused(tmp_path):
    copy_with(tmp_path, "rack.csv", "")
    with pytest.raises(DemoError, match=r"rack\.csv: cannot be read as a table"):
        load_demo(tmp_path)
