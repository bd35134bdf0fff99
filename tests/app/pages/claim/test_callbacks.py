"""The claim's callback and what its buttons do, asked as the browser asks, also with what no browser would send."""

import pytest
from dash._callback_context import context_value
from dash._utils import AttributeDict
from dash.exceptions import PreventUpdate

from app.bind.visit import visit_of
from app.pages.claim import acts, ids
from app.pages.claim.callbacks import draw
from app.pages.claim.page import layout
from app.records.acts import Edit, Hand
from app.show.cautions import CAUTIONS, GROWING
from app.units.systems import CUSTOMARY
from tests.app.bind.conftest import app as app
from tests.app.pages.claim.conftest import text_of


@pytest.fixture
def visited(app):
    """Read the records anew."""
    return lambda code="W01": visit_of("/claim", f"?athlete={code}")


@pytest.fixture
def typed(visited):
    """Type into fields of W01's page."""

    def type_in(system=None, **texts):
        visit = visited()
        done = [Edit(f"claim.{name}", text) for name, text in texts.items()]
        visit.store.act(visit.owner, done, Hand("one"), system or visit.system)

    return type_in


@pytest.fixture
def drawn(visited):
    """Draw as Dash does; what stands in empty fields is under "hints"."""

    def run(code="W01"):
        context_value.set(AttributeDict(triggered_inputs=[], updated_props={}))
        made = draw(None, {"athlete": visited(code).owner}, [{}, {}])
        props = context_value.get().updated_props
        return made | {"hints": [value["placeholder"] for value in props.values()]}

    return run


@pytest.fixture
def done(visited):
    """Do what a button does."""

    def do(doer, row="", value=1):
        visit = visited()
        doing = doer(visit, row, value)
        return visit.store.act(visit.owner, list(doing.acts), Hand("one"), visit.system) if doing.acts else None

    return do


def settings(visited):
    return {key.removeprefix("claim."): one for key, one in visited().data.settings.items() if key.startswith("claim.")}


def test_it_opens_with_the_usual_balls_standing_in_the_empty_fields(drawn):
    made = drawn()
    assert made["hints"] == ["275", "73", "145", "73"]
    assert "275 g loads the elbow more than 145 g" in text_of(made["view"]["sentence"])


def test_what_cannot_be_read_is_no_ball_and_the_page_says_so(drawn, typed):
    typed(first_mass_kg=" 28o ")
    made = drawn()
    assert made["view"]["body_hidden"]
    assert "above: mass of the first ball." in text_of(made["view"]["empty"])


def test_fields_show_only_where_they_are_asked_for(drawn, typed):
    assert (drawn()["typed_hidden"], drawn()["same_hidden"]) == ([True, True], True)
    typed(thrown="typed")
    assert drawn()["typed_hidden"] == [False, False]
    typed(thrown="same")
    assert drawn()["same_hidden"] is False


def test_the_balls_change_places_each_with_its_speed(done, typed, visited):
    typed(first_mass_kg="300", first_speed_m_s="28")
    done(acts.swap)
    made = settings(visited)
    assert (made["first_mass_kg"], made["second_mass_kg"]) == (0.145, 0.3)  # the own ball stood in an empty field
    assert (made["first_speed_m_s"], made["second_speed_m_s"]) == (None, 28.0)
    done(acts.swap)
    assert settings(visited)["first_mass_kg"] == 0.3


def test_what_was_refused_changes_places_too_and_units_stay(done, typed, visited):
    typed(system=CUSTOMARY, first_mass_kg="7", second_mass_kg="heavy")
    done(acts.swap)
    rows = visited().data.setting_rows
    assert rows["claim.first_mass_kg"].draft == {"value": "heavy"}
    assert rows["claim.second_mass_kg"].typed == {"value": "7\u00a0oz"}


def test_a_ball_of_the_rack_fills_its_own_two_fields(done, visited):
    done(acts.take_ball, "second", "360|73")
    made = settings(visited)
    assert (made["second_mass_kg"], made["second_diameter_m"], made["first_mass_kg"]) == (0.36, 0.073, None)


@pytest.mark.parametrize(("which", "picked"), [("third", "360|73"), ("first", None), ("first", "360"), ("first", 3)])
def test_what_is_no_ball_changes_nothing(done, which, picked):
    assert done(acts.take_ball, which, picked) is None


@pytest.mark.parametrize("code", ["W01", "W04"])
def test_the_cautions_stand_there_in_full(visited, code):
    said = text_of(layout(visited(code)))
    assert all(line in said for line in CAUTIONS)
    assert all((line in said) is (code == "W04") for line in GROWING)  # W01 is 20, W04 13


def test_the_readings_are_those_of_the_athlete(drawn):
    # W04 has 8 full-effort readings with 3 balls, W01 12 with 4 (demo_data/readings.csv)
    assert "From 8 full-effort radar readings" in text_of(drawn("W04")["view"]["notes"])
    assert "From 12 full-effort radar readings" in text_of(drawn()["view"]["notes"])


@pytest.mark.parametrize("here", [None, 3, {}, {"athlete": "nobody"}])
def test_nobody_is_asked_about_without_an_athlete(app, here):
    with pytest.raises(PreventUpdate):
        draw(None, here, [])


def test_a_request_of_another_shape_shows_no_stack_trace(app):
    client = app.server.test_client()
    spec = next(one for one in client.get("/_dash-dependencies").json if f"{ids.CLAIM_SENTENCE}." in one["output"])
    body = {
        "output": spec["output"],
        "inputs": [{**part, "value": None} for part in spec["inputs"]],
        "state": [{**part, "value": None} for part in spec["state"]],
        "changedPropIds": [],
    }
    for broken in ({}, {"inputs": []}, {"inputs": "x"}, {"state": None}, {"inputs": [{"id": 1, "property": 2}]}):
        answer = client.post("/_dash-update-component", json=body | broken)
        assert b"Traceback" not in answer.data
        assert b"/app/" not in answer.data
