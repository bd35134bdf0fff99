"""`levelpeak curve`: what it writes is enough to compute the torques again, by another route."""

import csv
import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from scipy.interpolate import make_interp_spline
from scipy.spatial.transform import Rotation

from app.main import main
from model.channels import CHANNELS

REFERENCE = [
    "--sex",
    "male",
    "--stature-cm",
    "188",
    "--body-mass-kg",
    "90",
    "--ball-mass-g",
    "145",
    "--speed-m-s",
    "37",
]
CHILD = ["--sex", "female", "--stature-cm", "148", "--body-mass-kg", "41", "--age-years", "12", "--forearm-length-cm"]
CHILD += ["23.5", "--ball-mass-g", "400", "--ball-diameter-mm", "90", "--speed-m-s", "14.5", "--handedness", "left"]


def written(folder: Path, words: list[str]) -> tuple[dict[str, np.ndarray], dict[str, Any]]:
    table, segments = folder / "curve.csv", folder / "segments.json"
    assert main(["curve", *words, "-o", str(table), "--segments", str(segments)]) == 0
    with table.open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file, strict=True))
    numbers = np.array(rows[1:], dtype=float)
    return dict(zip(rows[0], numbers.T, strict=True)), json.loads(segments.read_text(encoding="utf-8"))


@pytest.fixture(scope="module", params=[REFERENCE, CHILD], ids=["reference thrower", "left-handed girl"])
def files(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory):
    return written(tmp_path_factory.mktemp("curve"), request.param)


def points(curve: dict[str, np.ndarray], name: str) -> np.ndarray:
    return np.stack([curve[f"{name}_{axis}_m"] for axis in "xyz"], axis=1)


def rate_of(time_s: np.ndarray, values: np.ndarray, times: int = 1) -> np.ndarray:
    """Numerical derivative: that of the spline of seventh degree through the samples."""
    return make_interp_spline(time_s, values, k=7)(time_s, nu=times)


def frames_of(curve: dict[str, np.ndarray], arm: dict[str, Any]) -> dict[str, Rotation]:
    """The frames, by scipy's rotations, from the written angles and the written rules."""
    turned, frames = Rotation.identity(curve["time_s"].size), {"lab": Rotation.identity(curve["time_s"].size)}
    for rule in arm["rotations"]:
        angle = rule["sense"] * (curve[f"{rule['coordinate']}_rad"] - rule["frames_coincide_at_rad"])
        turned = turned * Rotation.from_euler(rule["axis"], angle[:, None])
        if rule["gives_frame"]:
            frames[rule["gives_frame"]] = turned
    return frames


def column_of(key: str) -> str:
    if key.startswith("ball_"):
        return key.replace("ball", "ball_force_on_hand") + "_n"
    return key + ("_torque_nm" if CHANNELS[key].unit == "N·m" else "_force_n")


def recomputed(curve: dict[str, np.ndarray], arm: dict[str, Any]) -> dict[str, np.ndarray]:
    """Torques and forces from the two files alone.

    Not Newton-Euler from joint to joint: for each joint the sum over all that lies beyond it, of forces and of moments
    about that joint, accelerations of centres of mass and rates of change of angular momentum by numerical derivatives:

        F = sum m (a - g),   M = sum [ (c - p) x m (a - g) + d(R I R^T omega)/dt ]
    """
    time_s, gravity = curve["time_s"], np.array(arm["gravity_m_s2"])
    frames = frames_of(curve, arm)
    forces, arms, spins = {}, {}, {}
    for name, segment in arm["segments"].items():
        centre = points(curve, f"{name}_centre")
        matrix = frames[name].as_matrix()
        matrix_rate = rate_of(time_s, matrix.reshape(-1, 9)).reshape(-1, 3, 3)
        skew = np.einsum("nij,nkj->nik", matrix_rate, matrix)  # R' R^T = [omega]x
        omega = np.stack([skew[:, 2, 1], skew[:, 0, 2], skew[:, 1, 0]], axis=1)
        inertia = np.einsum("nij,j,nkj->nik", matrix, np.array(segment["inertia_about_centre_kg_m2"]), matrix)
        spins[name] = rate_of(time_s, np.einsum("nij,nj->ni", inertia, omega))
        forces[name] = segment["mass_kg"] * (rate_of(time_s, centre, 2) - gravity)
        arms[name] = centre
    ball = points(curve, "ball")
    held = curve["ball_weight_factor"][:, None]
    forces["ball"] = held * arm["ball"]["mass_kg"] * (rate_of(time_s, ball, 2) - gravity)
    arms["ball"], spins["ball"] = ball, np.zeros_like(ball)

    beyond = {"shoulder": ["upper_arm", "forearm", "hand", "ball"], "elbow": ["forearm", "hand", "ball"]}
    beyond |= {"wrist": ["hand", "ball"], "ball": ["ball"]}
    found = {}
    for key, rule in arm["torques_and_forces"].items():
        joint, parts = points(curve, rule["at"]), beyond[rule["at"]]
        if rule["kind"] == "force":
            load = sum(forces[part] for part in parts)
        else:
            load = sum(np.cross(arms[part] - joint, forces[part]) + spins[part] for part in parts)
        found[key] = np.einsum("ni,ni->n", load, frames[rule["frame"]].apply(rule["direction"]))
    return found


def test_the_torques_computed_again_from_the_two_files_are_those_written(files) -> None:
    curve, arm = files
    again = recomputed(curve, arm)
    assert set(again) == set(CHANNELS)
    inner = slice(6, -6)  # a spline's second derivative is poor in its first and last few intervals
    for key, values in again.items():
        stored = curve[column_of(key)]
        # 1e-5 of the peak: what numerical derivatives over steps of 0.3 to 0.9 ms leave of a motion of quintic splines
        assert np.abs(values - stored)[inner].max() <= 1e-5 * np.abs(stored).max(), key


