"""What is said of weeks and sessions, the tables, the figure and the history."""

from datetime import date, timedelta

import pytest

from app.bind.visit import visit_of
from app.pages.log import entering, tables, view
from app.pages.log.answers import answer_of
from app.pages.log.callbacks import draw
from app.pages.log.figure import MOST_WEEKS, drawn_weeks, paper_figure, weeks_figure
from app.pages.log.page import layout
from app.pages.log.past import CHANGES_SHOWN, LINES_SHOWN, lines_of
from app.pages.log.words import beside, days_of, number_words, sentence
from app.records.acts import Add, Edit, Hand
from app.records.stop_signs import Signed, clear, enter
from app.show.axes import BLANK
from app.show.palette import THEMES
from app.units.systems import CUSTOMARY
from tests.app.pages.log.conftest import after


def text_of(parts) -> str:
    """All words of components, in order."""
    if isinstance(parts, str):
        return parts
    if isinstance(parts, list | tuple):
        return " ".join(filter(None, map(text_of, parts)))
    return text_of(getattr(parts, "children", None) or "")


def here(log, **asked):
    visit = log.visit
    return {"athlete": visit.owner, "code": visit.code, "tab": "one", "path": "/log", "asked": asked}


def test_the_first_sentence_counts_this_week_and_what_was_planned(log):
    log.act(Add("plan", {"name": "Spring"}, uid="spring"))
    log.add(after(0), throws=20, planned=25, speed_m_s=30.0, plan="spring")
    log.add(after(0), throws=1)
    said = sentence(answer_of(log.visit.data, after(0)))
    assert said == "This week so far: 21 throws in 2 sessions. Planned were 25; thrown outside a plan: 1."


def test_where_this_week_is_empty_the_last_session_is_named(log):
    log.add(after(0, 2))
    said = sentence(answer_of(log.visit.data, after(3)))
    assert said == "Nothing of this week is in the log. The last session was on Wed 2026-03-04, in week 10 of 2026."


def test_a_ratio_is_told_with_what_it_is_of_and_none_where_there_are_no_four_weeks(log):
    for week in (0, 1, 2, 3, 4):
        log.add(after(week), throws=10 if week < 4 else 15)
    weeks = answer_of(log.visit.data, after(4)).weeks
    assert beside(weeks[3].week, "throws") == "no four weeks yet"
    assert beside(weeks[4].week, "throws") == "1.50 times the mean of the four weeks before, 10"
    assert beside(weeks[4].week, "area_above") == ""


def test_four_empty_weeks_before_give_no_ratio(log):
    log.add(after(0))
    log.add(after(5))
    assert beside(answer_of(log.visit.data, after(5)).weeks[-1].week, "area") == "nothing in the four weeks before"


@pytest.mark.parametrize(
    ("first", "last", "said"),
    [
        (date(2026, 3, 2), date(2026, 3, 8), "2 to 8 Mar 2026"),
        (date(2026, 3, 30), date(2026, 4, 5), "30 Mar to 5 Apr 2026"),
        (date(2025, 12, 29), date(2026, 1, 4), "29 Dec 2025 to 4 Jan 2026"),
    ],
)
def test_the_days_of_a_week_are_written_without_what_goes_without_saying(first, last, said):
    assert days_of(first, last) == said


@pytest.mark.parametrize(
    ("value", "key", "said"),
    [(12.0, "throws", "12"), (10.5, "throws", "10.5"), (0.0, "area", "0 N·m·s"), (None, "area_above", "no level set")],
)
def test_numbers_are_written_with_their_unit(value, key, said):
    assert number_words(value, key) == said


def test_a_week_that_is_not_over_is_called_so_in_the_table(log):
    log.add(after(0))
    log.add(after(1))
    answer = answer_of(log.visit.data, after(1, 3))
    said = text_of(tables.weeks_table(answer, log.visit))
    assert said.count("not over yet") == 1
    assert "2026, week 11 9 to 15 Mar 2026 not over yet" in said


