"""The map's callbacks, called as the browser calls them, also with what no browser of ours would send."""

import pytest

from app.pages.map import ids
from app.pages.map.callbacks import CONTROLS, draw
from app.pages.map.form import RANGES, MapForm
from app.show.cautions import CAUTIONS, GROWING
from app.show.kept import write_kept
from app.show.throw_form import to_json
from app.web.server import Config, create_app
from tests.app.pages.claim.conftest import text_of

FORM = MapForm(of="profile", ball_mass_g="275", speed_m_s="28.5")


@pytest.fixture(scope="module")
def app():
    return create_app(Config(demo=True))


@pytest.fixture
def drawn(app, compared):
    """Draw as Dash does."""

    def run(form=FORM, read=None, compare=None, theme="light", width=900, **values):
        fields = {
            "controls": {name: values.get(name, getattr(form, name)) for name in CONTROLS},
            "ends": [values.get(name, getattr(form, name)) for name in RANGES],
            "end_ids": [{"type": ids.MAP_RANGE, "name": name} for name in RANGES],
        }
        with app.server.app_context():
            return draw(fields, compare or to_json(compared()), read or {}, theme, width)

    return run


def test_drawing_keeps_the_form_as_typed(drawn):
    made = drawn(speed_m_s=" 28,5 ", mass_to_g="6oo")
    assert made["saved"]["speed_m_s"] == " 28,5 "
    assert made["saved"]["mass_to_g"] == "6oo"
    assert made["end_errors"][1].startswith("Heaviest ball: “6oo” given")


def test_what_is_usual_is_not_kept_as_a_choice(drawn):
    assert drawn(of="profile")["saved"]["of"] == ""  # the demo thrower has own-ball readings
    assert drawn(of="reference")["saved"]["of"] == "reference"


def test_empty_ends_show_what_is_drawn(drawn):
    assert drawn()["end_hints"] == ["80", "545", "19", "39"]


@pytest.mark.parametrize("bad", [None, "", "abc", "1e400", "NaN", 3, [1], {"a": 1}, True, "x" * 5000])
def test_whatever_stands_in_a_field_the_map_is_drawn(drawn, bad):
    for name in ("speed_m_s", "mass_to_g", "reading", "readout", "of", "axis"):
        assert len(drawn(**{name: bad})["figure"]["data"]) > 8


@pytest.mark.parametrize("odd", [None, 7, "neon", {}])
def test_an_unknown_theme_or_width_draws_all_the_same(drawn, odd):
    assert drawn(theme=odd, width=odd)["figure"]["data"]


@pytest.mark.parametrize(
    "kept", [{"compare": {"version": 9}}, {"athlete": "x"}, {"athlete": {"version": 1, "forms": 3}}]
)
def test_what_cannot_be_read_is_told_and_the_map_is_drawn(drawn, kept):
    made = drawn(read=kept, compare={"version": 9} if "compare" in kept else None)
    assert "could not be read" in made["view"]["notes"][0].children
    assert made["figure"]["data"]


@pytest.mark.parametrize("changed", [{"age_years": "13"}, {"still_growing": "yes"}, {"body_mass_kg": ""}, {}])
def test_the_cautions_stand_there_in_full_with_a_map_or_without(drawn, compared, changed):
    mine = to_json(compared())
    mine["athlete"] |= changed
    said = text_of(drawn(compare=mine)["basis"])
    assert all(line in said for line in CAUTIONS)
    assert all((line in said) is bool(changed) for line in GROWING)  # W01 is 20


def test_the_readings_are_those_of_the_athlete_of_compare(drawn, readings):
    kept = write_kept({"W02": readings("W02")}, "W01", readings("W01"))
    made = drawn(read={"athlete": kept})
    dots = next(one for one in made["figure"]["data"] if one.get("name") == "readings")
    assert dots["x"].count(95.0) == 3  # W01 in demo_data/readings.csv; W02 has none


def request_of(app, output: str) -> dict:
    """The renderer's request for the callback that sets an output, with every input empty."""
    spec = next(one for one in app.server.test_client().get("/_dash-dependencies").json if output in one["output"])
    return {
        "output": spec["output"],
        "inputs": [{**part, "value": None} for part in spec["inputs"]],
        "state": [{**part, "value": None} for part in spec["state"]],
        "changedPropIds": [],
    }


@pytest.mark.parametrize("output", [ids.MAP_FIGURE, ids.MAP_COMPARE])
def test_a_request_of_another_shape_shows_no_stack_trace(app, output):
    body = request_of(app, f"{output}.")
    for broken in (
        {"inputs": []},
        {"inputs": "x"},
        {"state": None},
        {"inputs": [{"id": 1, "property": 2, "value": 3}]},
    ):
        answer = app.server.test_client().post("/_dash-update-component", json=body | broken)
        assert b"Traceback" not in answer.data
        assert b"/app/" not in answer.data
