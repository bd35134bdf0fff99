"""What a click or a button does to Compare's list."""

from dataclasses import replace

import pytest

from app.pages.compare.holding import settled
from app.pages.map.changes import clicked, first_spot, taken_back
from app.show.added_throw import to_compare
from app.show.checks import check_throw
from app.show.profile_form import ProfileForm
from app.show.subject import case_of
from app.show.throw_form import copy_throw, empty_form, to_json
from app.show.window import Spot
from tests.app.pages.map.conftest import TODAY

SPOT = Spot(0.210, 30.5)


def added_to(form, spot=SPOT):
    return to_compare(form, spot, case_of(form, ProfileForm(), TODAY))


def test_a_throw_goes_to_the_end_of_the_list_and_the_notice_says_which_it_is(compared):
    form = compared()
    added = added_to(form)
    assert added.form.throws[:-1] == form.throws
    line = check_throw(added.form.throws[-1])
    assert (line.ball.mass_kg, line.ball.diameter_m, line.speed_m_s) == (0.210, 0.073, 30.5)
    assert added.form.reference == form.reference
    assert added.notice == "Added to Compare: 210 g at 30.5 m/s, throw 5 of at most 8."


def test_a_throw_takes_the_first_blank_line_but_never_the_references(compared):
    form = replace(empty_form(), athlete=compared().athlete)
    added = added_to(form)
    assert [throw.ball_mass_g for throw in added.form.throws] == ["", "210"]
    assert added.notice.endswith("throw 2 of at most 8.")
    assert len(added_to(added.form, Spot(0.3, 28.0)).form.throws) == 3


def test_a_full_list_says_so_and_stays(compared):
    form = compared()
    while len(form.throws) < 8:
        form = copy_throw(form, "t2")
    added = added_to(form)
    assert added.form is None
    assert added.notice == "Not added: Compare is full, 8 throws. Remove one there to add another."


def test_a_throw_that_is_there_already_is_named_and_not_added_twice(compared):
    added = added_to(compared(), Spot(0.275, 28.5))
    assert added.form is None
    assert added.notice == "275 g at 28.5 m/s is already in Compare: throw 2."
    form = compared()
    larger = replace(form, throws=(replace(form.throws[0], ball_diameter_mm="80"), *form.throws[1:]))
    assert added_to(larger, Spot(0.275, 28.5)).form is not None  # the map's balls are as large as the own one


def test_a_throw_that_is_held_at_its_clock_or_on_the_profile_is_there_already_too(compared):
    form = compared()
    for hold in ("clock", "profile"):
        others = tuple(replace(throw, hold=hold) if throw.key == "t2" else throw for throw in form.throws)
        made = settled(replace(form, throws=others), {"": case_of(form, ProfileForm(), TODAY).profile})
        assert made.throws[1].held == hold
        speed = check_throw(made.throws[1], *_case_of(made)).speed_m_s
        assert added_to(made, Spot(0.275, speed)).form is None


def _case_of(form):
    case = case_of(form, ProfileForm(), TODAY)
    return case.person, case.profile


@pytest.mark.parametrize("spot", [Spot(), Spot(0.2, None), Spot(None, 30.0)])
def test_half_a_throw_is_not_added(compared, spot):
    assert added_to(compared(), spot).form is None


def test_what_was_added_can_be_taken_back(compared):
    form = compared()
    assert taken_back(to_json(form)).form == form
    assert taken_back(None).form is None
    assert taken_back({"version": 1}).notice == "There is nothing to take back."


def test_a_click_is_read_in_whole_grams_and_tenths_of_a_metre_a_second():
    assert clicked({"mass_g": 274.6, "speed_m_s": 28.4501, "at": 1}) == ("275", "28.5")
    assert clicked({"mass_g": 300, "speed_m_s": 30}) == ("300", "30")


def test_a_click_at_the_very_edge_stays_within_what_is_accepted():
    assert clicked({"mass_g": 0.4, "speed_m_s": 60.2}) == ("1", "60")


@pytest.mark.parametrize(
    "where",
    [None, 3, [], {}, {"mass_g": 200}, {"mass_g": "200", "speed_m_s": 30}, {"mass_g": True, "speed_m_s": 30}]
    + [{"mass_g": float(x), "speed_m_s": 30} for x in ("nan", "inf")],
)
def test_what_is_no_place_on_a_map_is_no_click(where):
    assert clicked(where) is None


def test_the_first_throw_looked_at_is_a_heavier_ball_at_this_athletes_full_speed(compared, readings):
    case = case_of(compared(), readings(), TODAY)
    assert first_spot(case) == ("275", "28.5")  # 2 x 145 = 290 g: of the rack 275 g is nearest; its readings' mean
    assert first_spot(case_of(empty_form(), ProfileForm(), TODAY)) == ("", "")
    alone = case_of(compared(), ProfileForm(), TODAY)
    assert first_spot(alone)[0] == "290"
