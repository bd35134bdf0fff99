"""What is said of a plan, of what it breaks, and of why there is none."""

from dataclasses import replace

import pytest

from app.pages.buildup import edits, head_words, ids, words
from app.pages.buildup.aims import AIMS
from app.pages.buildup.course import course_of
from app.pages.buildup.known import with_signs
from app.pages.buildup.log_edits import enter_sign
from app.pages.buildup.paper import SESSION_ROWS
from app.pages.buildup.recheck import recheck
from app.pages.buildup.record import Acknowledgement
from app.pages.buildup.tables import log_table, numbers_table, sessions_table, steps_table
from app.pages.buildup.view import view_of
from app.show.cautions import GROWING
from app.show.markup import to_html
from app.units.systems import CUSTOMARY, METRIC
from model.build_up import Breach, Loosening, NoPlan, PlanLimits, Together
from model.calendar_plan import SessionBreach
from model.full_speeds import SpeedTable
from model.stop_signs import cleared
from tests.app.pages.buildup.conftest import CLINICIAN, COACH, FINE, TODAY, keep, logged, pain, text_of, thrown

VERDICTS = ("safe", "dangerous", "good", "bad", "workload", "arm stress", "arm load", "arm speed")


def shown(record, system=METRIC) -> str:
    """All that the page says of a plan."""
    return " ".join(view_of(course_of(record), None, "", "", system).told.values())


def test_a_plan_is_said_in_a_sentence_with_aim_steps_sessions_and_days(made):
    said = words.sentence(course_of(made()), METRIC)
    assert said.startswith("Back after time off: ")
    assert "2026-03-02 to " in said
    assert said.endswith("to 145 g, own ball at 32.9 m/s (100 %).")  # 32.99 by the readings: a cap is rounded down


def test_every_aim_says_what_improves_what_is_meant_to_rise_and_what_ends_it(made):
    for key in AIMS:
        told = dict(head_words.purpose(course_of(made(aim=key)), METRIC))
        assert {"What should improve", "Readout meant to rise", "What ends it"} <= set(told)
    assert "meant to rise" in dict(head_words.purpose(course_of(made()), METRIC))["Readout meant to rise"]
    assert "meant to fall" in dict(head_words.purpose(course_of(made(aim="ease_off")), METRIC))["Readout meant to rise"]
    assert "stays at" in dict(head_words.purpose(course_of(made(aim="in_season")), METRIC))["Readout meant to rise"]


def test_weeks_of_more_than_two_steps_on_are_told(made):
    # five days a week and one session a step: five steps on in a full week, four in the first, which begins with one
    record = made(order="heavy", repeats="1", days="0 1 2 3 4")
    weeks = [session.week for session in course_of(record).schedule.sessions]
    full = [str(week + 1) for week in sorted(set(weeks)) if weeks.count(week) - (week == 0) > 2]
    assert [int(week) for week in full] == list(range(int(full[0]), int(full[-1]) + 1))
    assert words.pace_words(course_of(record)).startswith(f"Weeks {full[0]}–{full[-1]}: more than 2 steps on in a week")
    assert "the soreness rules, as clinics print them" in shown(record)
    for aim in AIMS:
        assert words.pace_words(course_of(made(aim=aim))) == ""


def test_a_broken_limit_is_named_with_its_numbers():
    rise = Breach(4, "rise", "rise_rate", "rise rate at the elbow", 0.18, 0.15)
    assert words.breach_words(rise, METRIC) == "rise rate at the elbow 18 % above step 4; limit 15 %"
    cap = Breach(4, "cap", "speed", "release speed", 30.0, 25.0)
    assert words.breach_words(cap, METRIC) == "release speed 30.0 m/s; cap 25.0 m/s"
    assert words.breach_words(cap, CUSTOMARY) == "release speed 67.1 mph; cap 55.9 mph"  # 0.44704 m/s a mile an hour


@pytest.mark.parametrize("kind", ["budget", "most_throws", "least_throws", "weekday", "order", "first_day"])
def test_what_a_session_breaks_is_named(kind):
    assert words.session_breach_words(SessionBreach(0, kind, 120.0, 100.0))


def test_why_there_is_no_plan_names_the_limit_that_blocks_and_what_would_do():
    one = Loosening("rise", "peak", "peak at the elbow", 0.10, 0.1234)
    said = words.no_plan_words(NoPlan(6, 9, (one,), None, ()), METRIC)
    assert said == (
        "No such plan exists: no 6 steps keep every limit. The limit that blocks: peak at the elbow may rise 10 % a "
        "step; 12.4 % would do. With the limits as they are, 9 steps would do."
    )
    many = NoPlan(6, None, (), Together(2.5, "area", "area under the curve"), ())
    assert "area under the curve blocks until every rise allowed is 2.50 times as large" in words.no_plan_words(
        many, METRIC
    )
    shut = NoPlan(6, None, (), None, (Breach(5, "cap", "peak", "peak at the elbow", 60.0, 50.0),))
    assert "The goal itself is above a cap: peak at the elbow 60.0 N·m; cap 50.0 N·m." in words.no_plan_words(
        shut, METRIC
    )


