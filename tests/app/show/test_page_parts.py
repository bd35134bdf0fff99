"""What pages are made of alike reads what the browser sends with distrust."""

import pytest
from dash import no_update
from dash.exceptions import PreventUpdate

from app.pages.athlete.parts import LARGEST_FILE_BYTES as ATHLETE_BYTES
from app.pages.buildup.file import LARGEST_BYTES as PLAN_BYTES
from app.pages.teach.parts import LARGEST_FILE_BYTES as TEACH_BYTES
from app.show.page_parts import changed_only, file_field, names_in
from app.web.server import LARGEST_REQUEST_BYTES


def test_the_names_of_controls_come_in_the_order_of_their_ids():
    parts = [{"type": "t", "name": "b"}, {"type": "t", "name": "a"}]
    assert names_in(parts, {"a", "b", "c"}) == ["b", "a"]
    assert names_in([], {"a"}) == []


@pytest.mark.parametrize(
    "parts", [None, True, 1.5, "ab", {"name": "a"}, ["a"], [[1]], [None], [{}], [{"name": "z"}], [{"name": ["a"]}]]
)
def test_what_are_no_ids_of_the_page_fills_nothing_on_it(parts):
    with pytest.raises(PreventUpdate):
        names_in(parts, ("a",))


def test_of_controls_only_those_that_change_are_set():
    parts = [{"name": "a"}, {"name": "b"}]
    wanted = {"a": "1", "b": "3"}
    assert changed_only([parts, ["1", "2"]], lambda part: wanted[part["name"]]) == [no_update, "3"]


@pytest.mark.parametrize(
    "shown", [[None, []], [[1], ["x"]], [[{"name": 1}], ["x"]], [[{"name": "a"}], []], ["ab", "cd"]]
)
def test_what_are_no_ids_sets_no_control(shown):
    with pytest.raises(PreventUpdate):
        changed_only(shown, str)


def test_a_field_for_a_file_says_what_it_takes_where_the_browser_reads_it():
    field = file_field("Open it", "place", ".json", 500_000)
    assert field.to_plotly_json()["props"]["data-most-bytes"] == "500000"
    assert (field.children[0], field.children[1].accept) == ("Open it ", ".json")


@pytest.mark.parametrize("most", [ATHLETE_BYTES, PLAN_BYTES, TEACH_BYTES])
def test_a_file_that_is_accepted_travels_in_one_question(most):
    assert most * 4 / 3 < LARGEST_REQUEST_BYTES
