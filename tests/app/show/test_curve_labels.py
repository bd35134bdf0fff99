"""The labels of the curves as Plotly gets them."""

import numpy as np
import pytest

from app.show.curve_labels import Line, Window, end_labels, name_lines, peak_labels

TIME = np.linspace(-150.0, 40.0, 191)


def hump(label: str, height: float, end: float = 0.0, at: float = -30.0) -> Line:
    """A hump at a time, on a straight line that ends at a height."""
    value = height * np.exp(-(((TIME - at) / 25.0) ** 2)) + end * (TIME - TIME[0]) / (TIME[-1] - TIME[0])
    top = int(value.argmax())
    return Line(label, 0.145, False, TIME, value, (float(TIME[top]), float(value[top])), -26.0)


VIEW = Window((-152.0, 42.0), (0.0, 100.0), (700.0, 400.0))


def test_time_and_value_become_pixels_and_back():
    # 194 ms over 700 px, 100 N·m over 400 px, counted from the top
    np.testing.assert_allclose(VIEW.to_px(np.array([-152.0, 42.0]), np.array([100.0, 25.0])), [[0, 0], [700, 300]])
    assert VIEW.to_ms(350.0) == pytest.approx(-55.0)


def test_throws_with_the_same_label_share_one():
    lines = [hump("145 g · 33.0 m/s", 60), hump("275 g · 28.5 m/s", 55), hump("145 g · 33.0 m/s", 60)]
    assert [text for text, _ in name_lines(lines)] == ["2 × 145 g · 33.0 m/s", "275 g · 28.5 m/s"]


def test_each_label_points_at_its_own_peak():
    lines = [hump("a", 60), hump("b", 50)]
    labels = peak_labels(name_lines(lines), lines, [], VIEW, 14.0)
    assert [(label.text, label.point) for label in labels] == [("a", lines[0].peak), ("b", lines[1].peak)]


def test_the_labels_of_near_peaks_stand_a_line_apart():
    lines = [hump(name, 60 + 0.1 * i) for i, name in enumerate("abcdefgh")]
    labels = peak_labels(name_lines(lines), lines, [], VIEW, 14.0)
    heights = sorted(4 * label.y for label in labels)  # 100 N·m over 400 px
    assert np.diff(heights).min() == pytest.approx(1.35 * 14.0)


def test_a_curve_without_a_peak_has_no_label_there():
    line = Line("flat", 0.145, False, TIME, np.zeros_like(TIME), None, -26.0)
    assert peak_labels(name_lines([line]), [line], [], VIEW, 14.0) == []


def test_labels_stand_at_the_ends_where_these_are_apart_and_the_axis_grows_to_hold_them():
    lines = [hump("a", 60, end=80.0), hump("b", 50, end=40.0)]
    labels, last = end_labels(name_lines(lines), lines, VIEW, 14.0)
    assert [label.point for label in labels] == [(40.0, pytest.approx(80, abs=0.1)), (40.0, pytest.approx(40, abs=0.1))]
    assert all(label.right and 40.0 < label.x < last for label in labels)
    assert last > 42.0


def test_ends_that_run_together_are_not_labelled_there():
    lines = [hump(name, 60, end=10.0 + 0.1 * i) for i, name in enumerate("abcd")]
    assert end_labels(name_lines(lines), lines, VIEW, 14.0) == ([], 42.0)


def test_no_hair_crosses_another_curve():
    short = Line("short", 0.1, False, TIME[:150], np.full(150, 50.0), (-30.0, 50.0), -26.0)  # ends at -1 ms
    rising = Line("rising", 0.1, False, TIME, np.linspace(20.0, 80.0, TIME.size), (40.0, 80.0), -26.0)
    falling = Line("rising", 0.1, False, TIME, np.linspace(20.0, 10.0, TIME.size), (40.0, 20.0), -26.0)
    assert end_labels(name_lines([short, falling]), [short, falling], VIEW, 14.0)[0] != []
    crossing = Line("crossing", 0.1, False, TIME, np.where(TIME < 10.0, 20.0, 90.0), (40.0, 90.0), -26.0)
    assert end_labels(name_lines([short, rising]), [short, rising], VIEW, 14.0)[0] != []
    assert end_labels(name_lines([short, crossing]), [short, crossing], VIEW, 14.0)[0] == []
