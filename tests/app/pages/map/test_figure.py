"""The map's figure: a plain dict that Plotly takes, with every line, mark, tick and label."""

import json

import numpy as np
import plotly.graph_objects as go
import pytest

from app.pages.map.asked import SHOWN_READINGS
from app.pages.map.figure import map_figure
from app.show.axes import BLANK, width_px
from app.show.palette import SCREEN_THEMES, THEMES
from app.show.plane import Plane, trace
from app.show.window import Window
from model.quantity import READOUTS

LIGHT = THEMES["light"]


def named(figure: dict, name: str) -> dict:
    return next(one for one in figure["data"] if one.get("name") == name)


def words(figure: dict) -> list[str]:
    return [note["text"] for note in figure["layout"]["annotations"]]


@pytest.mark.parametrize("reading", SHOWN_READINGS)
@pytest.mark.parametrize("readout", READOUTS)
def test_plotly_takes_the_map_of_every_quantity(make_map, reading, readout):
    answer = make_map(reading=reading, readout=readout)
    for figure in (map_figure(answer, LIGHT), map_figure(answer, THEMES["print"], None)):
        go.Figure(figure)
        json.dumps(figure, allow_nan=False)


@pytest.mark.parametrize("theme", SCREEN_THEMES)
@pytest.mark.parametrize("width", [360.0, 540.0, 900.0])
@pytest.mark.parametrize("axis", ["log", "linear"])
def test_plotly_takes_the_map_in_every_theme_and_width(make_map, theme, width, axis):
    made = go.Figure(map_figure(make_map(axis=axis), THEMES[theme], width))
    assert made.layout.template.layout.paper_bgcolor == THEMES[theme].paper
    assert made.layout.xaxis.type == axis


def test_the_level_line_alone_wears_the_accent_and_is_the_thickest(make_map):
    figure = map_figure(make_map(), LIGHT)
    lines = [one for one in figure["data"] if (one.get("name") or "").endswith(" %")]
    assert [one["name"] for one in lines if one["line"]["color"] == LIGHT.accent] == ["100 %"]
    level = named(figure, "100 %")["line"]["width"]
    assert all(one["line"]["width"] < level for one in lines if one["name"] != "100 %")


def test_every_line_has_its_label_with_per_cent_and_plain_value(make_map):
    answer = make_map()
    told = words(map_figure(answer, LIGHT))
    level = answer.value
    assert f"<b>100 %</b> · {level:.1f} N·m, level line" in told
    assert f"60 % · {0.6 * level:.1f} N·m" in told
    narrow = words(map_figure(answer, LIGHT, 360.0))
    assert {"<b>100 %</b>", "60 %", "full speed"} <= set(narrow)


def test_a_label_stands_on_its_line(make_map):
    answer = make_map()
    figure = map_figure(answer, LIGHT)
    low, high = figure["layout"]["xaxis"]["range"]
    slow, fast = figure["layout"]["yaxis"]["range"]
    notes = {note["text"].split(" ·")[0]: note for note in figure["layout"]["annotations"]}
    assert len(notes) >= 8
    for contour in answer.contours:
        note = notes.get(f"{contour.percent} %")
        if note is None:
            continue
        mass_kg = 10 ** (low + note["x"] * (high - low)) / 1000
        speed = slow + note["y"] * (fast - slow)
        on_line = np.interp(np.log(mass_kg), np.log(answer.mass_kg), contour.speed_m_s)
        assert speed == pytest.approx(on_line, abs=0.02 * (fast - slow))  # less than the height of the label


def test_the_prior_is_called_the_prior(make_map):
    assert any("prior, not this athlete" in text for text in words(map_figure(make_map(read=False), LIGHT)))
    assert not any("prior" in text for text in words(map_figure(make_map(), LIGHT)))


