"""Staircase and overlay: plain dicts that Plotly takes, with the numbers of the plan in them."""

import plotly.graph_objects as go
import pytest

from app.pages.buildup.course import course_of
from app.pages.buildup.lines import lines_of
from app.pages.buildup.overlay import chosen_steps, overlay, paper_overlay
from app.pages.buildup.stairs import PANELS, on_paper, paper_stairs, stairs
from app.show.palette import THEMES, line_color
from app.units.systems import CUSTOMARY, METRIC
from tests.app.pages.buildup.conftest import logged
from tests.app.show.test_curves_figure import boxes_of, touched

LIGHT = THEMES["light"]


@pytest.fixture
def course(made):
    return course_of(logged(made(order="heavy", target_day="2026-07-01"), "go_on", "repeat"))


def test_the_staircase_has_a_mark_for_each_session_in_each_panel(course):
    figure = go.Figure(stairs(course, LIGHT, METRIC, 700.0))
    marked = [trace for trace in figure.data if trace.mode == "markers"]
    sessions = 2 + len(course.schedule.sessions)
    assert [len(trace.x) for trace in marked] == [sessions] * len(PANELS)
    steps = [one.step for one in course.schedule.sessions]
    assert list(marked[0].y)[2:] == pytest.approx([step.metrics["peak"] for step in steps])
    assert list(marked[2].y)[2:] == pytest.approx([1000 * step.metrics["loaded_s"] for step in steps])


def test_what_was_thrown_is_hollow_and_a_heavier_ball_larger(course):
    marker = stairs(course, LIGHT, METRIC, 700.0)["data"][1]["marker"]
    marks = lines_of(course)
    assert marker["color"][:2] == [LIGHT.paper] * 2
    assert marker["color"][2] == line_color(marks[2].ball.mass_kg, LIGHT)
    assert marker["size"][0] > marker["size"][-1]
    assert marks[0].ball.mass_kg > marks[-1].ball.mass_kg


def test_the_own_ball_at_full_speed_is_the_dashed_line_that_the_last_mark_meets(course):
    figure = stairs(course, LIGHT, METRIC, 700.0)
    dashed = [shape["y0"] for shape in figure["layout"]["shapes"] if shape["line"].get("dash") == "dash"]
    assert dashed[0] == pytest.approx(course.record.steps[-1].metrics["peak"])


@pytest.mark.parametrize("theme", THEMES.values(), ids=lambda theme: theme.name)
@pytest.mark.parametrize("width", [300.0, 1200.0])
def test_it_is_drawn_in_every_theme_and_width(course, theme, width):
    go.Figure(stairs(course, theme, CUSTOMARY, width))
    go.Figure(overlay(course, theme, CUSTOMARY, width))


def test_without_sessions_there_is_an_empty_frame_and_nothing_to_print(made):
    course = course_of(made())
    assert go.Figure(paper_stairs(course, METRIC)).layout.width == on_paper(1)["width"]
    stopped = course_of(logged(made(), "stop"))
    assert len(go.Figure(stairs(stopped, LIGHT, METRIC, 700.0)).data) == 6


def test_the_overlay_has_the_first_the_middle_and_the_last_step_and_the_reference_is_dashed(course):
    figure = go.Figure(overlay(course, LIGHT, METRIC, 700.0))
    lines = {trace.name: trace for trace in figure.data if trace.mode == "lines"}
    count = len(course.record.throws)
    places = chosen_steps(count)
    assert places == [0, (count - 1) // 2, count - 1]
    assert sorted(trace.meta for trace in lines.values()) == sorted(str(place) for place in places)
    dashed = [trace.meta for trace in lines.values() if trace.line.dash != "solid"]
    assert dashed == [str(count - 1)]
    last = next(trace for trace in lines.values() if trace.meta == str(count - 1))
    assert max(last.y) == pytest.approx(course.record.steps[-1].metrics["peak"], rel=1e-2)  # every third point is drawn


@pytest.mark.parametrize(("theme", "width"), [("projector", 466), ("light", 466), ("light", 350)])
def test_in_a_narrow_overlay_labels_are_short_and_touch_no_curve(course, theme, width):
    made = overlay(course, THEMES[theme], METRIC, width)
    _, boxes = boxes_of(made, width)
    labels = {text for text in boxes if text.startswith("step ")}
    assert len(labels) == 3
    assert not any("m/s" in text for text in labels)
    assert touched(made, width, labels) == []


@pytest.mark.parametrize(("count", "places"), [(1, [0]), (2, [0, 1]), (3, [0, 1, 2])])
def test_short_plans_have_each_step_once(count, places):
    assert chosen_steps(count) == places


def test_on_paper_figures_give_way_to_the_table(course):
    heights = [on_paper(steps)["height"] for steps in (5, 20, 40, 60)]
    assert heights[0] > heights[1] > heights[2] == heights[3]
    go.Figure(paper_overlay(course, METRIC))
