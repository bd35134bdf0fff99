"""The lines of the list: every control has a name of its own, and ends are ends."""

from dataclasses import replace

import dash_mantine_components as dmc
import pytest
from dash import html

from app.pages.compare import ids
from app.pages.compare.current import current_of
from app.pages.compare.doers import DOERS
from app.pages.compare.parts import balls
from app.pages.compare.rows import rows, sample_style, sizes_id
from app.records.acts import Edit, Hand
from app.show.page_parts import dom_id
from app.show.palette import THEMES
from app.units.systems import CUSTOMARY
from tests.app.pages.compare.conftest import text_of

HAND = Hand("one")


def controls(current) -> list:
    made = html.Ol(rows(current))
    return [part for part in made._traverse() if isinstance(part, dmc.TextInput | dmc.Radio | dmc.Select | html.Button)]


def name_of(control) -> str:
    return getattr(control, "aria-label", None) or text_of(control.label)


def fields(current) -> list:
    return [control for control in controls(current) if isinstance(control, dmc.TextInput)]


def test_every_control_of_the_list_has_a_name_of_its_own(current):
    names = [name_of(control) for control in controls(current)]
    assert len(names) == 4 * (3 + 1 + 2 + 4)  # fields, reference, choices, buttons
    assert len(set(names)) == len(names)


def test_every_field_shows_its_unit_and_its_range(current):
    assert [(text_of(field.label), field.description, field.value) for field in fields(current)[:3]] == [
        ("Ball mass of throw 1, g", "1 to 3000", "145"),
        ("Ball diameter of throw 1, mm", "10 to 350", "73"),
        ("Release speed of throw 1, m/s", "1 to 60", "33"),
    ]


def test_in_other_units_the_same_values_stand_in_those(open_page):
    there = current_of(replace(open_page(), system=CUSTOMARY))
    assert [(text_of(field.label), field.description, field.value) for field in fields(there)[:3]] == [
        ("Ball mass of throw 1, oz", "0.0353 to 105", "5.11"),
        ("Ball diameter of throw 1, in", "0.394 to 13.7", "2.87"),
        ("Release speed of throw 1, mph", "2.24 to 134", "73.8"),
    ]
    assert {"value": there.visit.data.own_ball.uid, "label": "5.11 oz, 2.87 in (own ball)"} in balls(there)


def test_typed_values_stand_as_they_were_typed_also_when_refused(current, open_page):
    store, owner, first, second = current.visit.store, current.visit.owner, *current.rows[:2]
    store.act(owner, Edit("throw.number", "28,50", first.uid), HAND)
    store.act(owner, Edit("throw.number", "fast", second.uid), HAND)
    made = fields(current_of(open_page()))
    assert (made[2].value, made[5].value) == ("28,50", "fast")
    assert made[5].error.startswith("Release speed: “fast” given; accepted: 1 to 60 m/s")


def test_the_first_cannot_go_up_nor_the_last_down_nor_a_full_list_grow(current, open_page):
    visit = open_page()
    for _ in range(4):
        visit.store.act(visit.owner, list(DOERS[ids.ADD](open_page(), "", 1).acts), HAND)
    full = current_of(open_page())
    disabled = {name_of(control) for control in controls(full) if getattr(control, "disabled", False)}
    assert disabled == {"Move throw 1 up", "Move throw 8 down", *(f"Copy throw {i}" for i in range(1, 9))}
    assert not any(getattr(c, "disabled", False) for c in controls(current) if name_of(c) == "Copy throw 1")


def test_once_another_athlete_throws_no_third_is_offered(current, open_page):
    def offered(there, number):
        (pick,) = [one for one in controls(there) if text_of(getattr(one, "label", "")) == f"Throw {number} is by"]
        return [one["value"] for one in pick.data]

    assert offered(current, 2) == ["W01", "W02", "W03", "W04", "W05", "W06"]
    visit = current.visit
    visit.store.act(visit.owner, Edit("throw.thrower", visit.store.find("W05").uid, current.rows[1].uid), HAND)
    assert offered(current_of(open_page()), 3) == ["W01", "W05"]


def test_the_slider_works_the_field_of_the_number(current):
    (first, *_) = [part for part in html.Ol(rows(current))._traverse() if getattr(part, "className", "") == "slide"]
    assert getattr(first, "data-field") == dom_id(fields(current)[2].id)


def test_the_browsers_id_is_written_as_dash_writes_it():
    assert dom_id(sizes_id("t1")) == '{"throw":"t1","type":"compare-sizes"}'


@pytest.mark.parametrize("theme", THEMES.values(), ids=lambda theme: theme.name)
def test_the_sample_of_a_line_is_dashed_for_the_reference_only(make_answer, theme):
    assert " dashed " in sample_style(make_answer(1, reference=True), theme)["borderTop"]
    assert " solid " in sample_style(make_answer(2), theme)["borderTop"]