def test_long_lists_are_paged_by_the_address(log):
    log.act(*(Add("session_log", values={"day": after(0) - timedelta(i), "body": body()}) for i in range(45)))
    answer = answer_of(log.visit.data, after(0))
    first = text_of(tables.sessions_table(answer, visit_of("/log", "?athlete=W01")))
    third = text_of(tables.sessions_table(answer, visit_of("/log", "?athlete=W01&sessions=3")))
    wild = text_of(tables.sessions_table(answer, visit_of("/log", "?athlete=W01&sessions=x")))
    assert "Page 1 of 3" in first
    assert "Earlier sessions" in first
    assert "Later" not in first
    assert third.count("20 ×") == 5
    assert "Earlier sessions" not in third
    assert wild == first


def body(throws: int = 20, **more):
    return {"ball": {"mass_kg": 0.2, "diameter_m": 0.073}, "throws": throws, "top_speed_m_s": 30.0} | more


def test_sessions_are_told_in_the_readers_units(log, monkeypatch):
    log.add(after(0), throws=7, top=31.2928, mass=0.2)
    monkeypatch.setattr("app.bind.visit.reader_system", lambda: CUSTOMARY)
    said = text_of(tables.sessions_table(answer_of(log.visit.data, after(0)), log.visit))
    assert "7 × 7.05 oz, up to 70.0 mph" in said


def test_a_session_that_cannot_be_counted_is_said_with_its_reason(log):
    log.act(Add("session_log", values={"day": after(0), "body": {"throws": 3}}))
    said = text_of(draw(None, "light", None, here(log))["said"])
    assert "1 session is in no sum here: Mon 2026-03-02, no plan. Highest speed: nothing given" in said
    assert "Nothing is in the log yet." not in said


def test_without_measures_the_throws_are_counted_and_listed_and_what_is_missing_is_said(log):
    log.add(after(0), throws=7)
    log.act(Edit("measures.stature_m", "", log.visit.data.measures[-1].uid))
    made = draw(None, "light", None, here(log))
    assert "In the log: 7 throws on 1 day." in text_of(made["said"])
    assert "as soon as these are known: stature." in text_of(made["said"])
    assert "7 × own ball" in text_of(made["sessions"])
    assert made["picture_hidden"]


def test_a_stop_sign_that_stands_is_said_until_it_is_cleared(log):
    visit, by = log.visit, Signed("KL", "clinician", after(0))
    assert "stop sign" not in text_of(view.said(answer_of(visit.data, after(0)), visit))
    uid = enter(visit.store, visit.owner, "numbness", after(0), by, Hand("one"))
    visit = log.visit
    said = text_of(view.said(answer_of(visit.data, after(0)), visit))
    assert "A stop sign stands: numbness or tingling, since Mon 2026-03-02." in said
    clear(visit.store, visit.owner, [uid], by, Hand("one"))
    visit = log.visit
    assert "stop sign" not in text_of(view.said(answer_of(visit.data, after(0)), visit))


def test_pain_and_stop_signs_of_a_session_stand_beside_it_as_facts(log):
    log.act(Add("plan", {"name": "Spring"}, uid="spring"))
    pain = {"site": "elbow", "before": 0, "throwing": 3, "hour_after": None, "next_morning": 1}
    log.add(after(0), planned=20, speed_m_s=29.98, plan="spring", notes={"pain": pain})
    log.add(after(1), plan="spring", notes={"pain": pain | {"site": "unknown", "throwing": 0, "next_morning": 0}})
    visit = log.visit
    for sign in ("swelling", "numbness"):
        by = Signed("KL", "clinician", after(0))
        uid = enter(visit.store, visit.owner, sign, after(0), by, Hand("one"), visit.data.sessions[0].uid)
    clear(visit.store, visit.owner, [uid], by, Hand("one"))
    visit = log.visit
    said = text_of(tables.sessions_table(answer_of(visit.data, after(1)), visit))
    assert "Pain at the elbow: 3 of 10 while throwing, 1 of 10 on the next morning" in said
    assert said.count("Pain") == 1
    assert "Stop sign, which stands: swelling" in said
    assert "Stop sign, cleared on 2026-03-02 by KL: numbness or tingling" in said


def test_a_planned_speed_is_a_cap_and_never_rounded_up(log):
    log.act(Add("plan", {"name": "Spring"}, uid="spring"))
    log.add(after(0), top=None, planned=20, speed_m_s=24.97, plan="spring")
    said = text_of(tables.sessions_table(answer_of(log.visit.data, after(0)), log.visit))
    assert "as planned, 24.9 m/s" in said
    assert "planned 20 × up to 24.9 m/s" in said


