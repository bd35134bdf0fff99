"""The grid and the dated list show every reading that is kept, and say which do not count."""

import json
import re
from dataclasses import replace
from datetime import date, timedelta
from html import escape

from app.bind.cells import keep_cells
from app.bind.visit import visit_of
from app.pages.athlete import dated, grid
from app.records.acts import TEAM, Add, Edit, Hand, Put
from app.show.counted import readings_since

ONE = Hand("one")


def again(code: str = "W01"):
    return visit_of("/athlete", f"?athlete={code}")


def row_of(html: str, ball: str) -> str:
    return next(row for row in html.split('<div class="reading-row"') if f'data-ball="{ball}"' in row)


def test_every_ball_has_a_row_light_to_heavy_and_the_own_one_is_marked(visit):
    html = grid.grid_html(visit, visit.data, None)
    assert re.findall(r"Readings with ([0-9]+) g", html) == ["95", "125", "145", "160", "210", "275", "360", "470"]
    assert "own ball" in row_of(html, visit.data.own_ball.uid)


def test_a_new_ball_of_the_team_has_fields_and_an_archived_one_only_stands_where_it_was_read(visit):
    balls = {ball.mass_kg: ball for ball in visit.team.balls}
    visit.store.act(TEAM, [Add("ball", values={"diameter_m": 0.073}, uid="new")], ONE)
    then = visit.data.athlete.created
    visit.store.act(TEAM, [Put("ball", "archived_at", then, balls[mass].uid) for mass in (0.21, 0.275)], ONE)
    now = again()
    html = grid.grid_html(now, now.data, None)
    assert 'data-path="ball.mass_kg"' in row_of(html, "new")
    assert 'data-of="team"' in row_of(html, "new")
    assert "archived" in row_of(html, balls[0.275].uid)
    assert balls[0.21].uid not in html


def test_the_grid_shows_the_newest_of_many_readings_and_says_so_and_the_list_has_them_all(visit):
    ball, day = visit.team.balls[0], date(2026, 3, 1)
    adds = [
        Add("reading", values={"ball": ball.uid, "day": day + timedelta(days=i), "speed_m_s": 30.0 + i / 100})
        for i in range(100)
    ]
    visit.store.act(visit.owner, adds, ONE)
    now = again()
    row = row_of(grid.grid_html(now, now.data, None), ball.uid)
    assert "The newest 40 of 103; all are in the list." in row
    assert 'value="30.99"' in row
    assert 'value="30.5"' not in row
    assert 'aria-label="Reading 103 with' in row
    months = [one["value"] for one in dated.months(now.data)]
    assert months[:3] == ["newest", "2026-06", "2026-05"]
    listed = "".join(dated.list_html(now, now.data, month, None) for month in months[1:])
    assert listed.count("<tr data-problems") == len(now.data.readings) == 115


def test_a_refused_reading_stands_in_its_cell_with_what_is_accepted(visit):
    row = visit.data.readings[0]
    visit.store.act(visit.owner, Edit("reading.speed_m_s", "<b>", row.uid), ONE)
    now = again()
    for html in (grid.grid_html(now, now.data, None), dated.list_html(now, now.data, "newest", None)):
        assert "“&lt;b&gt;” given; accepted: 1 to 60 m/s" in html
        assert 'value="&lt;b&gt;"' in html
        assert 'aria-invalid="true"' in html


def test_older_readings_are_marked_in_grid_and_list(visit):
    since = date(2026, 2, 1)
    html = grid.grid_html(visit, visit.data, since)
    assert html.count(" data-older") == 6  # of 2026-01-13, all with the own ball
    assert dated.list_html(visit, visit.data, "newest", since).count("<tr data-problems data-older") == 6
    assert "do not count" in dated.list_html(visit, visit.data, "newest", since)
    assert " data-older" not in grid.grid_html(visit, visit.data, readings_since(visit.data, visit.today))


def test_a_new_cell_makes_a_reading_of_its_ball_and_is_that_of_no_other_visit(visit):
    ball = visit.team.balls[1]
    rows = [row_of(grid.grid_html(one, one.data, None), ball.uid) for one in (visit, again())]
    lines = [re.findall(r'data-line="([^"]+/0)"', row) for row in rows]
    assert len({line for found in lines for line in found}) == 2
    html = row_of(grid.grid_html(visit, visit.data, None), ball.uid)
    new = {"ball": ball.uid, "day": visit.today.isoformat()}
    cells = html.count('data-row=""')
    assert html.count(f'data-new="{escape(json.dumps(new))}"') == cells + 1  # and the row's, for cells to come


def test_a_ball_of_the_team_that_weighs_what_the_own_one_does_has_no_row_of_its_own(visit):
    adds = [Add("ball", {"mass_kg": "145", "diameter_m": "73"}, uid="like-own")]
    visit.store.act(TEAM, adds, ONE)
    visit.store.act(visit.owner, Add("reading", {"speed_m_s": "31.7"}, {"ball": "like-own"}), ONE)
    now = again()
    html = grid.grid_html(now, now.data, None)
    assert html.count('aria-label="Readings with 145 g"') == 1
    assert 'value="31.7"' in row_of(html, now.data.own_ball.uid)
    visit.store.act(visit.owner, Edit("ball.mass_kg", "150", visit.data.own_ball.uid), ONE)
    now = again()
    html = grid.grid_html(now, now.data, None)
    assert 'value="31.7"' in row_of(html, "like-own")


def test_new_readings_get_the_day_of_the_address_and_a_wrong_one_is_named(visit):
    assert grid.readings_day(visit) == (visit.today, visit.today.isoformat(), "")
    then = replace(visit, asked={grid.DAY: "2026-02-03"})
    assert grid.readings_day(then) == (date(2026, 2, 3), "2026-02-03", "")
    assert grid.grid_html(then, then.data, None).count("2026-02-03&quot;}") > 8
    day, text, problem = grid.readings_day(replace(visit, asked={grid.DAY: "yesterday"}))
    assert (day, text) == (visit.today, "yesterday")
    assert problem.startswith("Day of the reading: “yesterday” given; accepted: year-month-day from 1990-01-01")


def test_the_day_of_a_new_cell_goes_to_the_reading(visit, here, monkeypatch):
    monkeypatch.setattr("app.bind.edit.set_props", lambda *_: None)
    new = {"ball": visit.data.own_ball.uid, "day": "2026-02-03"}
    edit = {
        "n": 1,
        "path": "reading.speed_m_s",
        "of": visit.owner,
        "row": "",
        "line": "x/0",
        "text": "31.3",
        "new": new,
    }
    keep_cells({"edits": [edit]}, here, {})
    (made,) = [one for one in again().data.readings if one.speed_m_s == 31.3]
    assert (made.day, made.ball_id) == (date(2026, 2, 3), visit.data.own_ball.id)
