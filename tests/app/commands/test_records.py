"""`levelpeak export`, `import` and `restore`: out and in by the command line, and what they say of it."""

import io
import json
import stat
import sys
from pathlib import Path

import pytest

from app.main import main
from app.records.acts import Add, Hand
from app.records.copies import back_up
from app.records.opening import open_store
from app.records.place import Place

OLD = Path(__file__).resolve().parents[1] / "records" / "old"


@pytest.fixture
def run(tmp_path, capsys, monkeypatch):
    """Run a command on records of its own; its status, and what it printed to either side."""
    monkeypatch.delenv("LEVELPEAK_DATABASE", raising=False)
    monkeypatch.setattr("sys.stdin", io.StringIO(""))

    def command(*words: str, folder: str = "data") -> tuple[int, str, str]:
        status = main([*map(str, words), "--data-dir", str(tmp_path / folder)])
        said = capsys.readouterr()
        return status, said.out, said.err

    return command


def test_the_demo_goes_out_and_comes_in_twice_and_is_there_once(run, tmp_path):
    file = tmp_path / "demo.json"
    assert run("export", "--demo", "-o", file) == (0, "", f"Written: {file}\n")
    assert not (tmp_path / "data").exists()  # the demo has records of its own
    status, out, _ = run("import", file)
    assert status == 0
    assert out.splitlines()[0].startswith(
        "W01 (invented): a new athlete; added: 1 ball, 1 row of measures, 15 readings"
    )
    status, out, _ = run("import", file)
    assert (status, out.splitlines()[-1]) == (0, "Added: 0.")
    again = tmp_path / "again.json"
    run("export", "-o", again)
    assert again.read_bytes() == file.read_bytes()


def test_the_demo_is_the_same_each_time_it_is_made(run, tmp_path):
    for name in ("a.json", "b.json"):
        run("export", "--demo", "-o", tmp_path / name)
    assert (tmp_path / "a.json").read_bytes() == (tmp_path / "b.json").read_bytes()


def test_one_athlete_goes_to_another_machine(run, tmp_path):
    run("export", "--demo", "-o", tmp_path / "demo.json")
    run("import", tmp_path / "demo.json")
    run("export", "--athlete", "W05", "-o", tmp_path / "one.json")
    assert run("import", tmp_path / "one.json", folder="elsewhere")[0] == 0
    run("export", "--athlete", "W05", "-o", tmp_path / "back.json", folder="elsewhere")
    assert (tmp_path / "back.json").read_bytes() == (tmp_path / "one.json").read_bytes()


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has other rights")
def test_what_is_written_is_for_the_owner_alone(run, tmp_path):
    run("export", "--demo", "-o", tmp_path / "demo.json")
    assert stat.S_IMODE((tmp_path / "demo.json").stat().st_mode) == 0o600


def test_the_document_goes_to_the_standard_output_too(run):
    status, out, _ = run("export", "--demo", "--athlete", "W01")
    assert status == 0
    assert [one["code"] for one in json.loads(out)["athletes"]] == ["W01"]


def test_tables_go_out_and_come_in(run, tmp_path):
    for kind in ("readings", "sessions"):
        table = tmp_path / f"{kind}.csv"
        assert run("export", "--demo", f"--{kind}", "-o", table)[0] == 0
        status, out, _ = run("import", table)
        count = len(table.read_text(encoding="utf-8").splitlines()) - 1
        assert (status, out.splitlines()[-1]) == (0, f"Added: {count}.")
        assert run("import", table)[1].splitlines()[-1] == "Added: 0."


def test_a_refused_row_is_named_and_the_rest_is_kept(run, tmp_path):
    (tmp_path / "x.csv").write_text(
        "day,ball_mass_g,speed_m_s\n2026-01-02,145,33\n2026-01-02,145,99\n", encoding="utf-8"
    )
    status, out, _ = run("import", tmp_path / "x.csv", "--athlete", "B12")
    assert status == 1
    assert "Refused, row 2: speed_m_s: “99” given; accepted: 1 to 60 m/s." in out
    assert out.endswith("Added: 1.\n")


