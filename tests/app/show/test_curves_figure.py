"""The figure: a plain dict that Plotly takes, with every curve, its dash, its width and the words."""

import json
import math

import numpy as np
import plotly.graph_objects as go
import pytest

from app.pages.compare.picture import figure_of, paper_of, samples_of
from app.show.curve_labels import Window
from app.show.curves_figure import GRAPH_CONFIG, REFERENCE_DASH, tick_step
from app.show.listed_throw import ListedThrow
from app.show.palette import SCREEN_THEMES, THEMES, line_color, line_width
from model.readouts import QUANTITIES
from tests.app.pages.compare.conftest import THROWN, line

LIGHT = THEMES["light"]


def curves_of(figure: dict) -> list[dict]:
    """The curves; the last trace holds the words."""
    return figure["data"][:-1]


def words(figure: dict) -> dict[str, tuple[float, float]]:
    """The words on the figure and where they stand."""
    trace = figure["data"][-1]
    return {
        text.replace("\xa0", ""): place
        for text, *place in zip(trace["text"], trace["x"], trace["y"], strict=True)
        if text
    }


@pytest.mark.parametrize("quantity", QUANTITIES)
def test_plotly_takes_the_figure_of_every_quantity(compare_on, quantity):
    comparison = compare_on(quantity=quantity)
    figure = figure_of(comparison, LIGHT, narrow=False)
    assert len(curves_of(figure)) == 4
    go.Figure(figure)
    paper = paper_of(comparison)
    go.Figure([paper["texts"]], layout=paper["layout"])
    json.dumps(figure, allow_nan=False)  # plain data, and finite


@pytest.mark.parametrize("theme", SCREEN_THEMES)
@pytest.mark.parametrize("narrow", [False, True])
def test_plotly_takes_the_figure_in_every_theme_and_width(compare_on, theme, narrow):
    made = go.Figure(figure_of(compare_on(), THEMES[theme], narrow))
    assert made.layout.template.layout.paper_bgcolor == THEMES[theme].paper


def test_plotly_takes_the_figure_of_nothing(compare_on):
    figure = figure_of(compare_on(ListedThrow("t1")), LIGHT, narrow=False)
    go.Figure(figure)
    assert curves_of(figure) == []
    assert paper_of(compare_on(ListedThrow("t1"))) == {}


def test_the_reference_is_the_one_dashed_line_and_lies_on_top(compare_on):
    traces = curves_of(figure_of(compare_on(), LIGHT, narrow=False))
    assert [trace["line"]["dash"] for trace in traces] == ["solid", "solid", "solid", REFERENCE_DASH]


def test_width_and_colour_are_those_of_the_balls_mass(compare_on):
    traces = curves_of(figure_of(compare_on(), LIGHT, narrow=False))
    masses = {trace["name"]: float(trace["name"].split(" g")[0]) / 1000 for trace in traces}
    for trace in traces:
        assert trace["line"]["color"] == line_color(masses[trace["name"]], LIGHT)
        assert trace["line"]["width"] == line_width(masses[trace["name"]], LIGHT)


def test_every_curve_is_labelled_with_ball_and_speed_and_there_is_no_legend(compare_on):
    figure = figure_of(compare_on(), LIGHT, narrow=False)
    labels = {"145 g · 33.0 m/s", "275 g · 28.5 m/s", "95 g · 35.2 m/s", "470 g · 23.8 m/s"}
    assert labels <= set(words(figure))
    assert figure["layout"]["template"]["layout"]["showlegend"] is False


def test_the_events_are_marked_with_words(compare_on):
    comparison = compare_on()
    figure = figure_of(comparison, LIGHT, narrow=False)
    marks = {text: place[0] for text, place in words(figure).items()}
    curves = comparison.reference.curves
    assert marks["foot contact"] == pytest.approx(1000 * curves.foot_contact_s)
    assert marks["maximum external<br>rotation"] == pytest.approx(1000 * curves.max_external_rotation_s)
    assert marks["release"] == 0
    assert "after release:<br>the hand is empty" in marks


