"""Typed texts: what is read, what is refused with which words, and what a field shows of it again."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.records.field_list import FIELDS, SETTINGS, as_kept, field_of, from_kept
from app.records.fields import in_words
from app.records.tables import KEPT, LINKS
from app.units.systems import CUSTOMARY, METRIC, SYSTEMS
from model.checks import InputError

NUMBERS = [one for one in (*FIELDS.values(), *SETTINGS.values()) if one.kind == "number"]
TODAY = date(2026, 3, 2)


@pytest.mark.parametrize(
    ("path", "text", "value", "typed"),
    [
        ("measures.stature_m", "188", 1.88, ""),
        ("measures.stature_m", " 188 ", 1.88, ""),
        ("measures.stature_m", "6 ft 2 in", 74 * 0.0254, "6 ft 2 in"),
        ("measures.body_mass_kg", "84,5", 84.5, "84,5"),
        ("measures.body_mass_kg", "84.50", 84.5, "84.50"),
        ("measures.age_years", "20 years", 20.0, ""),
        ("ball.mass_kg", "5 oz", 5 * 0.028349523125, "5 oz"),
        ("reading.asked_effort", "75 %", 0.75, ""),
        ("profile.radar_angle_deg", "25°", 25.0, ""),
        ("limits.amount", "75", 0.75, ""),
    ],
)
def test_a_number_is_read_as_it_is_typed(path, text, value, typed):
    parsed = field_of(path).parse(text)
    assert parsed.value == pytest.approx(value, rel=1e-15)
    assert parsed.typed == typed


@pytest.mark.parametrize(
    "text", ["nan", "inf", "1e3", "1_000", "1,000.5", "1 000", "0x10", "٣", "--5", "5 lbs of", "True"]
)
def test_what_is_no_plain_number_is_refused(text):
    with pytest.raises(InputError, match="plain number with a point or a comma"):
        field_of("reading.speed_m_s").parse(text)


def test_a_refusal_names_the_field_the_value_and_the_range_in_the_readers_units():
    with pytest.raises(InputError) as error:
        field_of("measures.body_mass_kg").parse("9")
    assert in_words(error.value) == "Body mass: “9” given; accepted: 12 to 200 kg."
    with pytest.raises(InputError) as error:
        field_of("measures.stature_m").parse("9", CUSTOMARY)
    assert in_words(error.value) == "Stature: “9” given; accepted: 2 ft 11.5 in to 7 ft 6.5 in."
    with pytest.raises(InputError) as error:
        field_of("reading.speed_m_s").parse("x" * 100)
    assert in_words(error.value).startswith(f"Reading: “{'x' * 23}…” given")


@pytest.mark.parametrize("field", NUMBERS, ids=lambda one: one.path)
@given(share=st.floats(0.0, 1.0))
def test_a_value_is_kept_without_loss_and_shown_unchanged_is_not_typed(field, share):
    value = field.of.low + share * (field.of.high - field.of.low)
    kept = field.kept(value)
    assert field.parse(kept).value == pytest.approx(value, rel=1e-15)
    for system in SYSTEMS:
        shown = field.shown(value, "", system)
        assert field.parse(shown, system, before=kept).value == pytest.approx(value, rel=1e-15)


@pytest.mark.parametrize("field", NUMBERS, ids=lambda one: one.path)
@pytest.mark.parametrize("system", SYSTEMS, ids=lambda one: one.key)
def test_both_ends_of_the_accepted_range_are_accepted_as_they_are_told(field, system):
    for end in field.accepted(system).split(" to "):
        assert field.parse(end.strip(), system).value is not None


def test_a_number_in_the_readers_unit_is_shown_again_as_it_was_typed():
    field = field_of("reading.speed_m_s")
    parsed = field.parse("75,5", CUSTOMARY)
    assert field.shown(parsed.value, parsed.typed, CUSTOMARY) == "75,5"
    assert field.shown(parsed.value, parsed.typed, METRIC) == "33.75"
    assert field.told(parsed.value, parsed.typed, CUSTOMARY) == "75.5 mph"


def test_the_unit_of_a_number_follows_its_row():
    assert field_of("throw.number", {"hold": "clock"}).parse("95").value == 0.95
    assert field_of("throw.number", {"hold": "speed"}).parse("28").value == 28.0
    assert field_of("limits.amount", {"key": "least_loaded", "counted": "absolute"}).parse("30").value == 0.03
    assert field_of("comparison.above", {"quantity": "elbow_proximal"}).unit == "N"
    assert field_of("start.wanted_peak", {"start.wanted_peak_counted": "absolute"}).parse("60").value == 60.0


@pytest.mark.parametrize(
    "text", ["2026-02-30", "26-02-03", "2026-2-3", "3.2.2026", "2026-03-04", "1989-12-31", "today"]
)
def test_a_day_is_year_month_day_and_not_to_come(text):
    with pytest.raises(InputError, match="year-month-day from 1990-01-01 to 2026-03-02"):
        field_of("reading.day").parse(text, today=TODAY)


def test_today_by_any_clock_on_earth_is_accepted():
    field_of("reading.day").parse((date.today() + timedelta(days=1)).isoformat())


def test_choices_and_flags_are_what_they_are_called():
    assert field_of("athlete.sex").parse("female").value == "female"
    with pytest.raises(InputError, match="male or female"):
        field_of("athlete.sex").parse("woman")
    assert [field_of("athlete.still_growing").parse(text).value for text in ("yes", "no", "")] == [True, False, None]


def test_texts_are_trimmed_and_printable_and_notes_may_have_lines():
    assert field_of("ball.name").parse("  grün  ").value == "grün"
    assert field_of("note.text").parse("one\ntwo").value == "one\ntwo"
    for wrong in ("a\nb", "a\x00", "\ud800", "x" * 61):
        with pytest.raises(InputError, match="printable characters"):
            field_of("ball.name").parse(wrong)
    with pytest.raises(InputError, match="printable characters"):
        field_of("note.text").parse("a\x00b")


def test_every_column_that_people_fill_has_its_field():
    beside = {
        "id",
        "uid",
        "athlete_id",
        "typed",
        "draft",
        "archived_at",
        "opened_at",
        "created",
        "version",
        "compacted",
    }
    beside |= {"invented", "comparison_id", "plan_id"}
    lacking = []
    for name, table in KEPT.items():
        if name == "setting":
            continue
        for column in table.__table__.columns:
            path = f"{name}.{column.name.removesuffix('_id') if column.name in LINKS else column.name}"
            if column.name not in beside:
                try:
                    field_of(path)
                except InputError:
                    lacking.append(path)
    assert lacking == []


def test_what_there_is_not_is_named():
    with pytest.raises(InputError, match=r"measures\.shoe"):
        field_of("measures.shoe")


def test_days_are_kept_as_text_in_json():
    field = field_of("profile.since")
    assert from_kept(field, as_kept(field, TODAY)) == TODAY
