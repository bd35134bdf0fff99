"""How long many throws take: 100 000 rows with 1 000 arms, and rows whose arms all differ.

Not run with the tests (a time depends on the machine and on what else it does):

    python -m pytest tests/benchmarks/bench_readouts.py -s
    python tests/benchmarks/bench_readouts.py 100000 100000      # rows and arms: the whole command, with its memory

What is wanted of 100 000 rows with up to 1 000 arms: under 20 s and 1 GiB.
"""

import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import pytest

from app.commands.readout_columns import MAIN
from model.ball import Ball
from model.batch import read_throws
from model.person import Person
from model.readouts import read_curves
from model.throw import Throw, curves

HEADER = "athlete,sex,age_years,stature_cm,body_mass_kg,ball_mass_g,ball_diameter_mm,speed_m_s,forearm_length_cm"
MASSES_G = (95, 125, 145, 160, 210, 275, 360, 470)


def invented_table(rows: int, arms: int) -> str:
    """A table of invented throws."""
    draw = random.Random(5)
    people = []
    for i in range(arms):
        sex, age_years = draw.choice(("male", "female")), draw.randint(10, 40)
        people.append(f"{sex},{age_years},{140 + 60 * i / arms:.4f},{draw.uniform(40, 100):.2f}")
    lines = [HEADER]
    for i in range(rows):
        arm = i % arms
        lines.append(f"P{arm},{people[arm]},{draw.choice(MASSES_G)},,{draw.uniform(14, 38):.1f},")
    return "\n".join(lines) + "\n"


def invented_throws(rows: int, arms: int) -> list[Throw]:
    """The same as the model's throws."""
    draw = random.Random(5)
    people = [Person("male", 1.4 + 0.6 * i / arms, draw.uniform(40.0, 100.0), 25.0) for i in range(arms)]
    balls = [Ball(mass_g / 1000) for mass_g in MASSES_G]
    return [Throw(people[i % arms], draw.choice(balls), draw.uniform(14.0, 38.0)) for i in range(rows)]


@pytest.mark.parametrize("arms", [10, 1000, 10_000])
def test_ten_thousand_throws(benchmark, arms: int) -> None:
    throws = invented_throws(10_000, arms)
    found = benchmark.pedantic(read_throws, (throws, MAIN), rounds=3)
    assert (found["varus"].peak > 0).all()


def test_one_readout_of_one_throw(benchmark) -> None:
    alone = curves(Throw(Person("male", 1.88, 90.0, 25.0), Ball(0.145), 37.0))
    assert benchmark(read_curves, alone, "varus").peak > 0


def run_command(rows: int, arms: int, *words: str) -> None:
    """Run the command in a process of its own and tell its time and greatest memory."""
    with tempfile.TemporaryDirectory() as folder:
        throws, out = Path(folder) / "throws.csv", Path(folder) / "out.csv"
        throws.write_text(invented_table(rows, arms), encoding="utf-8")
        started_s = time.perf_counter()
        subprocess.run([sys.executable, "-m", "app.main", "readouts", str(throws), "-o", str(out), *words], check=True)
        taken_s = time.perf_counter() - started_s
        size_mb = out.stat().st_size / 1e6
    print(
        f"{rows} rows, {arms} arms {' '.join(words)}: {taken_s:.1f} s, {_greatest_memory()}, {size_mb:.0f} MB written"
    )


def _greatest_memory() -> str:
    try:
        import resource
    except ImportError:  # Windows
        return "memory not known here"
    kib = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / (1024 if sys.platform == "darwin" else 1)
    return f"{kib / 1024:.0f} MiB"


if __name__ == "__main__":
    run_command(int(sys.argv[1]), int(sys.argv[2]), *sys.argv[3:])
