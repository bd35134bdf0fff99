"""`levelpeak readouts`: every row comes out again, in order, with its readouts or its reason."""

import csv
import io
import os
import subprocess
import sys
from pathlib import Path

import pytest

from app.commands import readouts as command
from app.main import main
from model.ball import Ball
from model.person import Person
from model.readouts import read_curves
from model.throw import Throw, curves

HEADER = "athlete,sex,age_years,stature_cm,body_mass_kg,ball_mass_g,ball_diameter_mm,speed_m_s"
FIRST = "peak_varus_nm,peak_varus_before_release_ms,loaded_ms,half_height_ms,area_nms,rise_nm_s"
FIRST += ",peak_internal_rotation_nm,peak_shoulder_force_n,peak_elbow_force_n,error"
GOOD = "W01,male,25,188,90,145,73,37"


def written(folder: Path, text: str | bytes, name: str = "throws.csv") -> Path:
    path = folder / name
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return path


def rows_of(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file, strict=True))


def computed(folder: Path, text: str | bytes, *words: str) -> tuple[int, list[dict[str, str]]]:
    out = folder / "out.csv"
    status = main(["readouts", str(written(folder, text)), "-o", str(out), *words])
    return status, rows_of(out)


def test_a_row_has_the_readouts_of_its_throw_alone(tmp_path: Path) -> None:
    status, (row,) = computed(tmp_path, f"{HEADER}\n{GOOD}\n")
    alone = curves(Throw(Person("male", 1.88, 90.0, 25.0), Ball(0.145), 37.0))
    varus = read_curves(alone, "varus")
    expected = {
        "peak_varus_nm": varus.peak,
        "peak_varus_before_release_ms": 1e3 * varus.peak_before_release_s,
        "loaded_ms": 1e3 * varus.loaded_s,
        "half_height_ms": 1e3 * varus.half_height_s,
        "area_nms": varus.area,
        "rise_nm_s": varus.rise_rate,
        "peak_varus_percent_bwh": 100 * varus.peak / (90.0 * 9.80665 * 1.88),
        "peak_internal_rotation_nm": read_curves(alone, "internal_rotation").peak,
        "peak_shoulder_force_n": read_curves(alone, "shoulder_proximal").peak,
        "peak_elbow_force_n": read_curves(alone, "elbow_proximal").peak,
        "peak_braking_horizontal_abduction_nm": read_curves(alone, "horizontal_abduction").peak,
        "internal_rotation_work_in_j": read_curves(alone, "internal_rotation").work_in_j,
    }
    assert status == 0
    assert row["error"] == ""
    for name, value in expected.items():
        assert float(row[name]) == pytest.approx(value, rel=5e-6), name  # six digits are written


def test_the_columns_come_as_agreed_input_first_then_the_nine_and_the_error(tmp_path: Path) -> None:
    _, (row,) = computed(tmp_path, f"{HEADER}\n{GOOD}\n")
    names = list(row)
    assert ",".join(names[:18]) == f"{HEADER},{FIRST}"
    assert len(set(names)) == len(names)


def test_the_input_columns_may_stand_in_any_order(tmp_path: Path) -> None:
    order = [7, 2, 0, 5, 6, 1, 4, 3]
    shuffled = [",".join(line.split(",")[i] for i in order) for line in (HEADER, GOOD)]
    _, (row,) = computed(tmp_path, "\n".join(shuffled) + "\n")
    _, (straight,) = computed(tmp_path, f"{HEADER}\n{GOOD}\n")
    assert row == straight
    assert list(row)[:8] == shuffled[0].split(",")


def test_good_and_bad_rows_keep_their_order_and_the_bad_ones_say_why(tmp_path: Path) -> None:
    lines = [HEADER, GOOD, "W02,male,25,300,90,145,73,37", "W03,female,20,170,65,188,97,26", "W04,male,25", GOOD]
    status, rows = computed(tmp_path, "\n".join(lines) + "\n")
    assert status == 1
    assert [row["athlete"] for row in rows] == ["W01", "W02", "W03", "W04", "W01"]
    assert rows[1]["error"] == "stature_cm: '300' given; accepted: 90 to 230 cm"
    assert rows[3]["error"].startswith("row: 3 values given; accepted: 8")
    for row in (rows[1], rows[3]):
        assert all(row[name] == "" for name in list(row)[8:] if name != "error")
    for row in (rows[0], rows[2], rows[4]):
        assert row["error"] == ""
        assert float(row["peak_varus_nm"]) > 0
    assert rows[0] == rows[4]


def test_a_table_of_bad_rows_only_still_comes_out(tmp_path: Path) -> None:
    status, rows = computed(tmp_path, f"{HEADER}\nW01,male,,,,,,\n")
    assert status == 1
    assert rows[0]["error"].count("|") == 4  # age, stature, body mass, ball mass and speed; the diameter may be empty


