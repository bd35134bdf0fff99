"""What each button makes, also where there is nothing to make."""

import pytest
from dash.exceptions import PreventUpdate

from app.pages.compare import ids
from app.pages.compare.along import link
from app.pages.compare.along.callbacks import BUTTONS, NO_CURVE, made, take
from app.pages.compare.current import current_of
from app.records.acts import Hand, Remove


@pytest.fixture
def of(current):
    """What a button makes of W01's comparison."""

    def make(button, there=current, every=False, with_measures=False):
        return made(button, there, every, with_measures)

    return make


@pytest.fixture
def without_throws(current, open_page):
    visit = current.visit
    visit.store.act(visit.owner, [Remove("throw", throw.uid) for throw in current.rows], Hand("one"))
    return current_of(open_page())


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


def test_without_a_curve_no_file_is_made_and_that_is_said_but_a_link_is(of, without_throws):
    for button in BUTTONS[:4]:
        assert of(button, without_throws) == {"said": NO_CURVE}
    assert of(ids.COMPARE_COPY, without_throws)["link"]["text"].startswith("1.")


def test_a_link_that_would_be_too_long_is_told(of, monkeypatch):
    monkeypatch.setattr(link, "LONGEST", 40)
    told = of(ids.COMPARE_COPY)
    assert set(told) == {"said"}
    assert told["said"].startswith("No link: it would be ")


@pytest.mark.parametrize("asked", [None, 3, {}, {"button": "compare-print"}, {"button": ["x"]}])
def test_what_is_no_button_makes_nothing(app, asked):
    with pytest.raises(PreventUpdate):
        take(asked, False, False, None)
