"""The map's callbacks, called as the browser calls them, also with what no browser of ours would send."""

import pytest
from dash._callback_context import context_value
from dash._utils import AttributeDict
from dash.exceptions import PreventUpdate

from app.bind.visit import visit_of
from app.pages.map import ids
from app.pages.map.callbacks import draw, select
from app.pages.map.page import layout
from app.records.acts import Edit, Hand
from app.show.cautions import CAUTIONS, GROWING
from app.web.server import Config, create_app
from tests.app.pages.map.conftest import text_of


@pytest.fixture
def app():
    made = create_app(Config(demo=True))
    with made.server.test_request_context():
        yield made


@pytest.fixture
def visited(app):
    """Read W01's records anew."""
    return lambda code="W01": visit_of("/map", f"?athlete={code}")


@pytest.fixture
def asked(visited):
    """Ask as the browser does; with the properties that were set besides."""

    def ask(callback, *values, trigger=ids.MAP_CLICKED, code="W01"):
        visit = visited(code)
        here = {"athlete": visit.owner, "code": code, "tab": "one", "path": "/map", "asked": {}}
        triggered = [{"prop_id": f"{trigger}.data", "value": 1}]
        context_value.set(AttributeDict(triggered_inputs=triggered, updated_props={}))
        seen = [{visit.owner: visit.data.version}] if callback is select else []
        made = callback(*values, here, *seen)
        return made, dict(context_value.get().updated_props)

    return ask


def drawn(asked, code="W01", theme="light", width=900):
    return asked(draw, None, theme, width, code=code)


def placeholder(props, path):
    (found,) = (value["placeholder"] for part, value in props.items() if f'"{path}"' in str(part))
    return found


def typed(visited, **texts):
    visit = visited()
    acts = [Edit(f"map.{name}", text) for name, text in texts.items()]
    visit.store.act(visit.owner, acts, Hand("other"), visit.system)


def test_a_click_is_kept_looked_at_and_added_to_compare_in_one_act(asked, visited):
    before = visited().data
    notice, props = asked(select, {"mass_g": 210.2, "speed_m_s": 30.04}, None)
    assert notice == "Added to Compare: 210 g at 30.0 m/s, throw 5 of at most 8."
    after = visited().data
    assert after.version == before.version + 1
    assert (after.settings["map.ball_mass_kg"], after.settings["map.ball_speed_m_s"]) == (0.21, 30.0)
    assert len(after.throws) == len(before.throws) + 1
    shown = {str(value.get("value")) for value in props.values() if "value" in value}
    assert shown == {"210", "30"}


def test_a_click_on_a_full_list_is_looked_at_all_the_same(asked, visited):
    for number in range(4):
        asked(select, {"mass_g": 200 + 10 * number, "speed_m_s": 25}, None)
    notice, _ = asked(select, {"mass_g": 300, "speed_m_s": 25}, None)
    assert notice.startswith("Not added: Compare is full, 8 throws.")
    assert visited().data.settings["map.ball_mass_kg"] == 0.3


def test_the_button_adds_the_throw_that_is_looked_at(asked, visited):
    typed(visited, ball_mass_kg="280", ball_speed_m_s="28.5")
    notice, _ = asked(select, None, 1, trigger=ids.MAP_ADD)
    assert notice.startswith("Added to Compare: 280 g at 28.5 m/s")
    again, _ = asked(select, None, 2, trigger=ids.MAP_ADD)
    assert again == "280 g at 28.5 m/s is already in Compare: throw 5."


@pytest.mark.parametrize("where", [None, 3, [], {"mass_g": "x", "speed_m_s": 3}, {"mass_g": float("nan")}])
def test_what_is_no_click_changes_nothing(asked, visited, where):
    before = visited().data.version
    with pytest.raises(PreventUpdate):
        asked(select, where, None)
    assert visited().data.version == before


def test_empty_fields_show_what_is_drawn(asked):
    made, props = drawn(asked)
    hints = [placeholder(props, f"map.{name}") for name in ("mass_from_kg", "mass_to_kg")]
    hints += [placeholder(props, f"map.{name}") for name in ("speed_from_m_s", "speed_to_m_s")]
    assert hints == ["80", "545", "19", "39"]
    assert placeholder(props, "map.ball_mass_kg") == "275"
    assert placeholder(props, "map.ball_speed_m_s") == "28.5"
    assert "275 g at 28.5 m/s" in text_of(made["view"][ids.MAP_POINT])


def test_ends_that_cross_are_told_beneath_and_a_refused_one_only_in_its_field(asked, visited):
    typed(visited, speed_from_m_s="30", speed_to_m_s="30")
    assert drawn(asked)[0]["view"][ids.MAP_ENDS_PROBLEM].startswith(
        "Fastest throw: “30 m/s” given; accepted: at least 36 m/s"
    )
    typed(visited, speed_to_m_s="fast")
    assert drawn(asked)[0]["view"][ids.MAP_ENDS_PROBLEM] == ""


def test_a_refused_speed_is_no_throw_and_the_map_is_drawn(asked, visited):
    typed(visited, ball_speed_m_s="fast")
    made, _ = drawn(asked)
    assert len(made["figure"]["data"]) > 8
    assert made["view"][ids.MAP_POINT_SAID] == ""


@pytest.mark.parametrize("odd", [None, 7, "neon", {}])
def test_an_unknown_theme_or_width_draws_all_the_same(asked, odd):
    assert drawn(asked, theme=odd, width=odd)[0]["figure"]["data"]


@pytest.mark.parametrize("here", [None, 3, {}, {"athlete": "nobody"}, {"athlete": ["x"]}])
def test_nobody_is_asked_about_without_an_athlete(app, here):
    with pytest.raises(PreventUpdate):
        draw(None, "light", 900, here)
    with pytest.raises(PreventUpdate):
        select({"mass_g": 200, "speed_m_s": 30}, 1, here, None)


@pytest.mark.parametrize("code", ["W01", "W04"])
def test_the_cautions_stand_there_in_full(visited, code):
    said = text_of(layout(visited(code)))
    assert all(line in said for line in CAUTIONS)
    assert all((line in said) is (code == "W04") for line in GROWING)  # W01 is 20, W04 13


def test_the_readings_are_those_of_the_athlete(asked):
    dots = {
        code: [one for one in drawn(asked, code)[0]["figure"]["data"] if one.get("name") == "readings"]
        for code in ("W01", "W02")
    }
    assert dots["W01"][0]["x"].count(95.0) == 3  # W01 in demo_data/readings.csv; W02 has none
    assert not dots["W02"] or 95.0 not in dots["W02"][0]["x"]


def test_a_request_of_another_shape_shows_no_stack_trace(app):
    client = app.server.test_client()
    spec = next(one for one in client.get("/_dash-dependencies").json if f"{ids.MAP_FIGURE}." in one["output"])
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
