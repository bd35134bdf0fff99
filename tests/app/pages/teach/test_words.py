"""The story's words: plain, short, two sentences at most, and true to the numbers."""

import re

import pytest

from app.demo import load_demo
from app.pages.teach.session import STEPS, Session
from app.pages.teach.words import panel_words, stop_words, told
from app.units.systems import CUSTOMARY, METRIC
from model.ball import Ball
from tests.app.pages.teach.reading_grade import grade, syllables

CODES = tuple(athlete.athlete for athlete in load_demo().athletes)
HIGHEST_GRADE = 8.0  # as a thirteen-year-old reads: half the demo throwers are no older than 20
VERDICTS = re.compile(r"\b(safe|unsafe|danger\w*|risky?|good|bad|best|worst|better|worse|should|must never)\b", re.I)


def test_the_syllable_counter_knows_the_words_of_the_story():
    counted = {"torque": 1, "forearm": 2, "release": 2, "elbow": 2, "heavier": 2, "curve": 1, "joint": 1, "numbers": 2}
    counted |= {"athlete": 2, "contact": 2, "highest": 2, "started": 2, "single": 2, "145": 3, "m/s": 1}
    assert {word: syllables(word) for word in counted} == counted


def test_the_formula_gives_the_grade_worked_out_by_hand():
    # 6 words, 1 sentence, 6 syllables: 0.39 * 6 + 11.8 * 1 - 15.59 = -1.45; and 4 words of 6 syllables
    assert grade(["The cat sat on the mat."]) == pytest.approx(-1.45)
    assert grade(["Radar reads release speed."]) == pytest.approx(0.39 * 4 + 11.8 * 6 / 4 - 15.59)


@pytest.mark.parametrize("code", CODES)
@pytest.mark.parametrize("system", [METRIC, CUSTOMARY], ids=["metric", "customary"])
def test_the_story_reads_at_grade_8_or_below_as_a_whole_and_in_every_step(lesson_for, code, system):
    story = told(lesson_for(code, system=system))
    every = [text for step in story.values() for text in (f"{step.title}.", *step.sentences)]
    assert grade(every) <= HIGHEST_GRADE
    grades = {key: grade(list(step.sentences)) for key, step in story.items()}
    assert {key: found for key, found in grades.items() if found > HIGHEST_GRADE} == {}


@pytest.mark.parametrize("code", CODES)
def test_every_step_has_a_title_and_at_most_two_sentences_without_a_verdict(lesson_for, code):
    story = told(lesson_for(code))
    assert tuple(story) == STEPS
    for step in story.values():
        assert 1 <= len(step.sentences) <= 2
        for text in step.sentences:
            ends = re.findall(r"[.?!](?:\s|$)", text)
            assert len(ends) == 1, text
            assert not VERDICTS.search(text), text


def test_the_numbers_of_the_vote_are_those_of_the_model(lesson):
    rows = {row["name"]: row for row in told(lesson)["vote"].rows}
    own, second = lesson.own.read, lesson.at_profile["second"].read
    assert rows["Peak"]["said"] == f"{own.peak:.1f} N·m → {second.peak:.1f} N·m"
    assert rows["Time loaded"]["said"] == f"{1000 * own.loaded_s:.0f} ms → {1000 * second.loaded_s:.0f} ms"
    assert rows["Peak"]["grew"] == "did not grow"
    assert rows["Time loaded"]["grew"] == "grew"
    assert rows["Area under the curve"]["change"] == f"+{100 * (second.area / own.area - 1):.0f} %"


def test_a_difference_that_is_none_to_speak_of_is_called_so(lesson_for):
    same = lesson_for(session=Session(Ball(0.1452)))
    assert {row["grew"] for row in told(same)["vote"].rows} == {"no difference to speak of"}


def test_the_mass_of_the_hand_which_tells_body_mass_is_not_shown(lesson):
    assert stop_words("hand", lesson.series["hand"][4], lesson)["amount"] == "+20 %"


def test_a_lighter_ball_is_not_called_heavier(lesson_for):
    lighter = told(lesson_for(session=Session(Ball(0.095))))
    assert lighter["ball"].sentences[1] == "At the same speed, the lighter ball has the lower curve."
    assert "more than 33.0 m/s" in lighter["speed"].sentences[0]


def test_for_a_thrower_who_is_still_growing_the_own_ball_comes_first_and_slowly(lesson_for):
    done, here = told(lesson_for("W04"))["build"].sentences
    assert "many start with a heavy ball" in done
    assert "the own ball comes first here, and slowly" in here
    assert panel_words(lesson_for("W04"))[0] == "First: 145 g, 60 % of full speed"
    assert not any("own ball comes first" in text for text in told(lesson_for("W01"))["build"].sentences)


def test_without_readings_the_story_says_that_it_is_not_known(lesson_for):
    story = told(lesson_for("W06"))
    assert "not known" in story["athlete"].sentences[1]
    assert "going by other groups" in story["speed"].sentences[0]


def test_the_words_are_in_the_readers_units(lesson_for):
    text = " ".join(text for step in told(lesson_for(system=CUSTOMARY)).values() for text in step.sentences)
    assert "5.11 oz at 73.8 mph" in text
    assert " g " not in text
    assert "m/s" not in text
