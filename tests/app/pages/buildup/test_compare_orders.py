"""The orders beside one another: what each comes to, by its own plan, and why one has none."""

from dataclasses import replace

import pytest

from app.pages.buildup.aims import AIMS
from app.pages.buildup.compare_orders import compare, found_orders, table
from app.pages.buildup.course import course_of
from app.pages.buildup.making import made as make_plan
from app.pages.buildup.making import offered
from app.pages.buildup.orders import between, orders_of
from app.units.systems import CUSTOMARY, METRIC
from model.ball import Ball
from tests.app.pages.buildup.conftest import GIVEN, athlete_for, text_of, wanted_for


def facts(part, order):
    """What stands in an order's column, by its row."""
    rows = part.children.children[2].children
    return {text_of(row.children[0]): text_of(row.children[order + 1]) for row in rows}


def test_every_order_stands_with_what_its_own_plan_comes_to(page):
    asked = page(None, "W06", aim="after_injury")
    found = found_orders(asked)
    assert [one.key for one in found] == ["own", "heavy", "between"]
    for i, one in enumerate(found):
        plan = make_plan(page(None, "W06", aim="after_injury", order=one.key)).record
        assert one.course.record.throws == plan.throws
        told, sessions = facts(table(found, METRIC), i), course_of(plan).schedule.sessions
        weeks = (sessions[-1].day - sessions[0].day).days // 7 + 1
        assert told["Weeks"].startswith(f"{weeks} ({len(plan.throws)} steps, {len(sessions)} sessions)")
        assert told["Summed area"] == f"{sum(one.area_nms for one in sessions):.0f} N·m·s"
        own = next(i for i, (ball, _) in enumerate(plan.throws) if ball == plan.own_ball)
        assert told["Own ball first"].startswith(f"step {own + 1} of {len(plan.throws)}, week ")
        peak = max(step.metrics["peak"] for step in plan.steps)
        assert told["Highest peak at the elbow"].startswith(f"{peak:.1f} N·m")
    assert "common practice, no source" in text_of(table(found, METRIC))
    assert "oz" in text_of(table(found, CUSTOMARY))


def test_a_plan_is_made_from_its_column(page):
    asked = page(None, "W06", aim="after_injury", order="")
    buttons = [name for name in _names(compare(asked)) if name]
    assert buttons == ["form:order=own", "form:order=heavy", "form:order=between"]
    act = offered(asked, buttons[1])
    assert (act.record.way, act.form) == ("heavy", {"order": "heavy"})


def _names(part):
    if isinstance(part, list | tuple):
        return [name for one in part for name in _names(one)]
    own = part.id["name"] if isinstance(getattr(part, "id", None), dict) else ""
    children = getattr(part, "children", None)
    return [own, *_names(children)] if children is not None and not isinstance(children, str) else [own]


def test_an_order_without_a_plan_says_why_and_the_others_stand(page):
    few = found_orders(page(None, "W06", aim="after_injury"))
    fewest = len(few[0].course.record.throws) - 2  # of the own ball's: two were added for an even climb
    found = found_orders(page(None, "W06", aim="after_injury", steps=str(fewest)))
    assert [one.course is None for one in found] == [False, True, True]
    assert found[1].why.startswith("No such plan exists")
    high = found_orders(page(None, "W04", aim="fast_block", start_percent="90"))
    assert "up to 80 % with the own ball" in high[0].why
    light = found_orders(page(None, left_out="160 210 275 360 470"))
    assert [one.why for one in light[1:]] == [
        "No ball on the rack is heavier than the own one.",
        "No ball on the rack lies in between.",
    ]


def test_steps_that_pass_a_limit_from_start_are_named_before_the_plan_is_made(page):
    asked = page(None, "W06", given=GIVEN, aim="after_injury", holds="steps", hold_count="3")
    told = [facts(table(found_orders(asked), METRIC), i)["Limits from Start"] for i in range(3)]
    assert all(said.startswith("Passing a limit: peak at the elbow (varus torque) at steps ") for said in told)
    waits = page(None, "W06", given=GIVEN, aim="after_injury", holds="cleared")
    made = facts(table(found_orders(waits), METRIC), 1)
    assert "waits until the limits are cleared" in made["Limits from Start"]
    assert made["Weeks"] != "1 (1 step, 1 session)"  # all its sessions count, as if they were cleared


def test_what_is_asked_for_and_missing_comes_first(page):
    said = text_of(compare(page(None, weeks_off="", days="-")))
    assert "Weeks without throwing: asked for" in said
    assert "Days to throw on" in said


@pytest.mark.parametrize("aim", AIMS)
def test_keeping_level_and_easing_off_have_the_own_ball_alone(aim):
    orders = orders_of(wanted_for(athlete_for(), aim=aim), athlete_for())
    assert list(orders) == (["own"] if aim in ("in_season", "ease_off") else ["own", "heavy", "between"])


def test_the_ball_from_start_is_the_one_in_between_if_it_is_neither_end():
    given = replace(GIVEN, ball=Ball(0.360, 0.073))
    assert (
        between(wanted_for(athlete_for("W06", given=given), aim="after_injury"), athlete_for("W06", given=given))[
            0
        ].mass_kg
        == 0.360
    )
    assert (
        between(wanted_for(athlete_for("W06", given=GIVEN), aim="after_injury"), athlete_for("W06", given=GIVEN))[
            0
        ].mass_kg
        == 0.275
    )


def test_the_growing_and_those_who_keep_level_begin_with_the_own_ball_and_nothing_is_chosen_for_others():
    chosen = {
        (code, aim): athlete_for(code).care(aim).order
        for code, aim in (
            ("W04", "after_injury"),
            ("W04", "fast_block"),
            ("W01", "ease_off"),
            ("W06", "after_injury"),
            ("W01", "fast_block"),
        )
    }
    assert list(chosen.values()) == ["own", "own", "own", "", ""]
