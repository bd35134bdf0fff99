"""Every ball in one table with all that it comes to, and the order of the aim."""

import re

import pytest

from app.pages.start.answers import start_of
from app.pages.start.limits import ABSOLUTE, AIMS
from app.pages.start.table import ON_PAPER, READOUT_ROWS, order_list, tables
from app.records.acts import Edit
from app.units.systems import CUSTOMARY
from model.readouts import read_curves
from model.throw import Throw, curves
from tests.app.kept_demo import kept as kept_data
from tests.app.kept_demo import with_rack
from tests.app.known import TODAY
from tests.app.pages.claim.conftest import text_of
from tests.app.pages.start.conftest import NONE

MASSES = ["95 g", "125 g", "145 g", "160 g", "210 g", "275 g", "360 g", "470 g"]  # demo_data/rack.csv


def rows_of(answer, which: int = 0):
    """The rows of a table: the head's text, and that of each cell."""
    (table,) = [part for part in tables(answer)[which]._traverse() if type(part).__name__ == "Table"][:1]
    found = {}
    for row in (part for part in table._traverse() if type(part).__name__ == "Tr"):
        head, *cells = row.children if isinstance(row.children, list) else [row.children]
        found.setdefault(text_of(head), []).append([text_of(cell) for cell in cells])
    return found


def test_all_balls_stand_light_to_heavy_whatever_the_aim_and_the_own_one_is_marked(start):
    for aim in ("", "longest_loaded"):
        parts = list(tables(start(aim=aim))[0]._traverse())
        assert [text_of(part) for part in parts if getattr(part, "className", "") == "start-ball"] == MASSES
        (own,) = [part for part in parts if getattr(part, "className", "") == "start-own"]
        assert text_of(own).endswith("145 gown ball")


def test_every_readout_is_there_and_one_without_a_limit_says_so(start):
    said = rows_of(start())
    for label, _, keys in READOUT_ROWS:
        (row,) = [head for head in said if head.startswith(f"{label}, likely")]
        free = not any(key in start().asked.amounts for key in keys)
        assert row.endswith("; not limited") is free
        assert len(said[row][0]) == len(MASSES)
    assert [head for head in said if "not limited" in head] == [
        "Elbow, area, likelyN·m·s; not limited",
        "Elbow, time loaded, likelyms; not limited",
    ]


def test_a_readout_is_that_of_the_whole_curve_and_its_share_that_of_the_references(start):
    answer = start()
    full = curves(Throw(answer.case.person, answer.case.own_ball, answer.case.full_speed_m_s))
    one = answer.found.listed[-1].choice
    thrown = curves(Throw(answer.case.person, one.range.ball, one.speed_m_s))
    areas = [float(read_curves(curve, "varus").area) for curve in (thrown, full)]
    last = rows_of(answer)["Elbow, area, likelyN·m·s; not limited"][0][-1]
    value, percent = re.fullmatch(r"([0-9.]+?)([0-9]{2,3}) %", last).groups()
    assert float(value) == pytest.approx(areas[0], abs=0.006)
    assert float(percent) == pytest.approx(100 * areas[0] / areas[1], abs=0.51)


def test_a_limit_is_met_by_its_number_with_the_likely_value_above_the_certain_bound(start):
    said = rows_of(start(certainty="95", **(NONE | {"elbow_peak": "40", "rise_rate": "30"})))
    heads = list(said)
    likely = next(head for head in heads if head.startswith("Elbow, peak, likely"))
    bound = heads[heads.index(likely) + 1]
    assert bound == "with 95 % certainty, at mostlimit: 40 %"
    # the peak stops every ball: its bound is the limit itself, and the likely value lies below
    assert said[bound][0] == ["40 %"] * 8
    assert all(float(re.search(r"([0-9]{2}) %$", cell)[1]) <= 40 for cell in said[likely][0])
    assert "with 95 % certainty, at mostlimit: 30 %" in heads
    assert said["All limits at onceprobability"][0] == ["95 %"] * 8


def test_times_are_limited_both_ways_and_speed_by_a_row_of_its_own(start):
    said = rows_of(start(least_loaded="80", most_loaded="260", speed="30"))
    assert "with 90 % certainty, at leastlimit: 80 %" in said
    assert "with 90 % certainty, at mostlimit: 260 %" in said
    assert "with 90 % certainty, at mostlimit: 30.0 m/s" in said
    assert "Release speed, likelym/s" in said
    assert not any(head.startswith("Release speed, likely") for head in rows_of(start()))


def test_without_limits_there_are_no_bounds(start):
    said = rows_of(start(**NONE))
    assert not any("certainty" in head or head.startswith("All limits") for head in said)


def test_the_slowest_allowed_speed_is_told_only_where_a_limit_sets_it(start):
    assert not any(head.startswith("Slowest allowed") for head in rows_of(start()))
    answer = start(**NONE, area="95")
    (cells,) = [cells[0] for head, cells in rows_of(answer).items() if head.startswith("Slowest allowed")]
    assert all(re.fullmatch(r"[0-9.]+?[0-9.]+ %|–", cell) for cell in cells)
    assert cells[2] != "–"


