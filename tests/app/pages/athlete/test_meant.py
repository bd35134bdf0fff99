"""The profile form behind fields that are shown in the reader's units, and what is said of it there."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from app.demo import load_demo
from app.pages.athlete import advice, arm, caps, correction, grid, prior, speeds, strip
from app.pages.athlete.changes import put_in, read_page, with_own_ball
from app.pages.athlete.meant import meant, read_written, written
from app.pages.athlete.plot import figure, shown_of
from app.show.kept import form_of
from app.show.palette import THEMES
from app.show.profile_checks import check_form
from app.show.profile_fields import WITH_UNITS, mass_words
from app.show.profile_form import BallRow, Cell, ProfileForm
from app.show.subject import case_of
from app.show.throw_form_change import opening
from app.units.systems import CUSTOMARY, METRIC
from model.ball import Ball

DAY = date(2026, 3, 1)
COMPARED = opening(None, load_demo(), on_demo=True).form
FORM = form_of(None, COMPARED, load_demo(), True)[0]


def as_shown(form: ProfileForm, system) -> ProfileForm:
    """The texts that the fields of a form show, read from the page."""
    texts = {name: field.shown(getattr(form, name), system) for name, field in WITH_UNITS.items()}
    return replace(read_page(grid.values(form, system), {}), **texts)


def test_readings_shown_in_other_units_are_still_the_readings():
    page = as_shown(FORM, CUSTOMARY)
    own = next(row for row in FORM.rows if row.mass_g == "145")
    assert page.rows[page.place(own.key)].mass_g == "5.11"
    assert page.throw_distance_m == "131.2"  # 40 m = 131.234 ft
    back = meant(page, FORM, CUSTOMARY)
    assert back.rows == FORM.rows
    assert back.throw_distance_m == FORM.throw_distance_m


def test_a_typed_reading_has_the_unit_of_its_field():
    form = meant(ProfileForm((BallRow("b1", "5", "2.9", (Cell("74"),)),)), ProfileForm(), CUSTOMARY)
    checked = check_form(form, DAY, CUSTOMARY)
    assert checked.readings[0].reading.speed_m_s == pytest.approx(74 * 0.44704, rel=1e-12)
    assert checked.readings[0].ball.mass_kg == pytest.approx(5 * 0.45359237 / 16, rel=1e-12)


def test_a_message_names_ball_and_range_in_the_readers_units():
    form = ProfileForm((BallRow("b1", "145", cells=(Cell("740\u00a0mph"),)),))
    problems = check_form(form, DAY, CUSTOMARY).problems
    assert problems["b1/0/speed"] == "Reading 1 of 5.11 oz: “740” given; accepted: 2.24 to 134 mph."


@pytest.mark.parametrize(
    ("kept", "metric", "customary"),
    [("145", "145 g", "5.11 oz"), ("5\u00a0oz", "141.7 g", "5 oz"), ("5 oz", "141.7 g", "5 oz"), ("", "", "")],
)
def test_a_ball_is_called_by_its_mass(kept, metric, customary):
    assert (mass_words(kept, METRIC), mass_words(kept, CUSTOMARY)) == (metric, customary)


def test_what_the_fields_are_made_from_comes_back_from_the_browser():
    assert read_written(written(COMPARED, FORM, CUSTOMARY)) == (COMPARED, FORM, CUSTOMARY)


@pytest.mark.parametrize("kept", [None, 7, {"units": "customary", "profile": 3}])
def test_whatever_the_browser_sends_every_text_counts_as_typed(kept):
    _, before, system = read_written(kept)
    page = ProfileForm(throw_distance_m="40")
    assert meant(page, before, system).throw_distance_m == ("40" if kept in (None, 7) else "40\u00a0ft")


def test_the_own_ball_typed_in_ounces_has_one_row():
    own = Ball(5.125 * 0.45359237 / 16)
    form = ProfileForm((BallRow("b1", "5.125\u00a0oz"),))
    assert with_own_ball(form, own) == form


@pytest.mark.parametrize("text", ["5 oz\t74\t73.5", "5oz 74 73.5", "5 oz\n74\n73.5", "145 g\t74\n5 oz\t74\t73.5"])
def test_a_table_in_ounces_and_mph_is_put_in(text):
    made = put_in(ProfileForm(), text, "", system=CUSTOMARY).form
    row = made.rows[-1]
    assert [cell.speed for cell in row.cells] == ["74\u00a0mph", "73.5\u00a0mph"]
    assert check_form(made, DAY).balls[-1][1].mass_kg == pytest.approx(5 * 0.45359237 / 16, rel=1e-12)


def test_a_table_of_bare_ounces_is_refused_with_how_to_write_them():
    made = put_in(ProfileForm((BallRow("b1", "145"),)), "5\t74\n9.7\t64", "", system=CUSTOMARY)
    assert made.notice == (
        "Not put in: in a table the first column, or the first line, is the ball’s mass with its unit, such as 5 oz."
    )


def test_every_section_speaks_in_the_readers_units_and_of_the_same_numbers():
    metric, customary = (case_of(COMPARED, FORM, DAY, system) for system in (METRIC, CUSTOMARY))
    assert customary.found.used == metric.found.used
    assert customary.found.own_speed == metric.found.own_speed
    sections = [
        arm.section,
        speeds.used,
        speeds.table,
        strip.section,
        advice.next_section,
        advice.effort_section,
        advice.flight_section,
        prior.side_by_side,
        lambda case: correction.section(case, DAY),
        lambda case: caps.section(case, "2026-03-01"),
    ]
    for section in sections:
        said = f" {section(customary)} "
        for unit in (" m/s", " g ", " g'", " cm", " kg", " m with"):
            assert unit not in said, section
        assert " oz" in said or "mph" in said or "lb" in said


def test_the_plot_is_the_same_in_other_units():
    made = [
        figure(shown_of(case_of(COMPARED, FORM, DAY, system), ()), THEMES["light"], False)
        for system in (METRIC, CUSTOMARY)
    ]
    for one, other in zip(made[0]["data"], made[1]["data"], strict=True):
        np.testing.assert_allclose(np.array(other["x"]) * 28.349523125, one["x"], rtol=1e-9)  # oz in g
        known = [(a, b) for a, b in zip(one["y"], other["y"], strict=True) if a is not None]
        # both are rounded, to 0.01 m/s and 0.01 mph at the coarsest
        np.testing.assert_allclose([b * 0.44704 for _, b in known], [a for a, _ in known], atol=0.01)
    assert made[1]["layout"]["xaxis"]["title"]["text"] == "ball mass, oz"
    assert made[1]["layout"]["annotations"][0]["text"] == "mph"


def test_a_distance_out_of_reach_is_told_in_feet():
    form = replace(FORM, throw_distance_m="600\u00a0ft")
    said = str(advice.flight_section(case_of(COMPARED, form, DAY, CUSTOMARY)))
    assert "Distance: 600 ft given; accepted: " in said
    assert " ft, what 2.24 to 134 mph can carry" in said
