"""The Athlete page as a person meets it: readings typed by one key each, pasted, loaded, wrong, taken back."""

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
    page.goto(f"{served}/athlete?athlete=W01")
    ready(page)
    return page


def ready(page) -> None:
    expect(page.locator(SENTENCE)).to_contain_text(SHOWN)
    expect(page.locator(".caps-table tbody tr")).to_have_count(8)


def cell(page, ball: str, number: int):
    return page.get_by_label(f"Reading {number} with {ball} g, m/s", exact=True)


def count_all(page) -> None:
    """Have all readings count: those of the demo are older than a season, and one of today would stand alone."""
    page.get_by_role("button", name="All readings").click()
    expect(page.get_by_label("Use readings since")).to_have_value("1990-01-01")
    ready(page)


def focused(page) -> str:
    return page.evaluate("document.activeElement.getAttribute('aria-label')")


def choose(page, label: str, option: str) -> None:
    page.get_by_role("textbox", name=label, exact=True).click()
    page.get_by_role("option", name=option).first.click()


def type_in(page, label: str, text: str) -> None:
    box = page.get_by_label(label, exact=True)
    box.fill(text)
    box.press("Tab")


def paste(page, box, text: str) -> None:
    box.evaluate(
        """(cell, text) => {
            const data = new DataTransfer();
            data.setData('text/plain', text);
            cell.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
        }""",
        text,
    )


def listed(page):
    """The dated list, opened."""
    fold = page.locator("details:has(> #athlete-list)")
    if fold.get_attribute("open") is None:
        page.get_by_text("By day: change, remove").click()
    return page.locator(".dated tbody tr")


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
    expect(cell(athlete, "360", 2)).to_have_value("26,3")
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


def test_grid_and_dated_list_show_the_same_readings(athlete):
    rows = listed(athlete)
    expect(rows).to_have_count(15)
    speed = athlete.get_by_label("Speed of 2026-02-20, 275 g, m/s").last  # the first that was thrown
    expect(speed).to_have_value("28.3")
    speed.fill("28.4")
    speed.press("Tab")
    expect(cell(athlete, "275", 1)).to_have_value("28.4")
    cell(athlete, "210", 1).fill("30.2")
    cell(athlete, "210", 1).press("Enter")
    expect(rows).to_have_count(16)
    expect(athlete.locator(".used")).to_contain_text("Readings since")  # one of today: those of a year ago are older
    expect(cell(athlete, "275", 1)).to_have_attribute("data-older", "")
    load_again(athlete)
    expect(cell(athlete, "210", 1)).to_have_value("30.2")
    expect(cell(athlete, "275", 1)).to_have_attribute("data-older", "")
    athlete.get_by_role("button", name="All readings").click()
    expect(athlete.get_by_text("13 full-effort readings.")).to_be_visible()
    expect(cell(athlete, "275", 1)).not_to_have_attribute("data-older", "")
    rows = listed(athlete)
    athlete.get_by_role("button", name=re.compile("Remove the reading of .*, 210 g")).click()
    expect(rows.or_(athlete.locator("#none"))).to_have_count(15)
    expect(cell(athlete, "210", 1)).to_have_value("")


def test_what_is_typed_is_there_after_a_reload_and_in_a_second_tab(athlete, served):
    cell(athlete, "360", 1).fill("26.2")
    cell(athlete, "360", 1).press("Enter")
    type_in(athlete, "Stature, cm", "190")
    other = athlete.context.new_page()
    expect(athlete.get_by_role("button", name="Undo")).to_be_enabled()
    other.goto(f"{served}/athlete?athlete=W01")
    for tab in (athlete, other):
        if tab is athlete:
            load_again(tab)
        expect(cell(tab, "360", 1)).to_have_value("26.2")
        expect(tab.get_by_label("Stature, cm")).to_have_value("190")


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


