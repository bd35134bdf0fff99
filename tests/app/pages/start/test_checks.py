"""Limits from typed text: each is checked in its own field, in the unit that was chosen for it."""

from dataclasses import replace

import pytest

from app.pages.start.checks import LABELS, check_start, fields_of
from app.pages.start.form import ABSOLUTE, LIMITS, StartForm
from app.units.systems import CUSTOMARY, METRIC
from model.ceilings import BOUNDS, Amount, Ceilings
from tests.app.pages.start.conftest import NONE


def test_shares_torques_times_and_speeds_become_the_models_limits():
    form = StartForm(
        elbow_peak="80",
        shoulder_peak="55,5",
        shoulder_peak_in=ABSOLUTE,
        rise_rate="500",
        rise_rate_in=ABSOLUTE,
        area="4.5",
        area_in=ABSOLUTE,
        braking="",
        least_loaded="90",
        least_loaded_in=ABSOLUTE,
        most_loaded="150",
        speed="70 mph",
    )
    checked = check_start(form)
    assert checked.problems == {}
    assert checked.ceilings.speed.value == pytest.approx(70 * 0.44704)  # a mile is 1609.344 m by definition
    assert replace(checked.ceilings, speed=None) == Ceilings(
        elbow_peak=Amount(0.8),
        shoulder_peak=Amount(55.5, absolute=True),
        rise_rate=Amount(500.0, absolute=True),
        area=Amount(4.5, absolute=True),
        least_loaded=Amount(0.090, absolute=True),
        most_loaded=Amount(1.5),
    )
    assert (checked.certainty, checked.doubt, checked.wanted) == (0.9, None, None)


def test_an_empty_field_is_no_limit():
    assert check_start(StartForm(**NONE)).ceilings == Ceilings()


@pytest.mark.parametrize("name", LIMITS)
@pytest.mark.parametrize("bad", ["0", "-5", "abc", "nan", "1e400", "inf", "9999999", "5 kg", "80 %", "x" * 150])
@pytest.mark.parametrize("way", ["share", ABSOLUTE])
def test_a_limit_that_cannot_be_read_is_told_and_does_not_count_as_none(name, bad, way):
    checked = check_start(StartForm(**{name: bad, f"{name}_in": way}))
    assert checked.ceilings is None
    assert set(checked.problems) == {name}
    assert checked.problems[name].startswith(f"{LABELS[name]}: “")
    assert "accepted: " in checked.problems[name]


def test_a_least_time_above_the_most_is_told_at_the_least():
    checked = check_start(StartForm(least_loaded="150", most_loaded="120"))
    assert checked.ceilings is None
    assert checked.problems["least_loaded"] == (
        "Time loaded at least: “150” given; accepted: no more than “time loaded at most”, 120 %."
    )


def test_certainty_is_needed_and_doubt_is_not():
    assert check_start(StartForm(certainty_percent="")).problems["certainty_percent"].endswith("50 to 99 %.")
    assert "50 to 99" in check_start(StartForm(certainty_percent="100")).problems["certainty_percent"]
    assert "0 to 30" in check_start(StartForm(doubt_percent="31")).problems["doubt_percent"]
    assert check_start(StartForm(doubt_percent="5")).doubt == 0.05


def test_the_wanted_peak_is_read_only_where_the_aim_asks_for_it():
    assert check_start(StartForm(wanted_peak="x")).problems == {}
    asked = StartForm(aim="nearest_peak", wanted_peak="x")
    assert set(check_start(asked).problems) == {"wanted_peak"}
    assert check_start(StartForm(aim="nearest_peak", wanted_peak="75")).wanted == Amount(0.75)
    assert "wanted_peak" in check_start(StartForm(aim="nearest_peak", wanted_peak="")).problems


def test_each_field_has_the_range_of_the_model_in_the_unit_that_was_chosen():
    absolute = StartForm(**{f"{name}_in": ABSOLUTE for name in LIMITS})
    for name in LIMITS:
        assert fields_of(StartForm(**{f"{name}_in": "share"}))[name].accepted == "1 to 500 %"
        assert fields_of(absolute)[name].limit == BOUNDS[name].accepted
    assert fields_of(absolute)["least_loaded"].accepted == "1 to 5000 ms"
    assert fields_of(absolute)["speed"].accepted_in(CUSTOMARY) == "2.24 to 134 mph"
    assert fields_of(absolute)["speed"].accepted_in(METRIC) == "1 to 60 m/s"
