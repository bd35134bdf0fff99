"""What was thrown, by session and by calendar week."""

from datetime import date, timedelta
from time import perf_counter

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from model.ball import Ball
from model.channels import READINGS
from model.checks import InputError
from model.person import Person
from model.readouts import read_curves
from model.session_log import Logged
from model.session_rules import Notes
from model.tally import TORQUES, Tally, Thrown, areas_above, book_of, done_of, planned_of
from model.throw import Throw, curves

MAN = Person("male", 1.88, 90.0, 25.0)
BOY = Person("male", 1.50, 42.0, 12.0)
OWN, HEAVY = Throw(MAN, Ball(0.145), 33.0), Throw(MAN, Ball(0.275), 25.0)
MONDAY = date(2026, 3, 2)


def readouts_of(throw, key="varus"):
    return read_curves(curves(throw), key)


def on(days, throw=OWN, count=10, session=""):
    return Thrown(MONDAY + timedelta(days), throw, count, session)


def test_a_session_sums_over_its_throws_and_takes_the_highest_peak():
    book = book_of([on(0, OWN, 20, "a"), on(0, HEAVY, 12, "a"), on(0, HEAVY, 5, "b")])
    first, second = book.sessions
    own, heavy = readouts_of(OWN), readouts_of(HEAVY)
    assert (first.day, first.session, first.balls) == (MONDAY, "a", (OWN.ball, HEAVY.ball))
    assert first.tally.throws == 32
    assert first.tally.peak_nm == pytest.approx(max(own.peak, heavy.peak), rel=1e-10)
    assert first.tally.area_nm_s == pytest.approx(20 * own.area + 12 * heavy.area, rel=1e-10)
    assert first.tally.area_above_nm_s is None
    assert (second.session, second.tally.throws) == ("b", 5)
    assert second.tally.peak_nm == pytest.approx(heavy.peak, rel=1e-10)


@pytest.mark.parametrize("key", ["varus", "internal_rotation", "horizontal_abduction"])
def test_the_area_above_a_level_is_the_integral_of_what_is_over_it(key):
    boy = Throw(BOY, Ball(0.100, 0.065), 20.0)
    throws = [OWN, boy, HEAVY]
    found = areas_above(throws, key, 15.0)
    reading = READINGS[key]
    for throw, area in zip(throws, found, strict=True):
        drawn = curves(throw)
        inside = (drawn.phase >= reading.start_phase - 1e-9) & (drawn.phase <= reading.end_phase + 1e-9)
        time, torque = drawn.time_s[inside], reading.sign * drawn.values[reading.channel][inside]
        over = lambda t: max(float(np.interp(t, time, torque)) - 15.0, 0.0)  # noqa: B023, E731
        outside, _ = quad(over, time[0], time[-1], points=time[1:-1].tolist(), limit=2000)
        assert area == pytest.approx(outside, rel=1e-6, abs=1e-9)


def test_above_no_torque_the_area_is_the_area_and_above_the_peak_it_is_nothing():
    tally = book_of([on(0, OWN, 7)], level_nm=0.0).weeks[0].tally
    assert tally.area_above_nm_s == pytest.approx(tally.area_nm_s, rel=1e-12)
    assert tally.area_above_nm_s == pytest.approx(7 * readouts_of(OWN).area, rel=1e-10)
    assert book_of([on(0, OWN, 7)], level_nm=1.01 * tally.peak_nm).weeks[0].tally.area_above_nm_s == 0.0


def test_an_empty_log_has_no_sessions_and_no_weeks():
    book = book_of([], level_nm=30.0)
    assert (book.sessions, book.weeks) == ((), ())


def test_an_empty_log_of_given_days_has_weeks_of_zeros():
    book = book_of([], level_nm=30.0, since=MONDAY, until=MONDAY + timedelta(8))
    assert [week.tally for week in book.weeks] == 2 * [Tally(0, 0.0, 0.0, 0.0)]
    assert book.sessions == ()