def test_the_written_derivatives_are_those_of_the_written_angles(files) -> None:
    curve, arm = files
    inner = slice(6, -6)
    for name in (*(rule["coordinate"] + "_rad" for rule in arm["rotations"]), "hips_x_m"):
        for written_rate, times in ((curve[f"{name}_s"], 1), (curve[f"{name}_s2"], 2)):
            numeric = rate_of(curve["time_s"], curve[name], times)
            assert np.abs(numeric - written_rate)[inner].max() <= 1e-5 * np.abs(written_rate).max(), name


def test_the_written_points_are_those_of_the_written_lengths_and_angles(files) -> None:
    curve, arm = files
    frames = frames_of(curve, arm)
    hips = np.stack([curve["hips_x_m"], 0 * curve["hips_x_m"], 0 * curve["hips_x_m"]], axis=1)
    near = {"upper_arm": "shoulder", "forearm": "elbow", "hand": "wrist"}
    micrometre = 1e-6
    shoulder = hips + frames["trunk"].apply(arm["shoulder_in_trunk_m"])
    np.testing.assert_allclose(points(curve, "shoulder"), shoulder, atol=micrometre)
    for name, segment in arm["segments"].items():
        along = frames[name].apply([0.0, 0.0, segment["along_z"]])
        start = points(curve, near[name])
        centre = start + segment["centre_from_near_joint_m"] * along
        np.testing.assert_allclose(points(curve, f"{name}_centre"), centre, atol=micrometre)
        length_m, end = {
            "upper_arm": (segment["length_m"], "elbow"),
            "forearm": (segment["length_m"], "wrist"),
            "hand": (arm["ball"]["centre_beyond_wrist_m"], "ball"),
        }[name]
        np.testing.assert_allclose(points(curve, end), start + length_m * along, atol=micrometre)


def test_the_ball_leaves_at_the_asked_speed_at_time_zero(files) -> None:
    curve, arm = files
    release = int(np.argmin(np.abs(curve["time_s"])))
    assert curve["time_s"][release] == pytest.approx(0.0, abs=1e-12)
    velocity = rate_of(curve["time_s"], points(curve, "ball"))[release]
    assert np.linalg.norm(velocity) == pytest.approx(arm["throw"]["release_speed_m_s"], rel=1e-6)
    assert velocity[0] > 0.99 * np.linalg.norm(velocity)  # toward the target
    assert curve["phase"][release] == 1.0
    assert curve["time_s"][0] == pytest.approx(arm["throw"]["foot_contact_s"], rel=1e-9)


def test_a_left_hander_is_the_mirror_image_with_the_same_torques(tmp_path: Path) -> None:
    (tmp_path / "right").mkdir()
    (tmp_path / "left").mkdir()
    right, _ = written(tmp_path / "right", REFERENCE)
    left, _ = written(tmp_path / "left", [*REFERENCE, "--handedness", "left"])
    for name, values in right.items():
        mirrored = -values if name.endswith(("_z_m", "_z_n")) else values
        np.testing.assert_array_equal(left[name], mirrored, err_msg=name)


def test_without_an_output_the_table_goes_to_standard_output(capfdbinary) -> None:
    assert main(["curve", *REFERENCE]) == 0
    lines = capfdbinary.readouterr().out.split(b"\n")
    assert lines[0].startswith(b"time_s,phase,ball_weight_factor,trunk_rotation_rad,")
    assert len(lines) == 1 + 501 + 1  # names, 501 phases, and nothing after the last line's end


@pytest.mark.parametrize(
    ("option", "given", "accepted"),
    [
        ("--stature-cm", "300", "90 to 230 cm"),
        ("--speed-m-s", "0.5", "1 to 60 m/s"),
        ("--ball-mass-g", "0,145", "1 to 3000 g, with a decimal point, not a comma"),
        ("--ball-diameter-mm", "nan", "10 to 350 mm"),
        ("--hand-length-cm", "19", "3 to 14 cm"),
        ("--sex", "m", "male or female"),
        ("--handedness", "both", "right or left"),
    ],
)
def test_a_bad_value_is_named_with_what_is_accepted_and_nothing_is_written(
    tmp_path: Path, capsys: pytest.CaptureFixture, option: str, given: str, accepted: str
) -> None:
    out = tmp_path / "curve.csv"
    assert main(["curve", *REFERENCE, option, given, "-o", str(out)]) == 2
    assert f"levelpeak curve: {option}: {given!r} given; accepted: {accepted}\n" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_all_bad_values_are_named_at_once(capsys: pytest.CaptureFixture) -> None:
    assert main(["curve", *REFERENCE, "--stature-cm", "1.88", "--speed-m-s", "fast"]) == 2
    assert len(capsys.readouterr().err.splitlines()) == 2


def test_a_missing_value_is_asked_for(capsys: pytest.CaptureFixture) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["curve", *REFERENCE[:-2]])
    assert ended.value.code == 2
    assert "--speed-m-s" in capsys.readouterr().err


def test_both_files_under_one_name_are_refused(tmp_path: Path, capsys: pytest.CaptureFixture) -> None:
    out = str(tmp_path / "throw")
    assert main(["curve", *REFERENCE, "-o", out, "--segments", out]) == 2
    assert "--segments" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_where_nothing_can_be_written_the_file_is_named(tmp_path: Path, capsys: pytest.CaptureFixture) -> None:
    out = tmp_path / "no such folder" / "curve.csv"
    assert main(["curve", *REFERENCE, "-o", str(out)]) == 2
    assert "no such folder" in capsys.readouterr().err
