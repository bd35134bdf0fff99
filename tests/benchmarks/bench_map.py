"""How long the Map page takes: `pytest tests/benchmarks/bench_map.py`. The model's map alone is in `bench_level.py`."""

from dataclasses import replace
from datetime import date

import pytest

from app.demo import load_demo
from app.pages.map import answers
from app.pages.map.figure import map_figure
from app.pages.map.form import MapForm
from app.show.from_records import case_from_forms
from app.show.palette import THEMES
from model.quantity import READOUTS
from tests.app.typed_forms import demo_form, readings_form

DEMO = load_demo()
TODAY = date(2026, 3, 1)
COMPARED = demo_form(DEMO, DEMO.athletes[0])
CASE = case_from_forms(COMPARED, readings_form(DEMO, DEMO.athletes[0].athlete), TODAY)
FORM = MapForm(ball_mass_g="275", speed_m_s="28.5")


def work_out(form: MapForm) -> answers.MapAnswer:
    return answers.map_of(form, CASE)


@pytest.mark.parametrize("readout", READOUTS)
def test_a_map_never_drawn_before(benchmark, readout):
    def afresh() -> None:
        for kept in (answers._contour, answers._grid, answers._full_speeds):
            kept.cache_clear()

    made = benchmark.pedantic(work_out, (replace(FORM, readout=readout),), setup=afresh, rounds=5)
    assert made.contours


def test_another_throw_on_the_same_map(benchmark):  # what an arrow key costs
    work_out(FORM)
    assert benchmark(work_out, replace(FORM, speed_m_s="29")).looked


def test_the_figure(benchmark):
    answer = work_out(FORM)
    assert benchmark(map_figure, answer, "log", THEMES["light"])["data"]
