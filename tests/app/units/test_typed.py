"""Typed numbers with and without units: what is read, what is shown, and that no switch changes what was typed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.units.systems import CUSTOMARY, METRIC
from app.units.typed import as_typed, kept_text, read_typed, shown_text

SHOWN = {"g": "oz", "mm": "in", "m/s": "mph", "kg": "lb", "m": "ft", "cm": "ft in", "%": "%", "years": "years"}


@pytest.mark.parametrize(
    ("text", "metric", "si"),
    [
        ("145", "g", 0.145),
        ("5 oz", "g", 5 * 0.45359237 / 16),
        ("5,25oz", "g", 5.25 * 0.45359237 / 16),
        ("0.145 kg", "g", 0.145),
        ("74 MPH", "m/s", 74 * 0.44704),
        ("185 lbs", "kg", 185 * 0.45359237),
        ("2.87 in", "mm", 2.87 * 0.0254),
        ("6 ft 2 in", "cm", 74 * 0.0254),
        ("6'2\"", "cm", 74 * 0.0254),
        ("6\u2032 2.5\u2033", "cm", 74.5 * 0.0254),
        ("6 ft", "cm", 72 * 0.0254),
        ("1.88 m", "cm", 1.88),
    ],
)
def test_a_number_is_read_with_its_unit(text, metric, si):
    assert read_typed(text, metric).si == pytest.approx(si, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "metric"),
    [("5 oz", "m/s"), ("74 mph", "g"), ("6 ft 2 in", "kg"), ("6 ft 13 in", "cm"), ("5 stone", "kg"), ("100 %", "%")]
    + [(text, "g") for text in ("", "oz", "5 5 oz", "5 oz oz", "1.234,5 oz", "nan oz", "1e3 g", "٢ g")],
)
def test_a_unit_of_another_kind_or_no_number_is_not_read(text, metric):
    assert read_typed(text, metric) is None


@pytest.mark.parametrize(
    ("kept", "metric", "shown", "text"),
    [
        ("145", "g", "oz", "5.11"),  # 145 / 28.3495 = 5.1147
        ("33.0", "m/s", "mph", "73.8"),  # 33 / 0.44704 = 73.819
        ("188", "cm", "ft in", "6 ft 2 in"),  # 74.016 in
        ("33.0", "m/s", "m/s", "33.0"),
        ("5.25\u00a0oz", "g", "oz", "5.25"),
        ("5.25\u00a0oz", "g", "g", "148.8"),  # 5.25 * 28.3495 = 148.835
        ("5.25 oz", "g", "oz", "5.25 oz"),  # typed with its unit
        ("74\u00a0mph", "m/s", "m/s", "33.08"),  # 74 * 0.44704 = 33.0810
        ("6'2\"", "cm", "ft in", "6'2\""),
        ("6'2\"", "cm", "cm", "188"),  # 187.96
        ("abc\u00a0oz", "g", "g", "abc"),
        ("25", "years", "years", "25"),
        ("", "g", "oz", ""),
    ],
)
def test_a_field_shows_what_was_typed_in_its_units_and_converts_the_rest(kept, metric, shown, text):
    assert shown_text(kept, metric, shown) == text


@pytest.mark.parametrize(
    ("text", "before", "kept"),
    [
        ("5.11", "145", "145"),  # still shown, not typed
        ("5.25", "145", "5.25\u00a0oz"),
        ("5.25 oz", "145", "5.25 oz"),
        ("150 g", "145", "150 g"),
        ("", "145", ""),
        (" ", "145", " "),
        ("abc", "145", "abc\u00a0oz"),
        ("74 mph", "145", "74 mph\u00a0oz"),
    ],
)
def test_a_new_text_gets_the_unit_beside_its_field(text, before, kept):
    assert kept_text(text, before, "g", "oz") == kept
    assert as_typed(kept) == (before if text == "5.11" else text)


def test_in_metric_units_a_text_is_kept_as_it_is():
    assert kept_text("28,5", "", "m/s", "m/s") == "28,5"


def test_bare_inches_of_a_height_are_inches():
    kept = kept_text("74", "188", "cm", "ft in")
    assert read_typed(kept, "cm").si == pytest.approx(74 * 0.0254, rel=1e-12)
    assert shown_text(kept, "cm", "ft in") == "74"


TEXTS = st.one_of(
    st.text(max_size=12),
    st.from_regex(r"[0-9]{1,3}([.,][0-9]{0,3})?( ?(oz|g|kg|lb|mph|m/s|in|cm|ft))?", fullmatch=True),
    st.from_regex(r"[4-7] ?(ft|') ?(1?[0-9])(\.5)? ?(in|\")?", fullmatch=True),
)


@given(
    metric=st.sampled_from(sorted(SHOWN)),
    typed=TEXTS,
    systems=st.lists(st.booleans(), min_size=1, max_size=6),
    start=st.booleans(),
)
def test_no_sequence_of_switches_changes_what_is_kept(metric, typed, systems, start):
    units = (metric, SHOWN[metric])
    kept = kept_text(typed, "", metric, units[start])
    for system in systems:
        page = shown_text(kept, metric, units[system])
        assert kept_text(page, kept, metric, units[system]) == kept


NUMBERS = st.from_regex(r"[0-9]{1,3}([.,][0-9]{0,3})?", fullmatch=True)


@given(metric=st.sampled_from(sorted(SHOWN)), typed=NUMBERS, start=st.booleans(), switches=st.integers(0, 5))
def test_a_number_stands_again_as_it_was_typed_in_its_own_units(metric, typed, start, switches):
    units = (metric, SHOWN[metric])
    kept, system = kept_text(typed, "", metric, units[start]), start
    for _ in range(2 * switches):
        system = not system
        kept = kept_text(shown_text(kept, metric, units[system]), kept, metric, units[system])
    assert system is start
    assert shown_text(kept, metric, units[start]) == typed


@given(metric=st.sampled_from(["g", "m/s", "mm", "kg", "m", "cm"]), number=st.floats(1.0, 500.0))
def test_what_a_field_shows_converted_is_near_what_is_meant(metric, number):
    kept = f"{number:.3f}"
    shown = SHOWN[metric]
    read = read_typed(kept_text(shown_text(kept, metric, shown), "", metric, shown), metric)
    size = CUSTOMARY.value(read_typed(kept, metric).si, metric) if shown != "ft in" else 0.0
    # half of the last decimal shown: 0.005 oz, 0.005 in, 0.05 in, lb, ft and mph
    half = {"oz": 0.005, "in": 0.005}.get(shown, 0.05)
    if shown == "ft in":
        assert read.si / 0.0254 == pytest.approx(read_typed(kept, metric).si / 0.0254, abs=half + 1e-9)
    else:
        assert CUSTOMARY.value(read.si, metric) == pytest.approx(size, abs=half + 1e-9)
    assert METRIC.unit(metric) == metric
