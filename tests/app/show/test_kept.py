"""Readings are kept by the athlete's code, and never pass to another athlete."""

import pytest

from app.demo import load_demo
from app.show.kept import MOST_KEPT, form_for, read_kept, write_kept
from app.show.profile_form import BallRow, Cell, ProfileForm
from app.show.throw_form import FormError

DEMO = load_demo()
OWN = ProfileForm((BallRow("b1", "145", "73", (Cell("33"),)),))


def test_what_is_written_is_read_again():
    kept = write_kept({}, "A7", OWN)
    assert read_kept(kept) == {"A7": OWN}
    assert read_kept(write_kept(read_kept(kept), "B2", ProfileForm())) == {"A7": OWN, "B2": ProfileForm()}


def test_nothing_kept_is_no_form_and_anything_else_is_refused():
    assert read_kept(None) == {}
    for broken in ("x", [], {}, {"version": 1, "forms": {}}, {"version": 1, "forms": [["A7"]]}):
        with pytest.raises(FormError):
            read_kept(broken)


def test_the_readings_of_one_athlete_are_not_shown_for_another():
    assert form_for({"A7": OWN}, "A7", DEMO, False) == OWN
    assert form_for({"A7": OWN}, "B2", DEMO, False).untouched


def test_readings_without_a_code_become_those_of_the_first_code_given():
    assert form_for({"": OWN}, "A7", DEMO, False) == OWN


def test_on_demo_each_thrower_brings_invented_readings_and_what_was_typed_goes_first():
    first = form_for({}, "W01", DEMO, True)
    assert [cell.speed for cell in first.rows[0].cells] == ["35.0", "35.4", "35.2"]  # readings.csv, 95 g
    assert form_for({}, "W06", DEMO, True).untouched
    assert form_for({"W01": OWN}, "W01", DEMO, True) == OWN


def test_the_athlete_used_longest_ago_is_given_up_first():
    forms: dict = {}
    for number in range(MOST_KEPT + 1):
        forms = read_kept(write_kept(forms, f"A{number}", OWN))
    assert len(forms) == MOST_KEPT
    assert "A0" not in forms
