"""The lines of the list: every control has a name of its own, and ends are ends."""

import dash_mantine_components as dmc
import pytest
from dash import html

from app.pages.compare.rows import move_id, rows, sample_style
from app.show.page_parts import dom_id
from app.show.palette import THEMES
from app.show.throw_form import Form, copy_throw


def controls(form) -> list:
    made = html.Ol(rows(form))
    return [part for part in made._traverse() if isinstance(part, dmc.TextInput | dmc.Radio | html.Button)]


def name_of(control) -> str:
    return getattr(control, "aria-label", None) or text_of(control.label)


def text_of(part) -> str:
    if isinstance(part, list):
        return "".join(map(text_of, part))
    return part if isinstance(part, str) else text_of(part.children)


def test_every_control_of_the_list_has_a_name_of_its_own(demo_page):
    names = [name_of(control) for control in controls(demo_page)]
    assert len(names) == 4 * (3 + 1 + 4)  # fields, reference, buttons
    assert len(set(names)) == len(names)


def test_every_field_shows_its_unit_and_its_range(demo_page):
    fields = [control for control in controls(demo_page) if isinstance(control, dmc.TextInput)][:3]
    assert [(text_of(field.label), field.description) for field in fields] == [
        ("Ball mass of throw 1, g", "1 to 3000"),
        ("Ball diameter of throw 1, mm", "10 to 350"),
        ("Release speed of throw 1, m/s", "1 to 60"),
    ]


def test_typed_values_stand_as_they_were_typed(demo_page):
    from dataclasses import replace

    odd = replace(demo_page, throws=(replace(demo_page.throws[0], speed_m_s=" 28,50 "),))
    assert controls(odd)[3].value == " 28,50 "


def test_the_first_cannot_go_up_nor_the_last_down_nor_a_full_list_grow(demo_page):
    full = demo_page
    while len(full.throws) < 8:
        full = copy_throw(full, "t1")
    disabled = {name_of(control) for control in controls(full) if getattr(control, "disabled", False)}
    assert disabled == {"Move throw 1 up", "Move throw 8 down", *(f"Copy throw {i}" for i in range(1, 9))}
    assert not any(getattr(c, "disabled", False) for c in controls(demo_page) if name_of(c) == "Copy throw 1")


def test_an_empty_list_has_no_head():
    assert rows(Form()) == []


def test_the_browsers_id_is_written_as_dash_writes_it():
    assert dom_id(move_id("t1", "up")) == '{"move":"up","throw":"t1","type":"compare-move"}'
    assert dom_id("plain") == "plain"


@pytest.mark.parametrize("theme", THEMES.values(), ids=lambda theme: theme.name)
def test_the_sample_of_a_line_is_dashed_for_the_reference_only(make_answer, theme):
    assert " dashed " in sample_style(make_answer(1, reference=True), theme)["borderTop"]
    assert " solid " in sample_style(make_answer(2), theme)["borderTop"]
