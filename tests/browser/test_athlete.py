"""The Athlete page as a person meets it: readings typed by one key each, pasted, loaded, wrong, put back."""

import re

import pytest

from tests.browser.compare_page import load_again
from tests.browser.themes import put_on

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect

SENTENCE = ".part-exponent .sentence"
PLOT = ".part-fit .scatterlayer .trace"
SHOWN = "W01 slows down with p"


@pytest.fixture
def athlete(page, served):
    """The page on its demo data, drawn."""
    page.goto(f"{served}/athlete")
    expect(page.locator(SENTENCE)).to_contain_text(SHOWN)
    expect(page.locator(".caps-table tbody tr")).to_have_count(8)
    return page


def cell(page, ball: str, number: int):
    return page.get_by_label(f"Reading {number} with {ball} g, m/s", exact=True)


def focused(page) -> str:
    return page.evaluate("document.activeElement.getAttribute('aria-label')")


def choose(page, label: str, option: str) -> None:
    page.get_by_role("textbox", name=label, exact=True).click()
    page.get_by_role("option", name=option).first.click()


def paste(page, box, text: str) -> None:
    box.evaluate(
        """(cell, text) => {
            const data = new DataTransfer();
            data.setData('text/plain', text);
            cell.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
        }""",
        text,
    )


def test_it_opens_with_plot_strip_zones_and_tables(athlete):
    expect(athlete.locator(PLOT)).not_to_have_count(0)
    expect(athlete.locator(".p-level")).to_have_count(3)
    expect(athlete.locator(".zone")).to_have_count(4)
    expect(athlete.locator(".speeds-table tbody tr")).to_have_count(8)
    expect(athlete.get_by_text("Invented demo data: nobody here exists")).to_be_visible()
    heads = athlete.locator("main h2").all_inner_texts()
    assert heads[:5] == ["Measures", "Radar readings", "The fit", "The exponent", "Same load, other ball"]
    assert heads[5:9] == [
        "Next reading",
        "Asked effort is not speed",
        "A throw given as a distance",
        "Radar correction",
    ]
    expect(athlete.locator(".modebar-btn")).to_have_count(0)  # nothing on the figure sends it away


def test_one_key_for_each_reading_and_an_empty_cell_leads_to_the_next_ball(athlete):
    cell(athlete, "125", 1).focus()
    athlete.keyboard.type("33.9")
    athlete.keyboard.press("Enter")
    assert focused(athlete) == "Reading 2 with 125 g, m/s"
    athlete.keyboard.type("33,7")
    athlete.keyboard.press("Enter")
    athlete.keyboard.press("Enter")
    assert focused(athlete) == "Reading 7 with 145 g, m/s"
    athlete.keyboard.press("ArrowUp")
    expect(athlete.get_by_text("14 full-effort readings.")).to_be_visible()
    expect(cell(athlete, "125", 2)).to_have_value("33,7")


def test_a_row_grows_as_it_is_filled_and_keeps_what_was_typed(athlete):
    cell(athlete, "210", 1).focus()
    for number in range(1, 12):
        athlete.keyboard.type(f"30.{number % 10}")
        athlete.keyboard.press("Enter")
        expect(cell(athlete, "210", number + 1)).to_be_focused()
    expect(athlete.get_by_text("23 full-effort readings.")).to_be_visible()
    assert [cell(athlete, "210", n).input_value() for n in (1, 5, 11)] == ["30.1", "30.5", "30.1"]


def test_a_wrong_reading_is_named_under_its_ball_keeps_its_text_and_the_fit_goes_on(athlete):
    box = cell(athlete, "275", 2)
    box.fill("287")
    box.press("Tab")
    told = athlete.get_by_text("Reading 2 of 275 g: “287” given; accepted: 1 to 60 m/s.")
    expect(told).to_be_visible()
    expect(box).to_have_attribute("aria-invalid", "true")
    assert box.get_attribute("aria-describedby") == told.get_attribute("id")
    expect(box).to_have_value("287")
    expect(athlete.get_by_text("11 full-effort readings.")).to_be_visible()
    box.fill("28.7")
    box.press("Tab")
    expect(told).to_have_count(0)
    expect(athlete.get_by_text("12 full-effort readings.")).to_be_visible()


