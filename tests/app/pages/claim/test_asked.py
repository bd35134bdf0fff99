"""The claim of an athlete's settings: what was left empty is the usual, what was refused is named."""

from app.pages.claim.asked import BALLS, SAME_SPEED, ball_paths, claim_of, speed_path, usual_values
from app.records.field_list import SETTINGS
from app.show.from_records import case_of
from model.ball import Ball
from tests.app.kept_demo import TODAY, with_rack
from tests.app.pages.claim.conftest import kept_claim


def asked(*balls, **typed):
    """The claim once the fields named are typed, with balls in the rack."""
    data = kept_claim(**typed)
    data = with_rack(data, *balls) if balls else data
    return claim_of(data, case_of(data, TODAY))


def test_every_part_is_a_setting_of_the_athlete():
    paths = {SAME_SPEED, *(path for which in BALLS for path in (*ball_paths(which), speed_path(which)))}
    assert paths <= set(SETTINGS)


def test_it_opens_with_the_ball_nearest_to_twice_the_own_one_and_the_own_one():
    claim = asked()
    assert (claim.first, claim.second) == (Ball(0.275, 0.073), Ball(0.145, 0.073))  # of the rack nearest to 290 g
    assert (claim.reading, claim.more, claim.thrown, claim.to_mend) == ("varus", True, "profile", ())


def test_what_was_typed_counts_and_a_typed_ball_is_as_large_as_that_of_the_rack():
    typed = {"first_mass_kg": "250", "second_mass_kg": "252", "reading": "internal_rotation", "way": "less"}
    claim = asked((0.25, 0.09), **typed)
    assert (claim.first, claim.second) == (Ball(0.25, 0.09), Ball(0.252, 0.073))
    assert (claim.reading, claim.more) == ("internal_rotation", False)
    assert asked(first_mass_kg="250", first_diameter_m="80").first == Ball(0.25, 0.08)


def test_a_refused_mass_is_no_ball_and_is_named():
    claim = asked(first_mass_kg="heavy")
    assert claim.first is None
    assert claim.to_mend == ("Mass of the first ball",)


def test_speeds_are_asked_for_only_where_they_are_typed():
    texts = {"first_speed_m_s": "fast", "second_speed_m_s": "33", "same_speed_m_s": "0"}
    assert asked(**texts).to_mend == ()
    assert asked(thrown="typed", **texts).to_mend == ("Speed of the first ball",)
    assert asked(thrown="same", **texts).to_mend == ("Speed of both",)


def test_an_empty_typed_speed_is_missing_and_one_speed_for_both_may_be_left_out():
    assert asked(thrown="typed", first_speed_m_s="28.5").to_mend == ("Speed of the second ball",)
    assert asked(thrown="typed", first_speed_m_s="28.5", second_speed_m_s="33").speeds_m_s == (28.5, 33.0)
    neither = asked(thrown="same")
    assert (neither.to_mend, neither.speeds_m_s) == ((), None)
    assert asked(thrown="same", same_speed_m_s="30").speeds_m_s == (30.0, 30.0)


def test_the_usual_balls_stand_by_their_settings():
    data = kept_claim()
    assert usual_values(data, case_of(data, TODAY)) == {
        "claim.first_mass_kg": 0.275,
        "claim.first_diameter_m": 0.073,
        "claim.second_mass_kg": 0.145,
        "claim.second_diameter_m": 0.073,
    }
