"""The figure that is taken along: it is whole, says what it shows, and names nobody."""

import json
from dataclasses import replace
from datetime import date

import plotly.graph_objects as go
import pytest

from app.pages.compare.along.image import foot, heading, image_of
from app.pages.compare.answers import Thrower
from app.pages.compare.picture import figure_of
from app.show.cautions import CAUTIONS
from app.show.palette import THEMES
from app.version import VERSION
from model.person import Person

DAY = date(2026, 3, 1)
GIRL = Person("female", 1.57, 46.5, 13.0)


def test_it_is_a_figure_of_all_throws_on_white_with_room_for_its_words(compare_on):
    comparison = compare_on()
    made = image_of(comparison, DAY, invented={""})
    go.Figure(made)  # refuses what Plotly does not know
    assert len(made["data"]) == 5  # four curves and the words
    assert made["layout"]["template"]["layout"]["paper_bgcolor"] == "#ffffff"
    lines = made["layout"]["annotations"][0]["text"].count("<br>") + 1
    margin, height = made["layout"]["margin"], made["layout"]["height"]
    assert margin["b"] >= 44 + 14 * lines  # the axis' own words, and the foot at 14 px a line
    alone = figure_of(comparison, THEMES["print"], narrow=False)["layout"]
    of_curves = alone["height"] - alone["margin"]["t"] - alone["margin"]["b"]
    assert height - margin["t"] - margin["b"] == pytest.approx(of_curves)  # the words take nothing from the curves


def test_the_title_names_code_quantity_and_unit(make_answer, make_comparison):
    shown = make_comparison(make_answer(1, reference=True), quantity="shoulder_proximal")
    assert heading(shown) == "X1 · Shoulder proximal force, N against time"
    nameless = replace(shown, throwers=shown.throwers | {"": Thrower("")})
    assert heading(nameless) == "Shoulder proximal force, N against time"


def test_the_foot_holds_reference_cautions_day_and_version_and_says_what_is_invented(make_answer, make_comparison):
    shown = make_comparison(make_answer(1, reference=True))
    said = " ".join(foot(shown, DAY, invented={""}))
    for part in (
        "Dashed: the reference, 145 g at 33.0 m/s, measured 2026-01-13.",
        *CAUTIONS,
        f"{VERSION} · 2026-03-01",
    ):
        assert part in said
    assert said.startswith("Invented demo data")
    assert "nvented" not in " ".join(foot(shown, DAY, invented=()))


def test_a_growing_throwers_figure_brings_its_caution_and_no_measure(make_answer, make_comparison):
    shown = make_comparison(make_answer(1, person=GIRL, reference=True), person=GIRL)
    made = image_of(shown, DAY, invented=())
    said = " ".join(foot(shown, DAY, invented=()))
    assert "24 % of the group with weighted balls" in said
    assert "The path comes from adult men." in said
    words = json.dumps([made["layout"]["title"], made["layout"]["annotations"], made["data"][-1]["text"]])
    for measure in ("157", "46.5", "13 years", "female"):
        assert measure not in words


@pytest.mark.parametrize("code", ["<b>x</b>", '<a href="https://x">x</a>', "&lt;"])
def test_a_code_is_written_never_read_as_markup(make_answer, make_comparison, code):
    shown = make_comparison(make_answer(1, reference=True))
    named = replace(shown, throwers=shown.throwers | {"": Thrower(code)})
    title = image_of(named, DAY, invented=())["layout"]["title"]["text"]
    assert "<" not in title
    assert title.count("&") >= code.count("<") + code.count("&")


def test_the_title_says_what_the_curves_are_measured_in(make_answer, make_comparison):
    shown = make_comparison(make_answer(1, reference=True))
    scaled = {scale: heading(replace(shown, scale=scale)) for scale in ("plain", "reference", "bwh")}
    assert {scale: title.removeprefix("X1 · Varus torque at the elbow, ") for scale, title in scaled.items()} == {
        "plain": "N·m against time",
        "reference": "% of the reference’s peak against time",
        "bwh": "%BW·H against time",
    }
