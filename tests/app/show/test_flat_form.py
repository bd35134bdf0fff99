"""Forms that are texts and nothing else come back as they were kept, and nothing else is let in."""

from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.show.flat_form import from_json, read_form, read_written, to_json
from app.show.throw_form import LONGEST_KEPT, FormError
from app.units.systems import CUSTOMARY, METRIC


@dataclass(frozen=True)
class Two:
    one: str = "1"
    other: str = ""


texts = st.text(max_size=LONGEST_KEPT)


@given(st.builds(Two, texts, texts))
def test_what_was_kept_comes_back(form):
    assert from_json(to_json(form, 3), Two, 3) == form


@pytest.mark.parametrize(
    "kept",
    [
        *(None, 3, "{}", [], {}, {"version": 3}),
        {"version": 2, "one": "", "other": ""},
        {"version": 3, "one": "", "other": 5},
        {"version": 3, "one": "", "other": "x" * (LONGEST_KEPT + 1)},
        {"version": 3, "one": "", "other": "", "more": ""},
    ],
)
def test_anything_else_is_refused(kept):
    with pytest.raises(FormError):
        from_json(kept, Two, 3)


def test_a_control_that_holds_no_text_counts_as_empty():
    assert read_form({"one": 5, "unknown": "x"}, Two) == Two("", "")
    assert read_form({"one": "x" * 900}, Two).one == "x" * LONGEST_KEPT


def test_what_fields_were_made_from_is_read_with_its_units_or_is_nothing():
    def read(kept):
        return from_json(kept, Two, 3)

    whole = {"units": CUSTOMARY.key, "form": to_json(Two("a", "b"), 3)}
    assert read_written(whole, read, Two()) == (Two("a", "b"), CUSTOMARY)
    assert read_written({"units": CUSTOMARY.key, "form": {}}, read, Two()) == (Two(), CUSTOMARY)
    assert read_written("x", read, Two()) == (Two(), METRIC)