def test_looking_keeps_nothing(run, tmp_path):
    run("export", "--demo", "-o", tmp_path / "demo.json")
    assert run("import", "--look", tmp_path / "demo.json")[0] == 0
    assert json.loads(run("export")[1])["athletes"] == []


@pytest.mark.parametrize(("answer", "kept"), [("n\n", 0), ("", 0), ("y\n", 6)])
def test_at_a_terminal_one_is_asked_first(run, tmp_path, monkeypatch, answer, kept):
    class Terminal(io.StringIO):
        def isatty(self) -> bool:
            return True

    run("export", "--demo", "-o", tmp_path / "demo.json")
    monkeypatch.setattr("sys.stdin", Terminal(answer))
    status, out, _ = run("import", tmp_path / "demo.json")
    assert status == (0 if kept else 1)
    assert ("Nothing was changed." in out) == (not kept)
    assert len(json.loads(run("export")[1])["athletes"]) == kept


def test_files_of_the_version_before_come_in(run):
    assert run("import", OLD / "plan.json")[0] == 0
    assert run("import", OLD / "session.json")[0] == 0
    assert run("import", OLD / "plan.json")[1].splitlines()[-1] == "Added: 0."
    codes = [one["code"] for one in json.loads(run("export")[1])["athletes"]]
    assert codes == ["W04", "W05", "W02"]


def test_a_document_can_be_taken_in_under_another_code_or_as_the_same_athlete(run, tmp_path):
    run("export", "--demo", "--athlete", "W01", "-o", tmp_path / "one.json")
    store = open_store(Place(tmp_path / "data"))
    uid = store.new_athlete("W01", Hand("x"), invented=True)
    store.act(uid, Add("note", {"text": "here"}), Hand("x"))
    store.close()
    status, out, _ = run("import", tmp_path / "one.json")
    assert status == 1
    assert "the code W01 is another athlete’s here" in out
    assert run("import", tmp_path / "one.json", "--as", "W01b")[0] == 0
    assert run("import", tmp_path / "one.json", "--same", "W01")[0] == 0
    athletes = {one["code"]: one for one in json.loads(run("export")[1])["athletes"]}
    assert len(athletes["W01"]["readings"]) == len(athletes["W01b"]["readings"]) == 15


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "x: the file is empty"),
        (b"{", "no JSON text"),
        (b'{"kind": "other"}', "none of the files that can be taken in"),
        (b'{"kind": "levelpeak records", "version": 9}', "made by a newer version"),
        (b"a,b\n1,2\n", "no column for speed; found: a, b"),
    ],
)
def test_a_file_that_cannot_be_taken_in_is_refused_with_what_is_accepted(run, tmp_path, content, words):
    (tmp_path / "x").write_bytes(content)
    status, _, err = run("import", tmp_path / "x")
    assert status == 2
    assert words in err
    assert err.startswith("levelpeak import: ")


def test_refusals_of_the_options_are_told(run, tmp_path):
    assert run("import", tmp_path / "nothing.json")[2] == (
        f"levelpeak import: {tmp_path / 'nothing.json'}: there is no such file\n"
    )
    assert "There is no athlete with the code “Q” here." in run("export", "--athlete", "Q")[2]
    assert "a password given" in run("export", "--database", "postgresql://a:b@c/d")[2]
    assert "cannot be written" in run("export", "-o", tmp_path / "no" / "such.json")[2]
    run("export", "--demo", "-o", tmp_path / "demo.json")
    assert "a file of one athlete; this one has 6" in run("import", tmp_path / "demo.json", "--as", "X")[2]


def test_dated_copies_are_listed_and_put_back(run, tmp_path):
    assert run("restore")[:2] == (0, "")
    place = Place(tmp_path / "data")
    store = open_store(place)
    store.new_athlete("B12", Hand("x"))
    name = back_up(store.database, "0001")
    store.new_athlete("C3", Hand("x"))
    store.close()
    assert run("restore")[1].startswith(f"{name}  (made ")
    status, out, _ = run("restore", name)
    assert status == 0
    assert "What stood there is kept: " in out
    assert [one["code"] for one in json.loads(run("export")[1])["athletes"]] == ["B12"]
    assert run("restore", "other")[0] == 2