def test_an_empty_log_invites(log):
    made = draw(None, "light", None, here(log))
    assert text_of(made["said"]).startswith("Nothing is in the log yet. Enter a session below")
    assert (made["figure"], made["weeks"], made["sessions"]) == (BLANK, [], [])


def test_the_bars_are_the_weeks_in_order_with_what_was_planned_as_outlines(log):
    log.act(Add("plan", {"name": "Spring"}, uid="spring"))
    log.add(after(0), throws=20, planned=25, speed_m_s=30.0, plan="spring")
    log.add(after(1), throws=5)
    answer = answer_of(log.visit.data, after(1, 1))
    done, planned = weeks_figure(answer, "throws", THEMES["light"])["data"]
    assert done["y"] == [20, 5]
    assert planned["y"] == [25, None]
    assert done["x"] == ["2026-03-05", "2026-03-12"]
    assert done["marker"]["pattern"]["shape"] == ["", "/"]
    assert paper_figure(answer, "area")["layout"]["autosize"] is False


def test_where_the_newest_weeks_are_empty_those_up_to_the_last_session_are_drawn(log):
    log.add(after(0))
    log.add(after(2))
    answer = answer_of(log.visit.data, after(2 + MOST_WEEKS))
    assert [line.week.monday for line in drawn_weeks(answer)] == [after(0), after(1), after(2)]
    assert drawn_weeks(answer_of(log.visit.data, after(3)))[-1].week.monday == after(3)


def test_the_level_heads_its_column(log):
    log.add(after(0))
    log.act(Edit("log.level_nm", "40"))
    answer = answer_of(log.visit.data, after(0))
    assert "Area above 40.0 N·m" in text_of(tables.weeks_table(answer, log.visit)).replace("  ", " ")


def test_the_history_tells_who_when_and_what_from_what(log):
    log.act(Edit("log.level_nm", "40"))
    log.act(Edit("log.level_nm", "45"))
    said = text_of(lines_of(log.visit))
    assert "AB" in said
    assert "Level: 40 N·m, then 45 N·m" in said


def test_the_history_names_no_row_by_its_id(log):
    log.add(after(0))
    uid = log.visit.data.sessions[0].uid
    log.do(entering.change, uid)
    said = text_of(lines_of(log.visit))
    assert uid not in said
    assert "Session that is being changed: none, then one of them" in said


def test_that_the_fields_are_empty_once_a_session_is_kept_goes_without_saying(log):
    log.add(after(0), throws=10)
    log.do(entering.change, log.visit.data.sessions[0].uid)
    log.act(Edit("log.throws", "12"))
    log.do(entering.keep)
    newest = text_of(lines_of(log.visit)[0].children[0])
    assert newest.endswith("Session 2026-03-02 changed")


def test_the_history_is_paged_and_no_act_is_cut_in_two(log):
    for number in range(LINES_SHOWN + 5):
        log.act(Edit("log.throws", str(number + 1)))
    first = lines_of(log.visit)
    assert f"Throws thrown: {LINES_SHOWN + 4} throws, then {LINES_SHOWN + 5} throws" in text_of(first)
    (nav,) = first[1:]
    before = nav.children[0].href.partition("before=")[2].partition("#")[0]
    earlier = text_of(lines_of(visit_of("/log", f"?athlete=W01&before={before}")))
    assert f"Throws thrown: {LINES_SHOWN + 4} throws, then" not in earlier
    shown = [int(line.partition(", then ")[2].split()[0]) for line in (text_of(first) + earlier).split("thrown: ")[1:]]
    assert sorted(set(shown)) == list(range(1, LINES_SHOWN + 6))


def test_an_act_of_many_changes_is_shortened_in_the_history(log):
    log.act(*(Add("session_log", values={"day": after(i), "body": body()}) for i in range(CHANGES_SHOWN + 3)))
    assert "and 3 more" in text_of(lines_of(log.visit))


def test_the_cautions_stand(log):
    said = text_of(layout(log.visit))
    assert "it does not predict injury" in said
    log.visit.store.new_athlete("X1", Hand("one"))
    assert "counts as still growing" in text_of(layout(visit_of("/log", "?athlete=X1")))
