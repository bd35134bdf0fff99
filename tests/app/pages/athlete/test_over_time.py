"""Own-ball speed over time: which readings it is of, what is said of it, and how it is drawn."""

from datetime import date, timedelta

import plotly.graph_objects as go
import pytest

from app.bind.visit import visit_of
from app.pages.athlete import callbacks, over_time, speeds
from app.pages.athlete.drawing import with_paper
from app.records.acts import Add, Edit, Hand, Remove
from app.show.counted import readings_since
from app.show.from_records import case_of
from app.show.palette import THEMES
from app.units.systems import CUSTOMARY

ONE = Hand("one")
FIRST = date(2026, 3, 2)


def again():
    return visit_of("/athlete", "?athlete=W01")


def over_of(since=None):
    visit = again()
    case = case_of(visit.data, visit.today, visit.system)
    return over_time.over_time_of(visit.data, case, since)


def read(visit, *speeds_by_week, **more):
    ball = visit.data.own_ball.uid
    adds = [
        Add("reading", values={"ball": ball, "day": FIRST + timedelta(weeks=week), "speed_m_s": speed} | more)
        for week, week_speeds in enumerate(speeds_by_week)
        for speed in week_speeds
    ]
    visit.store.act(visit.owner, adds, ONE)


def test_one_day_alone_is_told_and_drawn_without_a_line(visit, text):
    over = over_of()
    assert [(one.day, one.throws) for one in over.days] == [(date(2026, 1, 13), 3)]
    assert over.days[0].mean_m_s == pytest.approx((32.7 + 33.2 + 33.1) / 3)  # readings.csv, W01, 145 g, full effort
    said = text(over_time.section(over))
    assert said.startswith("3 readings on 2026-01-13. Whether the speed rose can be told from 3 days on.")


def test_a_rise_is_told_with_how_sure_it_is(visit, text):
    read(visit, (33.0, 33.2, 33.1), (33.6, 33.5), (34.1, 34.3), (34.6, 34.5, 34.7), (35.1, 35.2), (35.6, 35.5))
    said = text(over_time.section(over_of(FIRST)))
    # by hand: from 33.1 to 35.55 m/s in five weeks: 2.45 m/s in 35 days, 2.1 in 30
    assert said.startswith("The own-ball speed rose: +2.1 m/s in 30 days (90 % interval +")
    assert "That it rose at all: more than nine in ten" in said
    assert "same radar in the same place" in said


def test_what_is_not_settled_is_said_as_such(visit, text):
    read(visit, (33.0, 33.4), (33.5,), (33.1, 33.3))
    said = text(over_time.section(over_of(FIRST)))
    assert said.startswith("Whether the own-ball speed rose or fell is not settled")


def test_days_before_those_that_count_are_drawn_in_grey_and_not_in_the_line(visit):
    read(visit, (33.0,), (33.1,), (33.2,))
    over = over_of(FIRST)
    assert [one.day for one in over.older] == [date(2026, 1, 13)]
    assert over.trend.days == 3
    made = go.Figure(over_time.figure(over, THEMES["light"], False))
    colors = [trace.marker.color for trace in made.data if trace.mode == "markers"]
    assert colors == [THEMES["light"].edge, THEMES["light"].ink]


def test_asked_distance_less_effort_and_other_balls_are_left_out(visit):
    read(visit, (20.0,), distance_m=40.0)
    read(visit, (25.0,), asked_effort=0.75)
    assert over_of().trend.days == 1


def test_a_release_speed_is_not_corrected_and_a_radars_is(visit):
    read(visit, (33.0,), speed_is="release")
    read(visit, (), (33.0,))
    visit.store.act(visit.owner, Edit("profile.radar", "yes"), ONE)
    by_day = {one.day: one.mean_m_s for one in over_of().days}
    assert by_day[FIRST] == pytest.approx(33.0)
    assert by_day[FIRST + timedelta(weeks=1)] > 33.2
    now = again()
    used = case_of(now.data, now.today).found.used
    assert {round(one.speed_m_s, 6) for one in used if one.on == FIRST} == {33.0}


@pytest.mark.parametrize("theme", THEMES.values(), ids=lambda theme: theme.name)
@pytest.mark.parametrize("narrow", [True, False])
def test_it_is_a_figure_in_every_theme(visit, theme, narrow):
    read(visit, (33.0, 33.2), (33.6,), (34.1,))
    visit.store.act(visit.owner, [Add("plan", {"name": "<a href=x>"}, {"start": FIRST, "body": {}})], ONE)
    over = over_of()
    made = go.Figure(with_paper(over_time.figure, over, theme, narrow))
    assert any("&lt;a href=x&gt;" in note.text for note in made.layout.annotations)
    assert [phase.first for phase in over.phases] == [FIRST]


def test_in_other_units_it_is_the_same(visit, text, here):
    read(visit, (33.0, 33.2), (33.6,), (34.1,))
    case = case_of(again().data, visit.today, CUSTOMARY)
    said = text(over_time.words(over_time.over_time_of(again().data, case, None)))
    assert "mph in 30 days" in said
    assert " m/s" not in said


def test_it_is_said_which_readings_count(visit, here):
    data = visit.data
    assert readings_since(data, visit.today) is None  # the demo's are older than a season
    assert speeds.counted(data, None, False) == "All readings count."
    assert speeds.counted(data, date(2026, 2, 1), True) == (
        "Readings since 2026-02-01 count: as was chosen. 6 older readings in grey and not counted."
    )
    said = speeds.counted(data, date(2026, 2, 1), False)
    assert "since 2026-02-01 count: the last 180 days, about a season." in said


def test_the_callbacks_answer_for_the_page(visit, here):
    figure, drawn = callbacks.draw(None, "light", False, here)
    assert len(go.Figure(figure).data) > 3
    assert "W01 slows down with p" in drawn["athlete-strip"]
    assert callbacks.tell(None, here)["athlete-caps"].count("<tr>") > 8
    listed, months = callbacks.list_readings(None, "2026-02", here)
    assert listed["html"].count("<tr data-problems") == 9
    assert listed["since"] == ""
    assert months[0] == {"value": "newest", "label": "all readings"}
    over, said, hidden = callbacks.draw_over_time(None, "dark", True, here)
    assert go.Figure(over).data
    assert said
    assert not hidden


def test_without_a_reading_no_empty_axes_are_shown(visit, here):
    visit.store.act(visit.owner, [Remove("reading", one.uid) for one in visit.data.readings], ONE)
    assert callbacks.draw_over_time(None, "light", False, here)[2]


def test_a_code_like_a_link_is_plain_text_on_the_plot(visit, here):
    visit.store.act(visit.owner, Edit("athlete.code", "<a href='x'>"), ONE)
    figure, _ = callbacks.draw(None, "light", False, here)
    said = " ".join(note["text"] for note in figure["layout"]["annotations"])
    assert "<a" not in said
    assert "&lt;a href" in said