def test_a_week_without_a_throw_between_others_counts_as_zero():
    book = book_of([on(2), on(16, HEAVY, 4)])
    assert [week.monday for week in book.weeks] == [MONDAY + timedelta(7 * k) for k in range(3)]
    assert [week.sessions for week in book.weeks] == [1, 0, 1]
    assert book.weeks[1].tally == Tally(0, 0.0, 0.0, None)


def test_monday_to_sunday_is_one_week():
    book = book_of([on(0), on(6), on(7)])
    assert [week.tally.throws for week in book.weeks] == [20, 10]
    assert book.weeks[0].sunday == MONDAY + timedelta(6)


def test_at_the_turn_of_the_year_weeks_are_those_of_iso_8601():
    # 2026 has a week 53: 28 December 2026 to 3 January 2027 (ISO 8601: 1 January 2026 is a Thursday)
    log = [Thrown(day, OWN, 1) for day in (date(2026, 12, 27), date(2026, 12, 28), date(2027, 1, 3), date(2027, 1, 4))]
    weeks = book_of(log).weeks
    assert [(week.year, week.number, week.tally.throws) for week in weeks] == [
        (2026, 52, 1),
        (2026, 53, 2),
        (2027, 1, 1),
    ]


def test_a_week_is_set_beside_the_mean_of_the_four_before_it_by_hand():
    counts = [10, 30, 0, 20, 45, 5]
    log = [on(7 * k, OWN, count) for k, count in enumerate(counts) if count]
    weeks = book_of(log).weeks
    assert [week.before for week in weeks[:4]] == [None] * 4
    assert [week.ratios for week in weeks[:4]] == [None] * 4
    own = readouts_of(OWN)
    assert weeks[4].before.throws == 15.0  # (10 + 30 + 0 + 20) / 4
    assert weeks[4].before.area_nm_s == pytest.approx(15.0 * own.area, rel=1e-10)
    assert weeks[4].before.peak_nm == pytest.approx(0.75 * own.peak, rel=1e-10)  # one of the four is zero
    assert weeks[4].ratios.throws == 3.0
    assert weeks[4].ratios.area == pytest.approx(3.0)
    assert weeks[4].ratios.peak == pytest.approx(4.0 / 3.0)
    assert weeks[4].ratios.area_above is None
    assert weeks[5].before.throws == 23.75  # (30 + 0 + 20 + 45) / 4
    assert weeks[5].ratios.throws == pytest.approx(5.0 / 23.75)


def test_after_four_weeks_of_nothing_there_is_no_ratio():
    week = book_of([on(0), on(35)], level_nm=10.0).weeks[-1]
    assert week.before == Tally(0.0, 0.0, 0.0, 0.0)
    assert vars(week.ratios) == {"throws": None, "peak": None, "area": None, "area_above": None}


def test_a_ratio_of_the_area_above_a_level_that_no_earlier_throw_reached_is_absent_and_the_others_stand():
    level = 1.01 * readouts_of(HEAVY).peak
    log = [*(on(7 * k, HEAVY) for k in range(4)), on(28, OWN)]
    ratios = book_of(log, level_nm=level).weeks[-1].ratios
    assert readouts_of(OWN).peak > level
    assert ratios.area_above is None
    assert ratios.throws == 1.0


def test_weeks_before_the_first_entry_count_only_where_the_log_covers_them():
    assert book_of([on(0)]).weeks[-1].before is None
    covered = book_of([on(0)], since=MONDAY - timedelta(28)).weeks
    assert len(covered) == 5
    assert covered[-1].before.throws == 0.0
    assert len(book_of([on(0)], until=MONDAY + timedelta(13)).weeks) == 2


def test_entries_outside_the_days_given_are_refused():
    with pytest.raises(InputError, match="since: '2026-03-03' given; accepted: 2026-03-02 or earlier"):
        book_of([on(0)], since=MONDAY + timedelta(1))
    with pytest.raises(InputError, match="until: '2026-03-01' given; accepted: 2026-03-02 or later"):
        book_of([on(0)], until=MONDAY - timedelta(1))


def test_a_session_in_which_nothing_was_thrown_is_a_session_without_a_peak_or_a_ball():
    (session,) = book_of([on(0, OWN, 0)], level_nm=10.0).sessions
    assert (session.tally, session.balls) == (Tally(0, 0.0, 0.0, 0.0), ())


