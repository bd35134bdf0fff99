"""How long the Map page takes: `pytest tests/benchmarks/bench_map.py`. The model's map alone is in `bench_level.py`."""

import pytest

from app.pages.map import answers
from app.pages.map.figure import map_figure
from app.show.palette import THEMES
from model.quantity import READOUTS
from tests.app.kept_demo import kept
from tests.app.known import TODAY, with_settings

DATA = kept()
THROW = {"map.ball_mass_kg": 0.275, "map.ball_speed_m_s": 28.5}


def work_out(**settings: object) -> answers.MapAnswer:
    return answers.map_of(with_settings(DATA, THROW | settings), TODAY)


@pytest.mark.parametrize("readout", READOUTS)
def test_a_map_never_drawn_before(benchmark, readout):
    def afresh() -> None:
        for cached in (answers._contour, answers._grid, answers._full_speeds):
            cached.cache_clear()

    settings = {"map.readout": readout}
    made = benchmark.pedantic(work_out, kwargs=settings, setup=afresh, rounds=5)
    assert made.contours


def test_another_throw_on_the_same_map(benchmark):  # what an arrow key costs
    work_out()
    settings = {"map.ball_speed_m_s": 29.0}
    assert benchmark(work_out, **settings).looked


def test_the_figure(benchmark):
    answer = work_out()
    assert benchmark(map_figure, answer, THEMES["light"])["data"]
