"""`levelpeak solve-grid`: solve the motion anew for other balls, speeds, tolerances and durations, and fit the band.

Some 380 solves on all cores (about a quarter of an hour on two). Each is written down when it is done: a run that was
stopped goes on where it was. What it gives, and what of it is sensible: `model/STRUCTURAL_BAND.md`.
"""

import argparse
import csv
import io
import os
import sys
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from datetime import date
from multiprocessing import get_context
from pathlib import Path
from typing import Any

import model
from app.csv_files import written_whole
from app.progress import Progress


def add_parser(subparsers: "argparse._SubParsersAction[Any]") -> None:
    """Add the command's arguments.

    Parameters
    ----------
    subparsers : argparse subparsers action
    """
    parser = subparsers.add_parser(
        "solve-grid",
        help="solve the motion anew for other balls, speeds and tolerances (a quarter of an hour), and fit the band",
        description=__doc__,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    beside = Path(model.__file__)
    parser.add_argument(
        "-o",
        "--output",
        type=Path,
        default=beside.with_name("motion_grid.csv"),
        help="the table of solves (default: the one the model reads); what it already holds is not solved again",
    )
    parser.add_argument(
        "--band",
        type=Path,
        default=beside.with_name("structural_band.csv"),
        help="where to write the band fitted from it (default: the one the model reads)",
    )
    parser.add_argument("--again", action="store_true", help="solve everything again, whatever the table holds")
    parser.add_argument("--jobs", type=int, default=os.cpu_count() or 1, help="solves at a time (%(default)s)")
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Solve what is lacking, write the table, fit the band.

    Parameters
    ----------
    args : argparse.Namespace
        With `output` and `band` (paths), `again` and `jobs`.

    Returns
    -------
    int
        Exit status: 0; 1 if a solve failed; 2 if a file cannot be written.
    """
    os.environ["OPENBLAS_NUM_THREADS"] = "1"  # before NumPy: one process a core
    from model.band_fit import fit_band
    from model.band_table import band_lines
    from model.grid_table import COLUMNS, cells_of, parse_rows
    from model.motion_grid import tasks

    wanted = tasks()
    part = args.output.with_suffix(".part.csv")
    try:
        if args.again or not args.output.exists():
            lines: list[str] = []
        else:
            lines = args.output.read_text(encoding="utf-8").splitlines()
        done = {row.task.key: row for row in parse_rows(lines, wanted)}
        if part.exists():
            told = parse_rows(part.read_text(encoding="utf-8").splitlines(), wanted)
            done |= {row.task.key: row for row in told}
        missing = [task for task in wanted if task.key not in done]
        failed = 0
        if missing:
            failed = _solve(missing, part, done, args.jobs)
        with written_whole(args.output) as file:
            file.write(_text([COLUMNS, *(cells_of(done[task.key]) for task in wanted if task.key in done)]))
        part.unlink(missing_ok=True)
        rows = tuple(done[task.key] for task in wanted if task.key in done)
        with written_whole(args.band) as file:
            file.write(_text(band_lines(fit_band(rows))))
    except OSError as error:
        print(f"levelpeak solve-grid: {error.filename}: {error.strerror}", file=sys.stderr)
        return 2
    print(f"{args.output}: {len(rows)} of {len(wanted)} solves; {args.band}: fitted", file=sys.stderr)
    return 1 if failed else 0


def _text(rows: Sequence[Sequence[str]]) -> str:
    made = io.StringIO()
    csv.writer(made, lineterminator="\n").writerows(rows)
    return made.getvalue()


def _solve(missing: Sequence[Any], part: Path, done: dict[str, Any], jobs: int) -> int:
    """Solve tasks, write each down; the number of those that failed."""
    from model.grid_table import COLUMNS, parse_rows

    progress = Progress("solving", len(missing))
    failed = count = 0
    fresh = not part.exists()
    afresh = get_context("spawn")  # workers that read the number of threads asked for anew
    with (
        part.open("a", encoding="utf-8", newline="") as file,
        ProcessPoolExecutor(max_workers=jobs, mp_context=afresh) as pool,
    ):
        if fresh:
            file.write(_text([COLUMNS]))
        for task, cells, problem in _solved(pool, missing):
            count += 1
            progress.show(count)
            if cells is None:
                failed += 1
                print(f"\nlevelpeak solve-grid: {task.key}: {problem}", file=sys.stderr)
                continue
            text = _text([COLUMNS, cells])
            file.write(text.split("\n", 1)[1])
            file.flush()
            done |= {row.task.key: row for row in parse_rows(text.splitlines(), [task])}
    progress.clear()
    return failed


def _solved(pool: ProcessPoolExecutor, missing: Sequence[Any]) -> Iterator[tuple[Any, list[str] | None, str]]:
    """Own throws first (each other solve begins from one), then all the rest as they come."""
    wanted = {task.key for task in missing}
    own = {task.own.key: task.own for task in missing}
    starts: dict[str, Any] = {}
    waiting = {pool.submit(_one, task, None): task for task in own.values()}
    for future in as_completed(waiting):
        task = waiting[future]
        cells, start, problem = future.result()
        starts[task.key] = start
        if task.key in wanted:
            yield task, cells, problem
    rest = [task for task in missing if task.key not in own]
    waiting = {pool.submit(_one, task, starts[task.own.key]): task for task in rest}
    for future in as_completed(waiting):
        cells, _, problem = future.result()
        yield waiting[future], cells, problem


def _one(task: Any, start: Any) -> tuple[list[str] | None, Any, str]:
    from model.grid_table import cells_of, row_of
    from model.motion_grid import solve_task

    try:
        solution = solve_task(task, start)
    except RuntimeError as error:
        return None, None, str(error)
    row = row_of(task, solution, date.today().isoformat())
    return cells_of(row), solution.motion.coefficients.ravel(), ""
