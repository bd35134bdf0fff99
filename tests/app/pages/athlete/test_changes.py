"""What the buttons do, and that the page's fields are read whatever the browser sends."""

import base64

import pytest

from app.pages.athlete import changes, grid
from app.show.profile_form import BallRow, Cell, ProfileForm, to_json
from model.ball import Ball

FORM = ProfileForm(
    (BallRow("b1", "145", "73", (Cell("33.0", "2026-01-13", "75"), Cell("33.2"))), BallRow("b2", "275", "80")),
    basis="mean",
)


def test_the_fields_of_the_page_give_back_the_form_they_were_made_from():
    choices = {name: getattr(FORM, name) for name in ("basis", "joint", "cap_share")}
    read = changes.read_page(grid.values(FORM), choices)
    assert to_json(read) == to_json(FORM)


def test_an_emptied_cell_takes_its_day_and_effort_with_it_and_keeps_its_place():
    cells = {**grid.values(FORM), "b1/0/speed": " "}
    assert changes.read_page(cells, {}).rows[0].cells[:2] == (Cell(), Cell("33.2"))


@pytest.mark.parametrize(
    "sent",
    [
        None,
        [],
        "x",
        {
            "x": 1,
            "b1": 2,
            "b1/x/speed": "3",
            "b1/99/speed": "3",
            "b1/0/colour": "3",
            "b0/mass_g": "1",
            "b1/0/speed/1": 1,
        },
        {f"b{i}/mass_g": "1" for i in range(1, 100)},
        {"b1/mass_g": ["a"], "b1/0/speed": {"a": 1}},
        {"b1/mass_g": "1" * 10_000},
    ],
)
def test_whatever_the_browser_sends_the_result_is_a_form_that_can_be_kept(sent):
    from app.show.profile_form import from_json

    form = changes.read_page(sent, {"basis": 7, "radar": True, "joint": None})
    assert from_json(to_json(form)) == from_json(to_json(form))
    assert form.radar == "on"


def test_the_own_ball_always_has_a_row_and_a_new_one_stands_first():
    assert changes.with_own_ball(FORM, Ball(0.145)) is FORM
    made = changes.with_own_ball(FORM, Ball(0.142))
    assert [row.mass_g for row in made.rows] == ["142", "145", "275"]


def test_removing_clearing_and_putting_back():
    gone = changes.removed(FORM, "b1")
    assert (gone.notice, gone.undo) == ("The 145 g ball was removed with its readings.", True)
    assert changes.removed(FORM, "b9").form is FORM
    cleared = changes.cleared(FORM)
    assert cleared.form.untouched
    assert changes.put_back(cleared.form, to_json(FORM)).form == FORM
    assert changes.put_back(FORM, "nothing").form is FORM
    assert changes.cleared(cleared.form).undo is False


def test_what_cannot_be_put_in_changes_nothing_and_says_why():
    for made in (changes.put_in(FORM, None, None), changes.put_in(FORM, "33", 5), changes.loaded(FORM, "data:,!!!")):
        assert made.form is FORM
        assert made.notice
        assert not made.undo


def test_a_file_arrives_as_the_browser_sends_it():
    data = base64.b64encode(b"ball_mass_g,speed_m_s\n275,28.5\n").decode()
    assert changes.loaded(FORM, f"data:text/csv;base64,{data}").form.rows[1].cells == (Cell("28.5"),)
