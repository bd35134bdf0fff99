"""The callbacks, called as the browser calls them: through the server, also with what no browser of ours would send."""

import json
import re
import sys

import pytest
from dash.exceptions import PreventUpdate

from app.bind import ids as bound
from app.pages.compare import ids
from app.pages.compare.callbacks import beside, draw, draw_every
from app.pages.compare.current import current_of
from app.pages.compare.page import layout
from app.pages.compare.view import view_of
from app.records.acts import Edit, Hand
from app.show.cautions import GROWING, UNMEASURED
from tests.app.pages.compare.conftest import text_of

HAND = Hand("one")


@pytest.fixture
def here(current) -> dict:
    """What the page tells with each question."""
    return {"athlete": current.visit.owner, "code": "W01", "tab": "one", "path": "/compare", "asked": {}}


def curves(made: dict) -> int:
    """How many curves are drawn; one more trace holds the words."""
    return len(made["figure"]["data"]) - 1


def edit(current, *acts) -> None:
    current.visit.store.act(current.visit.owner, list(acts), HAND)


def test_the_version_goes_along_with_the_figure_of_what_is_kept(current, here):
    edit(current, Edit("throw.number", "30", current.rows[1].uid))
    meta = draw({"a": 7}, "light", False, [[], []], here, None)["figure"]["layout"]["meta"]
    assert meta["version"] == {"a": 7}
    (second,) = [one for one in meta["curves"] if one["key"] == current.rows[1].uid]
    assert (second["number"], second["speed_m_s"]) == (2, 30.0)


def test_a_throw_that_lacks_something_leaves_the_other_curves(current, here):
    edit(current, Edit("throw.number", "", current.rows[1].uid))
    assert curves(draw({}, "light", False, [[], []], here, None)) == 3


@pytest.mark.parametrize("theme", [None, 7, "neon", {}])
def test_an_unknown_theme_or_width_draws_all_the_same(here, theme):
    assert curves(draw({}, theme, theme, [[], []], here, None)) == 4


@pytest.mark.parametrize("sent", [None, 3, {}, {"athlete": "nobody"}, {"athlete": 7, "asked": []}])
def test_whoever_is_not_there_is_not_drawn(app, sent):
    with pytest.raises(PreventUpdate):
        draw({}, "light", False, [[], []], sent, None)


def test_a_piece_of_line_that_stays_the_same_is_left_alone(current, here):
    parts = [{"type": ids.COMPARE_SAMPLE, "throw": throw.uid} for throw in current.rows]
    first = draw({}, "light", False, [parts, [None] * 4], here, None)["samples"]
    again = draw({}, "light", False, [parts, first], here, None)["samples"]
    assert all("borderTop" in style for style in first)
    assert all(style is again[0] for style in again)  # dash's "no update"


def test_the_identity_is_sent_once(here):
    first = draw({}, "light", False, [[], []], here, None)["identity"]
    assert set(first["balls"]) == {"73"}
    assert draw({}, "light", False, [[], []], here, first)["identity"] is not first


def test_every_quantity_is_drawn_while_its_fold_is_open(here):
    assert len(draw_every(1, "light", False, here)["data"]) > 4
    with pytest.raises(PreventUpdate):
        draw_every(None, "light", False, here)


def test_what_follows_from_the_throws_goes_into_the_fields_of_this_comparison(current):
    made = beside(current, view_of(current.row, current.compared()))
    by_path = {json.loads(part).get("path", json.loads(part).get("do")): props for part, props in made.items()}
    assert by_path["comparison.above"] == {"placeholder": "30.8"}
    assert [one["value"] for one in by_path["comparison.headline"]["data"]] == [t.uid for t in current.rows[1:]]
    assert by_path["comparison.day"] == {"disabled": False}
    assert by_path["compare/open"]["data"] == [{"value": current.row.uid, "label": "Last day of the block"}]