def test_clear_and_put_back(athlete):
    athlete.get_by_role("button", name="Clear readings").click()
    expect(athlete.locator(SENTENCE)).to_contain_text("is not known")
    expect(athlete.get_by_text("If the speed stays")).to_be_visible()
    expect(cell(athlete, "275", 1)).to_have_value("")
    athlete.get_by_role("button", name="Put back").click()
    expect(athlete.locator(SENTENCE)).to_contain_text(SHOWN)
    expect(cell(athlete, "275", 1)).to_have_value("28.3")
    expect(athlete.get_by_text("3 readings at less than full effort")).to_be_visible()


@pytest.mark.slow
def test_a_column_pasted_into_a_cell_fills_the_cells_after_it(athlete):
    paste(athlete, cell(athlete, "360", 1), "26.1\n26,3\nmisread\n")
    expect(cell(athlete, "360", 2)).to_have_value("26,3")
    expect(athlete.get_by_text("Reading 3 of 360 g: “misread” given")).to_be_visible()
    expect(athlete.get_by_text("Put in: 3 readings.")).to_be_visible()


@pytest.mark.slow
def test_a_table_is_put_in_from_the_field_and_stays_there_while_it_cannot_be(athlete):
    athlete.get_by_text("Paste, or load a file").click()
    area = athlete.get_by_label("From a spreadsheet")
    area.fill("33.1\n33.2")
    athlete.get_by_role("button", name="Put in").click()
    expect(athlete.get_by_text("choose the ball that the readings belong to")).to_be_visible()
    expect(area).to_have_value("33.1\n33.2")
    area.fill("360\t26.1\t26.3\n210\t30.4")
    athlete.get_by_role("button", name="Put in").click()
    expect(cell(athlete, "360", 2)).to_have_value("26.3")
    expect(area).to_have_value("")


def test_a_csv_file_brings_days_and_efforts_that_can_be_seen_and_changed(athlete, tmp_path):
    file = tmp_path / "readings.csv"
    file.write_text("ball_mass_g,speed_m_s,date,asked_effort\n360,26.1,2026-02-01,\n360,24.0,2026-02-01,50\n")
    athlete.get_by_text("Paste, or load a file").click()
    athlete.locator("input[type=file]").set_input_files(file)
    expect(athlete.get_by_text("Read from the file: 2 readings.")).to_be_visible()
    expect(cell(athlete, "360", 2)).to_have_value("24.0")
    expect(athlete.get_by_text("4 readings at less than full effort")).to_be_visible()
    athlete.get_by_text("Day, asked effort, ball diameters").click()
    effort = athlete.get_by_label("Asked effort of reading 2 with 360 g, %")
    expect(effort).to_have_value("50")
    expect(athlete.get_by_label("Day of reading 1 with 360 g")).to_have_value("2026-02-01")
    effort.fill("500")
    effort.press("Tab")
    expect(athlete.get_by_text("Asked effort 2 of 360 g: “500” given; accepted: 10 to 100 %.")).to_be_visible()
    effort.fill("")
    effort.press("Tab")
    expect(athlete.get_by_text("3 readings at less than full effort")).to_be_visible()


@pytest.mark.slow
def test_the_joint_moves_the_level_points(athlete):
    before = athlete.locator(".p-name").all_inner_texts()
    athlete.get_by_role("radiogroup", name="Joint of the level lines").get_by_text("Shoulder").click()
    expect(athlete.locator(".p-strip figcaption")).to_contain_text("Shoulder, internal-rotation torque")
    assert athlete.locator(".p-name").all_inner_texts() != before


