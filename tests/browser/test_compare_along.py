"""What is taken along from the Compare page, as a person does it: files, links, sheets of paper."""

import base64
import json
import re
import struct
import zlib
from datetime import date
from xml.etree import ElementTree

import pandas as pd
import pytest

from tests.browser.compare_page import HEADLINE, LINES, ROWS, choose, field, load_again, open_demo, type_in

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect

SAID = ".along-said"
LINK = "Link, as it was when copied"


@pytest.fixture
def demo(page, served):
    """The page on its demo data, drawn, with the fold open."""
    open_demo(page, served)
    page.get_by_text("Take along").click()
    return page


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


def test_a_link_restores_the_view_leaves_the_address_and_what_was_here_can_be_put_back(demo):
    type_in(demo, field(demo, "Release speed", 2), "27,5")
    choose(demo, "Quantity", "Abduction torque")
    choose(demo, "First sentence about", "470 g at 23.8 m/s")
    choose(demo, "Measured in", "% of reference peak")
    choose(demo, "Laid over one another at", "foot contact")
    expect(demo.locator(HEADLINE)).to_contain_text("470 g at 23.8 m/s against")
    expect(demo.locator(".picture h2")).to_contain_text("% of the reference’s peak")
    bare = copied(demo)
    demo.get_by_label("With body measures").check()
    whole = copied(demo)
    assert len(bare) < len(whole) < 2000
    choose(demo, "Demo thrower", "W04")
    expect(demo.get_by_label("Code")).to_have_value("W04")
    expect(demo.locator(".picture h2")).to_contain_text("N·m against time")
    type_in(demo, field(demo, "Release speed", 2), "21")

    address = demo.url
    demo.goto(bare)  # only what stands behind the # changes: the page stays
    expect(demo.locator(".notice")).to_contain_text("Opened from a link, with the measures that were here, of W04.")
    expect(demo.get_by_label("Code")).to_have_value("W04")
    expect(field(demo, "Release speed", 2)).to_have_value("27,5")
    expect(demo.locator(".picture h2")).to_contain_text("Abduction torque at the shoulder % of the reference’s peak")
    expect(demo.locator(HEADLINE)).to_contain_text("470 g at 23.8 m/s against")
    expect(demo.get_by_role("textbox", name="Laid over one another at")).to_have_value("foot contact")
    assert demo.url == address
    demo.get_by_role("button", name="Put back").click()
    expect(field(demo, "Release speed", 2)).to_have_value("21")
    expect(demo.get_by_role("heading", name="Varus torque at the elbow")).to_be_visible()

    demo.goto(whole)
    expect(demo.locator(".notice")).to_contain_text("with the measures it brings")
    expect(demo.get_by_label("Code")).to_have_value("W01")
    expect(demo.get_by_label("Stature, cm")).to_have_value("183")
    type_in(demo, field(demo, "Release speed", 2), "26")
    expect(demo.locator(".readings")).to_contain_text("275 g at 26.0 m/s")
    load_again(demo)
    expect(demo.locator(LINES)).to_have_count(4)
    expect(field(demo, "Release speed", 2)).to_have_value("26")
    assert demo.url == address


@pytest.mark.slow
def test_a_link_that_differs_in_the_measures_alone_brings_its_speeds_as_they_are(demo):
    demo.get_by_label("With body measures").check()
    link = copied(demo)
    type_in(demo, demo.get_by_label("Stature, cm"), "190")  # here the throws keep their clocks
    expect(demo.get_by_text("the throws keep their joint speeds")).to_be_visible()
    demo.get_by_role("button", name="Keep the release speeds").click()
    expect(demo.get_by_text("The throws are held at their release speeds.")).to_be_visible()
    expect(field(demo, "Release speed", 1)).to_have_value("33.0")
    demo.goto(link)
    expect(demo.get_by_label("Stature, cm")).to_have_value("183")
    expect(demo.locator(HEADLINE)).to_contain_text("275 g at 28.5 m/s against 145 g at 33.0 m/s")
    expect(demo.locator(".notice")).to_contain_text("with the measures it brings")
    expect(field(demo, "Release speed", 1)).to_have_value("33.0")


@pytest.mark.slow
def test_on_a_first_visit_a_link_without_measures_asks_for_them_and_a_broken_one_changes_nothing(page, served_empty):
    throws = [["145", "73", "speed", "33.0"], ["275", "73", "speed", "28.5"]]
    deflate = zlib.compressobj(wbits=-15)
    raw = deflate.compress(json.dumps([[1, "measured"], throws]).encode()) + deflate.flush()
    text = "1." + base64.urlsafe_b64encode(raw).decode().rstrip("=")
    page.goto(f"{served_empty}/#throws={text}")
    expect(field(page, "Release speed", 1)).to_have_value("33.0")
    expect(page.locator(".notice")).to_contain_text("which brings no body measures: enter them.")
    expect(page.locator(HEADLINE)).to_contain_text("The curves need the thrower’s sex")
    expect(page.get_by_role("button", name="Put back")).to_be_hidden()
    for broken in (text[:-9], "9.AAAA", "A" * 5000, "%E2%82%AC", "<b>"):
        page.goto(f"{served_empty}/#throws={broken}")
        expect(page.locator(".notice")).to_contain_text("The link could not be opened: it ")
        expect(field(page, "Ball mass", 2)).to_have_value("275")
        assert "#" not in page.url
        page.get_by_role("button", name="Dismiss").click()
        expect(page.locator(".notice")).to_be_hidden()


@pytest.mark.slow
def test_where_the_clipboard_is_not_allowed_the_link_stands_selected_and_of_nothing_no_file_is_made(demo):
    demo.evaluate("() => { navigator.clipboard.writeText = () => Promise.reject(new Error('not allowed')); }")
    demo.get_by_role("button", name="Copy link").click()
    expect(demo.locator(SAID)).to_contain_text("It is selected in its field")
    link = demo.get_by_label(LINK)
    expect(link).to_be_focused()
    span = link.evaluate("e => [e.selectionStart, e.selectionEnd, e.value.length]")
    assert span == [0, span[2], span[2]]
    assert re.fullmatch(r"http://127\.0\.0\.1:\d+/#throws=1\.[\w-]+", link.input_value())
    demo.get_by_role("button", name="Start empty").click()
    expect(demo.locator(LINES)).to_have_count(0)
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
def test_a_growing_throwers_eight_throws_print_on_one_page_with_columns_explained(demo):
    choose(demo, "Demo thrower", "W04")
    expect(demo.get_by_label("Code")).to_have_value("W04")
    for count in range(4, 9):
        demo.get_by_role("button", name="Copy throw 2").click()
        expect(demo.locator(ROWS)).to_have_count(count)
    expect(demo.locator(".readings tbody tr")).to_have_count(8)
    for paper in ("A4", "Letter"):
        assert pages_of(demo.pdf(format=paper)) == 1
    demo.emulate_media(media="print")
    expect(demo.locator(".explained")).to_be_visible()
    expect(demo.locator(".along")).to_be_hidden()
    expect(demo.locator("button:visible, input:visible")).to_have_count(0)
