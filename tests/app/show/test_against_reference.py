"""Throws held against a reference throw: the model's numbers, and what is said of them."""

import numpy as np
import pytest

from app.show.against_reference import Against, against, against_another, thrown_as, who_throws
from app.show.certainty_words import TWO_ATHLETES
from app.show.numbers import READOUT_ORDER
from model.ball import Ball
from model.drawn_throws import CALIBRATION_SD, Subject, Thrown, on_profile, subject_of
from model.person import Person
from model.readouts import read_curves
from model.speed import fit_athlete
from model.speed_readings import RadarReading
from model.structural_band import differences, differences_between
from model.throw import Throw, curves

MAN, OWN, HEAVY = Person("male", 1.88, 90.0, 25.0), Ball(0.145), Ball(0.275)
READ = [RadarReading(mass, speed) for mass, speed in ((0.145, 37.0), (0.145, 36.8), (0.275, 32.0), (0.470, 27.1))]
PROFILE = fit_athlete(MAN, OWN, READ)
UNREAD = fit_athlete(MAN, OWN, [])
SUBJECT = Subject(MAN, OWN, 37.0)
REFERENCE = Thrown(OWN, 37.0)


def test_the_numbers_are_those_of_the_models_band_in_the_order_of_the_readouts():
    throws = [Thrown(HEAVY, 31.0), Thrown(OWN, 30.0)]
    keys = [("varus", readout) for readout in READOUT_ORDER]
    for made, expected in zip(
        against(SUBJECT, throws, REFERENCE, "varus"), differences(SUBJECT, throws, REFERENCE, keys), strict=True
    ):
        assert tuple(made.found) == READOUT_ORDER
        assert {("varus", readout): one for readout, one in made.found.items()} == expected


def test_the_sentence_tells_the_peak_or_the_readouts_asked_for():
    (made,) = against(SUBJECT, [Thrown(HEAVY, 31.0)], REFERENCE, "varus")
    peaks = [read_curves(curves(Throw(MAN, ball, speed)), "varus").peak for ball, speed in ((HEAVY, 31.0), (OWN, 37.0))]
    fall = round(100.0 * (1.0 - peaks[0] / peaks[1]))
    assert made.sentence().startswith(f"If he moves the same with both balls: peak {fall} % lower. People change how")
    assert made.sentence().endswith(" in ten.")
    both = made.sentence(("peak", "loaded_s"))
    assert "time loaded" in both.split(".")[0]
    assert made.low_high("peak").endswith("\u00a0%")
    assert " to " in made.low_high("peak")


def test_a_quantity_without_a_band_has_nothing_to_say():
    (made,) = against(SUBJECT, [Thrown(HEAVY, 31.0)], REFERENCE, "elbow_shear")
    assert (dict(made.found), made.sentence(), made.low_high("peak"), made.outside) == ({}, "", "", False)


def test_where_nothing_may_be_claimed_no_interval_stands():
    (made,) = against(SUBJECT, [Thrown(HEAVY, 31.0)], REFERENCE, "horizontal_abduction")
    assert made.low_high("peak") == "no claim"
    assert "known too little" in made.sentence()


def test_two_athletes_share_nothing_and_the_sentence_says_that_people_differ():
    one, other = (SUBJECT, Thrown(OWN, 36.0)), (Subject(MAN, OWN, 37.0), REFERENCE)
    made = against_another(one, other, "varus")
    assert made.where is TWO_ATHLETES
    assert made.found["peak"] == differences_between(one, other, [("varus", "peak")])["varus", "peak"]
    assert made.sentence().startswith("If both move the same: peak 5 % lower. People of one size move differently")


def test_full_speed_is_the_profiles_or_what_counts_for_it():
    assert who_throws(MAN, OWN, PROFILE, 99.0) == subject_of(MAN, OWN, PROFILE)
    assert who_throws(MAN, OWN, UNREAD, 33.0) == who_throws(MAN, OWN, None, 33.0) == Subject(MAN, OWN, 33.0)
    assert who_throws(MAN, OWN, None, 33.0).calibration_sd == CALIBRATION_SD


def test_a_throw_held_on_the_profile_is_as_uncertain_as_the_mean_throw_and_a_typed_one_is_exact():
    assert thrown_as(HEAVY, 31.0).speeds_m_s is None
    assert thrown_as(HEAVY, 31.0, UNREAD).speeds_m_s is None
    (full,) = on_profile(PROFILE, [HEAVY])
    held = thrown_as(HEAVY, 0.9 * full.speed_m_s, PROFILE)
    assert held.speed_m_s == pytest.approx(0.9 * full.speed_m_s)
    assert np.allclose(held.speeds_m_s, 0.9 * full.speeds_m_s)


def test_outside_is_told_of_either_throw():
    inside, beyond = (against(SUBJECT, [Thrown(Ball(m), 25.0)], REFERENCE, "varus")[0] for m in (0.470, 0.600))
    assert (inside.outside, beyond.outside) == (False, True)
    assert not Against({}, TWO_ATHLETES).outside
