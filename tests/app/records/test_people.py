"""Many at once, and programs that are killed: what was answered for is there."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.app.records.people import crowd

ROOT = Path(__file__).resolve().parents[3]
KILLS_IN_FILE, KILLS_ON_SERVER = 20, 9
SECONDS = 1.5


def test_twenty_four_writers_in_three_processes_lose_nothing(place):
    assert "saves by 24 writers" in crowd(place, SECONDS)


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no fork")
@pytest.mark.parametrize("kind", ["sqlite", "postgres"])
def test_killed_in_the_middle_of_saving_taking_in_and_changing_tables_no_row_is_lost(kind, request):
    words, kills = [], KILLS_IN_FILE
    if kind == "postgres":
        url = request.getfixturevalue("fresh_server").url
        words, kills = ["--database", url.render_as_string(hide_password=False)], KILLS_ON_SERVER
    ran = subprocess.run(
        [sys.executable, "-m", "tests.app.records.kills", str(kills), *words],
        cwd=ROOT,
        env=os.environ | {"PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    assert ran.returncode == 0, ran.stderr
    assert ran.stdout.startswith(f"{kills} kills (saving")
    assert ran.stdout.rstrip().endswith("0 rows lost")