def test_the_level_line_stands_at_half_the_references_peak_and_says_so(compare_on):
    comparison = compare_on()
    figure = figure_of(comparison, LIGHT, narrow=False)
    half = comparison.reference.readouts.peak / 2
    across = next(shape["path"] for shape in figure["layout"]["shapes"] if shape["type"] == "path")
    (low, high), at = figure["layout"]["xaxis"]["range"], f"{half:.7g}"
    assert f"M{low:.7g},{at}L{high:.7g},{at}" in across
    assert f"half the reference’s peak, {half:.1f} N·m" in words(figure)


def test_every_point_drawn_is_a_point_of_the_curve(compare_on):
    comparison = compare_on()
    trace = curves_of(figure_of(comparison, LIGHT, narrow=False))[-1]
    curves = comparison.reference.curves
    assert trace["x"][0] == pytest.approx(1000 * curves.time_s[0], abs=0.005)
    assert trace["x"][-1] == pytest.approx(1000 * curves.time_s[-1], abs=0.005)
    drawn_peak, peak = max(trace["y"]), curves.values["varus"].max()
    assert drawn_peak == pytest.approx(peak, rel=1e-3)  # a thousandth of the peak is a third of a pixel
    assert len(trace["x"]) == len(trace["y"])


@pytest.mark.parametrize("quantity", QUANTITIES)
@pytest.mark.parametrize("narrow", [False, True])
def test_no_word_stands_outside_the_axes_where_it_would_not_be_drawn(compare_on, quantity, narrow):
    figure = figure_of(compare_on(quantity=quantity), LIGHT, narrow)
    for axis, place in (("xaxis", 0), ("yaxis", 1)):
        low, high = figure["layout"][axis]["range"]
        assert all(low < at[place] < high for at in words(figure).values())


def test_eight_identical_throws_share_one_label(compare_on):
    again = [line(number, 0.275, 28.5) for number in range(5, 9)]
    labels = [text for text in words(figure_of(compare_on(*THROWN, *again), LIGHT, narrow=False)) if "275 g" in text]
    assert labels == ["5 × 275 g · 28.5 m/s"]


@pytest.mark.parametrize(("mass", "speed"), [(0.005, 3.0), (2.0, 55.0), (0.001, 1.0), (3.0, 60.0)])
def test_extreme_throws_can_be_drawn(compare_on, mass, speed):
    figure = figure_of(compare_on(THROWN[0], line(2, mass, speed)), LIGHT, narrow=False)
    go.Figure(figure)
    assert len(curves_of(figure)) == 2
    assert all(math.isfinite(value) for value in figure["layout"]["yaxis"]["range"])


def test_the_zoom_is_kept_while_the_quantity_stays(compare_on):
    one = figure_of(compare_on(), LIGHT, narrow=False)["layout"]["uirevision"]
    other = figure_of(compare_on(quantity="abduction"), LIGHT, narrow=False)["layout"]["uirevision"]
    assert one == "varus release"
    assert other == "abduction release"


def test_the_printed_figure_has_the_print_colours_in_the_order_of_the_traces(compare_on):
    comparison = compare_on()
    traces = curves_of(figure_of(comparison, THEMES["dark"], narrow=False))
    paper = paper_of(comparison)
    masses = [float(trace["name"].split(" g")[0]) / 1000 for trace in traces]
    assert paper["colors"] == [line_color(mass, THEMES["print"]) for mass in masses]
    assert paper["layout"]["template"]["layout"]["paper_bgcolor"] == "#ffffff"
    assert paper["layout"]["width"] <= 703  # A4 less 12 mm on both sides, at 96 pixels to the inch


def test_each_line_of_the_list_has_a_piece_of_its_curve(compare_on):
    samples = samples_of(compare_on(*THROWN[:3], ListedThrow("t4")), LIGHT)
    assert samples["t1"]["borderTop"].split()[1] == "dashed"
    assert samples["t2"]["borderTop"] == f"{line_width(0.275, LIGHT)}px solid {line_color(0.275, LIGHT)}"
    assert samples["t4"] == {}


