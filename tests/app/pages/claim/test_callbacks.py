"""The claim's callbacks, called as the browser calls them, also with what no browser of ours would send."""

import pytest

from app.pages.claim import ids
from app.pages.claim.callbacks import CONTROLS, draw
from app.pages.claim.checks import FIELDS
from app.show.cautions import CAUTIONS, GROWING
from app.show.kept import write_kept
from app.show.throw_form import to_json
from app.web.server import Config, create_app
from tests.app.pages.claim.conftest import FORM, text_of


@pytest.fixture(scope="module")
def app():
    return create_app(Config(demo=True))


@pytest.fixture
def drawn(app):
    """Draw as Dash does."""

    def run(read=None, **values):
        fields = {
            "controls": {name: values.get(name, getattr(FORM, name)) for name in CONTROLS},
            "typed": [values.get(name, getattr(FORM, name)) for name in FIELDS],
            "typed_ids": [{"type": ids.CLAIM_FIELD, "name": name} for name in FIELDS],
        }
        with app.server.app_context():
            return draw(fields, read or {}, [{"ball": "first"}, {"ball": "second"}], [{}, {}])

    return run


def test_drawing_keeps_the_form_as_typed_and_tells_what_is_wrong_in_its_field(drawn):
    made = drawn(first_mass_g=" 28o ", way="less")
    assert made["saved"]["first_mass_g"] == " 28o "
    assert made["saved"]["way"] == "less"
    assert made["errors"][list(FIELDS).index("first_mass_g")].startswith("Mass of the first ball: “28o” given")
    assert made["view"]["body_hidden"]


def test_fields_show_only_where_they_are_asked_for(drawn):
    assert (drawn()["typed_hidden"], drawn()["same_hidden"]) == ([True, True], True)
    assert drawn(thrown="typed")["typed_hidden"] == [False, False]
    assert drawn(thrown="same")["same_hidden"] is False


@pytest.mark.parametrize("bad", [None, "", "abc", "1e400", "NaN", 3, [1], {"a": 1}, True, "x" * 5000])
def test_whatever_stands_in_a_field_the_page_is_drawn(drawn, bad):
    for name in (*CONTROLS, *FIELDS):
        made = drawn(**{name: bad})
        assert made["view"]["body_hidden"] != made["view"]["empty_hidden"]


@pytest.mark.parametrize("changed", [{"age_years": "13"}, {"still_growing": "yes"}, {"body_mass_kg": ""}, {}])
def test_the_cautions_stand_there_in_full_with_an_answer_or_without(drawn, compared, changed):
    mine = to_json(compared())
    mine["athlete"] |= changed
    said = text_of(drawn(read={"compare": mine})["basis"])
    assert all(line in said for line in CAUTIONS)
    assert all((line in said) is bool(changed) for line in GROWING)  # W01 is 20


def test_whoever_is_asked_about_the_page_says_whether_they_are_invented(drawn, compared):
    mine = to_json(compared())
    mine["athlete"] |= {"stature_cm": "184"}
    assert drawn(read={"compare": mine})["invented"] is True  # hidden
    assert drawn(read={"compare": mine}, who="W02")["invented"] is False
    assert "W02" in drawn(read={"compare": mine}, who="W02")["view"]["who"]


@pytest.mark.parametrize("kept", [{"compare": {"version": 99}}, {"athlete": "x"}])
def test_what_cannot_be_read_is_told_unless_an_invented_thrower_stands_in(drawn, kept):
    assert "could not be read" in text_of(drawn(read=kept)["view"]["notes"])
    assert "could not be read" not in text_of(drawn(read=kept, who="W02")["view"]["notes"])


def test_the_readings_are_those_of_the_athlete_of_compare(drawn, readings):
    kept = write_kept({}, "W01", readings("W04"))
    # W04 has 8 full-effort readings with 3 balls, W01 12 with 4 (demo_data/readings.csv)
    assert "From 8 full-effort radar readings" in text_of(drawn(read={"athlete": kept})["view"]["notes"])


@pytest.mark.parametrize("output", [ids.CLAIM_SAVED, ids.CLAIM_WAY])
def test_a_request_of_another_shape_shows_no_stack_trace(app, output):
    client = app.server.test_client()
    spec = next(one for one in client.get("/_dash-dependencies").json if f"{output}." in one["output"])
    body = {
        "output": spec["output"],
        "inputs": [{**part, "value": None} for part in spec["inputs"]],
        "state": [{**part, "value": None} for part in spec["state"]],
        "changedPropIds": [],
    }
    for broken in (
        {"inputs": []},
        {"inputs": "x"},
        {"state": None},
        {"inputs": [{"id": 1, "property": 2, "value": 3}]},
    ):
        answer = client.post("/_dash-update-component", json=body | broken)
        assert b"Traceback" not in answer.data
        assert b"/app/" not in answer.data
