"""How long the speed profile, the level lines and the map take: `pytest tests/benchmarks/bench_level.py`."""

import numpy as np
import pytest

from model.level import equal_load_speeds
from model.load_map import load_map
from model.next_reading import next_readings
from model.quantity import READOUTS, Quantity
from model.speed import fit
from model.speed_check import check_points
from model.throw import path_loads
from tests.model.speed_cases import ADULT, MU_KG, OWN, RACK, REFERENCE, level_line, throws_of

MASS_KG = np.linspace(0.05, 1.0, 200)
SPEED_M_S = np.linspace(10.0, 45.0, 200)
FORTY = throws_of(np.random.default_rng(1), np.resize([0.095, 0.145, 0.275, 0.470], 40), 36.0, 0.6, 0.02)


@pytest.mark.parametrize("readout", READOUTS)
def test_a_map_of_two_hundred_by_two_hundred(benchmark, readout):  # the peak: 50 ms at most
    benchmark(load_map, path_loads(ADULT, OWN.diameter_m), Quantity("varus", readout), MASS_KG, SPEED_M_S)


def test_a_level_line_over_sixty_masses(benchmark):
    benchmark(level_line, REFERENCE, Quantity(), np.linspace(0.08, 0.6, 60))


def test_a_fit_to_forty_readings(benchmark):  # a few ms
    benchmark(fit, FORTY, 0.145, MU_KG)


def test_the_band_of_a_profile_over_sixty_masses(benchmark):
    benchmark(fit(FORTY, 0.145, MU_KG).mean_speed, np.linspace(0.08, 0.6, 60))


def test_checking_forty_readings(benchmark):
    benchmark(check_points, fit(FORTY, 0.145, MU_KG))


def test_a_card_of_equal_load_speeds(benchmark):
    benchmark(equal_load_speeds, ADULT, OWN, Quantity(), RACK, profile=fit(FORTY, 0.145, MU_KG), share=0.8)


def test_the_next_reading_over_a_rack(benchmark):
    benchmark(next_readings, fit(FORTY, 0.145, MU_KG), RACK)
