"""`levelpeak solve-grid`: nothing is solved twice, a stopped run goes on, the band is fitted from what there is."""

from importlib.resources import files
from pathlib import Path

import pytest

from app.main import main

STORED = files("model").joinpath("motion_grid.csv").read_text(encoding="utf-8")
BAND = files("model").joinpath("structural_band.csv").read_text(encoding="utf-8")


def run(folder: Path, *words: str) -> int:
    return main(["solve-grid", "-o", str(folder / "grid.csv"), "--band", str(folder / "band.csv"), *words])


def test_a_whole_table_is_only_fitted(tmp_path: Path, capsys):
    (tmp_path / "grid.csv").write_text(STORED, encoding="utf-8")
    assert run(tmp_path) == 0
    assert (tmp_path / "grid.csv").read_text(encoding="utf-8") == STORED
    assert (tmp_path / "band.csv").read_text(encoding="utf-8") == BAND
    assert "380 of 380 solves" in capsys.readouterr().err


def test_what_a_stopped_run_had_solved_is_taken_over(tmp_path: Path):
    head, *rows = STORED.splitlines(keepends=True)
    (tmp_path / "grid.csv").write_text(head + "".join(rows[:200]), encoding="utf-8")
    (tmp_path / "grid.part.csv").write_text(head + "".join(reversed(rows[200:])), encoding="utf-8")
    assert run(tmp_path) == 0
    assert (tmp_path / "grid.csv").read_text(encoding="utf-8") == STORED
    assert not (tmp_path / "grid.part.csv").exists()


def test_a_place_that_cannot_be_written_is_named(tmp_path: Path, capsys):
    (tmp_path / "grid.csv").write_text(STORED, encoding="utf-8")
    assert main(["solve-grid", "-o", str(tmp_path / "grid.csv"), "--band", str(tmp_path / "no" / "band.csv")]) == 2
    assert "band.csv" in capsys.readouterr().err


@pytest.mark.slow
def test_what_is_lacking_is_solved_and_reads_as_stored(tmp_path: Path):
    head, *rows = STORED.splitlines(keepends=True)
    lacking = next(row for row in rows if row.startswith("man,recipe,0.36,"))
    (tmp_path / "grid.csv").write_text(head + "".join(row for row in rows if row != lacking), encoding="utf-8")
    assert run(tmp_path, "--jobs", "1") == 0
    again = (tmp_path / "grid.csv").read_text(encoding="utf-8").splitlines(keepends=True)
    assert len(again) == len(rows) + 1
    columns = head.split(",")
    (solved,) = [row for row in again if row.split(",")[:8] == lacking.split(",")[:8]]
    found, stored = (dict(zip(columns, row.split(","), strict=True)) for row in (solved, lacking))
    for name in ("varus.peak", "varus.area", "internal_rotation.peak"):
        assert float(found[name]) == pytest.approx(float(stored[name]), rel=0.005)