@pytest.mark.parametrize("quantity", ["ball_x", "shoulder_superior", "elbow_proximal"])
def test_a_quantity_that_is_offered_is_kept_and_drawn(current, here, quantity):
    assert current.visit.store.act(
        current.visit.owner, Edit("comparison.quantity", quantity, current.row.uid), HAND
    ).done
    assert draw({}, "light", False, [[], []], here, None)["figure"]["layout"]["uirevision"] == f"{quantity} release"


def basis(open_page, code="W01") -> str:
    (part,) = [one for one in layout(open_page(code))._traverse() if getattr(one, "className", "") == "basis"]
    return text_of(part)


@pytest.mark.parametrize(
    ("edits", "growing", "unmeasured"),
    [
        ({}, False, False),
        ({"athlete.still_growing": "no"}, False, False),
        ({"athlete.still_growing": "yes"}, True, False),
        ({"measures.age_years": "17"}, True, False),
        ({"measures.age_years": ""}, True, True),
    ],
)
def test_the_caution_for_the_growing_stands_there_for_the_young_the_marked_and_the_unmeasured(
    current, open_page, edits, growing, unmeasured
):
    row = current.data.measures[-1].uid
    for path, text in edits.items():
        edit(current, Edit(path, text, row if path.startswith("measures") else ""))
    said = basis(open_page)  # W01 is 20 (demo_data/athletes.csv)
    assert (GROWING[0] in said, GROWING[1] in said, UNMEASURED in said) == (growing, growing, unmeasured)


def test_it_stands_there_for_either_of_two_throwers(current, open_page):
    edit(current, Edit("throw.thrower", current.visit.store.find("W04").uid, current.rows[1].uid))
    assert GROWING[0] in basis(open_page)  # W04 is 13


def test_an_athlete_without_a_comparison_gets_one_and_keeps_it(open_page):
    open_page().store.new_athlete("X1", HAND)
    layout(open_page("X1"))
    uid = current_of(open_page("X1")).row.uid
    layout(open_page("X1"))
    assert [one.uid for one in open_page("X1").data.comparisons] == [uid]


def test_only_an_invented_athlete_is_called_so(open_page):
    store = open_page().store
    store.invented = False  # real athletes beside imported ones
    assert "Invented demo data" in text_of(layout(open_page()))
    store.new_athlete("X1", HAND)
    assert "nvented" not in text_of(layout(open_page("X1")))


def test_where_there_is_no_athlete_the_page_says_so(open_page):
    assert "There is no athlete with the code “Z9”" in text_of(layout(open_page("Z9")))


def post(app, **body):
    """Send a callback's request as the renderer does."""
    return app.server.test_client().post("/_dash-update-component", json=body)


def request_of(app, output: str) -> dict:
    """The renderer's request for the callback that sets an output, with every input empty."""
    spec = next(one for one in app.server.test_client().get("/_dash-dependencies").json if output in one["output"])
    return {
        "output": spec["output"],
        "inputs": [{**part, "value": None} for part in spec["inputs"]],
        "state": [{**part, "value": None} for part in spec["state"]],
        "changedPropIds": [],
    }


def test_every_id_of_the_callbacks_is_one_of_the_ids_modules(app):
    modules = [module for name, module in sys.modules.items() if re.fullmatch(r"app\..+\.ids", name)]
    values = [value for module in modules for name, value in vars(module).items() if name.isupper()]
    known = {one for value in values for one in (value.values() if isinstance(value, dict) else [value])}
    for spec in app.server.test_client().get("/_dash-dependencies").json:
        for part in spec["inputs"] + spec["state"]:
            name = json.loads(part["id"])["type"] if part["id"].startswith("{") else part["id"]
            assert name in known


@pytest.mark.parametrize("output", [ids.COMPARE_FIGURE, ids.COMPARE_SENTENCE, ids.COMPARE_MULTIPLES, bound.UNDO])
def test_a_request_of_another_shape_shows_no_stack_trace(app, output):
    body = request_of(app, f"{output}.")
    for broken in (
        {"inputs": []},
        {"inputs": "x"},
        {"state": None},
        {"inputs": [{"id": 1, "property": 2, "value": 3}]},
    ):
        answer = post(app, **(body | broken))
        assert b"Traceback" not in answer.data
        assert b"/app/" not in answer.data
