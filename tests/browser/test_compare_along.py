"""What is taken along from the Compare page, as a person does it: files, links, sheets of paper."""

import re
import struct
from datetime import date
from xml.etree import ElementTree

import pandas as pd
import pytest

from app.records.acts import Hand, Remove
from app.records.reads import athlete_data
from app.web.server import Config, create_app
from tests.browser.by_hand import choose
from tests.browser.compare_page import HEADLINE, LINES, ROWS, field, open_demo, serve_demo, type_in

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect

SAID = ".along-said"
LINK = "Link, as it was when copied"


@pytest.fixture
def at(page, serve_app):
    """The page on demo records of its own, drawn, with the fold open; and their address and store."""
    served, store = serve_demo(serve_app)
    open_demo(page, served)
    page.get_by_text("Take along").click()
    return page, served, store


@pytest.fixture
def demo(at):
    return at[0]


def save(page, button: str, folder):
    """Press a button and keep the file it gives."""
    with page.expect_download() as coming:
        page.get_by_role("button", name=button).click()
    path = folder / coming.value.suggested_filename
    coming.value.save_as(path)
    expect(page.locator(SAID)).to_have_text(f"Saved as {path.name}.")
    return path


def copied(page) -> str:
    """Press the button for a link, and read it from the clipboard."""
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    shown = page.get_by_label(LINK)
    before = shown.input_value()
    page.get_by_role("button", name="Copy link").click()
    expect(shown).not_to_have_value(before)
    link = shown.input_value()
    expect(page.locator(SAID)).to_have_text(f"Link copied, {len(link)} characters.")
    assert page.evaluate("navigator.clipboard.readText()") == link
    return link


def pages_of(pdf: bytes) -> int:
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


def test_figure_and_numbers_are_saved_as_files_that_other_software_reads(demo, tmp_path):
    days = {date.today().isoformat()}
    picture = save(demo, "Picture, PNG", tmp_path)
    head = picture.read_bytes()[:24]
    assert head[:8] == b"\x89PNG\r\n\x1a\n"
    width, height = struct.unpack(">II", head[16:24])
    assert width >= 2 * 700  # twice the pixels of a figure as wide as the labels are laid out for
    assert height > width / 2
    drawing = ElementTree.fromstring(save(demo, "Drawing, SVG", tmp_path).read_text(encoding="utf-8"))
    words = " ".join("".join(drawing.itertext()).split())
    for part in ("W01 · Varus torque at the elbow, N·m against time", "Invented demo data", "does not predict injury"):
        assert part in words
    curves = pd.read_csv(save(demo, "Curves, CSV", tmp_path))
    assert curves["throw"].nunique() == 4
    demo.get_by_label("Curves of all torques and forces").check()
    choose(demo, "Quantity", "Elbow extension torque")
    every = pd.read_csv(save(demo, "Curves, CSV", tmp_path))
    assert (every["varus_torque_nm"] == curves["varus_torque_nm"]).all()
    type_in(demo, field(demo, "Release speed", 2), "30")  # and at once, before it is drawn
    readings = pd.read_csv(save(demo, "Readings, CSV", tmp_path))
    assert readings["release_speed_m_s"].tolist() == [33.0, 30.0, 35.2, 23.8]
    shown = float(demo.locator(".readings tbody tr").nth(0).locator("td").first.inner_text().split("\n")[0])
    assert readings["peak_nm"][0] == pytest.approx(shown, abs=0.05)  # the table shows one decimal
    days |= {date.today().isoformat()}
    names = {path.name for path in tmp_path.iterdir()}
    kinds = {re.sub("|".join(days), "DAY", name) for name in names}
    assert kinds == {
        "levelpeak_W01_varus_DAY.png",
        "levelpeak_W01_varus_DAY.svg",
        "levelpeak_W01_varus_curves_DAY.csv",
        "levelpeak_W01_all_curves_DAY.csv",
        "levelpeak_W01_elbow_extension_readings_DAY.csv",
    }


def test_a_link_without_measures_asks_whose_they_are_and_restores_the_view(at):
    demo, served, _ = at
    type_in(demo, field(demo, "Release speed", 2), "27,5")
    choose(demo, "First sentence about", "470 g at 23.8 m/s")
    choose(demo, "Measured in", "% of reference peak")
    choose(demo, "Laid over one another at", "foot contact")
    expect(demo.locator(HEADLINE)).to_contain_text("470 g at 23.8 m/s against")
    expect(demo.locator(".picture h2")).to_contain_text("% of the reference’s peak")
    link = copied(demo)
    assert len(link) < 2000

    open_demo(demo, served, "W02")
    demo.goto(f"{served}/compare?athlete=W02{link[link.index('#') :]}")  # only what stands behind the # changes
    offer = demo.locator(".offer")
    expect(offer).to_contain_text("This link holds a comparison of 4 throws (145 g, 275 g, 95 g, 470 g): varus torque.")
    expect(offer).to_contain_text("worked out with those of W02")
    assert "#" not in demo.url
    expect(field(demo, "Release speed", 2)).not_to_have_value("27.5")  # nothing was changed yet
    demo.get_by_role("button", name="Open it for W02").click()
    expect(field(demo, "Release speed", 2)).to_have_value("27.5")
    expect(demo.get_by_role("textbox", name="Comparison", exact=True)).to_have_value(re.compile("From a link, "))
    expect(demo.locator(".who")).to_contain_text("W02")
    expect(demo.locator(HEADLINE)).to_contain_text("470 g at 23.8 m/s against")
    expect(demo.get_by_role("textbox", name="Laid over one another at")).to_have_value("foot contact")
    demo.get_by_role("button", name="Undo").click()
    expect(field(demo, "Release speed", 2)).not_to_have_value("27.5")


