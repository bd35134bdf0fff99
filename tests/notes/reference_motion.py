"""Makes the figures and the table of ablations of `model/REFERENCE_MOTION.md`.

Run from the repository: ``python -m tests.notes.reference_motion [FOLDER]`` (needs matplotlib: the extra `notes`).
Writes `reference_torques.svg`, `reference_forces.svg`, `reference_angles.svg` into FOLDER (default `model/figures`)
and prints the table. Each row solves the motion again: some minutes in all.
"""

import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import matplotlib as mpl
import matplotlib.pyplot as plt
import numpy as np

from model.chain import COORDINATES
from model.channels import CHANNELS
from model.motion import reference_motion
from model.solve_motion import solve
from model.solve_recipe import Recipe, landmarks
from tests.model.motion_facts import PHASE, RELEASE, Facts, facts_of, second_rise

INK, GREY = "#1f2933", "#9aa5b1"


def panels(curves: dict[str, np.ndarray], unit: str, path: Path, marks: bool = False) -> None:
    """Small multiples of curves over phase, release marked; with the landmarks and their spread if asked for."""
    names = list(curves)
    rows = -(-len(names) // 3)
    figure, axes = plt.subplots(rows, 3, figsize=(10, 2.3 * rows), sharex=True, layout="constrained")
    for axis, name in zip(axes.flat, names, strict=False):
        axis.axhline(0.0, color=GREY, lw=0.6)
        axis.axvline(1.0, color=GREY, lw=0.6)
        axis.plot(PHASE[::10], curves[name][::10], color=INK, lw=1.4)
        axis.set_title(name.replace("_", " ") + f" ({unit})", fontsize=9, loc="left")
        axis.tick_params(labelsize=8)
        if marks:
            for mark in landmarks():
                if mark.coordinate == name and mark.derivative == 0:
                    value, spread = np.degrees([mark.value, mark.spread])
                    axis.errorbar(mark.phase, value, spread, color=GREY, fmt="o", ms=2.5, lw=0.8, zorder=0)
    for axis in axes.flat[len(names) :]:
        axis.set_visible(False)
    for axis in axes[-1]:
        axis.set_xlabel("phase (0 foot contact, 1 release)", fontsize=8)
    figure.savefig(path)
    plt.close(figure)


def scaled(scales: dict[str, float], factor: float) -> dict[str, float]:
    return {key: value * factor for key, value in scales.items()}


def ablations() -> Iterator[tuple[str, Recipe]]:
    """The recipe, and the recipe with one thing taken out or moved."""
    full, never = Recipe(), 1e9
    yield "the recipe", full
    yield (
        "no second derivative of varus and internal rotation",
        replace(full, torque_curvature_scale_nm=scaled(full.torque_curvature_scale_nm, never)),
    )
    yield "no ceiling on proximal forces", replace(full, force_scale_n=never)
    yield "no ceilings on the other torques", replace(full, ceiling_scale_nm=never)
    yield "no guard on event averages", replace(full, guard_weight=1.0 / never)
    yield (
        "no limits on joint speeds before release",
        replace(full, rate_limits=tuple(limit for limit in full.rate_limits if limit[4] >= 1.0)),
    )
    yield (
        "nothing asked after release but the landmarks",
        replace(
            full,
            rate_limits=tuple(limit for limit in full.rate_limits if limit[4] < 1.0),
            slowing_scale_m_s_a_phase=never,
            ceilings=tuple(limit for limit in full.ceilings if limit[3] < 1.0),
        ),
    )
    yield (
        "torque rows not divided by the root of their number",
        replace(full, torque_scale_nm=scaled(full.torque_scale_nm, full.phases**-0.5)),
    )
    for factor in (0.7, 1.1):
        yield f"weight of torque x {factor}", replace(full, torque_scale_nm=scaled(full.torque_scale_nm, 1.0 / factor))
    for weight in (0.4, 4.0):
        yield f"weight of varus after release {weight} (2 in the recipe)", replace(full, after_release_varus=weight)
    for intervals in (10, 12, 20, 24, 32):
        yield f"{intervals} spline intervals", replace(full, intervals=intervals)


def row(facts: Facts) -> list[str]:
    varus, rotation = facts.before_release("varus"), facts.before_release("internal_rotation")
    peak = varus.max()
    external = facts.angle_deg["external_rotation"]
    early_ms = (PHASE[external.argmax()] - PHASE[varus.argmax()]) * facts.duration_s * 1e3
    late = np.linalg.norm(facts.ball_velocity_m_s[PHASE >= 1.02], axis=1)
    return [
        f"{peak:.1f}",
        f"{early_ms:+.1f}",
        f"{rotation.max() / peak:.2f}",
        f"{100 * second_rise(varus):.0f}",
        f"{-facts.after_release('varus').min():.0f}",
        f"{facts.before_release('horizontal_adduction').max():.0f}",
        f"{-facts.after_release('horizontal_adduction').min():.0f}",
        f"{facts.loads['shoulder_proximal'].max():.0f}",
        f"{facts.loads['elbow_proximal'].max():.0f}",
        f"{-facts.rate_deg_s['external_rotation'].min():.0f}",
        f"{-facts.rate_deg_s['elbow_flexion'].min():.0f}",
        f"{external.max():.0f}",
        f"{np.linalg.norm(facts.ball_velocity_m_s[RELEASE]):.1f}",
        f"{max(float(np.diff(late).max()) / PHASE[1], 0.0):.0f}",
    ]


HEAD = (
    "what", "varus N·m", "before MER ms", "IR/varus", "second rise %", "reversed N·m", "h. add. N·m",
    "h. abd. after N·m", "shoulder N", "elbow N", "IR speed deg/s", "elbow speed deg/s", "MER deg", "release m/s",
    "speeds up after, m/s a phase",
)  # fmt: skip


def main(folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    mpl.rcParams["svg.hashsalt"] = "levelpeak"
    facts = facts_of(reference_motion())
    torques = {key: facts.loads[key] for key, channel in CHANNELS.items() if channel.unit == "N·m"}
    forces = {key: facts.loads[key] for key, channel in CHANNELS.items() if channel.unit == "N"}
    panels(torques, "N·m", folder / "reference_torques.svg")
    panels(forces, "N", folder / "reference_forces.svg")
    panels({name: facts.angle_deg[name] for name in COORDINATES}, "deg", folder / "reference_angles.svg", marks=True)
    print("| " + " | ".join(HEAD) + " |\n|" + " --- |" * len(HEAD), flush=True)
    for name, recipe in ablations():
        try:
            cells = row(facts_of(solve(recipe).motion))
        except RuntimeError as error:
            cells = [str(error)]
        print("| " + " | ".join([name, *cells]) + " |", flush=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else Path("model/figures"))
