"""The pictures as data: what the browser draws is what the model gives."""

import json
import math

import numpy as np
import pytest

from app.pages.teach.pictures import figure_of, picture_of, ranges, story_of, tick_step
from app.pages.teach.session import STEPS, Session
from app.pages.teach.studies import STUDIES, study_words
from app.pages.teach.words import told
from model.line_figure import FRAMES, line_figure
from model.one_change import with_forearm
from tests.app.pages.teach.conftest import session


@pytest.fixture(scope="module")
def story(lesson):
    return story_of(Session(), lesson, told(lesson))


def pictures(story):
    return {step["key"]: step["picture"] for step in story["steps"]}


def test_a_story_is_plain_data_without_anything_that_json_has_not(story):
    assert json.loads(json.dumps(story, allow_nan=False)) == story
    assert tuple(pictures(story)) == STEPS


def test_curves_stand_at_the_phases_of_the_line_figure(story, lesson):
    line = pictures(story)["throw"]["still"][0]
    assert len(line["y"]) == len(story["figure"]["phase"]) == FRAMES
    model = np.interp(story["figure"]["phase"], lesson.own.curves.phase, lesson.own.curves.values["varus"])
    assert line["y"] == pytest.approx(model, abs=0.005)  # two decimals
    assert line["contact_ms"] == pytest.approx(1000.0 * lesson.own.curves.foot_contact_s, abs=0.005)


def test_the_own_throw_is_the_one_dashed_line_of_every_picture(story):
    for key, picture in pictures(story).items():
        for still in [picture.get("still", [])] + [panel["still"] for panel in picture.get("panels", [])]:
            if still:
                assert [line["dashed"] for line in still] == [True] + [False] * (len(still) - 1), key


def test_axes_hold_every_line_and_every_stop_of_a_slider(story):
    for picture in pictures(story).values():
        stops = [stop["line"] for stop in picture.get("slider", {}).get("stops", [])]
        panels = [line for panel in picture.get("panels", []) for line in panel["still"]]
        for line in (*picture.get("still", []), *stops, *panels):
            assert picture["x"][0] <= line["contact_ms"]
            assert picture["x"][1] >= -0.25 * line["contact_ms"] - 1e-9
            assert picture["y"][0] <= min(line["y"])
            assert picture["y"][1] > max(line["y"])


def test_a_slider_opens_where_nothing_is_changed(story):
    for key in ("hand", "forearm", "clock", "ball"):
        picture = pictures(story)[key]
        start = picture["slider"]["stops"][picture["slider"]["start"]]
        assert start["line"]["y"] == picture["still"][0]["y"]
        assert "peak 0 %" in start["said"]["four"]
    speed = pictures(story)["speed"]["slider"]
    assert "as the own ball" in speed["stops"][speed["start"]]["said"]["amount"]


def test_a_longer_forearm_is_drawn_between_the_own_and_the_longest_exactly(story, lesson):
    stops = pictures(story)["forearm"]["slider"]["stops"]
    middle = with_forearm(lesson.own.throw, lesson.series["forearm"][10].amount).throw.person
    figure, reach = story["figure"], stops[10]["reach"]
    drawn = line_figure(middle, lesson.own.throw.ball.diameter_m)
    for name in ("wrist", "ball"):
        mixed = np.array(figure["points"][name]) * (1 - reach) + reach * np.array(figure["longer"][name])
        assert mixed == pytest.approx(drawn.points[name], abs=2e-4)  # a tenth of a millimetre each, as written
    assert (stops[0]["reach"], stops[-1]["reach"]) == (0.0, 1.0)


def test_a_left_hander_is_drawn_as_one(lesson_for):
    right, left = figure_of(lesson_for("W01")), figure_of(lesson_for("W02"))
    assert (right["side"], left["side"]) == (1, -1)
    assert max(place[2] for place in left["points"]["ball"]) < 0.3
    assert min(place[2] for place in left["points"]["ball"]) < -0.5


@pytest.mark.parametrize(("span", "step"), [(200.0, 50.0), (120.0, 25.0), (10.0, 2.0), (1.0, 0.2), (49.0, 10.0)])
def test_ticks_are_round_and_few(span, step):
    assert tick_step(span) == pytest.approx(step)


def test_axes_begin_at_nought_where_a_curve_stays_above_it():
    found = ranges([{"y": [1.0, 5.0], "contact_ms": -100.0}])
    assert found["y"][0] == 0.0
    assert found["x"] == [-100.0, 25.0]


def test_published_means_are_found_in_their_sources_and_in_the_same_unit():
    for study in STUDIES:
        assert study.source.status == "found"
        assert study.source.units == "N·m"
        assert "varus" in study.source.quantity
        assert math.isfinite(study.value)
        assert study.source.n in study_words(study)
    assert study_words(STUDIES[2]) == "skilled adults, n 26 (Fleisig 1995)"


def test_only_the_steps_that_are_shown_go_to_the_browser(lesson):
    story = story_of(session("vote,throw"), lesson, told(lesson))
    assert [step["key"] for step in story["steps"]] == ["vote", "throw"]
    assert picture_of("vote", lesson, told(lesson)["vote"])["kind"] == "vote"
