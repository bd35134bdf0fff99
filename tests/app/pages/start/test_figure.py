"""The region as a figure: what is shaded, what is marked, and that names stand clear of marks and of one another."""

import itertools

import numpy as np
import pytest

from app.pages.start.figure import start_figure
from app.pages.start.words import EDGES, limit_words
from app.show.axes import BLANK
from app.show.palette import THEMES
from app.units.systems import CUSTOMARY
from tests.app.pages.start.conftest import NONE

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
    full = [one.full_speed_m_s for one in start().found.ranges]
    marks = [named(figure, "list")[0]["y"] for figure in (share, speed)]
    assert marks[1] == pytest.approx(np.array(marks[0]) * full, abs=0.03)  # shares are drawn to a thousandth
    assert share["layout"]["yaxis"]["ticktext"][-1] == "100 %"


def test_in_other_units_the_axes_are_written_in_them(start):
    figure = start_figure(start(axis="speed", system=CUSTOMARY), LIGHT)
    assert figure["layout"]["xaxis"]["title"]["text"] == "ball mass, oz"
    assert any(note["text"] == "release speed, mph" for note in figure["layout"]["annotations"])


def test_before_an_aim_every_ball_that_fits_has_a_mark_and_none_stands_out(start):
    (marks,) = named(start_figure(start(most_loaded="140"), LIGHT), "list")
    assert len(marks["x"]) == 7  # 470 g fits at no speed
    assert set(marks["text"]) == {""}
    assert set(marks["marker"]["color"]) == {LIGHT.paper}


@pytest.mark.parametrize("width", [340.0, 1000.0])
def test_with_an_aim_each_mark_has_its_place_in_the_order_and_only_the_first_is_filled(start, width):
    answer = start(aim="longest_loaded")
    (marks,) = named(start_figure(answer, LIGHT, width), "list")
    assert marks["text"] == [f"<b>{answer.place(one)}</b>" for one in answer.found.listed]
    filled = [LIGHT.accent if one is answer.first else LIGHT.paper for one in answer.found.listed]
    assert marks["marker"]["color"] == filled


@pytest.mark.parametrize("width", [340.0, 480.0, 1000.0])
@pytest.mark.parametrize("theme", ["light", "projector"])
def test_marks_do_not_touch_one_another(start, theme, width):
    figure = start_figure(start(aim="least_area"), THEMES[theme], width)
    (marks,) = named(figure, "list")
    margin, (low, high) = figure["layout"]["margin"], figure["layout"]["xaxis"]["range"]
    across = (width - margin["l"] - margin["r"]) * (np.log10(marks["x"]) - low) / (high - low)
    assert np.diff(across).min() >= marks["marker"]["size"]


def test_a_limit_with_two_edges_is_drawn_with_both(start):
    answer = start(**NONE, area="90")
    lines = [line for line in named(start_figure(answer, LIGHT), EDGES["area"]) if line["line"]["dash"] == "dot"]
    low, high = answer.found.region.alone["area"]
    assert len(lines) == 2
    for line, edge in zip(lines, (low, high), strict=True):
        drawn = [(value, there) for value, there in zip(line["y"], edge, strict=True) if value is not None]
        assert drawn
        assert [value for value, _ in drawn] == pytest.approx([there for _, there in drawn], abs=1e-3)


def test_of_a_limit_that_no_speed_keeps_nothing_is_drawn(start):
    figure = start_figure(start(**NONE, area="20"), LIGHT)
    assert named(figure, EDGES["area"]) == []
    assert not any("area" in note["text"] for note in figure["layout"]["annotations"])


def test_the_axis_reaches_down_to_where_nothing_is_computed(start):
    layout = start_figure(start(**NONE, speed="8"), LIGHT)["layout"]
    assert layout["yaxis"]["range"] == pytest.approx([0.0, 1.1])
    assert any(note["text"] == EDGES["slowest"] for note in layout["annotations"])


def test_every_ball_that_fits_has_its_bar(start):
    answer = start(most_loaded="140")
    (bars,) = named(start_figure(answer, LIGHT), "rack")
    assert bars["x"][::3] == pytest.approx([1000 * one.ball.mass_kg for one in answer.found.ranges if one.fits])


@pytest.mark.parametrize("width", [340.0, 700.0, 1000.0])
@pytest.mark.parametrize("code", ["W01", "W04", "W06"])
@pytest.mark.parametrize("axis", ["share", "speed"])
@pytest.mark.parametrize("limits", [{"most_loaded": "150"}, {"area": "100", "speed": "25"}])
def test_every_edge_is_named_and_names_keep_off_one_another_and_off_the_marks(start, code, axis, width, limits):
    answer = start(code, axis=axis, **limits)
    figure = start_figure(answer, LIGHT, width)
    notes = [note for note in figure["layout"]["annotations"] if note.get("yanchor") == "middle"]
    region = answer.found.region
    fits = np.flatnonzero(region.fits)
    edges = {(*region.most_by, *region.least_by)[i] for i in (*fits, *(fits + region.mass_kg.size))} - {"full"}
    long_enough = {key for key in edges if sum(by == key for by in region.most_by + region.least_by) > 5}
    for key in long_enough:
        assert any(note["text"] in (EDGES[key], limit_words(key, answer)) for note in notes), key
    margin = figure["layout"]["margin"]
    across = width - margin["l"] - margin["r"]
    down = figure["layout"]["height"] - margin["t"] - margin["b"]
    boxes = [(n["x"] * across, n["y"] * down, LETTER_PX * len(n["text"]) / 2.0, 8.0) for n in notes]
    for one, other in itertools.combinations(boxes, 2):
        apart = abs(one[0] - other[0]) >= one[2] + other[2] or abs(one[1] - other[1]) >= one[3] + other[3]
        assert apart
    (marks,) = named(figure, "list")
    (x_low, x_high), (y_low, y_high) = (figure["layout"][name]["range"] for name in ("xaxis", "yaxis"))
    radius = marks["marker"]["size"] / 2.0
    for mass, height in zip(marks["x"], marks["y"], strict=True):
        x = across * (np.log10(mass) - x_low) / (x_high - x_low)
        y = down * (height - y_low) / (y_high - y_low)
        for left, foot, half, tall in boxes:
            assert abs(x - left) >= half + radius - 1.0 or abs(y - foot) >= tall + radius - 2.0


def test_where_nothing_fits_the_edges_are_drawn_and_nothing_is_shaded(start):
    figure = start_figure(start(elbow_peak="60", most_loaded="110"), LIGHT)
    assert named(figure, "region") == named(figure, "list") == named(figure, "rack") == []
    assert len(named(figure, "edge")) >= 2


def test_without_an_answer_there_is_no_axis_to_be_misread(start):
    assert start_figure(start(elbow_peak="x"), LIGHT) == BLANK
    assert start_figure(start(elbow_peak="x"), THEMES["print"], None) == {}


def test_on_paper_it_has_the_size_of_the_paper(start):
    layout = start_figure(start(), THEMES["print"], None)["layout"]
    assert (layout["autosize"], layout["width"]) == (False, 690.0)
