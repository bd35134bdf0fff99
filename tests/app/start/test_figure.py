"""The region as a figure: what is shaded, what is marked, and that names stand clear of marks and of one another."""

import itertools

import numpy as np
import pytest

from app.map.axes import BLANK
from app.palette import THEMES
from app.start.figure import paper_figure, start_figure
from app.start.words import EDGES
from app.systems import CUSTOMARY

LIGHT = THEMES["light"]
LETTER_PX = 6.0  # of the smallest type, roughly


def named(figure, name):
    return [trace for trace in figure["data"] if trace.get("name") == name]


def test_what_is_shaded_lies_between_the_edges_of_the_answer(start):
    answer = start(most_loaded="140")
    (region,) = named(start_figure(answer, LIGHT), "region")
    found = answer.found.region
    count = int(found.fits.sum())
    assert len(region["x"]) == 2 * count + 1
    assert region["y"][:count] == pytest.approx(found.least[found.fits], abs=1e-3)
    assert region["fill"] == "toself"


def test_the_upright_axis_shows_shares_or_speeds_of_the_same_region(start):
    share, speed = (start_figure(start(axis=axis), LIGHT) for axis in ("share", "speed"))
    full = start().found.ranges
    marks = [named(figure, "list")[0] for figure in (share, speed)]
    heaviest = next(one for one in full if one.ball.mass_kg == 0.470)
    assert marks[1]["y"][0] == pytest.approx(marks[0]["y"][0] * heaviest.full_speed_m_s, abs=0.02)
    assert share["layout"]["yaxis"]["ticktext"][-1] == "100 %"


def test_in_other_units_the_axes_are_written_in_them(start):
    figure = start_figure(start(axis="speed", system=CUSTOMARY), LIGHT)
    assert figure["layout"]["xaxis"]["title"]["text"] == "ball mass, oz"
    assert any(note["text"] == "release speed, mph" for note in figure["layout"]["annotations"])


def test_the_list_is_numbered_and_only_its_first_is_filled(start):
    marks = named(start_figure(start(), LIGHT), "list")
    assert [mark["text"] for mark in marks] == [["<b>1</b>"], ["<b>2</b>"], ["<b>3</b>"]]
    assert [mark["marker"]["color"] for mark in marks] == [LIGHT.accent, LIGHT.paper, LIGHT.paper]


def test_every_ball_that_fits_has_its_bar(start):
    answer = start(most_loaded="140")
    (bars,) = named(start_figure(answer, LIGHT), "rack")
    assert bars["x"][::3] == pytest.approx([1000 * one.ball.mass_kg for one in answer.found.ranges if one.fits])


@pytest.mark.parametrize("width", [340.0, 700.0, 1000.0])
@pytest.mark.parametrize("code", ["W01", "W04", "W06"])
@pytest.mark.parametrize("axis", ["share", "speed"])
def test_every_edge_of_the_region_is_named_and_names_keep_off_one_another(start, code, axis, width):
    answer = start(code, axis=axis, most_loaded="150")
    figure = start_figure(answer, LIGHT, width)
    notes = [note for note in figure["layout"]["annotations"] if note.get("yanchor") == "middle"]
    region = answer.found.region
    fits = np.flatnonzero(region.fits)
    edges = {(*region.most_by, *region.least_by)[i] for i in (*fits, *(fits + region.mass_kg.size))}
    long_enough = {key for key in edges if sum(by == key for by in region.most_by + region.least_by) > 5}
    for key in long_enough:
        assert any(note["text"].startswith(EDGES[key]) for note in notes), key
    margin = figure["layout"]["margin"]
    across = width - margin["l"] - margin["r"]
    down = figure["layout"]["height"] - margin["t"] - margin["b"]
    boxes = [(n["x"] * across, n["y"] * down, LETTER_PX * len(n["text"]) / 2.0, 8.0) for n in notes]
    for one, other in itertools.combinations(boxes, 2):
        apart = abs(one[0] - other[0]) >= one[2] + other[2] or abs(one[1] - other[1]) >= one[3] + other[3]
        assert apart


def test_where_nothing_fits_the_edges_are_drawn_and_nothing_is_shaded(start):
    figure = start_figure(start(elbow_peak="60", most_loaded="110"), LIGHT)
    assert named(figure, "region") == named(figure, "list") == named(figure, "rack") == []
    assert len(named(figure, "edge")) >= 2


def test_without_an_answer_there_is_no_axis_to_be_misread(start):
    assert start_figure(start(elbow_peak="x"), LIGHT) == BLANK
    assert paper_figure(start(elbow_peak="x")) == {}


def test_on_paper_it_has_the_size_of_the_paper(start):
    layout = paper_figure(start())["layout"]
    assert (layout["autosize"], layout["width"]) == (False, 690.0)
