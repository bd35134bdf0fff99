"""Trial: the reference motion solved so that what a laboratory would see of it meets the landmarks.

Run from the repository: ``python -m tests.notes.laboratory_trial`` (a minute or two). Landmarks were read off filtered
markers; the recipe asks the raw motion to meet them. Here each landmark is moved by what the laboratory's view differs
from the raw motion there, and the motion is solved again, until that no longer changes. Prints the figures that
`model/STRUCTURAL_BAND.md` reports.
"""

from dataclasses import replace

import numpy as np
from scipy.interpolate import make_interp_spline

from model.chain import COORDINATES, Frames
from model.laboratory import Laboratory, seen_of
from model.motion import PHASES, Motion, reference_motion
from model.solve_motion import solve
from model.solve_recipe import REFERENCE_THROWING, Recipe, landmarks

ROUNDS = 6
VIEW = Laboratory(13.4)


def angles_of(frames: Frames) -> np.ndarray:
    """Joint angles (N, 8) of frames, in the order of `COORDINATES`: the rotations of `chain` taken apart."""
    trunk, girdle, upper, fore, hand = (
        getattr(frames, name).axes for name in ("trunk", "shoulder", "upper_arm", "forearm", "hand")
    )

    def within(base: np.ndarray, moved: np.ndarray) -> np.ndarray:
        return np.einsum("nji,njk->nik", base, moved)

    shoulder = within(trunk, girdle)[..., 2]
    spun, elbow, wrist = within(girdle, upper), within(upper, fore)[..., 2], within(fore, hand)[..., 2]
    return np.stack(
        [
            np.arctan2(-trunk[:, 2, 0], trunk[:, 0, 0]),
            -np.arcsin(trunk[:, 1, 0]),
            np.arctan2(trunk[:, 1, 2], trunk[:, 1, 1]),
            np.arctan2(shoulder[:, 0], shoulder[:, 2]),
            0.5 * np.pi + np.arcsin(shoulder[:, 1]),
            np.unwrap(np.arctan2(spun[:, 1, 0], spun[:, 0, 0])),
            np.arctan2(elbow[:, 0], elbow[:, 2]),
            np.arctan2(wrist[:, 0], wrist[:, 2]),
        ],
        axis=1,
    )


def at_landmarks(motion: Motion, view: Laboratory) -> list[float]:
    """What is seen at each landmark (rad, rad/s)."""
    seen = seen_of(view, motion, REFERENCE_THROWING)
    curves = make_interp_spline(seen.phase, angles_of(seen.frames), k=3)
    found = []
    for mark in landmarks():
        value = curves(mark.phase, nu=mark.derivative)[COORDINATES.index(mark.coordinate)]
        found.append(float(value) / motion.duration_s**mark.derivative)
    return found


def figures(name: str, motion: Motion) -> None:
    for view in (Laboratory(None), VIEW):
        seen = seen_of(view, motion, REFERENCE_THROWING)
        pairs = zip(at_landmarks(motion, view), landmarks(), strict=True)
        z = np.array([(value - mark.value) / mark.spread for value, mark in pairs])
        whole, first = (float(np.sqrt(np.mean(some**2))) for some in (z, z[[m.phase <= 1.0 for m in landmarks()]]))
        varus, rotation = seen.read("varus"), seen.read("internal_rotation")
        reversed_nm = -seen.at_phases(seen.values["varus"])[PHASES > 1.0].min()
        print(
            f"{name:34s} {'raw' if view.cut_off_hz is None else view.cut_off_hz:>5} "
            f"landmarks {whole:.2f} (to release {first:.2f}) SD  "
            f"varus {varus.peak:5.1f} {1e3 * varus.peak_before_release_s:4.1f} ms  rotation {rotation.peak:5.1f}  "
            f"area {varus.area:.2f}  half {1e3 * varus.half_height_s:.0f} ms  reversed {reversed_nm:.0f}  "
            f"h.add {seen.read('horizontal_adduction').peak:.0f}  "
            f"shoulder {seen.read('shoulder_proximal').peak:.0f} N  elbow {seen.read('elbow_proximal').peak:.0f} N  "
            f"IR {np.degrees(seen.speeds['internal_rotation'].max()):.0f} deg/s  "
            f"elbow ext {-np.degrees(seen.speeds['elbow_flexion'].min()):.0f}  "
            f"MER {np.degrees(seen.external_rotation.max()):.1f}",
            flush=True,
        )


def main() -> None:
    motion = reference_motion()
    figures("the reference motion", motion)
    published = landmarks()
    for i in range(ROUNDS):
        raw, seen = at_landmarks(motion, Laboratory(None)), at_landmarks(motion, VIEW)
        moved = zip(published, raw, seen, strict=True)
        marks = tuple(replace(mark, value=mark.value - (s - r)) for mark, r, s in moved)
        solution = solve(Recipe(), start=motion.coefficients.ravel(), marks=marks)
        motion = solution.motion
        figures(f"round {i + 1}, cost {sum(solution.cost.values()):.0f}", motion)


if __name__ == "__main__":
    main()
