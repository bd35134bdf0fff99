"""The throw that is looked at: read from a click, or the usual one where nothing was typed."""

from dataclasses import replace

import pytest

from app.pages.map.form import MapForm
from app.pages.map.selected import clicked, usual_throw, with_usual_throw
from app.show.from_records import case_from_forms
from app.show.profile_form import ProfileForm
from app.units.systems import CUSTOMARY
from tests.app.pages.map.conftest import TODAY
from tests.app.typed_forms import empty_form


def test_a_click_is_read_in_whole_grams_and_tenths_of_a_metre_a_second():
    assert clicked({"mass_g": 274.6, "speed_m_s": 28.4501, "at": 1}) == ("275", "28.5")
    assert clicked({"mass_g": 300, "speed_m_s": 30}) == ("300", "30")


def test_a_click_is_put_down_in_tenths_of_the_readers_units():
    assert clicked({"mass_g": 275.0, "speed_m_s": 28.5}, CUSTOMARY) == ("9.7", "63.8")


def test_a_click_at_the_very_edge_stays_within_what_is_accepted():
    assert clicked({"mass_g": 0.4, "speed_m_s": 60.2}) == ("1", "60")


@pytest.mark.parametrize(
    "where",
    [None, 3, [], {}, {"mass_g": 200}, {"mass_g": "200", "speed_m_s": 30}, {"mass_g": True, "speed_m_s": 30}]
    + [{"mass_g": float(x), "speed_m_s": 30} for x in ("nan", "inf")],
)
def test_what_is_no_place_on_a_map_is_no_click(where):
    assert clicked(where) is None


def test_the_usual_throw_is_a_heavier_ball_at_this_athletes_full_speed(compared, readings):
    case = case_from_forms(compared(), readings(), TODAY)
    assert usual_throw(MapForm(), case) == ("275", "28.5")  # 2 x 145 = 290 g: of the rack 275 g is nearest
    assert usual_throw(MapForm(), case_from_forms(empty_form(), ProfileForm(), TODAY)) == ("", "")
    assert usual_throw(MapForm(), case_from_forms(compared(), ProfileForm(), TODAY))[0] == "290"


def test_a_ball_typed_alone_is_thrown_at_full_speed_with_it(compared, readings):
    case = case_from_forms(compared(), readings(), TODAY)
    form = with_usual_throw(MapForm(ball_mass_g="470"), case)
    full = float(case.profile.mean_speed(0.47).estimate)
    assert form == MapForm(ball_mass_g="470", speed_m_s=f"{full:.1f}")
    refused = MapForm(ball_mass_g="4oo")
    assert with_usual_throw(refused, case) == refused  # no speed is guessed for a ball that cannot be read
    assert with_usual_throw(replace(refused, speed_m_s="20"), case).speed_m_s == "20"
