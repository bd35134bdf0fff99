"""Labels on the lines: on their own line, apart from one another, and clear of what is marked."""

import numpy as np
import pytest

from app.show.point_labels import OnLine, place_labels

AREA = (800.0, 500.0)


def level(y: float) -> OnLine:
    return OnLine(np.array([(0.0, y), (800.0, y)]), 100.0, 16.0)


def boxes_touch(one, other) -> bool:
    return abs(one[0] - other[0]) < 100.0 and abs(one[1] - other[1]) < 16.0


def test_a_label_stands_on_its_line_where_it_is_wanted():
    ((x, y),) = place_labels([level(200.0)], [], AREA, 500.0)
    assert x == pytest.approx(500.0, abs=4.0)
    assert y == pytest.approx(200.0)


def test_labels_of_lines_close_together_do_not_touch():
    places = place_labels([level(200.0 + 6.0 * i) for i in range(6)], [], AREA, 400.0)
    found = [place for place in places if place is not None]
    assert len(found) == 6
    assert not any(boxes_touch(a, b) for i, a in enumerate(found) for b in found[:i])


def test_a_label_goes_out_of_the_way_of_a_mark():
    mark = np.array([(x, y) for x in (392.0, 400.0, 408.0) for y in (192.0, 200.0, 208.0)])
    ((x, _),) = place_labels([level(200.0)], [mark], AREA, 400.0)
    assert abs(x - 400.0) >= 50.0


def test_a_line_that_leaves_no_room_has_no_label():
    corner = OnLine(np.array([(790.0, 0.0), (800.0, 8.0)]), 100.0, 16.0)
    assert place_labels([corner, OnLine(np.empty((0, 2)), 100.0, 16.0)], [], AREA, 400.0) == [None, None]


def test_the_first_line_chooses_first():
    ((x, _), second) = place_labels([level(250.0), level(252.0)], [], AREA, 400.0)
    assert abs(x - 400.0) <= 4.0
    assert second is not None
    assert abs(second[0] - x) >= 100.0
