"""The map in the reader's units: what is typed, what is clicked, what stands on the axes."""

from dataclasses import replace
from datetime import date

import pytest

from app.demo import load_demo
from app.pages.map.answers import map_of
from app.pages.map.changes import clicked, first_spot
from app.pages.map.checks import check_spot, check_window
from app.pages.map.figure import map_figure
from app.pages.map.form import MapForm
from app.pages.map.meant import meant, read_written, shown, written
from app.pages.map.table import looked_table, speeds_table
from app.pages.map.words import figure_note, looked_words, notes
from app.show.added_throw import to_compare
from app.show.kept import form_for
from app.show.palette import THEMES
from app.show.throw_form import demo_form
from app.show.ticks import MOST_SPEEDS, speed_ticks
from app.units.systems import CUSTOMARY, METRIC

DAY = date(2026, 3, 1)
FORM = MapForm(ball_mass_g="275", speed_m_s="28.5", mass_from_g="80")


@pytest.fixture(scope="module")
def made():
    """The same map in both systems."""
    demo = load_demo()
    compared = demo_form(demo, demo.athlete("W01"))
    profile = form_for({}, "W01", demo, True)
    return [map_of(FORM, compared, profile, DAY, system) for system in (METRIC, CUSTOMARY)]


def test_a_throw_shown_in_other_units_is_still_the_throw():
    page = replace(FORM, **{n: shown(FORM, n, CUSTOMARY) for n in ("ball_mass_g", "speed_m_s", "mass_from_g")})
    assert (page.ball_mass_g, page.speed_m_s, page.mass_from_g) == ("9.7", "63.8", "2.82")
    assert meant(page, FORM, CUSTOMARY) == FORM
    assert meant(replace(page, speed_m_s="64"), FORM, CUSTOMARY).speed_m_s == "64\u00a0mph"


def test_what_the_fields_are_made_from_comes_back_from_the_browser():
    assert read_written(written(FORM, CUSTOMARY)) == (FORM, CUSTOMARY)
    assert read_written({"units": 4, "form": 5}) == (MapForm(), METRIC)
    assert read_written(None) == (MapForm(), METRIC)


def test_a_click_is_put_down_in_tenths_of_the_readers_units():
    where = {"mass_g": 275.0, "speed_m_s": 28.5}
    assert clicked(where) == ("275", "28.5")
    assert clicked(where, CUSTOMARY) == ("9.7\u00a0oz", "63.8\u00a0mph")


def test_the_map_is_the_same_and_the_words_around_it_are_in_the_readers_units(made):
    metric, customary = made
    assert customary.window == metric.window
    assert customary.value == metric.value
    for said in (
        looked_words,
        figure_note,
        lambda a: str(notes(a)),
        lambda a: str([*looked_table(a), speeds_table(a)]),
    ):
        words = said(customary)
        assert not any(unit in words for unit in (" m/s", " g ", " g,", " mm", " kg")), words
    assert looked_words(customary).startswith("9.7 oz at 63.8 mph, ")


def test_the_axes_run_as_before_and_their_ticks_are_in_ounces_and_miles_per_hour(made):
    metric, customary = (map_figure(answer, "log", THEMES["light"]) for answer in made)
    assert [t["x"] for t in customary["data"]] == [t["x"] for t in metric["data"]]
    mass, speed = customary["layout"]["xaxis"], customary["layout"]["yaxis"]
    assert mass["range"] == metric["layout"]["xaxis"]["range"]
    assert mass["title"]["text"] == "ball mass, oz"
    own = mass["ticktext"].index("<b>5.11</b>")
    assert mass["tickvals"][own] == pytest.approx(145.0, rel=1e-9)
    for place, text in zip(speed["tickvals"], speed["ticktext"], strict=True):
        assert place == pytest.approx(float(text) * 0.44704, rel=1e-12)
    assert "nticks" in metric["layout"]["yaxis"]


@pytest.mark.parametrize(("low", "high"), [(44.7, 89.5), (2.3, 134.0), (60.0, 63.0)])
def test_speed_ticks_are_round_inside_the_axis_and_not_too_many(low, high):
    ticks = speed_ticks(low, high)
    assert 2 <= len(ticks) <= MOST_SPEEDS
    assert all(low <= tick <= high and tick == round(tick) for tick in ticks)


def test_messages_are_in_the_readers_units(made):
    window = made[0].window
    form = MapForm(ball_mass_g="200\u00a0oz", speed_m_s="70", mass_from_g="10\u00a0oz", mass_to_g="11\u00a0oz")
    assert check_spot(form, CUSTOMARY).problems["ball_mass_g"].endswith("“200” given; accepted: 0.0353 to 105 oz.")
    said = check_window(form, window, CUSTOMARY)[1]["mass_to_g"]
    assert said == "Heaviest ball: “11 oz” given; accepted: at least 12 oz, a fifth above the other end."


def test_a_throw_typed_in_ounces_goes_to_compare_as_it_was_typed(made):
    case = made[1].case
    demo = load_demo()
    compared = demo_form(demo, demo.athlete("W01"))
    spot = check_spot(MapForm(ball_mass_g="7\u00a0oz", speed_m_s="70\u00a0mph"))
    added = to_compare(compared, spot, case)
    throw = added.form.throws[-1]
    assert (throw.ball_mass_g, throw.speed_m_s) == ("7\u00a0oz", "70\u00a0mph")
    assert added.notice.startswith("Added to Compare: 7 oz at 70.0 mph, throw 5")
    assert first_spot(case) == first_spot(made[0].case)
