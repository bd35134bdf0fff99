"""The page's callbacks, called as the browser calls them, also with what no browser of ours would send."""

from dataclasses import replace
from types import SimpleNamespace

import pytest
from dash import no_update
from dash.exceptions import PreventUpdate

from app.pages.start import callbacks, ids
from app.pages.start.callbacks import CONTROLS, add, change, draw, plan
from app.pages.start.checks import TYPED
from app.pages.start.form import ABSOLUTE, COUNTED, EXAMPLE
from app.pages.start.form import to_json as form_json
from app.pages.start.meant import written
from app.pages.start.table import FIRST
from app.show import ids as shared_ids
from app.show.from_start import from_json as plan_from_json
from app.show.throw_form import MOST_THROWS, from_json, to_json
from app.units.systems import METRIC
from app.web.server import Config, create_app
from tests.app.pages.claim.conftest import text_of
from tests.app.pages.start.conftest import NONE

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


def test_the_throw_of_the_headline_goes_to_compare_as_a_cap_once(added):
    made = added(aim="longest_loaded")
    throw = from_json(made["write"]).throws[-1]
    assert (throw.ball_mass_g, throw.speed_m_s) == ("470", "23.0")  # rounded down, as the sentence has it
    assert made["notice"].startswith("Added to Compare: 470 g at 23.0 m/s")
    again = added(now=made["write"], aim="longest_loaded")
    assert again["write"] is no_update
    assert "already in Compare" in again["notice"]


def test_a_full_compare_and_that_no_ball_stands_first_are_told(added, arm):
    form = arm().compared
    while len(form.throws) < MOST_THROWS:
        form = replace(form, throws=(*form.throws, replace(form.throws[0], key=f"t{90 + len(form.throws)}")))
    assert "full" in added(now=to_json(form), aim="longest_loaded")["notice"]
    for nothing in ({}, {"aim": "own", "elbow_peak": "x"}):
        assert added(**nothing)["notice"] == "Nothing added: no ball stands first."


def test_an_invented_thrower_cannot_be_added_to_the_athlete_of_compare(drawn):
    assert drawn(who="W02", aim="own")["add_hidden"] is True
    assert drawn(aim="own")["add_hidden"] is False
    assert drawn()["add_hidden"] is True  # no ball stands first before an aim is chosen


def test_the_wanted_peak_is_shown_only_for_its_aim(drawn):
    assert drawn()["wanted_hidden"] is True
    assert drawn(aim="nearest_peak", **NONE)["wanted_hidden"] is False


@pytest.mark.parametrize("kept", [{"compare": {"version": 99}}, {"athlete": "x"}])
def test_what_cannot_be_read_is_told(drawn, text, kept):
    assert "could not be read" in text(drawn(read=kept)["view"]["notes"])


COUNT_IDS = [{"type": ids.START_IN, "name": name} for name in COUNTED]


@pytest.fixture
def changed(app, monkeypatch):
    """Change the page as Dash does, by what was touched."""

    def run(source, *, who="compare", form_who="compare", counts=None, query="", saved=None, opened=True):
        monkeypatch.setattr(callbacks, "ctx", SimpleNamespace(triggered_id=source))
        fields = fields_with(form_who)
        if not opened:
            fields["written"] = None
        given = [(counts or {}).get(name, getattr(EXAMPLE, f"{name}_in")) for name in COUNTED]
        with app.server.app_context():
            return change({}, who, given, [0, 0], "metric", query, fields, COUNT_IDS, saved)

    return run


def test_counting_a_limit_in_another_way_leaves_alone_what_may_have_been_changed_since(changed):
    made = changed({"type": ids.START_IN, "name": "elbow_peak"}, counts={"elbow_peak": ABSOLUTE})
    touched = {name for name, text in zip(TYPED, made["typed"], strict=True) if text is not no_update}
    assert touched == {"elbow_peak"}
    assert made["ticked"] is made["boxes"] is made["who"] is no_update
    assert set(made["controls"].values()) == {no_update}


