"""The answer: the same numbers as Compare and as the speed profile, and none where something is missing."""

from dataclasses import replace

import pytest

from app.pages.compare.answers import compare
from app.pages.compare.sentence import headline
from app.show.numbers import READOUT_ORDER
from app.show.throw_form import Form, ThrowForm
from model.quantity import READOUTS
from tests.app.pages.claim.conftest import TODAY
from tests.app.typed_forms import empty_form


def verdicts(answer) -> dict[str, str]:
    return {key: one.verdict(answer.more) for key, one in answer.settled.found.items()}


def test_every_readout_is_answered():
    assert set(READOUT_ORDER) == set(READOUTS)


def test_the_speeds_are_the_profiles_mean_throws(make_claim):
    answer = make_claim()
    profile = answer.case.profile
    for speed, mass in ((answer.settled.first_m_s, 0.275), (answer.settled.second_m_s, 0.145)):
        assert speed.estimate == pytest.approx(profile.mean_speed(mass).estimate, rel=1e-3)
        assert speed.low == pytest.approx(profile.mean_speed(mass).low, rel=1e-3)


def test_at_typed_speeds_the_numbers_are_those_of_compare(make_claim, compared):
    answer = make_claim(thrown="typed", first_speed_m_s="28.5", second_speed_m_s="33")
    throws = (ThrowForm("t1", "145", "73", "33"), ThrowForm("t2", "275", "73", "28.5"))
    form = Form(compared().athlete, throws, "t1")
    said = str(headline(compare(form, TODAY), "")[0])
    found = answer.settled.found
    percent = {key: 100.0 * found[key].relative.estimate for key in READOUT_ORDER}
    assert f"peak {abs(percent['peak']):.0f} % {'lower' if percent['peak'] < 0 else 'higher'}" in said
    assert f"loaded {percent['loaded_s']:.0f} % longer" in said
    assert f"area {percent['area']:.0f} % larger" in said
    assert answer.settled.exact


def test_more_and_less_contradict_each_other_and_swapping_the_balls_too(make_claim):
    more, less = verdicts(make_claim()), verdicts(make_claim(way="less"))
    back = verdicts(make_claim(first_mass_g="145", second_mass_g="275"))
    contrary = {"holds": "fails", "fails": "holds", "open": "open"}
    assert less == back == {key: contrary[word] for key, word in more.items()}
    assert more["loaded_s"] == "holds"


def test_without_readings_the_prior_answers_and_does_not_know_the_sign_of_the_peak(make_claim):
    answer = make_claim("W06")  # has a typed own-ball speed and no reading (demo_data/readings.csv)
    assert answer.on_prior
    assert verdicts(answer)["peak"] == "open"
    assert not make_claim().on_prior


def test_both_balls_at_one_speed_are_at_the_own_ball_full_speed_unless_one_is_typed(make_claim):
    own = make_claim(thrown="same")
    assert own.settled.first_m_s == own.settled.second_m_s
    assert own.settled.first_m_s.estimate == pytest.approx(own.case.full_speed_m_s, rel=1e-3)
    assert verdicts(own)["peak"] == "holds"
    typed = make_claim(thrown="same", same_speed_m_s="30")
    assert (typed.settled.first_m_s.low, typed.settled.exact) == (30.0, True)


def test_the_same_ball_on_both_sides_is_no_difference_to_speak_of_either_way(make_claim):
    for way in ("more", "less"):
        answer = make_claim(first_mass_g="145", way=way)
        assert set(verdicts(answer).values()) == {"fails"}
        assert all(one.none_to_speak_of for one in answer.settled.found.values())


def test_after_release_a_slower_throw_brakes_less_whatever_the_ball(make_claim):
    answer = make_claim(reading="horizontal_abduction", way="less")
    assert verdicts(answer)["peak"] == verdicts(answer)["area"] == "holds"


def test_without_measures_or_balls_there_is_no_answer(make_claim):
    assert make_claim(compare=empty_form(), read=False).settled is None
    assert make_claim(first_mass_g="heavy").settled is None
    assert make_claim(first_mass_g="", second_mass_g="").settled is None
    assert make_claim(thrown="typed").settled is None


def test_without_a_speed_of_the_athlete_only_typed_speeds_are_answered(make_claim, compared):
    form = replace(compared(), throws=(), reference="")
    for thrown in ("profile", "same"):
        answer = make_claim(compare=form, read=False, thrown=thrown)
        assert answer.settled is None
        assert answer.needs_speed
    typed = make_claim(compare=form, read=False, thrown="typed", first_speed_m_s="28.5", second_speed_m_s="33")
    assert typed.settled is not None
