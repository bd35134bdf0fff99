"""What the page says: the sentence, the limits, and what the numbers rest on."""

import pytest

from app.start import words
from app.start.form import ABSOLUTE
from app.systems import CUSTOMARY, METRIC
from model.ceilings import BOUNDS, Amount
from model.start_list import Relaxation


def test_the_sentence_names_ball_share_and_speed_as_caps_and_for_which_aim(start):
    first, rest = words.sentence(start())
    assert first == "470 g at up to 96.7 % of full speed with it, 23.0 m/s"
    assert rest == ": first of the list for “longest time loaded under the limits”; 8 of 8 balls fit."
    assert words.sentence(start(aim="nearest_peak"))[0].split(" at ")[1].startswith(tuple("123456789"))
    assert words.sentence(start(elbow_peak="x")) == ("", "")
    assert words.sentence(start(left_out="95 125 160 210 275 360 470"))[1].endswith("; the one ball ticked fits.")


def test_it_is_in_the_readers_units(start):
    first, _ = words.sentence(start(system=CUSTOMARY))
    # 23.0 m/s to 23.1 m/s is 51.4 to 51.7 mph (1 mph = 0.44704 m/s); 470 g is 16.58 oz (1 oz = 28.3495 g)
    assert first.startswith("16.58 oz at up to 96.7 % of full speed with it, 51.")
    assert first.endswith(" mph")


def test_nothing_fits_names_the_limit_now_and_as_it_would_have_to_be_and_the_kind_of_the_reference(start):
    answer = start(elbow_peak="60", most_loaded="110")
    strong, rest = words.sentence(answer)
    assert strong == "Nothing fits."
    assert "most time loaded at 1" in rest
    assert "% of measured, 2026-01-13 instead of 110 %" in rest
    assert "the least single change" in rest
    both = start(elbow_peak="40", shoulder_peak="40", most_loaded="60", certainty_percent="99")
    assert both.found.nothing is not None


@pytest.mark.parametrize("system", [METRIC, CUSTOMARY])
@pytest.mark.parametrize("key", BOUNDS)
@pytest.mark.parametrize("absolute", [False, True])
def test_a_relaxed_limit_is_rounded_so_that_it_is_enough(key, absolute, system):
    needed = Amount(0.98765 if key.endswith("loaded") else 31.23456 if absolute else 0.98765, absolute)
    printed = words.relaxed(Relaxation(key, BOUNDS[key].label, needed, needed), system)
    assert printed.absolute is absolute
    if BOUNDS[key].at_most:
        assert needed.value <= printed.value <= 1.04 * needed.value
    else:
        assert 0.96 * needed.value <= printed.value <= needed.value


def test_a_limit_in_torque_is_told_with_the_spread_between_laboratories(start):
    answer = start(elbow_peak="60", elbow_peak_in=ABSOLUTE)
    said = dict(words.limits_words(answer))
    # ±25 % of 60 N·m (DESIGN: adult group means run from 64 to 90 N·m in the same units)
    assert said["Elbow, peak at most"] == "60.0 N·m; by laboratory 45.0 N·m to 75.0 N·m"
    assert said["Shoulder, peak at most"] == "80 % of measured, 2026-01-13"
    assert any("not in the certainty" in note for note in words.notes(answer))
    assert not any("not in the certainty" in note for note in words.notes(start()))
    assert words.between_words("least_loaded", Amount(0.1, absolute=True)) == ""


def test_speeds_that_rest_on_the_published_spread_say_so(start):
    assert words.prior_words(start()) == ""
    assert words.prior_words(start(read=False)).startswith("No radar readings: how much this athlete slows down")
    before = words.prior_words(start("W06"))
    assert "taken as that of before the injury" in before


def test_the_notes_name_the_reference_the_certainty_and_the_source_of_asked_effort(start):
    said = " ".join(words.notes(start("W06")))
    for part in (
        "from before an injury, 2025-09-02",
        "certainty of 90 %",
        "Fiegen 2023",
        "without lift from spin",
    ):
        assert part in said
    assert "±10 %" in " ".join(words.notes(start(base="reference", compare={"kind": "estimated"})))


def test_what_is_missing_on_this_page_is_named(start):
    assert words.missing(start(elbow_peak="x", certainty_percent="")) == ["elbow, peak at most", "certainty"]
    assert words.missing(start(left_out="95 125 145 160 210 275 360 470")) == ["a ball of the rack"]


def test_no_word_passes_a_verdict(start):
    said = " ".join([*words.notes(start()), *words.sentence(start()), words.prior_words(start("W06"))]).lower()
    for word in ("safe", "danger", "good", "bad ", "risk"):
        assert word not in said
