"""How long the structural band takes: eight throws in everything, one throw's band, and one throw moved among eight.

    python -m pytest -n 0 -s tests/benchmarks/bench_band.py

Wanted: 2 048 draws of eight throws in the four sizes of seven main readings under 0.4 s; 5, 50 and 95 % of one throw
under 30 ms; one of eight throws changed under 50 ms.
"""

from itertools import count

from app.commands.readout_columns import MAIN as READ
from model.ball import Ball
from model.body_spread import drawn_products
from model.drawn_throws import Subject, Thrown, _read_exact
from model.person import Person
from model.structural_band import MAIN, differences, levels

SUBJECT = Subject(Person("male", 1.88, 90.0, 25.0), Ball(0.145), 37.0)
MASSES_G = (95, 125, 145, 160, 210, 275, 360, 470)
THROWS = [Thrown(Ball(grams / 1000.0), 38.0 - 0.03 * grams) for grams in MASSES_G]
SIZES = [(reading, readout) for reading in READ for readout in ("peak", "loaded_s", "rise_rate", "area")]


def afresh() -> None:
    _read_exact.cache_clear()


def test_eight_throws_in_seven_readings(benchmark) -> None:
    found = benchmark.pedantic(
        differences, (SUBJECT, THROWS, THROWS[2], SIZES), setup=afresh, rounds=5, warmup_rounds=1
    )
    assert len(found) == 8


def test_one_of_eight_throws_is_moved(benchmark) -> None:
    differences(SUBJECT, THROWS, THROWS[2])
    steps = count(1)

    def move() -> None:
        moved = Thrown(Ball(0.275), 28.0 + 0.001 * next(steps))
        differences(SUBJECT, [*THROWS[:5], moved, *THROWS[6:]], THROWS[2])

    benchmark.pedantic(move, rounds=20, warmup_rounds=1)


def test_the_band_of_one_throw(benchmark) -> None:
    found = benchmark.pedantic(levels, (SUBJECT, THROWS[5], MAIN), setup=afresh, rounds=20, warmup_rounds=1)
    assert found["varus", "peak"].low > 0.0


def test_another_athletes_arm_drawn_afresh(benchmark) -> None:
    def draw() -> None:
        drawn_products.cache_clear()
        _read_exact.cache_clear()
        levels(SUBJECT, THROWS[5], MAIN)

    benchmark.pedantic(draw, rounds=10, warmup_rounds=1)
