"""The page's callbacks, called as the browser calls them, also with what no browser of ours would send."""

import pytest
from dash._callback_context import context_value
from dash._utils import AttributeDict
from dash.exceptions import PreventUpdate

from app.bind.visit import visit_of
from app.pages.start import ids
from app.pages.start.callbacks import draw, tick
from app.pages.start.page import layout
from app.records.acts import Edit, Hand
from app.show.cautions import CAUTIONS, GROWING
from app.web.server import Config, create_app
from tests.app.pages.claim.conftest import text_of


@pytest.fixture
def app():
    made = create_app(Config(demo=True))
    with made.server.test_request_context():
        context_value.set(AttributeDict(triggered_inputs=[], updated_props={}))
        yield made


@pytest.fixture
def visited(app):
    """Read the records anew."""
    return lambda code="W01": visit_of("/start", f"?athlete={code}")


@pytest.fixture
def drawn(visited):
    """Type into fields, then draw as Dash does."""

    def run(*edits, code="W01", theme="light", width=700):
        visit = visited(code)
        visit.store.act(visit.owner, list(edits), Hand("one"), visit.system)
        return draw(None, theme, width, {"athlete": visit.owner}, [{"name": "elbow_peak"}])

    return run


def test_a_wrong_limit_is_no_limit_left_out_and_nothing_is_answered(drawn):
    made = drawn(Edit("limits.amount", "8o", "elbow_peak"))
    assert made["hidden"][ids.START_BODY]
    assert made["hidden"][ids.START_ADD_PART]
    assert "to be mended above: elbow, peak at most." in text_of(made["view"][ids.START_EMPTY])


def test_the_wanted_peak_is_asked_for_only_with_its_aim(drawn):
    assert drawn()["hidden"][ids.START_WANTED] is True
    assert drawn(Edit("start.aim", "nearest_peak"))["hidden"][ids.START_WANTED] is False


def test_a_throw_can_be_added_to_compare_once_one_stands_first(drawn):
    assert drawn()["hidden"][ids.START_ADD_PART] is True  # no ball stands first before an aim is chosen
    assert drawn(Edit("start.aim", "own"))["hidden"][ids.START_ADD_PART] is False


@pytest.mark.parametrize("odd", [None, 7, "neon", {}])
def test_an_unknown_theme_or_width_draws_all_the_same(drawn, odd):
    assert drawn(theme=odd, width=odd)["figure"]["data"]


def test_balls_that_were_unticked_are_left_out_and_one_that_joins_later_is_not(visited, drawn):
    visit = visited()
    here = {"athlete": visit.owner, "tab": "one"}
    assert tick(["145", "275"], here, {}) == ""
    assert visited().data.settings["start.left_out"] == "95 125 160 210 360 470"
    assert "2 of 2 balls keep every limit" in text_of(drawn()["view"][ids.START_SENTENCE])
    with pytest.raises(PreventUpdate):
        tick(["145", "275"], here, {})  # the boxes as they were made


@pytest.mark.parametrize("bad", [None, 3, "145", {"a": 1}])
def test_what_is_no_list_of_boxes_changes_nothing(visited, bad):
    with pytest.raises(PreventUpdate):
        tick(bad, {"athlete": visited().owner}, {})


def boxes(page):
    return next(part for part in page._traverse() if getattr(part, "id", None) == ids.START_BALLS)


def test_the_own_ball_stays_ticked_and_its_box_cannot_be_unticked(visited, drawn):
    drawn(Edit("start.left_out", "95 145 470"))
    group = boxes(layout(visited()))
    assert group.value == ["125", "145", "160", "210", "275", "360"]
    assert [box.value for box in group.children.children if box.disabled] == ["145"]


@pytest.mark.parametrize("code", ["W01", "W04"])
def test_the_cautions_stand_there_in_full_and_that_of_growth_before_the_form(visited, code):
    page = layout(visited(code))
    said = text_of(page)
    assert all(line in said for line in CAUTIONS)
    assert all((line in said) is (code == "W04") for line in GROWING)  # W01 is 20, W04 13
    if code == "W04":
        assert said.index("still growing") < said.index("Limits")


@pytest.mark.parametrize("here", [None, 3, {}, {"athlete": "nobody"}])
def test_nobody_is_asked_about_without_an_athlete(app, here):
    with pytest.raises(PreventUpdate):
        draw(None, "light", 700, here, [])
    with pytest.raises(PreventUpdate):
        tick(["145"], here, {})
