"""The page in the reader's units: the same numbers, said in ounces and miles per hour."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from app.pages.athlete import advice, arm, caps, correction, grid, prior, speeds, strip
from app.pages.athlete.plot import figure, shown_of
from app.show.palette import THEMES
from app.show.profile_checks import check_form
from app.show.profile_fields import mass_words
from app.show.profile_form import BallRow, Cell, ProfileForm
from app.show.subject import case_of
from app.units.systems import CUSTOMARY, METRIC
from tests.app.pages.athlete.conftest import DEMO
from tests.app.typed_forms import demo_form, readings_form

DAY = date(2026, 3, 1)
COMPARED = demo_form(DEMO, DEMO.athlete("W01"))
FORM = readings_form(DEMO, "W01")


def test_the_cells_show_the_readers_units_and_keep_the_readings(visit):
    shown = replace(visit, system=CUSTOMARY)
    html = grid.grid_html(shown, shown.data, None)
    assert 'value="73.1" aria-label="Reading 1 with 5.11 oz, mph"' in html  # 32.7 / 0.44704 = 73.148
    assert 'data-units="customary"' in html


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