def test_other_columns_are_carried_through_and_named_on_the_error_stream(
    tmp_path: Path, capsys: pytest.CaptureFixture
) -> None:
    text = f'date,{HEADER},note,hand_lenght_cm\n2026-01-13,{GOOD},"rain, wind",9\n'
    _, (row,) = computed(tmp_path, text)
    assert (row["date"], row["note"], row["hand_lenght_cm"]) == ("2026-01-13", "rain, wind", "9")
    assert "carried through unread: date, note, hand_lenght_cm" in capsys.readouterr().err


def test_empty_optional_values_change_nothing_and_measured_ones_do(tmp_path: Path) -> None:
    header = f"{HEADER},forearm_length_cm,upper_arm_length_cm,hand_length_cm,handedness"
    bare = GOOD.replace(",73,", ",,")
    _, rows = computed(tmp_path, f"{header}\n{bare},,,,\n{GOOD},,,,left\n{GOOD},31,,,right\n")
    peaks = [float(row["peak_varus_nm"]) for row in rows]
    assert peaks[0] == peaks[1]
    assert peaks[2] != peaks[0]


def test_results_of_an_earlier_run_are_replaced(tmp_path: Path, capsys: pytest.CaptureFixture) -> None:
    _, once = computed(tmp_path, f"{HEADER}\n{GOOD}\n")
    again = tmp_path / "again.csv"
    assert main(["readouts", str(tmp_path / "out.csv"), "-o", str(again)]) == 0
    assert rows_of(again) == once
    assert "results of an earlier run replaced: peak_varus_nm" in capsys.readouterr().err


def test_texts_that_look_like_formulas_are_made_harmless_and_numbers_are_not(tmp_path: Path) -> None:
    _, (row,) = computed(tmp_path, f"{HEADER},change\n{GOOD.replace('W01', '=W01+1')},-5\n")
    assert row["athlete"] == "'=W01+1"
    assert row["change"] == "-5"


def test_a_byte_order_mark_is_given_back_and_names_keep_their_letters(tmp_path: Path) -> None:
    _, (row,) = computed(tmp_path, b"\xef\xbb\xbf" + f"{HEADER}\n{GOOD.replace('W01', 'José')}\n".encode())
    assert row["athlete"] == "José"
    assert (tmp_path / "out.csv").read_bytes().startswith(b"\xef\xbb\xbfathlete")


def test_a_table_without_rows_gives_a_table_without_rows(tmp_path: Path, capsys: pytest.CaptureFixture) -> None:
    assert computed(tmp_path, HEADER + "\n") == (0, [])
    assert "no rows" in capsys.readouterr().err


def test_time_above_a_torque_and_another_share_can_be_asked_for(tmp_path: Path) -> None:
    _, (row,) = computed(tmp_path, f"{HEADER}\n{GOOD}\n", "--above-nm", "40", "--share-percent", "50")
    alone = curves(Throw(Person("male", 1.88, 90.0, 25.0), Ball(0.145), 37.0))
    assert float(row["above_ms"]) == pytest.approx(1e3 * read_curves(alone, "varus", above=40.0).above_s, rel=5e-6)
    assert "internal_rotation_above_ms" in row
    assert "shoulder_force_above_ms" not in row
    assert row["loaded_ms"] == row["half_height_ms"]
    _, (plain,) = computed(tmp_path, f"{HEADER}\n{GOOD}\n")
    assert not any("above_ms" in name for name in plain)


def test_all_adds_every_other_quantity_and_changes_no_number(tmp_path: Path) -> None:
    _, (main_ones,) = computed(tmp_path, f"{HEADER}\n{GOOD}\n")
    _, (every,) = computed(tmp_path, f"{HEADER}\n{GOOD}\n", "--all")
    assert main_ones.items() <= every.items()
    assert {"peak_elbow_extension_nm", "peak_abduction_nm", "peak_elbow_medial_force_n"} <= set(every) - set(main_ones)


