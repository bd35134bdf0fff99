"""The claim of an athlete's settings: what was left empty is the usual, what was refused is named."""

import pytest

from app.pages.claim.asked import BALLS, SAME_SPEED, ball_paths, claim_of, speed_path, usual_values
from app.records.acts import TEAM, Add, Hand
from app.records.field_list import SETTINGS
from app.show.from_records import subject_of
from model.ball import Ball


@pytest.fixture
def asked(typed):
    """Type, and read the claim."""

    def ask(code="W01", **texts):
        visit = typed(code, **texts)
        return claim_of(visit.data, subject_of(visit.data, visit.today).case(visit.today))

    return ask


def test_every_part_is_a_setting_of_the_athlete():
    paths = {SAME_SPEED, *(path for which in BALLS for path in (*ball_paths(which), speed_path(which)))}
    assert paths <= set(SETTINGS)


def test_it_opens_with_the_ball_nearest_to_twice_the_own_one_and_the_own_one(asked):
    claim = asked()
    assert (claim.first, claim.second) == (Ball(0.275, 0.073), Ball(0.145, 0.073))  # of the rack nearest to 290 g
    assert (claim.reading, claim.more, claim.thrown, claim.to_mend) == ("varus", True, "profile", ())


def test_what_was_typed_counts_and_a_typed_ball_is_as_large_as_that_of_the_rack(asked, visited):
    visit = visited()
    wide = Add("ball", {"mass_kg": "250", "diameter_m": "90"})
    visit.store.act(TEAM, [wide], Hand("one"), visit.system)
    claim = asked(first_mass_kg="250", second_mass_kg="252", reading="internal_rotation", way="less")
    assert (claim.first, claim.second) == (Ball(0.25, 0.09), Ball(0.252, 0.073))
    assert (claim.reading, claim.more) == ("internal_rotation", False)
    assert asked(first_diameter_m="80").first == Ball(0.25, 0.08)


def test_a_refused_mass_is_no_ball_and_is_named(asked):
    claim = asked(first_mass_kg="heavy")
    assert claim.first is None
    assert claim.to_mend == ("Mass of the first ball",)


def test_speeds_are_asked_for_only_where_they_are_typed(asked):
    texts = {"first_speed_m_s": "fast", "second_speed_m_s": "33", "same_speed_m_s": "0"}
    assert asked(**texts).to_mend == ()
    assert asked(thrown="typed").to_mend == ("Speed of the first ball",)
    assert asked(thrown="same").to_mend == ("Speed of both",)


def test_an_empty_typed_speed_is_missing_and_one_speed_for_both_may_be_left_out(asked):
    assert asked(thrown="typed", first_speed_m_s="28.5").to_mend == ("Speed of the second ball",)
    assert asked(second_speed_m_s="33").speeds_m_s == (28.5, 33.0)
    assert (asked(thrown="same").to_mend, asked().speeds_m_s) == ((), None)
    assert asked(same_speed_m_s="30").speeds_m_s == (30.0, 30.0)


def test_the_usual_balls_stand_by_their_settings(typed):
    visit = typed()
    case = subject_of(visit.data, visit.today).case(visit.today)
    assert usual_values(visit.data, case) == {
        "claim.first_mass_kg": 0.275,
        "claim.first_diameter_m": 0.073,
        "claim.second_mass_kg": 0.145,
        "claim.second_diameter_m": 0.073,
    }
