"""What stands on the printed sheet: all steps on one page, and as many sessions as can be written in on another."""

from dataclasses import replace
from datetime import date

import pytest

from app.pages.buildup.course import course_of
from app.pages.buildup.paper import (
    COLUMN_ROWS,
    PAST_ROWS,
    SESSION_ROWS,
    STEP_ROWS,
    columns,
    figure_rows,
    rows_on_paper,
    step_rows,
)
from app.pages.buildup.tables import steps_table
from app.show.markup import to_html
from app.units.systems import METRIC
from model.build_up import PlanLimits
from model.calendar_plan import ByHand
from tests.app.pages.buildup.conftest import logged, text_of


def steps(made, count, **more):
    """A course of so many steps: the first one, as often."""
    record = made()
    return course_of(replace(record, throws=record.throws[:1] * count, repeats=(2,) * count, **more))


@pytest.mark.parametrize(
    ("count", "wanted"), [(1, 1), (STEP_ROWS, 1), (STEP_ROWS + 1, 2), (2 * COLUMN_ROWS, 2), (41, 3), (60, 3)]
)
def test_many_steps_stand_in_columns(made, count, wanted):
    course = steps(made, count)
    assert columns(course) == wanted
    assert step_rows(course) <= (STEP_ROWS if wanted == 1 else COLUMN_ROWS)
    assert figure_rows(course) <= STEP_ROWS


def test_where_the_words_are_longer_there_is_less_room_for_steps_and_figures(made):
    child, target = steps(lambda: made("W04"), STEP_ROWS - 4), date(2026, 6, 1)
    due = replace(made().calendar, target_day=target)
    assert (columns(child), columns(steps(lambda: made("W04"), STEP_ROWS - 3))) == (1, 2)
    assert (columns(steps(made, STEP_ROWS - 2, calendar=due)), columns(steps(made, STEP_ROWS - 1, calendar=due))) == (
        1,
        2,
    )
    assert figure_rows(child) > step_rows(child)


def test_what_steps_break_takes_rows_too(made):
    limits = PlanLimits({}, {"peak": 1.0})
    assert step_rows(steps(made, 10, limits=limits)) == 20
    assert columns(steps(made, 15, limits=limits)) == 2


def test_on_paper_every_step_of_a_long_plan_has_its_cap_once(made):
    for count, tables, last in ((29, 2, "Steps 16 to 29"), (60, 3, "Steps 41 to 60")):
        course = steps(made, count, limits=PlanLimits({}, {"peak": 1.0}))
        whole, paper = steps_table(course, METRIC).children
        assert whole.className == "screen-only"
        assert to_html(paper).count("<table") == tables
        assert to_html(paper).count('<th scope="row">') == count
        assert last in text_of(paper)
        assert "which limits are broken, stand on the screen" in text_of(paper)
    assert "<table" not in to_html(steps_table(steps(made, 2), METRIC)).partition("</table>")[2]


def test_a_session_that_breaks_something_takes_a_row_more(made):
    free = steps(made, 60)
    assert rows_on_paper(free) == (0, SESSION_ROWS)
    broken = steps(made, 60, by_hand={i: ByHand(throws=400) for i in range(60)})
    assert len(broken.session_breaches) >= 60
    assert rows_on_paper(broken) == (0, SESSION_ROWS // 2)
    assert rows_on_paper(steps(made, 3)) == (0, 6)


def test_what_was_thrown_and_what_is_to_come_share_the_page(made):
    long = logged(steps(made, 60).record, *["go_on"] * 30)
    assert rows_on_paper(course_of(long)) == (PAST_ROWS, SESSION_ROWS - PAST_ROWS)
    short = logged(steps(made, 12).record, *["go_on"] * 20)
    assert rows_on_paper(course_of(short)) == (20, 4)