def logged(**changes):
    fields = {
        "day": MONDAY, "index": 0, "place": 0, "ball": Ball(0.275), "speed_m_s": 25.0, "planned": 30, "throws": 24,
        "notes": Notes(), "decision": "", "days_off": 0, "by": "AB", "role": "other",
    }  # fmt: skip
    return Logged(**{**fields, **changes})


@pytest.mark.parametrize(("top", "speed"), [(None, 25.0), (23.5, 23.5), (26.5, 26.5)])
def test_a_session_of_a_plan_counts_with_the_highest_speed_read_and_else_with_the_planned_one(top, speed):
    one = logged(top_speed_m_s=top)
    assert done_of(MAN, one, "x") == Thrown(MONDAY, Throw(MAN, Ball(0.275), speed), 24, "x")
    assert planned_of(MAN, one, "x") == Thrown(MONDAY, Throw(MAN, Ball(0.275), 25.0), 30, "x")


@pytest.mark.parametrize("count", [-1, 2.5, 10_001, None, True])
def test_a_count_that_is_none_is_refused(count):
    with pytest.raises(InputError, match=r"^count: "):
        Thrown(MONDAY, OWN, count)


@pytest.mark.parametrize(
    ("given", "field"), [({"reading": "elbow_proximal"}, "reading"), ({"level_nm": -1}, "level_nm")]
)
def test_a_force_or_a_level_below_nothing_is_refused(given, field):
    with pytest.raises(InputError, match=f"^{field}: "):
        book_of([on(0)], **given)


def test_every_torque_can_be_summed():
    for key in TORQUES:
        tally = book_of([on(0, OWN, 3)], reading=key).weeks[0].tally
        assert tally.area_nm_s == pytest.approx(3 * readouts_of(OWN, key).area, rel=1e-10)


entries = st.builds(
    Thrown,
    st.dates(date(2025, 12, 1), date(2026, 3, 1)),
    st.sampled_from([OWN, HEAVY, Throw(BOY, Ball(0.1), 20.0)]),
    st.integers(0, 40),
    st.sampled_from(["", "evening"]),
)


@settings(max_examples=60)
@given(st.lists(entries, max_size=20), st.randoms(use_true_random=False))
def test_weeks_and_sessions_hold_all_that_was_thrown_in_whatever_order_it_was_entered(log, random):
    book = book_of(log, level_nm=20.0)
    total = sum(one.count for one in log)
    for parts in (book.sessions, book.weeks):
        assert sum(part.tally.throws for part in parts) == total
        assert all(0.0 <= part.tally.area_above_nm_s <= part.tally.area_nm_s for part in parts)
    assert sum(week.sessions for week in book.weeks) == len(book.sessions)
    by_week = sum(week.tally.area_nm_s for week in book.weeks)
    assert by_week == pytest.approx(sum(one.tally.area_nm_s for one in book.sessions))
    assert all(b.monday - a.monday == timedelta(7) for a, b in zip(book.weeks, book.weeks[1:], strict=False))
    assert all((week.before is None) == (k < 4) for k, week in enumerate(book.weeks))
    mixed = random.sample(log, len(log))
    again = book_of(mixed, level_nm=20.0)
    assert [week.tally.area_nm_s for week in again.weeks] == pytest.approx([w.tally.area_nm_s for w in book.weeks])


def test_five_thousand_different_throws_are_counted_in_well_under_a_second():
    rng = np.random.default_rng(2)
    log = [
        Thrown(MONDAY + timedelta(i // 40), Throw(MAN, Ball(float(m)), float(v)), 1)
        for i, (m, v) in enumerate(zip(rng.uniform(0.1, 0.4, 5000), rng.uniform(15, 34, 5000), strict=True))
    ]
    book_of(log[:10], level_nm=30.0)
    begun = perf_counter()
    assert book_of(log, level_nm=30.0).sessions[-1].tally.throws == 40
    took_s = perf_counter() - begun
    print(f"{took_s:.3f} s")
    assert took_s < 3.0  # 0.1 s on two busy cores
