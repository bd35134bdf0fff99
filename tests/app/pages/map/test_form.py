"""The map's form: kept as typed, read with distrust."""

import pytest

from app.pages.map.form import NAMES, SHOWN_READINGS, MapForm, from_json, read_form, to_json
from app.show.throw_form import FormError
from model.channels import READINGS


def test_what_is_written_is_read_again_as_it_was_typed():
    form = MapForm("internal_rotation", "area", "reference", "linear", " 60", "6oo", "", "40,5", "27,5", "fast")
    assert from_json(to_json(form)) == form


@pytest.mark.parametrize(
    "kept",
    [
        None,
        [],
        "x",
        {},
        {"version": 1},
        to_json(MapForm()) | {"version": 2},
        to_json(MapForm()) | {"more": "x"},
        to_json(MapForm()) | {"of": 3},
        to_json(MapForm()) | {"speed_m_s": "9" * 201},
    ],
)
def test_anything_else_is_refused(kept):
    with pytest.raises(FormError):
        from_json(kept)


def test_whatever_the_controls_send_the_result_is_a_form():
    form = read_form({"reading": None, "readout": 3, "ball_mass_g": ["x"], "speed_m_s": "1" * 500, "other": "x"})
    assert form.reading == form.readout == form.ball_mass_g == ""
    assert len(form.speed_m_s) == 200
    assert from_json(to_json(form)) == form


def test_elbow_shoulder_and_the_whole_braking_group_can_be_drawn():
    braking = {key for key, reading in READINGS.items() if reading.braking}
    assert set(SHOWN_READINGS) == {"varus", "internal_rotation"} | braking
    assert len(braking) >= 3  # horizontal abduction, posterior and proximal force: the design page, section 3


def test_every_part_of_the_form_is_a_text():
    assert all(isinstance(getattr(MapForm(), name), str) for name in NAMES)
