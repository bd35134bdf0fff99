"""Makes the figures and prints the tables of `model/STRUCTURAL_BAND.md`.

Run from the repository: ``python -m tests.notes.structural_band [FOLDER]`` (needs matplotlib). Writes `band_fit.svg`,
`band_motions.svg` and `laboratory_view.svg` into FOLDER (default `model/figures`). Solves eight throws again: a minute.
"""

import sys
from dataclasses import replace
from pathlib import Path

import matplotlib as mpl
import matplotlib.pyplot as plt
import numpy as np

from model.ball import Ball, beyond_the_hand_m
from model.band_coverage import HELD, grid_story
from model.band_table import KEYS, stored_band
from model.channels import INDEX
from model.grid_table import Row, differences, parse_rows, stored_lines
from model.identity import throw_loads
from model.laboratory import Laboratory, seen_by
from model.motion import PHASES
from model.motion_grid import BODIES, OWN_MASS_KG, Task, own_throw, problem_of, solve_task, tasks
from model.segments import arm_of
from model.structural_field import field, place_of
from model.throw import Throw, curves

INK, GREY, PALE = "#1f2933", "#9aa5b1", "#d5dbe1"
SHOWN = {"peak": "peak", "area": "area", "rise_rate": "loading rate", "half_height_s": "half height"}
LAWS = {(1.0, 1.0): ("as predicted (P)", "o"), (0.0, 0.0): ("unchanged (k = 1)", "^"), (0.0, 1.0): ("s²", "s")}
CUT_OFFS_HZ = (None, 20.0, 13.4, 10.0)


def heavier(task: Task) -> bool:
    """Another ball near full effort with the exponent ½; of the law s², the fastest there are."""
    near = -0.75 if task.beta == 1.0 and task.alpha == 0.0 else -0.5
    return task.mass_kg != OWN_MASS_KG and abs(task.y - near * task.x) < 0.12 * abs(task.x) + 0.001


def slower(task: Task) -> bool:
    """The own ball, slower."""
    return task.mass_kg == OWN_MASS_KG


def fit_figure(found: list[tuple[Row, np.ndarray]], path: Path) -> None:
    """D of the man's solves by the recipe, sensible ones filled, over the band of 90 %."""
    figure, axes = plt.subplots(2, 4, figsize=(11, 5), sharey="col", layout="constrained")
    plain = [
        (row, d)
        for row, d in found
        if (row.task.body, row.task.recipe, row.task.duration, row.task.held_out) == ("man", "recipe", 1.0, False)
    ]
    ways = (("x", heavier, (-0.1, 0.75), "x: another ball"), ("y", slower, (-0.75, 0.05), "y: own ball, slower"))
    for column, (readout, name) in enumerate(SHOWN.items()):
        k, spread = KEYS.index(("varus", readout)), stored_band()["varus", readout]
        for axis, (along, chosen, ends, label) in zip(axes[:, column], ways, strict=True):
            half = 1.645 * getattr(spread, f"size_{along}") * np.abs(ends)
            between = np.array([ends[0], 0.0, ends[1]])
            axis.fill_between(between, [-half[0], 0.0, -half[1]], [half[0], 0.0, half[1]], color=PALE, lw=0, zorder=0)
            axis.axhline(0.0, color=GREY, lw=0.6)
            for law, (words, mark) in LAWS.items():
                some = [(r, d) for r, d in plain if (r.task.alpha, r.task.beta) == law and chosen(r.task)]
                for sensible, face in ((True, INK), (False, "none")):
                    at = [(getattr(r.task, along), d[k]) for r, d in some if r.sensible == sensible]
                    if at:
                        axis.plot(*zip(*at, strict=True), mark, color=INK, mfc=face, ms=4, label=words)
            axis.set_xlabel(label, fontsize=8)
            axis.tick_params(labelsize=8)
        axes[0, column].set_title(f"{name}, ln(solved / clock law)", fontsize=8, loc="left")
    axes[0, 0].legend(fontsize=7, frameon=False)
    figure.savefig(path)
    plt.close(figure)


def motions_figure(path: Path) -> None:
    """Varus over phase: clock law dashed, solved with both tolerances; and what is not sensible."""
    own = solve_task(own_throw("man"))
    start = own.motion.coefficients.ravel()

    def curve(task: Task) -> np.ndarray:
        solution, throwing = solve_task(task, start), problem_of(task)[1]
        arm, beyond = arm_of(throwing.person), beyond_the_hand_m(throwing.ball.diameter_m)
        loads = throw_loads(solution.motion, arm, throwing.ball.mass_kg, beyond, throwing.clock, PHASES)
        return loads[:, INDEX["varus"]]

    def at(mass: float, speed: float, alpha: float, beta: float) -> Task:
        return replace(own_throw("man"), mass_kg=mass, speed_m_s=speed, alpha=alpha, beta=beta)

    panels = (
        ("275 g at 32.2 m/s", 0.275, 32.15, ((1.0, 1.0), (0.0, 0.0))),
        ("470 g at 27.1 m/s", 0.470, 27.08, ((1.0, 1.0), (0.0, 0.0))),
        ("own ball at half speed, k = 1: not sensible", OWN_MASS_KG, 18.5, ((0.0, 0.0), (1.0, 1.0))),
        ("800 g at 21.7 m/s, s²: not sensible", 0.800, 21.66, ((0.0, 1.0), (1.0, 1.0))),
    )
    figure, axes = plt.subplots(1, 4, figsize=(11, 2.8), layout="constrained")
    for axis, (title, mass, speed, laws) in zip(axes, panels, strict=True):
        law = curves(Throw(BODIES["man"].person, Ball(mass), speed)).values["varus"]
        axis.plot(PHASES[::4], law[::4], color=GREY, ls="--", lw=1.2, label="clock law")
        for (alpha, beta), width in zip(laws, (1.6, 0.8), strict=True):
            solved = curve(at(mass, speed, alpha, beta))
            axis.plot(PHASES[::4], solved[::4], color=INK, lw=width, label=LAWS[alpha, beta][0])
        axis.axvline(1.0, color=GREY, lw=0.6)
        axis.set_title(title, fontsize=8, loc="left")
        axis.set_xlabel("phase", fontsize=8)
        axis.tick_params(labelsize=8)
        axis.legend(fontsize=6.5, frameon=False)
    axes[0].set_ylabel("varus torque, N·m", fontsize=8)
    figure.savefig(path)
    plt.close(figure)