def test_the_radar_switch_moves_p_and_says_by_how_much(athlete):
    athlete.get_by_label("Correct readings to release speed").focus()
    athlete.keyboard.press("Space")
    expect(athlete.locator(".part-radar")).to_contain_text("instead of 0.76")
    expect(athlete.locator(".caps-table")).to_contain_text("Radar shows")


def test_caps_distance_and_their_wrong_values(athlete):
    choose(athlete, "Hold level", "same area")
    expect(athlete.locator(".caps-table caption")).to_contain_text("Same area as 80 %")
    share = athlete.get_by_label("Share of full speed, %")
    share.fill("800")
    share.press("Tab")
    expect(athlete.get_by_text("Share: “800” given; accepted: 10 to 120 %.")).to_be_visible()
    expect(athlete.get_by_text("No speeds until the share is mended.")).to_be_visible()
    distance = athlete.get_by_label("Distance, m")
    distance.fill("55")
    distance.press("Tab")
    expect(athlete.locator(".part-flight .told")).to_contain_text("55 m with the 145 g ball, at 25°:")


def test_measures_and_readings_are_the_same_on_the_next_visit_and_on_compare(athlete):
    stature = athlete.get_by_label("Stature, cm")
    stature.fill("190")
    stature.press("Tab")
    box = cell(athlete, "360", 1)
    box.fill("26.2")
    box.press("Tab")
    expect(athlete.get_by_text("13 full-effort readings.")).to_be_visible()
    expect(athlete.get_by_text("Invented demo data")).to_be_hidden()  # nobody of the demo measures this
    athlete.get_by_role("link", name="Compare").click()
    expect(athlete.get_by_label("Stature, cm")).to_have_value("190")
    expect(athlete.locator(".throws .throw")).to_have_count(4)
    athlete.get_by_role("radiogroup", name="Theme").get_by_text("Dark").click()  # wakes no part of the other page
    choose(athlete, "Demo thrower", "W06")
    expect(athlete.get_by_label("Stature, cm")).to_have_value("188")
    athlete.get_by_role("link", name="Athlete").click()
    expect(athlete.locator(SENTENCE)).to_contain_text("W06, no readings")
    athlete.get_by_role("link", name="Compare").click()
    choose(athlete, "Demo thrower", "W01")
    expect(athlete.get_by_label("Stature, cm")).to_have_value("183")
    athlete.get_by_role("link", name="Athlete").click()
    expect(cell(athlete, "360", 1)).to_have_value("26.2")


def test_it_starts_empty_and_says_what_is_missing(page, served_empty):
    page.goto(f"{served_empty}/athlete")
    expect(page.locator("#athlete-strip")).to_contain_text("until the measures above are complete")
    expect(page.get_by_text("Invented demo data")).to_be_hidden()
    for label, value in (("Age, years", "25"), ("Stature, cm", "188"), ("Body mass, kg", "90")):
        page.get_by_label(label).fill(value)
    choose(page, "Sex", "male")
    choose(page, "Throwing hand", "right")
    expect(page.locator(SENTENCE)).to_contain_text("is not known")
    expect(page.locator(".part-next")).to_contain_text("Begin with the own ball, 145 g")
    box = cell(page, "145", 1)
    box.fill("36")
    box.press("Enter")
    expect(page.locator(".speeds-table tbody tr")).to_have_count(1)
    page.get_by_role("button", name="Add a ball").click()
    page.get_by_label("Ball mass, g, 1 to 3000 g").nth(1).fill("275")
    page.get_by_label("Ball mass, g, 1 to 3000 g").nth(1).press("Enter")
    expect(cell(page, "275", 1)).to_be_visible()
    cell(page, "275", 1).fill("31")
    cell(page, "275", 1).press("Enter")
    expect(page.locator(SENTENCE)).to_contain_text("This athlete slows down with p")