def test_nothing_in_a_graph_can_be_sent_away():
    assert GRAPH_CONFIG["showSendToCloud"] is False
    assert GRAPH_CONFIG["plotlyServerURL"] == ""


@pytest.mark.parametrize("narrow", [False, True])
@pytest.mark.parametrize("span_ms", [150.0, 260.0, 600.0, 1800.0, 5200.0, 26000.0])
def test_the_time_axis_never_holds_more_ticks_than_there_is_room_for(span_ms, narrow):
    ticks = span_ms / tick_step(span_ms, narrow)
    assert ticks <= (7 if narrow else 11)
    assert ticks > 2
    assert str(tick_step(span_ms, narrow))[0] in "125"


def test_words_that_would_lie_on_one_another_beside_a_very_slow_throw_are_left_out(compare_on):
    figure = figure_of(compare_on(THROWN[0], line(2, 0.275, 3.0)), LIGHT, narrow=False)
    assert "foot contact" not in words(figure)
    assert "foot contact" in words(figure_of(compare_on(), LIGHT, narrow=False))


def boxes_of(made, width):
    """The middle of each line's label and its outline (px), of a letter's mean width in the type that is drawn with."""
    layout, texts = made["layout"], made["data"][-1]
    margin = layout["margin"]
    view = Window(
        layout["xaxis"]["range"],
        layout["yaxis"]["range"],
        (width - margin["l"] - margin["r"], layout["height"] - margin["t"] - margin["b"]),
    )
    found = {}
    for text, x, y, side, size in zip(
        texts["text"], texts["x"], texts["y"], texts["textposition"], texts["textfont"]["size"], strict=True
    ):
        across, down = view.to_px(np.array([x]), np.array([y]))[0]
        wide = 0.45 * len(text.strip("\u00a0")) * size  # Liberation Sans: "470 g · 23.8 m/s" is 7.2 sizes
        left = across if side.endswith("right") else across - wide
        low = down - size if side.startswith("top") else down - size / 2
        found[text.strip("\u00a0")] = (left, left + wide, low, low + size)
    return view, found


def touched(made, width, labels):
    """Which of these labels a curve touches, and which curve."""
    view, boxes = boxes_of(made, width)
    found = []
    for trace in curves_of(made):
        fine = np.linspace(trace["x"][0], trace["x"][-1], 4000)
        x, y = view.to_px(fine, np.interp(fine, trace["x"], trace["y"])).T
        half = trace["line"]["width"] / 2
        for text in labels:
            left, right, top, foot = boxes[text]
            if ((x > left - half) & (x < right + half) & (y > top) & (y < foot)).any():
                found.append((text, trace["name"]))
    return found


@pytest.mark.parametrize(("theme", "width"), [("projector", 580), ("light", 680), ("dark", 360), ("projector", 360)])
def test_no_label_and_no_word_of_the_level_touches_a_curve(compare_on, theme, width):
    comparison = compare_on()
    made = figure_of(comparison, THEMES[theme], width < 560, width)
    _, boxes = boxes_of(made, width)
    told = [text for text in boxes if " g · " in text or "30.8" in text]
    assert len([text for text in told if " g · " in text]) == 4
    assert touched(made, width, told) == []


def test_words_that_find_no_room_are_shorter(compare_on):
    comparison = compare_on()
    wide = words(figure_of(comparison, LIGHT, False, 1000.0))
    tight = words(figure_of(comparison, THEMES["projector"], False, 580.0))
    phone = words(figure_of(comparison, THEMES["projector"], True, 360.0))
    assert {"half the reference’s peak, 30.8 N·m", "release", "foot contact"} < set(wide)
    assert {"30.8 N·m", "foot contact"} < set(tight)
    assert not {"release", "half the reference’s peak, 30.8 N·m"} & set(tight)
    assert "foot contact" not in phone  # it would stand on "maximum external rotation"