def laboratory_figure(path: Path) -> None:
    """The reference throw as a laboratory sees it."""
    throw = Throw(BODIES["man"].person, Ball(0.145), 37.0)
    figure, axes = plt.subplots(1, 4, figsize=(11, 2.8), layout="constrained")
    names = ("varus", "internal_rotation", "shoulder_proximal", "elbow_proximal")
    for cut_off, width, colour in zip(
        CUT_OFFS_HZ, (1.8, 1.0, 1.0, 1.0), (INK, "#52606d", "#7b8794", GREY), strict=True
    ):
        seen = seen_by(Laboratory(cut_off, 2000.0 if cut_off is None else 240.0), throw)
        for axis, name in zip(axes, names, strict=True):
            label = "unfiltered" if cut_off is None else f"{cut_off:g} Hz"
            axis.plot(seen.phase, seen.values[name], color=colour, lw=width, label=label)
            axis.axvline(1.0, color=GREY, lw=0.6)
            unit = "N" if "proximal" in name else "N·m"
            axis.set_title(f"{name.replace('_', ' ')}, {unit}", fontsize=9, loc="left")
            axis.tick_params(labelsize=8)
            axis.set_xlabel("phase", fontsize=8)
    axes[0].legend(fontsize=7, frameon=False)
    figure.savefig(path)
    plt.close(figure)


def print_tables(rows: tuple[Row, ...]) -> None:
    print("| readout | a0 | a1 | b0 | b1 | g | misfit | S_x | S_y | SD of 275 g | of 470 g |")
    for (reading, readout), spread in stored_band().items():
        if spread.solves and reading in ("varus", "internal_rotation", "shoulder_proximal", "elbow_proximal",
                                         "horizontal_adduction", "horizontal_abduction"):  # fmt: skip
            places = [
                place_of(m, 37.0 * (0.64 / (m + 0.495)) ** 0.76, OWN_MASS_KG, 0.495, 37.0) for m in (0.275, 0.470)
            ]
            origin = place_of(OWN_MASS_KG, 37.0, OWN_MASS_KG, 0.495, 37.0)
            sds = [field((reading, readout), place, origin).std() for place in places]
            numbers = (spread.a0, spread.a1, spread.b0, spread.b1, spread.g)
            print(f"| {reading} {readout} | " + " | ".join(f"{n:+.2f}" for n in numbers)
                  + f" | {spread.misfit:.3f} | {spread.size_x:.2f} | {spread.size_y:.2f} | "
                  + " | ".join(f"{100 * sd:.0f} %" for sd in sds) + " |")  # fmt: skip

    print("| solves | n | " + " | ".join(" ".join(key) for key in HELD) + " |")
    for coverage in grid_story().coverage:
        cells = " | ".join(f"{100 * coverage.held[key]:.0f} %" for key in HELD)
        print(f"| {coverage.solves} | {coverage.count} | {cells} |")
    sensible = [r.sensible for r in rows]
    print(f"{sum(sensible)} of {len(rows)} solves are sensible; the others:")
    for row in rows:
        if not row.sensible:
            t = row.task
            print(f"  {t.body}, {t.recipe}, {1000 * t.mass_kg:.0f} g, {t.speed_m_s:.1f} m/s, alpha {t.alpha:.1f}, "
                  f"beta {t.beta:.1f}: second rise {row.second_rise:.2f}, top {row.top_share:.2f}")  # fmt: skip
    print(
        "| cut-off | varus / rotation | shoulder N | elbow N | reversed | area, rise % | IR deg/s | before ms | MER |"
    )
    throw = Throw(BODIES["man"].person, Ball(0.145), 36.9)
    raw = seen_by(Laboratory(None, 2000.0), throw)
    for cut_off in CUT_OFFS_HZ:
        for record in ("rest", "cut"):
            seen = raw if cut_off is None else seen_by(Laboratory(cut_off, record=record), throw)
            varus, first = seen.read("varus"), raw.read("varus")
            back = -seen.at_phases(seen.values["varus"])[PHASES > 1.0].min()
            print(
                f"| {cut_off} {record} | {varus.peak:.1f} / {seen.read('internal_rotation').peak:.1f} | "
                f"{seen.read('shoulder_proximal').peak:.0f} | {seen.read('elbow_proximal').peak:.0f} | {back:.0f} | "
                f"{100 * (varus.area / first.area - 1):+.0f}, {100 * (varus.rise_rate / first.rise_rate - 1):+.0f} | "
                f"{np.degrees(seen.speeds['internal_rotation'].max()):.0f} | {1e3 * varus.peak_before_release_s:.0f} | "
                f"{np.degrees(seen.external_rotation.max()):.1f} |"
            )


def main(folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    mpl.rcParams["svg.hashsalt"] = "levelpeak"
    rows = parse_rows(stored_lines(), tasks())
    found = list(differences(rows))
    print_tables(rows)
    fit_figure(found, folder / "band_fit.svg")
    motions_figure(folder / "band_motions.svg")
    laboratory_figure(folder / "laboratory_view.svg")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else Path("model/figures"))
