"""What is shown: nothing of the athlete that a room need not see, notes with their sources, the two pages of paper."""

import json
from dataclasses import replace

import pytest

from app.demo import load_demo
from app.pages.teach.handout import ON_PAPER, SOURCES, handout, sheet_pictures
from app.pages.teach.notes import NOTES, QUESTIONS, note_parts, question_parts, source_line
from app.pages.teach.parts import stage
from app.pages.teach.session import STEPS, Session
from app.pages.teach.view import view_of
from app.pages.teach.words import TITLES, told, vote_row
from app.show.cautions import CAUTIONS, GROWING
from app.show.glossary import TERMS
from app.show.markup import to_html
from app.show.numbers import READOUT_ORDER
from model.channels import READINGS
from model.published import values
from model.readouts import read_curves
from model.structural_band import NO_DIFFERENCE
from tests.app.known import TODAY


def view(lesson, **changes):
    return view_of(replace(Session(), **changes), lesson.case, lesson, True, TODAY)


@pytest.mark.parametrize(("code", "age", "mass"), [("W01", "20 years", "84 kg"), ("W04", "13 years", "48 kg")])
def test_code_age_and_body_mass_stay_hidden_unless_switched_on(lesson_for, code, age, mass):
    lesson = lesson_for(code)
    hidden, named = view(lesson), view(lesson, named=True)
    for secret in (code, age, mass):
        everything = json.dumps(hidden.story, ensure_ascii=False) + hidden.who + str(hidden.growing)
        assert secret not in everything
        assert secret in named.who
    assert named.who.removesuffix(" · path from adult men") in named.story["handout"]


def test_a_young_thrower_brings_the_caution_for_those_who_are_growing(lesson_for):
    lesson = lesson_for("W04")
    shown = view(lesson)
    assert GROWING[0] in str(shown.growing)
    assert all(line in to_html(stage(shown)) for line in CAUTIONS)
    assert GROWING[1] in shown.story["handout"]
    assert shown.who == "path from adult men"
    assert "path from adult men" in shown.story["handout"]
    assert view(lesson_for("W01")).growing == []
    assert view(lesson_for("W01")).who == ""


def test_without_a_lesson_it_says_what_is_missing(lesson):
    nobody = replace(lesson.case, person=None, missing=("Age",))
    shown = view_of(Session(), nobody, None, False, TODAY)
    assert not shown.story
    assert "Missing or to be mended: age" in str(shown.empty)
    no_speed = replace(lesson.case, readings=(), reference=replace(lesson.case.reference, speed_m_s=None))
    assert "a full-effort speed" in str(view_of(Session(), no_speed, None, False, TODAY).empty)


def test_the_note_to_a_build_up_of_the_growing_tells_what_is_done_and_what_comes_first_here(lesson_for):
    notes = {}
    for code in ("W01", "W04"):
        steps = view(lesson_for(code)).story["steps"]
        notes[code] = next(step["notes"] for step in steps if step["key"] == "build")
    assert "Heavy and slow first" in notes["W01"]
    assert "Heavy and slow first" not in notes["W04"]
    assert "the own ball comes first here, from slow to fast" in notes["W04"]
    assert all("common practice, no source" in text for text in notes.values())


def test_every_step_has_notes_and_every_source_is_there():
    assert set(NOTES) == set(STEPS)
    for note in (*NOTES.values(), *QUESTIONS):
        assert note.text
        assert set(note.sources) <= set(values())
        to_html(note_parts(note))
    assert all(note.question.endswith("?") for note in QUESTIONS)
    assert len(question_parts()) == len(QUESTIONS)


def test_a_source_that_was_recalled_says_so():
    assert "from memory" in source_line("1-kinetics-42")
    assert "memory" not in source_line("1-kinetics-01")
    assert source_line("3-ball-mass-34").startswith("Worked out from others: ball share")


def test_numbers_in_the_notes_are_those_of_their_sources():
    # typed by hand beside the rows they come from
    assert [values()[key].value for key in ("4-effort-distance-09", "4-effort-distance-11")] == ["-19", "-25"]
    assert [values()[key].value for key in ("4-effort-distance-10", "4-effort-distance-12")] == ["-10", "-15"]
    assert values()["8-pitch-limits-20"].value == "24"
    assert values()["3-ball-mass-32"].value.startswith("+2 to +5 in 4 of 9 studies; 3 found no difference; 2 found")


def test_no_row_of_the_published_values_is_named_to_a_reader():
    for note in (*NOTES.values(), *QUESTIONS):
        assert not any(key in to_html(note_parts(note)) for key in values())


ATHLETES = [athlete.athlete for athlete in load_demo().athletes]
"""Their exponents run from 0.24 to 0.76."""


def light_over_heavy(lesson) -> dict[str, float]:
    """How much more the own ball has of each number than the heavier second one, each at full speed, by the model."""
    light, heavy = lesson.own, lesson.at_profile["second"]
    assert light.throw.ball.mass_kg < heavy.throw.ball.mass_kg
    braking = [key for key, reading in READINGS.items() if reading.braking]
    peaks = {key: [read_curves(one.curves, key).peak for one in (light, heavy)] for key in braking}
    return {name: light.change(heavy, name) for name in READOUT_ORDER} | {
        key: a / b - 1.0 for key, (a, b) in peaks.items()
    }


@pytest.mark.parametrize("code", ATHLETES)
def test_what_is_answered_about_light_balls_is_what_the_model_and_the_vote_say(lesson_for, code):
    (answer,) = [" ".join(note.text) for note in QUESTIONS if "light ball asks for more" in note.question]
    lesson = lesson_for(code)
    more = light_over_heavy(lesson)
    assert "Braking the arm after release then asks for more" in answer
    assert all(more[key] > 0.0 for key, reading in READINGS.items() if reading.braking)
    assert "Time loaded is shorter with the light ball" in answer
    assert more["loaded_s"] < 0.0
    assert "has the steeper rise, and with one who slows more still, the higher peak as well" in answer
    assert more["rise_rate"] > more["peak"]  # so that the peak never is the first to turn
    assert f"“{TITLES['vote']}” says it" in answer
    for name in READOUT_ORDER:  # the vote goes from the own ball to the heavier one
        if abs(lesson.at_profile["second"].change(lesson.own, name)) > NO_DIFFERENCE:
            assert (vote_row(name, lesson)["grew"] == "did not grow") == (more[name] > 0.0), name


def test_some_invented_athletes_have_the_higher_peak_and_the_steeper_rise_with_the_light_ball_and_some_not(lesson_for):
    found = {code: light_over_heavy(lesson_for(code)) for code in ATHLETES}
    for name in ("peak", "rise_rate"):
        assert {one[name] > 0.0 for one in found.values()} == {True, False}, name


def test_the_handout_is_two_sheets_with_the_numbers_words_cautions_and_sources(lesson):
    words = told(lesson)
    sheets = handout(lesson, words, False, True, "2026-03-01")
    text = to_html(sheets)
    assert len(sheets) == 2
    assert "invented demo data" in text
    assert f"{lesson.own.read.peak:.1f} N·m" in text
    for key in SOURCES:
        assert source_line(key) in text.replace("&amp;", "&")
    for term in TERMS:
        assert (term.text in text) == (term.key in ON_PAPER)
    pictures = sheet_pictures(lesson, words)
    assert all(f'data-picture="{name}"' in text for name in pictures)
    json.dumps(pictures, allow_nan=False)