def test_readings_throws_reference_and_the_throw_looked_at_are_marked_where_they_are(make_map):
    answer = make_map(ball_mass_kg="210", ball_speed_m_s="31")
    figure = map_figure(answer, LIGHT)
    assert (named(figure, "looked at")["x"], named(figure, "looked at")["y"]) == ([210.0], [31.0])
    assert named(figure, "reference")["x"] == [145.0]
    assert named(figure, "reference")["y"][0] == pytest.approx(answer.hundred.throw.speed_m_s, abs=1e-3)
    assert len(named(figure, "readings")["x"]) == 12  # of W01 in demo_data/readings.csv, at full effort
    assert len(named(figure, "readings at less than full effort")["x"]) == 3
    assert named(figure, "throws of Compare")["x"] == [145.0, 275.0, 95.0, 470.0]


def test_the_balls_of_the_rack_are_ticks_of_the_mass_axis(make_map):
    figure = map_figure(make_map(), LIGHT)
    marks = {shape["x0"] for shape in figure["layout"]["shapes"] if shape.get("y1") == 0.022}
    assert marks == {95, 125, 145, 160, 210, 275, 360, 470}  # demo_data/rack.csv
    text = dict(zip(figure["layout"]["xaxis"]["tickvals"], figure["layout"]["xaxis"]["ticktext"], strict=True))
    assert text[145] == "<b>145</b>"


def test_the_checked_range_is_drawn_where_the_map_leaves_it(make_map):
    figure = map_figure(make_map(mass_to_kg="1500"), LIGHT)
    dotted = [shape for shape in figure["layout"]["shapes"] if shape["line"].get("dash") == "dot"]
    assert [shape["x0"] for shape in dotted] == [1000]  # the heaviest ball that other programs were given too, in g
    inside = map_figure(make_map(), LIGHT)["layout"]["shapes"]
    assert not [shape for shape in inside if shape["line"].get("dash") == "dot"]


@pytest.mark.parametrize("readout", ["peak", "loaded_s"])
def test_the_shading_deepens_with_the_value(make_map, readout):
    answer = make_map(readout=readout)
    figure = map_figure(answer, LIGHT)
    bands = [one for one in figure["data"] if one.get("fill") == "tonexty" and one["line"]["width"] == 0]
    depth = [float(one["fillcolor"].rsplit(",", 1)[1].rstrip(")")) for one in bands]
    assert len(bands) == len(answer.contours) + 1
    ordered = sorted(depth)
    assert depth == (ordered if readout == "peak" else ordered[::-1])  # from slow to fast: time falls with speed
    assert max(depth) <= 0.2


def test_the_value_under_the_pointer_names_ball_speed_per_cent_and_kind(make_map):
    told = map_figure(make_map(), LIGHT)["data"][-1]["hovertext"]
    assert len(told) == 41 * 31
    assert all(" % of measured, " in text and " g at " in text for text in told)
    assert "hovertext" not in map_figure(make_map(), THEMES["print"], None)["data"][-1]


def test_before_there_is_a_map_there_is_no_axis(make_map):
    answer = make_map(rows={"athlete": {"sex": ""}})
    assert map_figure(answer, LIGHT) == BLANK
    assert map_figure(answer, THEMES["print"], None) == {}
    go.Figure(BLANK)


@pytest.mark.parametrize("told", [None, True, "900", 5, 1e9, float("nan"), {}])
def test_a_width_that_cannot_be_is_not_believed(told):
    assert width_px(told) == 860.0


def test_a_plane_puts_the_ends_at_the_edges_and_the_geometric_mean_in_the_middle():
    plane = Plane(Window(0.1, 0.4, 20.0, 40.0), True, (800.0, 500.0))
    assert plane.x([0.1, 0.2, 0.4]).tolist() == pytest.approx([0.0, 400.0, 800.0])
    assert plane.y([40.0, 30.0, 20.0]).tolist() == pytest.approx([0.0, 250.0, 500.0])
    even = Plane(Window(0.1, 0.4, 20.0, 40.0), False, (800.0, 500.0))
    assert even.x(0.25) == pytest.approx(400.0)
    assert even.path([0.05, 0.25], [30.0, 30.0]).tolist() == [[pytest.approx(400.0), pytest.approx(250.0)]]


def test_a_gap_in_a_line_is_a_gap_in_the_trace():
    assert trace([0.1, 0.2], [30.0, np.nan])["y"] == [30.0, None]
