"""The form behind fields that are shown in the reader's units."""

from dataclasses import replace

import pytest

from app.pages.compare.answers import compare
from app.pages.compare.sentence import headline
from app.pages.compare.words import summary
from app.show.checks import check_athlete, check_throw
from app.show.meant import ATHLETE_FIELDS, FIELDS_OF_THROW, meant, read_written, written
from app.show.throw_form import Form, ThrowForm
from app.units.systems import CUSTOMARY, METRIC


def as_shown(form: Form, system) -> Form:
    """The texts that the fields of a form show."""
    athlete = {
        name: ATHLETE_FIELDS[name].shown(text, system) if name in ATHLETE_FIELDS else text
        for name, text in form.athlete.items()
    }
    throws = tuple(
        replace(throw, **{n: field.shown(getattr(throw, n), system) for n, field in FIELDS_OF_THROW.items()})
        for throw in form.throws
    )
    return replace(form, athlete=athlete, throws=throws)


def test_the_demo_shown_in_other_units_is_still_the_demo(demo_page):
    page = as_shown(demo_page, CUSTOMARY)
    assert page.throws[0].ball_mass_g == "5.11"
    assert page.athlete["stature_cm"] == "6 ft 0 in"  # 183 cm = 72.047 in
    assert meant(page, demo_page, CUSTOMARY) == demo_page


def test_what_is_typed_over_it_has_the_unit_of_its_field(demo_page):
    page = as_shown(demo_page, CUSTOMARY)
    first = replace(page.throws[0], ball_mass_g="5.25", speed_m_s="74")
    form = meant(replace(page, throws=(first, *page.throws[1:])), demo_page, CUSTOMARY)
    assert (form.throws[0].ball_mass_g, form.throws[0].speed_m_s) == ("5.25\u00a0oz", "74\u00a0mph")
    assert form.throws[1:] == demo_page.throws[1:]
    line = check_throw(form.throws[0])
    assert line.ball.mass_kg == pytest.approx(5.25 * 0.45359237 / 16, rel=1e-12)
    assert line.speed_m_s == pytest.approx(74 * 0.44704, rel=1e-12)


def test_a_throw_that_was_not_there_before_was_typed():
    page = Form(throws=(ThrowForm("t9", "5", "2.9", "70"),))
    throw = meant(page, Form(), CUSTOMARY).throws[0]
    assert (throw.ball_mass_g, throw.ball_diameter_mm, throw.speed_m_s) == ("5\u00a0oz", "2.9\u00a0in", "70\u00a0mph")


def test_what_the_fields_are_made_from_comes_back_from_the_browser(demo_page):
    assert read_written(written(demo_page, CUSTOMARY)) == (demo_page, CUSTOMARY)


@pytest.mark.parametrize("kept", [None, 3, [], {"units": "customary"}, {"units": [], "form": 7}])
def test_whatever_the_browser_sends_is_an_empty_form(kept):
    form, system = read_written(kept)
    assert form == Form()
    assert system is (CUSTOMARY if kept == {"units": "customary"} else METRIC)


def test_the_words_are_in_the_readers_units_and_the_numbers_the_same(demo_page):
    from datetime import date

    day = date(2026, 3, 1)
    metric, customary = (compare(demo_page, day, system=system) for system in (METRIC, CUSTOMARY))
    assert str(headline(metric, "")[0]).startswith("275 g at 28.5 m/s against 145 g at 33.0 m/s (measured): ")
    # 275 g = 9.700 oz, 28.5 m/s = 63.753 mph, 145 g = 5.115 oz, 33 m/s = 73.819 mph
    assert str(headline(customary, "")[0]).startswith("9.7 oz at 63.8 mph against 5.11 oz at 73.8 mph (measured): ")
    assert headline(customary, "")[0].says == headline(metric, "")[0].says
    assert "6 ft 0 in · 185.2 lb" in summary(customary)  # 84 kg = 185.19 lb
    assert [a.readouts for a in customary.answers] == [a.readouts for a in metric.answers]


def test_messages_name_the_range_in_the_readers_units_and_what_was_typed(demo_page):
    from datetime import date

    wrong = replace(demo_page.throws[0], ball_mass_g="500\u00a0oz", speed_m_s="74 oz\u00a0mph")
    form = replace(demo_page, throws=(wrong, *demo_page.throws[1:]))
    problems = compare(form, date(2026, 3, 1), system=CUSTOMARY).problems()["t1"]
    assert problems["ball_mass_g"] == "Ball mass: “500” given; accepted: 0.0353 to 105 oz."
    assert problems["speed_m_s"].startswith("Release speed: “74 oz” given; accepted: 2.24 to 134 mph")
    person = check_athlete(demo_page.athlete | {"stature_cm": "9 ft 1 in"}, CUSTOMARY)
    assert person.problems["stature_cm"].endswith("accepted: 2 ft 11.5 in to 7 ft 6.5 in.")
