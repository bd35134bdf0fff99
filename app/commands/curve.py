"""``levelpeak curve``: a whole throw as a table, and its segments as JSON, for other software to compute with."""

import argparse
import contextlib
import json
import os
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any, TextIO

import numpy as np
from numpy.typing import NDArray

from app.commands.curve_segments import segments_of
from app.csv_files import check_file_name, csv_line, standard_output, written_whole
from app.show.column_names import channel_column
from app.throw_cells import (
    BALL,
    CHOICES,
    DEFAULTS,
    LENGTHS,
    MEASURES,
    OPTIONAL_COLUMNS,
    SPEED,
    ThrowError,
    ThrowReader,
)
from model.chain import COORDINATES
from model.checks import InputError
from model.dynamics import grip_fraction
from model.throw import Throw, curves, movement

Array = NDArray[np.float64]

ASSUMED_AGE = "25"
POINTS = ("shoulder", "elbow", "wrist", "ball", "upper_arm_centre", "forearm_centre", "hand_centre")

DESCRIPTION = """\
Write one throw, from foot contact to the end of the follow-through: time, phase, every joint angle with its first and
second time derivative, the trunk's travel, joint centres, each segment's mass centre, the ball and the share of its
force that the hand bears, and every torque and force. The unit stands at the end of each column's name.

With --segments also the lengths, masses, mass centres, inertias, frames and signs of the arm, in SI units and in words:
with both files the torques can be computed again by other software.
"""


def add_parser(subparsers: "argparse._SubParsersAction[Any]") -> None:
    """Add the command's arguments.

    Parameters
    ----------
    subparsers : argparse subparsers action
    """
    parser = subparsers.add_parser(
        "curve",
        help="write one throw over time, and its segments, for other software",
        description=DESCRIPTION,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    for name, words in CHOICES.items():
        default = DEFAULTS.get(name)
        text = " or ".join(words) + (f" ({default})" if default else "")
        parser.add_argument(_option(name), metavar="WORD", help=text, default=default, required=default is None)
    for name, field in (MEASURES | LENGTHS | BALL | SPEED).items():
        default = (DEFAULTS | {"age_years": ASSUMED_AGE}).get(name, "")
        text = f"{field.label.lower()}, {field.accepted()}" + (f"; {field.hint}" if field.hint else "")
        text += f" ({default})" if default else " (scaled from stature)" if name in OPTIONAL_COLUMNS else ""
        needed = name not in OPTIONAL_COLUMNS and not default
        parser.add_argument(_option(name), metavar="X", help=text, default=default, required=needed)
    parser.add_argument("-o", "--output", metavar="CURVE.csv", default="-", help="where to write (standard output)")
    parser.add_argument("--segments", metavar="SEGMENTS.json", help="where to write the segments (nowhere)")
    parser.set_defaults(run=run)


def _option(name: str) -> str:
    return "--" + name.replace("_", "-")


def run(args: argparse.Namespace) -> int:
    """Compute the throw and write it.

    Parameters
    ----------
    args : argparse.Namespace
        The measures as typed, by their columns' names; output and segments.

    Returns
    -------
    int
        Exit status: 0, or 2 if a value cannot be used or a file not be written.
    """
    try:
        throw = throw_of(args)
        check_file_name("--output", args.output, "standard output")
        if args.segments is not None:
            check_file_name("--segments", args.segments)
        if args.segments and args.output != "-" and os.path.realpath(args.segments) == os.path.realpath(args.output):
            raise InputError("--segments", args.segments, "another file than that of --output")
        with contextlib.ExitStack() as files:
            table = files.enter_context(_output(args.output))
            if args.segments:
                file = files.enter_context(written_whole(Path(args.segments)))
                file.write(json.dumps(segments_of(throw), indent=1, ensure_ascii=False) + "\n")
            for line in lines_of(throw):
                table.write(line)
    except InputError as error:
        problems = [str(error)]
    except ThrowError as error:
        problems = [str(InputError(_option(each.field), each.given, each.accepted)) for each in error.problems]
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # the reader has gone: let the rest fall
        return 1
    except OSError as error:
        problems = [f"{error.filename or args.output}: cannot be written: {error.strerror or error}"]
    else:
        return 0
    for problem in problems:
        print(f"levelpeak curve: {problem}", file=sys.stderr)
    return 2


def _output(name: str) -> contextlib.AbstractContextManager[TextIO]:
    return standard_output("utf-8") if name == "-" else written_whole(Path(name))


def throw_of(args: argparse.Namespace) -> Throw:
    """Make the throw that was asked for.

    Parameters
    ----------
    args : argparse.Namespace
        The measures as typed, by their columns' names.

    Returns
    -------
    Throw

    Raises
    ------
    ThrowError
        If a value cannot be used.
    """
    names = [*CHOICES, *MEASURES, *LENGTHS, *BALL, *SPEED]
    return ThrowReader(names).throw([getattr(args, name) for name in names])


def columns_of(throw: Throw) -> dict[str, Array]:
    """Everything about a throw over time.

    Parameters
    ----------
    throw : Throw

    Returns
    -------
    dict of str to ndarray (N,)
        By column name, the unit in it. Positions and the ball's force in the lab frame: X toward the target, Y up, Z to
        the right.
    """
    loads = curves(throw)
    move = movement(throw, loads.phase)
    state, side = move.state, -1.0 if throw.person.handedness == "left" else 1.0
    stature_m = throw.person.stature_m
    columns = {"time_s": loads.time_s, "phase": loads.phase, "ball_weight_factor": grip_fraction(loads.phase)}
    for j, name in enumerate(COORDINATES):
        columns[f"{name}_rad"] = state.angles[:, j]
        columns[f"{name}_rad_s"] = state.rates[:, j]
        columns[f"{name}_rad_s2"] = state.accelerations[:, j]
    columns["hips_x_m"] = stature_m * state.travel
    columns["hips_x_m_s"] = stature_m * state.travel_rate
    columns["hips_x_m_s2"] = stature_m * state.travel_acceleration
    for name in POINTS:
        position = getattr(move.points, name).position * (1.0, 1.0, side)
        columns |= {f"{name}_{axis}_m": position[:, k] for k, axis in enumerate("xyz")}
    return columns | {channel_column(key): values for key, values in loads.values.items()}


def lines_of(throw: Throw) -> Iterator[str]:
    """Write the throw's lines.

    Parameters
    ----------
    throw : Throw

    Yields
    ------
    str
        The line of names, then one for each time, with 12 significant digits.
    """
    columns = columns_of(throw)
    yield csv_line(columns) + "\n"
    for row in np.stack(list(columns.values()), axis=1).tolist():
        yield ",".join(f"{number:.12g}" for number in row) + "\n"