def test_a_link_with_measures_brings_a_new_athlete_also_from_the_first_page_and_where_there_is_none(at, serve_app):
    demo, served, _ = at
    demo.get_by_label("With body measures").check()
    link = copied(demo)
    demo.goto(f"{served}/words")
    demo.goto(link.replace("/compare#", "/#"))  # as older links are
    demo.get_by_role("button", name="Open it as a new athlete").click()
    expect(demo.locator(".who")).to_contain_text("W01 2 · male · 20 years · 183 cm · 84 kg")
    expect(demo.locator(HEADLINE)).to_contain_text("275 g at 28.5 m/s against 145 g at 33.0 m/s")
    empty = serve_app(create_app(Config(demo=False)))
    demo.goto(f"{empty}/compare{link[link.index('#') :]}")
    expect(demo.get_by_text("No athlete is chosen.")).to_be_visible()
    demo.get_by_role("button", name="Open it as a new athlete").click()
    expect(demo.locator(".who")).to_contain_text("W01 · male · 20 years")
    expect(demo.locator(LINES)).to_have_count(4)


@pytest.mark.slow
def test_a_broken_link_changes_nothing_and_is_left(at):
    demo, served, _ = at
    for broken in ("1.AAAA", "9.AAAA", "A" * 5000, "%E2%82%AC", "<b>"):
        demo.goto(f"{served}/compare?athlete=W01#throws={broken}")
        expect(demo.locator(".offer")).to_contain_text("The link could not be opened: it ")
        expect(demo.get_by_role("button", name="Open it")).to_have_count(0)
        assert "#" not in demo.url
        demo.get_by_role("button", name="Leave it").click()
        expect(demo.locator(".offer")).to_be_hidden()
    expect(field(demo, "Ball mass", 2)).to_have_value("275")


@pytest.mark.slow
def test_where_the_clipboard_is_not_allowed_the_link_stands_selected_and_of_nothing_no_file_is_made(at):
    demo, _, store = at
    demo.evaluate("() => { navigator.clipboard.writeText = () => Promise.reject(new Error('not allowed')); }")
    demo.get_by_role("button", name="Copy link").click()
    expect(demo.locator(SAID)).to_contain_text("It is selected in its field")
    link = demo.get_by_label(LINK)
    expect(link).to_be_focused()
    span = link.evaluate("e => [e.selectionStart, e.selectionEnd, e.value.length]")
    assert span == [0, span[2], span[2]]
    assert re.fullmatch(r"http://127\.0\.0\.1:\d+/compare#throws=1\.[\w-]+", link.input_value())
    data = athlete_data(store, "W01")
    store.act(data.athlete.uid, [Remove("throw", throw.uid) for throw in data.throws], Hand("test"))
    demo.reload()
    expect(demo.locator(HEADLINE)).to_have_text("No throws in the list: add one.")
    demo.get_by_text("Take along").click()
    for button in ("Picture, PNG", "Readings, CSV"):
        demo.get_by_role("button", name=button).click()
        expect(demo.locator(SAID)).to_have_text("There is no curve yet to take along.")


def test_the_fold_passes_wcag_and_fits_a_phone_and_p_prints(page, served, assert_axe_clean):
    open_demo(page, served)
    page.locator("summary", has_text="Take along").focus()
    page.keyboard.press("Enter")
    page.get_by_role("button", name="Readings, CSV").click()
    expect(page.locator(SAID)).to_contain_text("Saved as")
    for width in (1440, 390):
        page.set_viewport_size({"width": width, "height": 900})
        expect(page.locator("html")).to_have_js_property("scrollWidth", width)
        assert_axe_clean(page)
    page.evaluate("() => { window.print = () => document.documentElement.setAttribute('data-printed', ''); }")
    page.locator("h1").click()
    page.keyboard.press("p")
    expect(page.locator("html")).to_have_attribute("data-printed", "")


@pytest.mark.slow
def test_a_growing_throwers_eight_throws_print_on_one_page_with_columns_explained(at):
    demo, served, _ = at
    demo.goto(f"{served}/compare?athlete=W04")
    expect(demo.get_by_text("this thrower is 13 years old.")).to_be_visible()
    for count in range(demo.locator(ROWS).count() + 1, 9):
        demo.get_by_role("button", name="Copy throw 2").click()
        expect(demo.locator(ROWS)).to_have_count(count)
    expect(demo.locator(".readings tbody tr")).to_have_count(8)
    for paper in ("A4", "Letter"):
        assert pages_of(demo.pdf(format=paper)) == 1
    demo.emulate_media(media="print")
    expect(demo.locator(".explained")).to_be_visible()
    expect(demo.locator(".along")).to_be_hidden()
    expect(demo.locator("button:visible, input:visible")).to_have_count(0)
