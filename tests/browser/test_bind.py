"""What binds a page to the records, in the browser: a page of bound fields, its reloads, and a second tab beside it."""

import re

import pytest
from dash import Input, Output, State, html

from app.bind import ids
from app.bind.edit import Doing
from app.bind.fields import act_button, bound
from app.bind.page import Page
from app.bind.steps import steps
from app.bind.visit import visit_again
from app.records.acts import Add
from app.web.server import Config, create_app
from tests.browser.settling import settled

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect

DRAWN = "#drawn"
TRIES = 5


def layout(visit):
    athlete, measures = visit.data.athlete, visit.data.measures[-1]
    fields = [bound(visit, f"athlete.{name}", athlete) for name in ("code", "sex", "still_growing")]
    fields += [bound(visit, f"measures.{name}", measures) for name in ("stature_m", "body_mass_kg")]
    notes = html.Ul([html.Li(bound(visit, "note.text", note)) for note in visit.data.notes])
    add = act_button(visit, "Add a note", "fields/note")
    return html.Div([html.H1("Fields"), steps(visit), *fields, add, notes, html.P(id="drawn")])


def drawn(_version, here):
    return f"{visit_again(here).data.measures[-1].stature_m:.3f} m"


def register(app):
    app.callback(Output("drawn", "children"), Input(ids.VERSION, "data"), State(ids.HERE, "data"))(drawn)


def add_note(_visit, _row, _value):
    return Doing([Add("note", {"text": "a note"})], said="A note was added.")


FIELDS = Page("/fields", "Fields", layout, register, doers={"fields/note": add_note})


@pytest.fixture
def address(serve_app) -> str:
    """The page for W02 on records of its own."""
    return f"{serve_app(create_app(Config(demo=True), pages=(FIELDS,)))}/fields?athlete=W02"


@pytest.fixture
def opened(page, address):
    page.goto(address)
    expect(page.locator(DRAWN)).to_have_text("1.860 m")
    return page


def stature(page):
    return page.get_by_label("Stature, cm")


def write(page, text: str) -> None:
    stature(page).fill(text)
    stature(page).press("Enter")


def test_opening_a_page_asks_for_nothing_to_be_kept(page, address):
    asked = []
    page.on("request", lambda one: asked.append(one.post_data or "") if one.method == "POST" else None)
    page.goto(address)
    expect(page.locator(DRAWN)).to_have_text("1.860 m")
    assert not [body for body in asked if '"field"' in body.partition('"inputs"')[0]]


def test_what_is_typed_is_drawn_and_stands_there_after_a_reload(opened):
    write(opened, "175,5")
    expect(opened.locator(DRAWN)).to_have_text("1.755 m")
    opened.reload()
    expect(stature(opened)).to_have_value("175,5")


def test_a_reload_right_after_enter_loses_nothing(opened):
    for place in range(TRIES):
        write(opened, f"{170 + place}")
        opened.wait_for_timeout(4 * place)  # ms; between pressing and reloading
        opened.reload()
        expect(stature(opened)).to_have_value(f"{170 + place}")


def test_a_refused_text_stays_with_its_message_and_changes_nothing(opened):
    write(opened, "20")
    message = opened.get_by_text("Stature: “20” given; accepted: 90 to 230 cm.")
    expect(message).to_be_visible()
    expect(opened.locator(DRAWN)).to_have_text("1.860 m")
    opened.reload()
    expect(stature(opened)).to_have_value("20")
    expect(message).to_be_visible()


def test_two_tabs_do_not_overwrite_each_other_in_silence(opened, address):
    other = opened.context.new_page()
    other.goto(address)
    expect(other.locator(DRAWN)).to_have_text("1.860 m")
    write(opened, "177")
    expect(opened.locator(DRAWN)).to_have_text("1.770 m")
    write(other, "178")
    expect(other.get_by_text("somebody else has written “177” here")).to_be_visible()
    other.get_by_role("button", name="Keep mine").click()
    expect(other.locator(DRAWN)).to_have_text("1.780 m")
    mass = opened.get_by_label("Body mass, kg")
    mass.fill("80")
    mass.press("Enter")
    expect(stature(opened)).to_have_value("178")  # whoever writes sees what others wrote
    write(opened, "170")
    expect(opened.locator(DRAWN)).to_have_text("1.700 m")
    write(other, "171")
    other.get_by_role("button", name="Take the newer").click()
    expect(stature(other)).to_have_value("170")


def test_a_tick_that_another_tab_has_set_since_can_be_kept_too(opened, address):
    other = opened.context.new_page()
    other.goto(address)
    expect(other.locator(DRAWN)).to_have_text("1.860 m")
    for ticked in (True, False):
        opened.get_by_label("Still growing").set_checked(ticked)
        settled(opened)
    other.get_by_label("Still growing").check()
    other.get_by_role("button", name="Keep mine").click()
    expect(other.locator(".conflict")).to_have_count(0)
    opened.reload()
    expect(opened.get_by_label("Still growing")).to_be_checked()


def test_undo_and_redo_say_what_they_do_and_go_over_reloads(opened):
    write(opened, "175")
    expect(opened.locator(DRAWN)).to_have_text("1.750 m")
    opened.reload()
    undo = opened.get_by_role("button", name="Undo")
    expect(undo).to_have_attribute("title", re.compile("175 cm"))
    undo.click()
    expect(stature(opened)).to_have_value("186")
    opened.get_by_role("button", name="Redo").click()
    expect(stature(opened)).to_have_value("175")


def test_a_button_changes_the_records_says_so_and_keeps_the_focus(opened):
    button = opened.get_by_role("button", name="Add a note")
    button.focus()
    opened.keyboard.press("Enter")
    expect(opened.get_by_text("A note was added.")).to_be_visible()
    expect(opened.locator("li textarea")).to_have_count(2)
    expect(button).to_be_focused()


def test_a_new_code_is_a_new_athlete_and_an_old_one_is_found(opened):
    picker = opened.get_by_role("textbox", name=re.compile("^Athlete"))
    picker.click()
    picker.fill("W0")
    expect(opened.get_by_role("option")).to_have_count(7)  # six, and the new one
    opened.get_by_role("option", name="W05", exact=True).click()
    opened.wait_for_url(re.compile("athlete=W05"))
    expect(opened.get_by_label("Code", exact=True)).to_have_value("W05")


def test_other_units_are_shown_and_mean_the_same(opened):
    opened.get_by_text("oz, mph").click()
    expect(opened.get_by_label("Body mass, lb")).to_be_visible()
    expect(opened.locator(DRAWN)).to_have_text("1.860 m")
    mass = opened.get_by_label("Body mass, lb")
    shown = mass.input_value()
    opened.get_by_text("g, m/s").click()
    expect(opened.get_by_label("Body mass, kg")).to_be_visible()
    assert float(shown) == pytest.approx(
        float(opened.get_by_label("Body mass, kg").input_value()) / 0.45359237, abs=0.1
    )
