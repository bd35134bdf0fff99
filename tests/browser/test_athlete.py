"""The Athlete page as a person meets it: readings typed by one key each, pasted, loaded, wrong, taken back."""

import re

import pytest

from tests.browser.athlete_page import PLOT, SENTENCE, SHOWN, cell, count_all, focused, listed, paste, ready
from tests.browser.by_hand import choose
from tests.browser.themes import put_on

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect


@pytest.fixture
def athlete(page, served):
    """The page on its demo data, drawn."""
    page.goto(f"{served}/athlete?athlete=W01")
    ready(page)
    return page


def test_it_opens_with_plot_strip_zones_and_tables(athlete):
    expect(athlete.locator(PLOT)).not_to_have_count(0)
    expect(athlete.locator(".p-level")).to_have_count(3)
    expect(athlete.locator(".zone")).to_have_count(4)
    expect(athlete.locator(".speeds-table tbody tr")).to_have_count(8)
    heads = athlete.locator("main h2").all_inner_texts()
    assert heads[:3] == ["Measures", "Own ball and reference throw", "Radar readings"]
    assert heads[3:7] == ["Own-ball speed over time", "The fit", "The exponent", "Same load, other ball"]
    assert heads[7:11] == [
        "Next reading",
        "Asked effort is not speed",
        "A throw given as a distance",
        "Radar correction",
    ]
    expect(athlete.locator(".modebar-btn")).to_have_count(0)  # nothing on the figure sends it away


def test_one_key_for_each_reading_and_an_empty_cell_leads_to_the_next_ball(athlete):
    count_all(athlete)
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
    count_all(athlete)
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
    told = athlete.locator(".reading-row .cell-problems").get_by_text("Reading: “287” given; accepted: 1 to 60 m/s.")
    expect(told).to_be_visible()
    expect(box).to_have_attribute("aria-invalid", "true")
    assert box.get_attribute("aria-describedby") == told.get_attribute("id")
    expect(box).to_have_value("287")
    expect(athlete.get_by_text("11 full-effort readings.")).to_be_visible()
    box.fill("28.7")
    box.press("Tab")
    expect(told).to_have_count(0)
    expect(athlete.get_by_text("12 full-effort readings.")).to_be_visible()


def test_readings_are_cleared_and_undo_brings_them_back(athlete):
    athlete.get_by_role("button", name="Clear readings").click()
    expect(athlete.locator(SENTENCE)).to_contain_text("is not known")
    expect(athlete.get_by_text("If the speed stays")).to_be_visible()
    expect(cell(athlete, "275", 1)).to_have_value("")
    athlete.get_by_role("button", name="Undo").click()
    expect(athlete.locator(SENTENCE)).to_contain_text(SHOWN)
    expect(cell(athlete, "275", 1)).to_have_value("28.3")
    expect(athlete.get_by_text("3 readings at less than full effort")).to_be_visible()


def test_a_column_pasted_into_a_cell_fills_the_cells_after_it_and_one_undo_takes_it_back(athlete):
    count_all(athlete)
    paste(athlete, cell(athlete, "360", 1), "26.1\n26,3\nmisread\n")
    expect(cell(athlete, "360", 2)).to_have_value("26.3")  # the decimals of all that is pasted are marked one way
    expect(cell(athlete, "360", 3)).to_have_value("misread")
    expect(athlete.locator(".reading-row").get_by_text("Reading: “misread” given")).to_be_visible()
    expect(athlete.get_by_text("Put in: 3 readings.")).to_be_visible()
    expect(athlete.get_by_text("14 full-effort readings.")).to_be_visible()
    athlete.get_by_role("button", name="Undo").click()
    expect(cell(athlete, "360", 1)).to_have_value("")
    expect(athlete.get_by_text("12 full-effort readings.")).to_be_visible()


@pytest.mark.slow
def test_a_table_is_put_in_from_the_field_and_stays_there_while_it_cannot_be(athlete):
    athlete.get_by_text("Paste, or load a file").click()
    area = athlete.get_by_label("From a spreadsheet")
    area.fill("33.1\n33.2")
    athlete.get_by_role("button", name="Put in").click()
    expect(athlete.get_by_text("choose the ball that the readings belong to")).to_be_visible()
    expect(area).to_have_value("33.1\n33.2")
    area.fill("360\t26.1\t26.3\n230\t30.4")
    athlete.get_by_role("button", name="Put in").click()
    expect(cell(athlete, "360", 2)).to_have_value("26.3")
    expect(cell(athlete, "230", 1)).to_have_value("30.4")
    expect(athlete.get_by_text("Put in: 3 readings. 1 new in the team’s balls.")).to_be_visible()
    expect(area).to_have_value("")


def test_a_csv_file_brings_days_and_efforts_that_can_be_seen_and_changed(athlete, tmp_path):
    file = tmp_path / "readings.csv"
    file.write_text("ball_mass_g,speed_m_s,date,asked_effort\n360,26.1,2026-02-01,\n360,24.0,2026-02-01,50\n")
    athlete.get_by_text("Paste, or load a file").click()
    athlete.locator("input[type=file]").set_input_files(file)
    expect(athlete.get_by_text("Read from the file: 2 readings.")).to_be_visible()
    expect(cell(athlete, "360", 2)).to_have_value("24.0")
    expect(athlete.get_by_text("4 readings at less than full effort")).to_be_visible()
    rows = listed(athlete)
    expect(rows).to_have_count(17)
    effort = athlete.get_by_label("Asked effort of 2026-02-01, 360 g, %").first
    expect(effort).to_have_value("50")
    expect(athlete.get_by_label("Day of 2026-02-01, 360 g, year-month-day")).to_have_count(2)
    effort.fill("500")
    effort.press("Tab")
    expect(athlete.locator(".dated").get_by_text("Asked effort: “500” given; accepted: 10 to 100 %.")).to_be_visible()
    effort.fill("")
    effort.press("Tab")
    expect(athlete.get_by_text("3 readings at less than full effort")).to_be_visible()


@pytest.mark.slow
def test_the_joint_moves_the_level_points(athlete):
    before = athlete.locator(".p-name").all_inner_texts()
    choose(athlete, "Level points of", "shoulder")
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
    expect(athlete.get_by_text("Share of full speed: “800” given; accepted: 10 to 120 %.")).to_be_visible()
    expect(athlete.get_by_text("No speeds until the share is mended.")).to_be_visible()
    distance = athlete.get_by_label("Distance, m")
    distance.fill("55")
    distance.press("Tab")
    expect(athlete.locator(".part-flight .told")).to_contain_text("55 m with the 145 g ball, at 25°:")


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
    for fold in ("Paste, or load a file", "By day: change, remove", "Other numbers of throws"):
        athlete.get_by_text(fold).click()
    expect(athlete.get_by_label("Asked effort of 2026-02-20, 95 g, %").first).to_be_visible()
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
