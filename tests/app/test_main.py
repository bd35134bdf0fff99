"""The command line: what it takes, what it refuses, and what it imports for it."""

import subprocess
import sys
from importlib.metadata import version

import pytest

from app import main as command
from app.main import main


def test_the_version_is_told(capsys):
    with pytest.raises(SystemExit) as ended:
        main(["--version"])
    assert ended.value.code == 0
    assert capsys.readouterr().out == f"levelpeak {version('levelpeak')}\n"


@pytest.mark.parametrize("port", ["0", "65536", "-1", "80.5", "http", "", "1e3", "١٢٣٤", "9" * 5000])
def test_a_bad_port_is_named_with_what_is_accepted(capsys, port):
    with pytest.raises(SystemExit) as ended:
        main([f"--port={port}"])
    assert ended.value.code == 2
    message = capsys.readouterr().err
    assert "--port" in message
    assert f"{port!r} given; accepted: a whole number from 1 to 65535" in message


def test_the_help_lists_every_command(capsys):
    with pytest.raises(SystemExit) as ended:
        main(["--help"])
    assert ended.value.code == 0
    text = capsys.readouterr().out
    for name in command.COMMANDS:
        assert name in text


def test_an_unknown_command_is_refused_with_the_known_ones(capsys):
    with pytest.raises(SystemExit) as ended:
        main(["readout"])
    assert ended.value.code == 2
    message = capsys.readouterr().err
    assert "'readout'" in message
    assert "readouts" in message


def test_without_a_command_the_dashboard_starts_with_what_was_asked_for(monkeypatch):
    asked = {}
    monkeypatch.setattr("app.web.serve.serve", lambda **words: asked.update(words) or 0)
    assert main(["--demo", "--port", "8123", "--no-browser"]) == 0
    asked_for = {"host": "127.0.0.1", "port": 8123, "demo": True, "browser": False}
    assert asked == asked_for | {"data_dir": None, "database": None}


def test_the_defaults_are_this_machine_and_a_browser(monkeypatch):
    asked = {}
    monkeypatch.setattr("app.web.serve.serve", lambda **words: asked.update(words) or 0)
    assert main([]) == 0
    defaults = {"host": "127.0.0.1", "port": 8050, "demo": False, "browser": True}
    assert asked == defaults | {"data_dir": None, "database": None}


def test_where_the_records_lie_can_be_said_before_a_command_and_after_it(monkeypatch, tmp_path):
    asked = {}
    monkeypatch.setattr("app.web.serve.serve", lambda **words: asked.update(words) or 0)
    assert main(["--data-dir", str(tmp_path), "--database", "postgresql://x/y"]) == 0
    assert (asked["data_dir"], asked["database"]) == (str(tmp_path), "postgresql://x/y")
    for words in (["--data-dir", str(tmp_path), "export"], ["export", "--data-dir", str(tmp_path)]):
        assert main([*words, "-o", str(tmp_path / "out.json")]) == 0
        assert (tmp_path / "records.sqlite3").is_file()


@pytest.mark.parametrize("name", list(command.COMMANDS))
def test_a_command_does_not_wait_for_the_screen_to_be_imported(name):
    program = (
        "import sys\nfrom app.main import main\n"
        f"try:\n    main([{name!r}, '--help'])\nexcept SystemExit as ended:\n    assert not ended.code\n"
        "print(sorted({'dash', 'plotly', 'flask'} & set(sys.modules)), file=sys.stderr)"
    )
    ran = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, timeout=60, check=True)
    assert ran.stderr.strip() == "[]"


def test_a_command_that_is_interrupted_says_so_without_a_trace(monkeypatch, capsys):
    from app.commands import curve

    def interrupted(_args) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr(curve, "run", interrupted)
    words = "curve --sex male --stature-cm 188 --body-mass-kg 90 --ball-mass-g 145 --speed-m-s 37"
    assert main(words.split()) == 130
    assert capsys.readouterr().err == "\nlevelpeak curve: stopped\n"