def test_each_athlete_has_readings_of_their_own_also_a_new_one(athlete, served):
    cell(athlete, "360", 1).fill("26.2")
    cell(athlete, "360", 1).press("Enter")
    expect(athlete.get_by_role("button", name="Undo")).to_be_enabled()
    picker = athlete.get_by_role("textbox", name="Athlete: type a code to find or to add one")
    picker.click()
    picker.fill("X77")
    athlete.get_by_role("option", name="X77: new athlete").click()
    expect(athlete.locator("#athlete-strip")).to_contain_text("until the measures above are complete")
    expect(athlete.get_by_label("Code", exact=True)).to_have_value("X77")
    expect(cell(athlete, "360", 1)).to_have_value("")
    expect(athlete.get_by_text("No readings yet.")).to_be_attached()


def test_a_new_code_renames_and_says_so(athlete, served):
    expect(athlete.get_by_text("a new one renames this athlete")).to_be_visible()
    type_in(athlete, "Code", "K5")
    expect(athlete.locator(SENTENCE)).to_contain_text("K5 slows down with p")
    expect(cell(athlete, "275", 1)).to_have_value("28.3")
    expect(athlete).to_have_url(re.compile("athlete=K5"))
    athlete.goto(f"{served}/athlete?athlete=W01")
    expect(athlete.get_by_text("There is no athlete with the code “W01” here.")).to_be_visible()


def test_an_athlete_begins_empty_and_what_is_missing_is_said(page, served_empty):
    page.goto(f"{served_empty}/athlete")
    expect(page.get_by_text("No athlete is chosen.")).to_be_visible()
    picker = page.get_by_role("textbox", name="Athlete: type a code to find or to add one")
    picker.click()
    picker.fill("A1")
    page.get_by_role("option", name="A1: new athlete").click()
    expect(page.locator("#athlete-strip")).to_contain_text("until the measures above are complete")
    for label, value in (("Age, years", "25"), ("Stature, cm", "188"), ("Body mass, kg", "90")):
        type_in(page, label, value)
    choose(page, "Sex", "male")
    choose(page, "Throwing hand", "right")
    expect(page.locator(SENTENCE)).to_contain_text("is not known")
    expect(page.locator(".part-next")).to_contain_text("Begin with the own ball, 145 g")
    page.get_by_role("button", name="Add the own ball").click()
    expect(page.get_by_label("Ball mass, g", exact=True)).to_be_focused()
    expect(page.get_by_label("Age, years")).to_have_value("25")
    page.keyboard.type("150")
    page.keyboard.press("Enter")
    expect(page.locator(".part-next")).to_contain_text("Begin with the own ball, 150 g")
    page.get_by_role("button", name="New reference throw").click()
    expect(page.get_by_label("Speed of the reference throw, m/s")).to_be_focused()
    box = cell(page, "150", 1)
    box.fill("36")
    box.press("Enter")
    expect(page.locator(".speeds-table tbody tr")).to_have_count(1)
    page.get_by_role("button", name="Add a ball").click()
    mass = page.get_by_label("Ball mass, g, 1 to 3000 g")
    expect(mass).to_be_focused()
    page.keyboard.type("275")
    page.keyboard.press("Enter")
    expect(cell(page, "275", 1)).to_be_focused()
    page.keyboard.type("31")
    page.keyboard.press("Enter")
    expect(page.locator(SENTENCE)).to_contain_text("A1 slows down with p")


def test_new_measures_start_with_the_old_ones_which_stay(page, served_empty):
    page.goto(f"{served_empty}/athlete")
    picker = page.get_by_role("textbox", name="Athlete: type a code to find or to add one")
    picker.click()
    picker.fill("A1")
    page.get_by_role("option", name="A1: new athlete").click()
    type_in(page, "Stature, cm", "170")
    expect(page.get_by_role("button", name="Undo")).to_be_enabled()
    load_again(page)
    type_in(page, "Measured on", "2026-01-02")
    page.get_by_role("button", name="New measures today").click()
    expect(page.get_by_text("Earlier measures: 1")).to_be_visible()
    type_in(page, "Stature, cm", "174")
    page.get_by_text("Earlier measures: 1").click()
    expect(page.get_by_text("2026-01-02: stature 170 cm")).to_be_visible()
    expect(page.get_by_label("Stature, cm")).to_have_value("174")


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
