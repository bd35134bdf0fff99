"""The table of readings: what stands in it, and that it can be read by ear."""

import math

import pytest
from dash import html

from app.pages.compare.table import columns, table
from app.show.numbers import difference, number


def cells(made) -> list[list[str]]:
    """The table's text, line by line, its lines parted by a bar."""

    def said(cell) -> str:
        parts = cell.children if isinstance(cell.children, list) else [cell.children]
        return "|".join(str(getattr(part, "children", part)) for part in parts).replace("\n", "|").lstrip("|")

    return [[said(cell) for cell in row.children] for row in made._traverse() if isinstance(row, html.Tr)]


def test_each_reading_stands_in_plain_units_and_in_per_cent_of_the_reference_with_its_kind(
    make_answer, make_comparison
):
    reference = make_answer(1, reference=True)
    heavy = make_answer(
        2, 0.275, 28.5, peak=72.0, peak_before_release_s=0.030, loaded_s=0.115, above_s=0.030, area=5.2, rise_rate=890.0
    )
    rows = cells(table(make_comparison(reference, heavy)))
    # %BW·H: 100 * 80 / (90 * 9.80665 * 1.88) = 4.82, and nine tenths of it
    assert rows[1] == [
        "145 g at 33.0 m/s|reference, measured",
        "80.0",
        "4.8",
        "26",
        "100",
        "60",
        "67",
        "5.00",
        "1\u202f000",
    ]
    assert rows[2] == [
        "275 g at 28.5 m/s",
        "72.0|−8.0|90 % of measured",
        "4.3",
        "30",
        "115|+15|115 % of measured",
        "30|−30|50 % of measured",
        "67|0|100 % of measured",
        "5.20|+0.20|104 % of measured",
        "890|−110|89 % of measured",
    ]


def test_the_head_names_unit_and_meaning_of_each_column(make_answer, make_comparison):
    head = cells(table(make_comparison(make_answer(1, reference=True))))[0]
    assert head == [
        "Throw",
        "Peak|N·m|largest value",
        "Peak|%BW·H|of body weight × height",
        "When|ms before release|±7 ms at full speed",
        "Time loaded|ms|above 10 % of own peak",
        "Time above|ms|above 40 N·m",
        "Half-height width|ms|above half of own peak",
        "Area|N·m·s|angular impulse, not work",
        "Rise rate|N·m/s|from 10 % to 90 % of peak",
    ]


def test_a_force_has_no_body_weight_times_height_and_its_own_units(make_answer, make_comparison):
    heads = [
        (column.head, column.unit) for column in columns(make_comparison(make_answer(), quantity="elbow_proximal"))
    ]
    assert ("Peak", "N") in heads
    assert ("Area", "N·s") in heads
    assert ("Rise rate", "N/s") in heads
    assert ("Peak", "%BW·H") not in heads


def test_work_stands_there_only_where_it_is_defined(make_answer, make_comparison):
    assert "J" not in [column.unit for column in columns(make_comparison(make_answer()))]
    working = make_comparison(make_answer(work_in_j=-5.0, work_out_j=20.0))
    assert [column.head for column in columns(working) if column.unit == "J"] == ["Work given out", "Work taken in"]


def test_a_reading_that_is_not_defined_says_so_and_has_no_per_cent(make_answer, make_comparison):
    rows = cells(table(make_comparison(make_answer(1, reference=True), make_answer(2, rise_rate=math.nan))))
    assert rows[2][-1] == "not defined"


def test_no_per_cent_of_a_reading_that_is_zero(make_answer, make_comparison):
    rows = cells(table(make_comparison(make_answer(1, reference=True, above_s=0.0), make_answer(2))))
    assert rows[2][5] == "60|+60|no per cent"


def test_a_peak_after_release_says_after(make_answer, make_comparison):
    rows = cells(table(make_comparison(make_answer(1, reference=True, peak_before_release_s=-0.015))))
    assert rows[1][3] == "15 after"


def test_a_peak_at_the_edge_of_the_window_is_marked(make_answer, make_comparison):
    rows = cells(table(make_comparison(make_answer(1, reference=True, peak_at_edge=True))))
    assert rows[1][1] == "80.0|at the edge of what is read"


def test_the_caption_names_quantity_window_and_reference(make_answer, make_comparison, text):
    made = table(make_comparison(make_answer(1, reference=True)))
    (caption,) = (part for part in made._traverse() if isinstance(part, html.Caption))
    assert text(caption) == (
        "Varus torque at the elbow, read from foot contact to release. "
        "Difference to, and per cent of, the reference: 145 g at 33.0 m/s, measured 2026-01-13."
    )


@pytest.mark.parametrize(("sex", "age"), [("female", 25.0), ("male", 13.0)])
def test_the_caption_says_whose_path_it_is_for_all_but_adult_men(make_answer, make_comparison, text, sex, age):
    from model.person import Person

    person = Person(sex, 1.6, 55.0, age)
    made = table(make_comparison(make_answer(1, reference=True, person=person), person=person))
    assert "The path comes from adult men." in text(made)


def test_without_a_reference_there_is_no_per_cent_and_the_caption_says_why(make_answer, make_comparison, text):
    made = table(make_comparison(make_answer(1), make_answer(2)))
    assert "No per cent: the reference throw has no curve." in text(made)
    assert "% of" not in "".join(cell for row in cells(made)[1:] for cell in row)


def test_headings_have_their_scopes_and_the_scrolling_region_its_name(make_answer, make_comparison):
    made = table(make_comparison(make_answer(1, reference=True)))
    headings = [part for part in made._traverse() if isinstance(part, html.Th)]
    assert {heading.scope for heading in headings} == {"col", "row"}
    assert made.tabIndex == 0
    assert getattr(made, "aria-label")


def test_no_curve_no_table(make_comparison):
    assert table(make_comparison()) is None


@pytest.mark.parametrize(
    ("value", "places", "written"),
    [(4.87, 1, "+4.9"), (-4.87, 1, "−4.9"), (-0.04, 1, "0.0"), (0.04, 1, "0.0"), (-1482.3, 0, "−1\u202f482")],
)
def test_a_difference_has_its_sign_and_zero_has_none(value, places, written):
    assert difference(value, places) == written


def test_numbers_have_thin_spaces_and_a_real_minus():
    assert number(25561.0, 0) == "25\u202f561"
    assert number(-5.24, 1) == "\u22125.2"


def test_on_paper_a_line_under_the_table_says_what_each_column_is(make_answer, make_comparison, text):
    made = table(make_comparison(make_answer(1, reference=True)))
    (line,) = (part for part in made._traverse() if isinstance(part, html.P))
    assert "paper-only" in line.className
    assert text(line) == (
        "Peak, N·m: largest value · Peak, %BW·H: of body weight × height · When: ±7 ms at full speed · "
        "Time loaded: above 10 % of own peak · Time above: above 40 N·m · Half-height width: above half of own peak · "
        "Area: angular impulse, not work · Rise rate: from 10 % to 90 % of peak."
    )
