"""What an athlete's settings say to the map."""

import pytest

from app.bind.visit import visit_of
from app.pages.map.form import PATHS, SHOWN_READINGS, MapForm, form_of
from app.records.acts import Edit, Hand
from app.records.field_list import SETTINGS
from app.web.server import Config, create_app
from model.channels import READINGS


@pytest.fixture
def visit():
    app = create_app(Config(demo=True))
    with app.server.test_request_context():
        yield visit_of("/map", "?athlete=W01")


def again(visit):
    return visit_of("/map", f"?athlete={visit.code}").data


def test_what_was_never_set_is_as_the_page_begins(visit):
    assert form_of(visit.data) == MapForm()


def test_what_is_typed_and_what_is_refused_stand_as_they_were_typed(visit):
    typed = [Edit("map.mass_to_kg", "10 oz"), Edit("map.speed_to_m_s", "fast"), Edit("map.readout", "area")]
    visit.store.act(visit.owner, typed, Hand("one"), visit.system)
    form = form_of(again(visit))
    assert (form.mass_to_g, form.speed_to_m_s, form.readout) == ("10 oz", "fast", "area")


def test_every_part_of_the_form_is_a_setting_of_the_athlete():
    assert set(PATHS) == set(vars(MapForm()))
    assert set(PATHS.values()) <= set(SETTINGS)


def test_elbow_shoulder_and_the_whole_braking_group_can_be_drawn():
    braking = {key for key, reading in READINGS.items() if reading.braking}
    assert set(SHOWN_READINGS) == {"varus", "internal_rotation"} | braking
    assert len(braking) >= 3  # horizontal abduction, posterior and proximal force: the design page, section 3
