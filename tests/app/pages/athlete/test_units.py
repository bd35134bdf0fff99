"""The page in the reader's units: the same numbers, said in ounces and miles per hour."""

from dataclasses import replace

import numpy as np

from app.pages.athlete import advice, arm, caps, correction, grid, prior, speeds, strip
from app.pages.athlete.plot import figure, shown_of
from app.show.palette import THEMES
from app.units.systems import CUSTOMARY, METRIC


def test_the_cells_show_the_readers_units_and_keep_the_readings(visit):
    shown = replace(visit, system=CUSTOMARY)
    html = grid.grid_html(shown, shown.data, None)
    assert 'value="73.1" aria-label="Reading 1 with 5.11 oz, mph"' in html  # 32.7 / 0.44704 = 73.148
    assert 'data-units="customary"' in html


def test_every_section_speaks_in_the_readers_units_and_of_the_same_numbers(make_case):
    metric, customary = (make_case(system=system) for system in (METRIC, CUSTOMARY))
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
        correction.section,
        lambda case: caps.section(case, "2026-03-01"),
    ]
    for section in sections:
        said = f" {section(customary)} "
        for unit in (" m/s", " g ", " g'", " cm", " kg", " m with"):
            assert unit not in said, section
        assert " oz" in said or "mph" in said or "lb" in said


def test_the_plot_is_the_same_in_other_units(make_case):
    systems = (METRIC, CUSTOMARY)
    made = [figure(shown_of(make_case(system=system), ()), THEMES["light"], False) for system in systems]
    for one, other in zip(made[0]["data"], made[1]["data"], strict=True):
        np.testing.assert_allclose(np.array(other["x"]) * 28.349523125, one["x"], rtol=1e-9)  # oz in g
        known = [(a, b) for a, b in zip(one["y"], other["y"], strict=True) if a is not None]
        # both are rounded, to 0.01 m/s and 0.01 mph at the coarsest
        np.testing.assert_allclose([b * 0.44704 for _, b in known], [a for a, _ in known], atol=0.01)
    assert made[1]["layout"]["xaxis"]["title"]["text"] == "ball mass, oz"
    assert made[1]["layout"]["annotations"][0]["text"] == "mph"


def test_a_distance_out_of_reach_is_told_in_feet(make_case):
    said = str(advice.flight_section(make_case(system=CUSTOMARY, throw_distance_m=182.88)))  # 600 times 0.3048 m
    assert "Distance: 600 ft given; accepted: " in said
    assert " ft, what 2.24 to 134 mph can carry" in said
