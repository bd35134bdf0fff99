"""Every quantity at once: a panel for each, with the curves of the large figure."""

import numpy as np
import plotly.graph_objects as go
import pytest

from app.pages.compare.multiples import multiples
from app.show.listed_throw import ListedThrow
from app.show.palette import SCREEN_THEMES, THEMES
from model.channels import READINGS

LIGHT = THEMES["light"]


def test_every_reading_has_a_panel_with_every_throw_and_its_name_and_unit(compare_on):
    made = multiples(compare_on(), LIGHT, narrow=False)
    go.Figure(made)  # Plotly takes it
    panels = {trace["yaxis"] for trace in made["data"]}
    assert len(panels) == len(READINGS) == 20
    assert len(made["data"]) == 4 * 20
    said = [one["text"] for one in made["layout"]["annotations"]]
    assert said[0] == "Varus torque at the elbow, N·m"
    assert all(text.lower().startswith(READINGS[key].label) for text, key in zip(said, READINGS, strict=False))
    assert sum("after release" in text for text in said[:20]) == 4  # the braking group


@pytest.mark.parametrize("narrow", [False, True])
def test_no_two_panels_overlap(compare_on, narrow):
    layout = multiples(compare_on(), LIGHT, narrow)["layout"]
    boxes = []
    for place in range(20):
        number = "" if place == 0 else str(place + 1)
        boxes.append((*layout[f"xaxis{number}"]["domain"], *layout[f"yaxis{number}"]["domain"]))
    assert all(0.0 <= low < high <= 1.0 for box in boxes for low, high in (box[:2], box[2:]))
    for i, (left, right, bottom, top) in enumerate(boxes):
        for other_left, other_right, other_bottom, other_top in boxes[i + 1 :]:
            assert right <= other_left or other_right <= left or top <= other_bottom or other_top <= bottom


def test_a_panel_holds_the_models_curve(compare_on):
    comparison = compare_on()
    made = multiples(comparison, LIGHT, narrow=False)
    last = made["data"][3]  # the reference lies on top
    own = comparison.reference
    assert max(last["y"]) == pytest.approx(own.readouts.peak, abs=0.2)
    assert last["line"]["dash"] != "solid"


def test_the_panels_are_laid_over_one_another_where_the_large_figure_is(compare_on):
    made = multiples(compare_on(align="contact"), LIGHT, narrow=False)
    assert {trace["x"][0] for trace in made["data"]} == {0.0}


@pytest.mark.parametrize("theme", SCREEN_THEMES)
def test_it_is_drawn_in_every_theme_and_without_throws(compare_on, theme):
    assert multiples(compare_on(), THEMES[theme], narrow=True)["layout"]["height"] >= 10 * 150
    empty = multiples(compare_on(ListedThrow("t1")), THEMES[theme], narrow=False)
    assert empty["data"] == []
    assert np.isfinite(empty["layout"]["xaxis"]["range"]).all()