def test_the_tables_hold_every_step_and_session_and_name_what_is_broken(made):
    record = made()
    course = course_of(edits.change_step(record, 4, record.throws[4][0], 0.99, 2, TODAY))
    steps, sessions = to_html(steps_table(course, METRIC)), to_html(sessions_table(course, METRIC))
    assert steps.count('<th scope="row">') == len(record.throws)
    assert sessions.count('<th scope="row">') == len(course.schedule.sessions)
    assert "Step 5 breaks: " in text_of(steps_table(course, METRIC))
    assert "oz" in to_html(steps_table(course, CUSTOMARY))


def test_a_long_plan_prints_its_next_sessions_and_says_so(made):
    course = course_of(made("W06", aim="after_injury", repeats="3"))
    assert len(course.schedule.sessions) > SESSION_ROWS
    table = to_html(sessions_table(course, METRIC))
    assert table.count('class="buildup-later"') == len(course.schedule.sessions) - SESSION_ROWS
    assert f"The next {SESSION_ROWS} of " in table


def test_steps_that_follow_one_another_are_named_from_the_first_to_the_last(made):
    record = made()
    course = course_of(replace(record, limits=PlanLimits(dict.fromkeys(record.limits.rises, 0.0001), {})))
    said = view_of(course, None, "", "", METRIC).told[ids.BUILDUP_SENTENCE]
    assert f"Limits are broken at steps 2–{len(record.throws)}" in said


def test_the_reason_for_the_order_names_the_balls_in_the_units_that_are_shown(made):
    record = made(order="heavy")
    assert "with the 470 g ball is 41 % below that with the 145 g ball" in words.why_words(record, METRIC)
    customary = words.why_words(record, CUSTOMARY)  # 470 g / 28.3495 = 16.58, 145 g / 28.3495 = 5.11
    assert "with the 16.58 oz ball is 41 % below that with the 5.11 oz ball" in customary


def test_a_thrower_who_is_still_growing_sees_no_plan_before_the_text_was_read_and_then_that_text_first(made, case):
    record = made("W04")
    before = view_of(course_of(record), None, "", "", METRIC)
    assert (before.hidden["growing"], before.hidden["body"]) == (False, True)
    assert not any(before.told.values())
    after = view_of(course_of(replace(record, read=Acknowledgement("CD", TODAY))), None, "", "", METRIC)
    assert (after.hidden["growing"], after.hidden["body"]) == (True, False)
    head = after.told[ids.BUILDUP_SENTENCE]
    assert head.index(GROWING[0][:40]) < head.index("Back after time off")
    assert not any(letter.isdigit() for letter in head[: head.index(GROWING[0][:40])].partition(">")[2])
    html = " ".join(after.told.values())
    assert "was read by CD on 2026-03-02" in html
    assert "limits for games" in html
    assert GROWING[0][:40] not in shown(made())


def test_the_head_says_on_which_reference_full_speed_rests_with_kind_and_day(made):
    assert "Full speed rests on 35.1 m/s, from before an injury, 2025-09-02." in shown(made("W06"))
    assert "Full speed rests on 33.0 m/s, measured, 2026-01-13." in shown(made())
    record = made("W06")
    slower = SpeedTable(record.table.balls, tuple(0.8 * v for v in record.table.speeds_m_s))
    assert "is 28.1 m/s by what is known now; the reference is 35.1 m/s, from before" in shown(
        replace(record, table=slower)
    )


def test_what_was_asked_first_and_what_came_from_start_stands_with_the_plan(made):
    record = made("W06", given=True, aim="after_injury", order="heavy", holds="weeks", hold_count="4")
    told = dict(head_words.purpose(course_of(record), METRIC))
    assert told["Before it"].startswith("8 weeks without throwing. 90 throws a week before that. Week ")
    assert "Cleared to throw by PT, licensed clinician" in told["Before it"]
    assert "at most 40 % of the reference throw’s" in told["Limits from Start"]
    assert (
        "They hold for the first 4 weeks (6 steps). Passing a limit: peak at the elbow" in (told["Limits from Start"])
    )
    assert told["Order of the balls"].startswith("The heaviest ball slow, then lighter and faster. ")


def test_the_next_session_stands_with_day_ball_speed_and_throws(made):
    html = view_of(course_of(made()), None, "", "", METRIC).told[ids.BUILDUP_NEXT]
    assert "Mon 2026-03-02" in html
    assert "<strong>25 throws</strong>" in html
    assert "70 % of full speed" in html


def test_after_pain_it_says_what_the_next_session_is_no_more_than(made):
    record = keep(made(), thrown(made(), "repeat", pain(throwing=2), throws=11))
    html = view_of(course_of(record), None, "", "", METRIC).told[ids.BUILDUP_NEXT]
    assert "until a session without: no more than 11 throws" in html
    assert "Only the next session is planned" in html


