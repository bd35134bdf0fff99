"""The page's callbacks, called as the browser calls them, also with what no browser of ours would send."""

from dataclasses import replace
from types import SimpleNamespace

import pytest
from dash import no_update

from app import ids
from app.compare.form import MOST_THROWS, from_json, to_json
from app.server import Config, create_app
from app.start import callbacks
from app.start.callbacks import CONTROLS, add, change, draw
from app.start.checks import TYPED
from app.start.form import ABSOLUTE, COUNTED, EXAMPLE
from app.start.meant import written
from app.systems import METRIC
from tests.app.start.conftest import NONE

RACK = ["95", "125", "145", "160", "210", "275", "360", "470"]  # demo_data/rack.csv


@pytest.fixture(scope="module")
def app():
    return create_app(Config(demo=True))


def fields_with(who="compare", ticked=RACK, **values):
    form = replace(EXAMPLE, who=who)
    return {
        "controls": {name: values.get(name, getattr(form, name)) for name in CONTROLS},
        "typed": [values.get(name, getattr(form, name)) for name in TYPED],
        "typed_ids": [{"type": ids.START_FIELD, "name": name} for name in TYPED],
        "ticked": ticked,
        "written": written(form, METRIC, RACK),
    }


@pytest.fixture
def drawn(app):
    """Draw as Dash does."""

    def run(read=None, **values):
        with app.server.app_context():
            return draw(fields_with(**values), read or {}, "light", 700, [{"name": "elbow_peak"}])

    return run


@pytest.fixture
def added(app):
    def run(now=None, **values):
        with app.server.app_context():
            return add(1, fields_with(**values), {}, now)

    return run


def test_drawing_keeps_the_form_as_typed_and_tells_what_is_wrong_in_its_field(drawn):
    made = drawn(elbow_peak=" 8o ", ticked=["145", "275"])
    assert made["saved"]["elbow_peak"] == " 8o "
    assert made["saved"]["left_out"] == "95 125 160 210 360 470"
    assert made["errors"][TYPED.index("elbow_peak")].startswith("Elbow, peak at most: “8o” given")
    assert made["view"]["body_hidden"]
    assert made["add_hidden"]


@pytest.mark.parametrize("bad", [None, "", "abc", "1e400", "NaN", 3, [1], {"a": 1}, True, "x" * 5000])
def test_whatever_stands_in_a_field_the_page_is_drawn(drawn, bad):
    for name in (*CONTROLS, "elbow_peak", "speed", "certainty_percent", "ticked"):
        made = drawn(**{name: bad})
        assert made["view"]["body_hidden"] != made["view"]["empty_hidden"]


def test_the_first_of_the_list_goes_to_compare_as_a_cap_once(added):
    made = added()
    throw = from_json(made["write"]).throws[-1]
    assert (throw.ball_mass_g, throw.speed_m_s) == ("470", "23.0")  # rounded down, as the sentence has it
    assert made["notice"].startswith("Added to Compare: 470 g at 23.0 m/s")
    again = added(now=made["write"])
    assert again["write"] is no_update
    assert "already in Compare" in again["notice"]


def test_a_full_compare_and_an_empty_list_are_told(added, arm):
    form = arm().compared
    while len(form.throws) < MOST_THROWS:
        form = replace(form, throws=(*form.throws, replace(form.throws[0], key=f"t{90 + len(form.throws)}")))
    assert "full" in added(now=to_json(form))["notice"]
    assert added(elbow_peak="x")["notice"] == "Nothing added: there is no list."


def test_an_invented_thrower_cannot_be_added_to_the_athlete_of_compare(drawn):
    assert drawn(who="W02")["add_hidden"] is True
    assert drawn()["add_hidden"] is False


def test_the_wanted_peak_is_shown_only_for_its_aim(drawn):
    assert drawn()["wanted_hidden"] is True
    assert drawn(aim="nearest_peak", **NONE)["wanted_hidden"] is False


@pytest.mark.parametrize("kept", [{"compare": {"version": 99}}, {"athlete": "x"}])
def test_what_cannot_be_read_is_told(drawn, text, kept):
    assert "could not be read" in text(drawn(read=kept)["view"]["notes"])


def test_counting_a_limit_in_another_way_leaves_alone_what_may_have_been_changed_since(app, monkeypatch):
    monkeypatch.setattr(callbacks, "ctx", SimpleNamespace(triggered_id={"type": ids.START_IN, "name": "elbow_peak"}))
    counts = [ABSOLUTE if name == "elbow_peak" else getattr(EXAMPLE, f"{name}_in") for name in COUNTED]
    count_ids = [{"type": ids.START_IN, "name": name} for name in COUNTED]
    with app.server.app_context():
        made = change({}, "compare", counts, [0, 0], "metric", fields_with(), count_ids, None)
    touched = {name for name, text in zip(TYPED, made["typed"], strict=True) if text is not no_update}
    assert touched == {"elbow_peak"}
    assert made["ticked"] is made["boxes"] is made["who"] is no_update
    assert set(made["controls"].values()) == {no_update}