@pytest.mark.parametrize("option", [("--share-percent", "0"), ("--share-percent", "ten"), ("--above-nm", "-3")])
def test_a_bad_option_is_named_and_nothing_is_written(
    tmp_path: Path, capsys: pytest.CaptureFixture, option: tuple[str, str]
) -> None:
    throws, out = written(tmp_path, f"{HEADER}\n{GOOD}\n"), tmp_path / "out.csv"
    assert main(["readouts", str(throws), "-o", str(out), *option]) == 2
    assert f"levelpeak readouts: {option[0]}: {option[1]!r} given; accepted: " in capsys.readouterr().err
    assert not out.exists()


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (b"", "the file is empty"),
        (HEADER.replace("speed_m_s", "speed").encode() + b"\n", "columns missing: speed_m_s"),
        (HEADER.replace(",", ";").encode() + b"\n", "semicolons"),
        (f"{HEADER},sex\n".encode(), "columns given twice: sex"),
        (f"{HEADER}\n".encode() + b"\xe9\n", "line 2: not UTF-8"),
        (f"{HEADER}\n".encode() + b"\x00\n", "line 2: a zero byte"),
        (f'{HEADER}\n"{GOOD}\n'.encode(), "a quoted value that does not end"),
    ],
)
def test_an_unusable_file_ends_with_status_2_and_leaves_the_old_result(
    tmp_path: Path, capsys: pytest.CaptureFixture, text: bytes, words: str
) -> None:
    throws, out = written(tmp_path, text), written(tmp_path, "old", "out.csv")
    assert main(["readouts", str(throws), "-o", str(out)]) == 2
    message = capsys.readouterr().err
    assert message.startswith(f"levelpeak readouts: {throws}: ")
    assert words in message
    assert out.read_text() == "old"


def test_a_missing_file_is_named(tmp_path: Path, capsys: pytest.CaptureFixture) -> None:
    assert main(["readouts", str(tmp_path / "none.csv")]) == 2
    assert "none.csv: there is no such file" in capsys.readouterr().err


def test_the_throws_are_not_written_over(tmp_path: Path, capsys: pytest.CaptureFixture) -> None:
    throws = written(tmp_path, f"{HEADER}\n{GOOD}\n")
    assert main(["readouts", str(throws), "-o", f"{tmp_path}/./throws.csv"]) == 2
    assert "--output" in capsys.readouterr().err
    assert throws.read_text() == f"{HEADER}\n{GOOD}\n"


def test_where_nothing_can_be_written_the_place_is_named(tmp_path: Path, capsys: pytest.CaptureFixture) -> None:
    throws = written(tmp_path, f"{HEADER}\n{GOOD}\n")
    assert main(["readouts", str(throws), "-o", str(tmp_path / "nowhere" / "out.csv")]) == 2
    assert "cannot be written" in capsys.readouterr().err


def test_ctrl_c_leaves_no_half_written_file(
    tmp_path: Path, capsys: pytest.CaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupted(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(command, "read_throws", interrupted)
    throws = written(tmp_path, f"{HEADER}\n{GOOD}\n")
    assert main(["readouts", str(throws), "-o", str(tmp_path / "out.csv")]) == 130
    assert list(tmp_path.iterdir()) == [throws]
    assert "stopped" in capsys.readouterr().err


def test_without_an_output_the_table_goes_to_standard_output(tmp_path: Path, capfdbinary) -> None:
    _, rows = computed(tmp_path, f"{HEADER}\n{GOOD}\n")
    assert main(["readouts", str(tmp_path / "throws.csv")]) == 0
    out = capfdbinary.readouterr().out
    assert b"\r" not in out
    assert list(csv.DictReader(io.StringIO(out.decode()))) == rows


def run(*words: str, **how: object) -> subprocess.CompletedProcess:
    command_line = [sys.executable, "-m", "app.main", "readouts", *words]
    return subprocess.run(command_line, capture_output=True, timeout=60, **how)  # type: ignore[call-overload]


def test_the_table_may_come_from_standard_input(tmp_path: Path) -> None:
    ended = run("-", input=f"{HEADER}\n{GOOD}\n".encode())
    assert ended.returncode == 0
    assert ended.stderr == b""
    assert ended.stdout.startswith(HEADER.encode())


@pytest.mark.skipif(sys.platform == "win32", reason="pipes end otherwise on Windows")
def test_a_reader_that_goes_away_sees_no_stack_trace(tmp_path: Path) -> None:
    throws = written(tmp_path, HEADER + "\n" + (GOOD + "\n") * 500)
    ended = subprocess.run(
        f"{sys.executable} -m app.main readouts {throws} | head -c 10", shell=True, capture_output=True, timeout=60
    )
    assert ended.stderr == b""
    assert ended.stdout == HEADER[:10].encode()


@pytest.mark.skipif(sys.platform == "win32", reason="no pseudo-terminal on Windows")
def test_progress_is_shown_on_a_terminal_and_nowhere_else(tmp_path: Path) -> None:
    import pty

    throws = written(tmp_path, HEADER + "\n" + (GOOD + "\n") * 20)
    near, far = pty.openpty()
    words = [sys.executable, "-m", "app.main", "readouts", str(throws), "-o", str(tmp_path / "out.csv")]
    ended = subprocess.run(words, stderr=far, timeout=60)
    os.close(far)
    shown = os.read(near, 10_000)
    os.close(near)
    assert ended.returncode == 0
    assert b"reading throws [" + b"#" * 30 + b"] 20 of 20" in shown
    assert run(str(throws), "-o", str(tmp_path / "out.csv")).stderr == b""