def test_a_ball_that_fits_at_no_speed_stays_in_the_table_with_what_each_limit_allows_by_itself(start):
    said = rows_of(start(most_loaded="140"))
    fastest = next(cells[0] for head, cells in said.items() if head.startswith("Fastest allowed"))
    assert fastest[-1] == "none"
    assert said["Stopped bythe limit that is met first"][0][-1] == "elbow peak, shoulder peak, most time loaded"
    assert re.fullmatch(r"up to 96\.7 %23\.[0-9] m/s", said["Elbow peak at most 80 %"][0][-1])
    assert re.fullmatch(r"from 99\.[0-9] %23\.[0-9] m/s", said["Time loaded at most 140 %"][0][-1])
    assert said["Rise rate at most 70 %"][0][-1] == "every speed"
    assert said["Elbow peak at most 80 %"][0][0].startswith("up to ")  # of the balls that fit too
    assert not any(head.startswith("What each limit") for head in rows_of(start()))


def test_where_nothing_fits_every_ball_is_there_with_what_closes_it(start):
    said = rows_of(start(**NONE, area="20"))
    assert said["Stopped bythe limit that is met first"][0] == ["area"] * 8
    assert said["Area at most 20 %"][0] == ["none"] * 8
    assert not any("likely" in head for head in said)


def test_what_weight_decides_says_so_in_plain_words(start):
    slow = start(**NONE, speed="2")
    said = rows_of(slow)
    area = next(cells[0] for head, cells in said.items() if head.startswith("Elbow, area"))
    assert all(cell.endswith("mostly weight") for cell in area)
    assert "A slower throw lowers it little or not at all" in text_of(tables(slow))
    assert "mostly weight" not in text_of(tables(start(**NONE))).lower()


def test_with_a_wanted_peak_the_fastest_speed_stays_and_the_speed_for_it_stands_below(start):
    said = rows_of(start(aim="nearest_peak", wanted_peak="50"))
    wanted = next(head for head in said if head.startswith("Speed nearest to a peak of 50 %"))
    peaks = next(cells[0] for head, cells in said.items() if head.startswith("Elbow, peak, likely"))
    assert all(cell.endswith("50 %") for cell in peaks)
    assert said[wanted][0] != next(cells[0] for head, cells in said.items() if head.startswith("Fastest"))


def test_the_radars_reading_is_shown_where_the_correction_is_on(start):
    on = kept_data("W01", Edit("profile.radar", "yes"))
    assert "Radar shows" in text_of(tables(start_of(on, TODAY)))
    assert "Radar shows" not in text_of(tables(start()))


def test_it_is_in_the_readers_units(start):
    said = text_of(tables(start(system=CUSTOMARY, speed="30"))) + text_of(
        order_list(start(system=CUSTOMARY, aim="own"))
    )
    for part in ("mph", "ft, thrown this fast", "oz heavier than the own ball"):
        assert part in said
    assert not re.search(r"[0-9] (m/s|g|m)\b", said)


def test_a_rack_wider_than_the_paper_is_printed_in_parts_and_nothing_is_left_out(kept):
    balls = [(0.08 + 0.03 * number, 0.073) for number in range(14)]
    answer = start_of(with_rack(kept(), *balls), TODAY)
    screen, paper = tables(answer)[:2]
    assert "screen-only" in screen.className
    assert paper.className == "paper-only"
    printed = [part for part in paper._traverse() if type(part).__name__ == "Table"]
    counts = [sum(type(part).__name__ == "Th" for part in one.children[0]._traverse()) for one in printed]
    assert sum(counts) == len(answer.found.ranges) > ON_PAPER
    assert max(counts) <= ON_PAPER
    assert not any(type(part).__name__ == "Button" for part in paper._traverse())


@pytest.mark.parametrize("aim", AIMS)
def test_the_order_is_told_with_the_one_number_that_decides(start, aim):
    answer = start(aim=aim)
    said = text_of(order_list(answer))
    assert f"What matters most: {AIMS[aim]}." in said
    units = {"least_area": "N·m·s", "gentlest_rise": "N·m/s", "longest_loaded": "ms", "nearest_peak": "N·m"}
    assert said.count(units.get(aim, "than the own ball")) == (7 if aim == "own" else 8)


def test_the_own_ball_put_first_says_where_it_would_stand_by_the_aim_alone(start):
    answer = start("W04", aim="longest_loaded")
    said = text_of(order_list(answer))
    loaded = sorted((one.choice.elbow.loaded_s for one in answer.found.listed), reverse=True)
    place = loaded.index(answer.first.choice.elbow.loaded_s) + 1
    assert f"number {place} by what matters most alone" in said
    assert "alone" not in text_of(order_list(start("W04", aim="own")))


def test_before_an_aim_there_is_no_order(start):
    assert "g:" not in text_of(order_list(start()))
    assert order_list(start(elbow_peak="x")) == tables(start(elbow_peak="x")) == []


def test_absolute_limits_are_met_in_their_own_unit(start):
    said = rows_of(start(**(NONE | {"elbow_peak": "40", "elbow_peak_in": ABSOLUTE})))
    assert said["with 90 % certainty, at mostlimit: 40.0 N·m"][0] == ["40.0 N·m"] * 8