@pytest.mark.slow
def test_what_was_kept_but_cannot_be_read_is_told_and_stops_nothing(page, served):
    page.goto(f"{served}/athlete")
    page.evaluate("sessionStorage.setItem('athlete-saved', '{\"version\": 99}')")
    load_again(page)
    expect(page.get_by_text("What was kept from last time could not be read")).to_be_visible()
    expect(page.locator(SENTENCE)).to_contain_text(SHOWN)


@pytest.mark.parametrize(
    ("width", "theme"),
    [
        (390, "light"),
        *(
            pytest.param(width, theme, marks=pytest.mark.slow)
            for width, theme in ((390, "projector"), (1024, "dark"), (1440, "light"), (1440, "projector"))
        ),
    ],
)
def test_it_fits_and_is_accessible_at_three_widths_in_three_themes(athlete, assert_axe_clean, width, theme):
    athlete.set_viewport_size({"width": width, "height": 900})
    put_on(athlete, theme)
    expect(athlete.locator(".zone")).to_have_count(4)
    expect(athlete.locator(PLOT)).not_to_have_count(0)
    for fold in ("Paste, or load a file", "Day, asked effort, ball diameters", "Other numbers of throws"):
        athlete.get_by_text(fold).click()
    expect(athlete.get_by_label("Asked effort of reading 1 with 95 g, %")).to_be_visible()
    assert athlete.evaluate("document.documentElement.scrollWidth") <= width
    assert_axe_clean(athlete)


@pytest.mark.slow
def test_a_touch_screen_shows_its_number_keys(athlete):
    assert cell(athlete, "95", 1).get_attribute("inputmode") == "decimal"


def pages_of(pdf: bytes) -> int:
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


def test_it_prints_what_is_shown_and_the_screen_is_as_before(athlete):
    put_on(athlete, "dark")
    expect(athlete.locator(PLOT)).not_to_have_count(0)
    expect(athlete.locator(".speeds-table tbody tr")).to_have_count(8)
    athlete.evaluate(
        """() => addEventListener('beforeprint', () => {
            const graph = document.querySelector('.js-plotly-plot');
            window.printed = [graph.layout.width, graph.layout.template.layout.paper_bgcolor];
        })"""
    )
    figure = athlete.locator(".part-fit .main-svg").first
    size = [figure.get_attribute(name) for name in ("width", "height")]
    background = figure.evaluate("e => e.style.background")
    assert pages_of(athlete.pdf(format="A4")) <= 3
    assert athlete.evaluate("window.printed") == [690, "#ffffff"]
    expect(figure).to_have_attribute("width", size[0])
    expect(figure).to_have_attribute("height", size[1])
    assert figure.evaluate("e => e.style.background") == background


@pytest.mark.slow
def test_the_pocket_card_prints_alone_on_one_page_with_the_caution_for_the_young(athlete):
    athlete.get_by_label("Age, years").fill("13")
    athlete.get_by_label("Age, years").press("Tab")
    expect(athlete.locator(".pocket-card")).to_contain_text("24 % of the group with weighted balls")
    athlete.evaluate("window.print = () => { window.cardOnly = document.documentElement.className; }")
    athlete.get_by_role("button", name="Print the pocket card").click()
    assert "card-only" in athlete.evaluate("window.cardOnly")
    assert "card-only" not in (athlete.evaluate("document.documentElement.className") or "")
    athlete.evaluate("document.documentElement.classList.add('card-only')")
    athlete.emulate_media(media="print")
    card = athlete.locator(".pocket-card")
    expect(card).to_be_visible()
    for words in ("24 % of the group", "it does not predict injury", "ends the session", "led by a licensed clinician"):
        expect(card).to_contain_text(words)
    for part in (SENTENCE, ".caps-table", ".basis", ".strip", ".part-measures"):
        expect(athlete.locator(part)).to_be_hidden()
    assert pages_of(athlete.pdf(format="A4")) == 1
