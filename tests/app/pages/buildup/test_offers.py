"""What is offered where the target day is too near or leaves days over; days counted by hand."""

from datetime import date

from app.pages.buildup.course import course_of
from app.pages.buildup.making import offered
from app.pages.buildup.offers import offers_of, spread
from tests.app.pages.buildup.conftest import TODAY, logged


def offers(record):
    said, made = offers_of(course_of(record), TODAY)
    return said, {one.key: one for one in made}


def test_without_a_target_day_nothing_is_said(made):
    assert offers_of(course_of(made()), TODAY) == ("", ())


def test_days_left_over_are_told_and_each_offer_fills_them(made, page):
    record = made(
        aim="ease_off", repeats="1", target_day="2026-04-03"
    )  # a Friday: five weeks of three days from Monday 2 March
    count = len(record.throws)
    said, made_offers = offers(record)
    assert f"room for {15 - count} sessions more" in said
    for key in ("steps", "sessions", "first_day"):
        name = f"{key}={made_offers[key].value}"
        after = course_of(offered(page(record, aim="ease_off", repeats="1"), name).record)
        assert after.schedule.spare_sessions == 0, key
        assert after.schedule.days_late == 0, key
        assert after.breaches == (), key


def test_a_target_day_too_near_is_told_and_what_can_be_done(made, page):
    record = made(target_day="2026-03-20", first_day="2026-03-02")
    count = sum(record.repeats)
    said, made_offers = offers(record)
    assert "is too near" in said
    assert f"room for 9 of {count} sessions" in said  # three weeks of three days
    assert set(made_offers) == {"target_day"}  # fewer sessions than steps; it begins today
    after = course_of(offered(page(record), f"target_day={made_offers['target_day'].value}").record)
    assert after.schedule.days_late == 0


def test_a_begin_in_the_future_can_be_moved_nearer(made):
    record = made(aim="ease_off", repeats="1", first_day="2026-03-16", target_day="2026-03-27")
    short = len(record.throws) - 6
    assert 0 < short <= 6
    early = date(2026, 3, 13) if short == 1 else date(2026, 3, 11) if short == 2 else date(2026, 3, 9)
    assert offers(record)[1]["first_day"].value == early.isoformat() or short > 3


def test_sessions_are_spread_evenly_and_the_last_steps_get_those_left_over():
    assert spread(7, 3) == (2, 2, 3)
    assert spread(6, 3) == (2, 2, 2)
    assert spread(3, 3) == (1, 1, 1)


def test_after_the_first_session_the_log_moves_the_days_and_nothing_is_offered(made, page):
    record = logged(made(target_day="2026-12-31"), "go_on")
    said, made_offers = offers(record)
    assert said
    assert made_offers == {}
    assert offered(page(record), "first_day=2026-03-09").record == record