def test_under_a_stop_sign_there_is_a_flag_and_no_next_session_anywhere(made):
    record = keep(made(), thrown(made(), "", replace(FINE, signs=("swelling",))))
    view = view_of(course_of(record), None, "", "", METRIC)
    assert "A stop sign stands: no throwing until a licensed clinician clears it." in view.told[ids.BUILDUP_FLAG]
    assert "Swelling (session 1, 2026-03-02; entered by AB, coach)" in view.told[ids.BUILDUP_FLAG]
    assert view.told[ids.BUILDUP_NEXT] == ""
    assert (view.hidden["signs"], view.hidden["hand"], view.sessions) == (False, True, [])
    assert 'class="box"' not in view.told[ids.BUILDUP_SESSIONS]
    assert "Urgent care now" not in shown(record)
    urgent = enter_sign(record, "cold_hand", TODAY, COACH)
    flag = view_of(course_of(urgent), None, "", "", METRIC).told[ids.BUILDUP_FLAG]
    assert flag.index("Urgent care now.") < flag.index("A cold, pale or blue hand") < flag.index("Swelling")


def test_a_cleared_sign_stays_in_sight_and_asks_for_a_new_plan(made):
    record = enter_sign(made(), "swelling", TODAY, COACH)
    done = replace(record, signs=cleared(record.signs, CLINICIAN))
    flag = view_of(course_of(done), None, "", "", METRIC).told[ids.BUILDUP_FLAG]
    assert "Cleared by PT, licensed clinician" in flag
    assert "make it anew" in flag
    assert "Cleared by PT" in shown(replace(made(), earlier=done.signs))  # and with the plan made after it


def test_without_a_plan_the_athletes_signs_stand_all_the_same(made):
    signs = enter_sign(made(), "swelling", TODAY, COACH).signs
    view = view_of(None, None, "", "", METRIC, signs)
    assert "no plan is made until a licensed clinician" in view.told[ids.BUILDUP_FLAG]
    assert (view.hidden["signs"], len(view.signs)) == (False, 1)


def test_sessions_thrown_since_a_late_sign_are_marked(made):
    record = logged(made(), "go_on", "go_on", "go_on")
    late = replace(record.log[1], notes=replace(FINE, signs=("weakness",)))
    record = replace(record, log=(record.log[0], late, record.log[2]))
    course = course_of(with_signs(record))
    assert course.late == {2}
    assert "Thrown since a stop sign that was entered late: session 3." in shown(course.record)
    for table in (sessions_table(course, METRIC), log_table(course, METRIC)):
        assert to_html(table).count("thrown after a stop sign") == 1


def test_the_log_has_all_that_was_noted_for_a_chart(made):
    record = keep(made(), thrown(made(), "repeat", pain(throwing=3, next_morning=None), throws=11, note="stopped"))
    said = text_of(log_table(course_of(record), METRIC))
    for part in ("11 of 25", "elbow 0 / 3 / 0 / –", "again (AB, coach)", "stopped", "our own judgement"):
        assert part in said


@pytest.mark.parametrize(
    ("code", "throws"),
    [("W04", "13 to 14 years: 95"), ("W03", "17 to 18 years: 105"), ("W01", "19 to 22 years: 120"), ("W06", "")],
)
def test_the_published_limit_of_ones_age_is_shown_as_one_for_games_with_its_source(made, code, throws):
    said, source = words.game_words(made(code).person)  # the numbers: values.csv 8-pitch-limits-04, -06, -07
    assert "limits for games: they do not cover these throws, and are not a budget for them" in said
    assert throws in said
    assert bool(source) is bool(throws)


def test_no_published_limit_stands_in_a_plan(made):
    # W04 is 13: 95 a day in games; the plan's throws come from its own budget alone
    course = course_of(made("W04", first_throws="200", most_throws="500"))
    assert course.schedule.sessions[0].throws == 200


def test_what_stands_on_the_page_passes_no_verdict(made, case):
    for aim in AIMS:
        course = course_of(logged(made(aim=aim), "go_on"))
        said = " ".join(view_of(course, None, "", "", METRIC).told.values()).lower()
        assert [word for word in VERDICTS if f" {word} " in said] == []


def test_typed_text_is_shown_as_text(made):
    record = logged(made(), "go_on")
    record = replace(record, code="<b>x</b>", log=(replace(record.log[0], note="<i>y</i>"),))
    html = " ".join(view_of(course_of(record), None, "", "", METRIC).told.values())
    assert "<b>x" not in html
    assert "<i>y" not in html
    assert "&lt;i&gt;y" in html


def test_old_numbers_stand_beside_new_ones(made, case):
    record = made()
    slower = SpeedTable(record.table.balls, tuple(0.9 * v for v in record.table.speeds_m_s))
    found = recheck(replace(record, table=slower), case())
    said = text_of(numbers_table(found, METRIC))
    assert "+11.1 %" in said  # 1 / 0.9


def test_a_table_of_sessions_longer_than_its_frame_says_how_many_there_are(made):
    record = logged(made(), "go_on")
    left = len(course_of(record).schedule.sessions)
    said = text_of(sessions_table(course_of(record), METRIC))
    assert f"{1 + left} sessions: 1 thrown, {left} to come. The table scrolls in its frame." in said
    short = made(aim="ease_off", steps="7", repeats="1")
    assert "scrolls in its frame" not in text_of(sessions_table(course_of(short), METRIC))
