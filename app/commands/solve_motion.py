"""`levelpeak solve-motion`: solve the reference motion again and keep it as data."""

import argparse
import json
import os
import sys
from datetime import date
from pathlib import Path
from typing import Any

import model


def add_parser(subparsers: "argparse._SubParsersAction[Any]") -> None:
    """Add the command's arguments.

    Parameters
    ----------
    subparsers : argparse subparsers action
    """
    parser = subparsers.add_parser(
        "solve-motion",
        help="solve the reference motion again from the published landmarks (some seconds)",
        description="Solve the reference motion again from the published landmarks and write it as JSON.",
    )
    parser.add_argument(
        "-o",
        "--output",
        type=Path,
        default=Path(model.__file__).with_name("reference_motion.json"),
        help="where to write it (default: the file the model reads)",
    )
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Solve and write.

    Parameters
    ----------
    args : argparse.Namespace
        With `output`, a path.

    Returns
    -------
    int
        Exit status: 0, or 2 if the file cannot be written.
    """
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # before NumPy: with two, a busy machine solves ten times slower
    from model.solve_motion import record_of, solve

    def progress(evaluation: int, cost: float) -> None:
        print(f"evaluation {evaluation:3d}   half sum of squares {cost:12.4f}", file=sys.stderr, flush=True)

    record = record_of(solve(progress=progress), date.today().isoformat())
    try:
        args.output.write_text(json.dumps(record, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    except OSError as error:
        print(f"levelpeak solve-motion: {args.output}: {error.strerror}", file=sys.stderr)
        return 2
    print(f"{args.output}: solved in {record['evaluations']} evaluations", file=sys.stderr)
    return 0
