"""The page in words: the headline first, every row of the table, and what the band says of itself."""

import pytest
from dash import html

from app.pages.trust.answers import compared, of_band
from app.pages.trust.callbacks import fill_band, fill_table
from app.pages.trust.page import layout
from app.pages.trust.view import band_part, headline, table_part
from app.pages.trust.words import GROUPS, WAITING
from app.show.certainty_words import tenths
from app.show.check_words import agreement_words, no_proof_words, spread_words
from app.show.markup import to_html
from app.units.systems import CUSTOMARY, METRIC
from model.check_table import check_table

ROWS = compared()
TABLE = to_html(table_part(ROWS, METRIC))
BAND = to_html(band_part(of_band(), METRIC))


def test_it_is_the_table_that_the_command_prints():
    assert [(row.what, row.sources) for row in ROWS] == [(row.what, row.sources) for row in check_table()]
    assert TABLE.count("<tr") == len(ROWS) + len(GROUPS)  # a line of names above each group
    assert {row.group for row in ROWS} == set(GROUPS)


def test_the_headline_says_first_how_many_lie_within_one_spread_within_two_and_beyond():
    said = to_html(headline(ROWS))
    assert said.index(spread_words(ROWS)) < said.index(agreement_words(ROWS)) < said.index("<table")


def test_failures_stand_as_plainly_as_successes_and_what_proves_nothing_says_so():
    assert TABLE.count("does not agree: ") == sum(row.agrees is False for row in ROWS)
    assert TABLE.count("agrees: ") == sum(row.agrees is True for row in ROWS)
    assert TABLE.count("so no proof") == sum(bool(no_proof_words(row)) for row in ROWS)
    assert "79.2 ± 16.9 N·m" in TABLE
    assert "Solomito 2013, found" in TABLE
    assert "13.4 Hz, recalled" in TABLE


def test_masses_and_speeds_stand_in_the_readers_units():
    told = to_html(table_part(ROWS, CUSTOMARY))
    assert "Varus torque, 5.01 against 3.99 oz" in told
    assert " m/s" not in told
    assert "male, 25 years, 6 ft 2 in, 198.4 lb; 5.11 oz at 82.8 mph" in told  # 1.88 m, 90 kg, 145 g, 37 m/s


def test_each_check_of_a_difference_says_whether_the_band_was_made_with_it():
    assert BAND.count("used in making the band, so no proof") == 2
    assert BAND.count("; not used") == 3
    assert "\u221219 % (Fiegen 2023, found)" in BAND
    assert "not known, within ±10 %" in BAND


def test_the_band_tells_its_own_story():
    story = of_band().story
    for said in (f"So {story.solved} throws", f"{story.sensible} came out", f"{story.fitted} of those"):
        assert said in BAND
    assert "at least 85 of 100" in BAND
    assert "lighter than 95 g, heavier than 470 g, or slower than 61 %" in BAND  # e^-0.5
    assert "3.35 oz" in to_html(band_part(of_band(), CUSTOMARY))  # 95 / 28.35


@pytest.mark.parametrize(
    ("probability", "said"),
    [(0.89, "about nine in ten"), (0.95, "about nine in ten"), (0.951, "more than nine in ten"), (0.52, "about five")],
)
def test_probabilities_are_said_in_tenths(probability, said):
    assert tenths(probability).startswith(said)


def test_the_page_stands_before_anything_is_computed_and_needs_nobody(app, visit):
    *parts, _, _ = layout(visit).children  # the last two bring what is computed
    made = to_html(html.Div(parts))
    assert WAITING in made
    assert "Solomito" not in made
    for said in ("Not in the model", "Equations", "Angles and frames", "Cautions", "shoulder blade does not move"):
        assert said in made
    assert "Some measures are missing" not in made


def test_the_callbacks_fill_it_also_without_an_athlete(app):
    first, table = fill_table("", {})
    assert "SD of print" in to_html(first)
    assert to_html(table) == TABLE
    assert to_html(fill_band("", {})) == BAND