def test_a_form_that_was_kept_before_this_version_starts_fresh(changed):
    old = form_json(EXAMPLE) | {"version": 1, "aim": "slowest_rise"}
    old.pop("area")
    made = changed(ids.START_READ, opened=False, saved=old)
    assert (made["who"], made["controls"]["aim"]) == ("compare", None)
    assert made["typed"][TYPED.index("elbow_peak")] == EXAMPLE.elbow_peak


def test_the_own_ball_stays_ticked_and_its_box_cannot_be_unticked(changed):
    saved = form_json(replace(EXAMPLE, left_out="95 145 470"))
    made = changed(ids.START_READ, opened=False, saved=saved)
    assert made["ticked"] == ["125", "145", "160", "210", "275", "360"]
    assert [box.value for box in made["boxes"] if box.disabled] == ["145"]


@pytest.mark.parametrize(("query", "who"), [("?athlete=W01", "compare"), ("?athlete=W04", "W04"), ("", "W05")])
def test_the_page_opens_for_the_athlete_of_its_address(changed, query, who):
    made = changed(ids.START_READ, opened=False, query=query, saved=form_json(replace(EXAMPLE, who="W05")))
    assert made["who"] == who  # W01 is the athlete of Compare on the demo data
    assert made["written"]["form"]["who"] == who
    assert made["address"] is no_update


def test_another_address_on_the_open_page_changes_the_athlete_and_the_same_nothing(changed):
    assert changed(shared_ids.SHELL_URL, query="?athlete=W03")["who"] == "W03"
    for query in ("?athlete=W01", "", None):
        with pytest.raises(PreventUpdate):
            changed(shared_ids.SHELL_URL, query=query)


def test_another_athlete_on_the_page_changes_the_address(changed):
    assert changed(ids.START_ATHLETE, who="W03")["address"] == "?athlete=W03"
    back = changed(ids.START_ATHLETE, who="compare", form_who="W03")
    assert back["address"] == "?athlete=W01"  # the athlete of Compare on the demo data


def test_of_a_code_that_nobody_has_nothing_is_shown_and_nothing_kept_is_overwritten(changed, drawn):
    made = changed(ids.START_READ, opened=False, query="?athlete=X%209", saved=form_json(replace(EXAMPLE, who="W05")))
    assert (made["who"], made["boxes"], made["ticked"]) == (None, [], [])
    assert made["typed"][TYPED.index("elbow_peak")] == EXAMPLE.elbow_peak
    shown = drawn(who=made["written"]["form"]["who"])
    assert shown["saved"] is no_update
    assert shown["view"]["body_hidden"]
    assert shown["add_hidden"]
    assert shown["view"]["who"] == ""
    assert "Nobody here has the code X 9." in text_of(shown["view"]["empty"])


@pytest.fixture
def planned(app, monkeypatch):
    """Press a button that takes a throw to Build up."""

    def run(ball, count=1, **values):
        part = {"type": ids.START_PLAN, "ball": ball}
        monkeypatch.setattr(callbacks, "ctx", SimpleNamespace(triggered_id=part))
        with app.server.app_context():
            return plan([count], [part], fields_with(**values), {})

    return run


def test_the_throw_that_was_pressed_goes_to_build_up_as_it_reads_it(planned):
    over = plan_from_json(planned("275", elbow_peak="60"))
    assert (over.ball.mass_kg, over.who, over.code) == (0.275, "compare", "W01")
    assert over.ceilings.elbow_peak.value == 0.6


@pytest.mark.parametrize(
    ("ball", "count", "values"),
    [("275", 0, {}), ("275", None, {}), ("9", 1, {}), (FIRST, 1, {}), ("275", 1, {"speed": "x"})],
)
def test_a_button_that_was_just_made_or_has_no_throw_takes_nothing_over(planned, ball, count, values):
    with pytest.raises(PreventUpdate):
        planned(ball, count, **values)
