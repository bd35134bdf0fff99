"""What each button makes, also where there is nothing to make."""

import random
from dataclasses import replace
from string import ascii_letters

import pytest

from app.pages.compare import ids
from app.pages.compare.along.callbacks import BUTTONS, NO_CURVE, made
from app.show.throw_form import ThrowForm, empty_form


@pytest.fixture
def of(demo_page, compare_on):
    """What a button makes of the demo, or of another form."""

    def make(button, form=demo_page, every=False, with_measures=False):
        return made(button, form, compare_on(form), every, with_measures)

    return make


def test_each_button_makes_one_thing(of):
    things = {button: sorted(set(of(button)) - {"said"}) for button in BUTTONS}
    assert things == {
        ids.COMPARE_PNG: ["image"],
        ids.COMPARE_SVG: ["image"],
        ids.COMPARE_CURVES: ["table"],
        ids.COMPARE_READINGS: ["table"],
        ids.COMPARE_COPY: ["link"],
    }


def test_files_are_named_by_what_is_in_them(of):
    names = [
        of(ids.COMPARE_PNG)["image"]["name"],
        of(ids.COMPARE_SVG)["image"]["name"],
        of(ids.COMPARE_CURVES)["table"]["filename"],
        of(ids.COMPARE_CURVES, every=True)["table"]["filename"],
        of(ids.COMPARE_READINGS)["table"]["filename"],
    ]
    kinds = [name.rpartition("_")[0] + name[-4:] for name in names]  # without the day, which is today
    assert kinds == [
        "levelpeak_W01_varus.png",
        "levelpeak_W01_varus.svg",
        "levelpeak_W01_varus_curves.csv",
        "levelpeak_W01_all_curves.csv",
        "levelpeak_W01_varus_readings.csv",
    ]


def test_the_picture_has_at_least_twice_the_pixels_of_the_figure(of):
    assert of(ids.COMPARE_PNG)["image"]["scale"] >= 2


def test_without_a_curve_no_file_is_made_and_that_is_said_but_a_link_is(of):
    for button in BUTTONS[:4]:
        assert of(button, empty_form()) == {"said": NO_CURVE}
    assert of(ids.COMPARE_COPY, empty_form())["link"]["text"].startswith("1.")


def test_a_link_that_would_be_too_long_is_told(of, demo_page):
    chance = random.Random(1)
    throws = tuple(
        ThrowForm(f"t{i}", *("".join(chance.choices(ascii_letters, k=200)) for _ in "123")) for i in range(1, 9)
    )
    told = of(ids.COMPARE_COPY, replace(demo_page, throws=throws))
    assert set(told) == {"said"}
    assert told["said"].startswith("No link: it would be ")
