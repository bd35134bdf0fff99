"""Installed as a wheel somewhere else, or as an editable checkout, the program finds all it needs.

The environments made here borrow the libraries of the environment the tests run in, so that nothing is fetched; the
program itself is installed into them anew.
"""

import csv
import io
import os
import shutil
import subprocess
import sys
import sysconfig
import time
import venv
import zipfile
from http.client import HTTPConnection
from importlib.metadata import version
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
WINDOWS = sys.platform == "win32"
BIN = "Scripts" if WINDOWS else "bin"
NOT_COPIED = shutil.ignore_patterns(".*", "__pycache__", "build", "dist", "*.egg-info")
WITHOUT_NETWORK = ["--no-deps", "--no-build-isolation", "--no-index", "--quiet", "--disable-pip-version-check"]

pytestmark = pytest.mark.slow


def run(*words: str | Path, cwd: Path, env: dict[str, str] | None = None) -> str:
    """Run a program; what it printed, or a failure that shows it."""
    ran = subprocess.run([*map(str, words)], cwd=cwd, env=env, capture_output=True, text=True, timeout=300, check=False)
    assert ran.returncode == 0, f"{words}\n{ran.stdout}\n{ran.stderr}"
    return ran.stdout


def clean_environment() -> dict[str, str]:
    """The environment without what would point Python at this checkout."""
    return {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}


@pytest.fixture(scope="module")
def checkout(tmp_path_factory) -> Path:
    """A copy of the tree, as a fresh clone would be."""
    copy = tmp_path_factory.mktemp("checkout") / "levelpeak"
    shutil.copytree(ROOT, copy, ignore=NOT_COPIED)
    shutil.copy(ROOT / ".gitignore", copy)
    return copy


@pytest.fixture(scope="module")
def wheel(checkout, tmp_path_factory) -> Path:
    """The wheel built from that copy."""
    folder = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "pip", "wheel", *WITHOUT_NETWORK, "--wheel-dir", folder, checkout, cwd=folder)
    (made,) = folder.glob("levelpeak-*.whl")
    return made


def installed(place: Path, *what: str | Path) -> Path:
    """Make an environment at a place and install into it; the folder of its programs."""
    venv.create(place, with_pip=False, symlinks=not WINDOWS)
    paths = {"base": str(place), "platbase": str(place)}
    own = Path(sysconfig.get_path("purelib", "nt" if WINDOWS else "posix_prefix", paths))
    (own / "borrowed.pth").write_text(sysconfig.get_path("purelib") + "\n", encoding="utf-8")
    python = place / BIN / ("python.exe" if WINDOWS else "python")
    run(python, "-m", "pip", "install", *WITHOUT_NETWORK, *what, cwd=place, env=clean_environment())
    return place / BIN


@pytest.fixture(scope="module", params=["wheel", "editable"])
def programs(request, tmp_path_factory) -> Path:
    """The folder of programs of an environment into which levelpeak was installed."""
    place = tmp_path_factory.mktemp(request.param) / "env"
    if request.param == "wheel":
        return installed(place, request.getfixturevalue("wheel"))
    return installed(place, "--editable", request.getfixturevalue("checkout"))


def test_the_wheel_holds_the_packages_and_their_files_and_nothing_else(wheel):
    names = zipfile.ZipFile(wheel).namelist()
    assert {name.split("/")[0] for name in names} == {"app", "model", f"levelpeak-{version('levelpeak')}.dist-info"}
    places = {"app": "app", "model": "model", "assets": "app/assets", "demo_data": "app/demo_data"}
    for folder, inside in places.items():
        for path in (ROOT / folder).rglob("*"):
            if path.is_file() and "__pycache__" not in path.parts:
                assert f"{inside}/{path.relative_to(ROOT / folder).as_posix()}" in names


def test_it_runs_from_where_it_was_installed_and_tells_its_version(programs, tmp_path):
    said = run(programs / "levelpeak", "--version", cwd=tmp_path, env=clean_environment())
    assert said == f"levelpeak {version('levelpeak')}\n"
    where = run(programs / "python", "-c", "import app; print(app.__file__)", cwd=tmp_path, env=clean_environment())
    assert ROOT not in Path(where.strip()).parents


def test_it_computes_a_throw(programs, tmp_path):
    header = "athlete,sex,age_years,stature_cm,body_mass_kg,ball_mass_g,ball_diameter_mm,speed_m_s"
    (tmp_path / "throws.csv").write_text(f"{header}\nA1,male,25,188,90,145,,37\n", encoding="utf-8")
    words = ("readouts", "throws.csv", "-o", "out.csv")
    run(programs / "levelpeak", *words, cwd=tmp_path, env=clean_environment())
    (row,) = csv.DictReader(io.StringIO((tmp_path / "out.csv").read_text(encoding="utf-8")))
    assert row["error"] == ""
    assert 65 <= float(row["peak_varus_nm"]) <= 90  # the reference throw: adult groups' means run from 64 to 90 N·m


def test_it_keeps_records_whose_tables_come_with_it(programs, tmp_path):
    for words in (("export", "--demo", "-o", "demo.json"), ("import", "demo.json", "--data-dir", "data")):
        run(programs / "levelpeak", *words, cwd=tmp_path, env=clean_environment())
    run(
        programs / "levelpeak",
        "export",
        "--data-dir",
        "data",
        "-o",
        "again.json",
        cwd=tmp_path,
        env=clean_environment(),
    )
    assert (tmp_path / "again.json").read_bytes() == (tmp_path / "demo.json").read_bytes()


def fetch(port: int, path: str) -> tuple[int, bytes]:
    """What the server answers."""
    connection = HTTPConnection("127.0.0.1", port, timeout=10)
    try:
        connection.request("GET", path)
        answer = connection.getresponse()
        return answer.status, answer.read()
    finally:
        connection.close()


def test_it_serves_its_page_and_assets_from_another_folder(programs, tmp_path):
    words = [str(programs / "levelpeak"), "--demo", "--no-browser", "--port", "18050"]
    env = clean_environment() | {"PYTHONUNBUFFERED": "1", "TMPDIR": str(tmp_path)}  # it is killed: the demo stays there
    pipe = subprocess.PIPE
    program = subprocess.Popen(words, cwd=tmp_path, env=env, stdout=pipe, stderr=subprocess.STDOUT, text=True)
    try:
        lines = [program.stdout.readline()]
        if "is busy" in lines[-1]:
            lines.append(program.stdout.readline())
        assert "Levelpeak is at http://127.0.0.1:" in lines[-1], lines + program.stdout.readlines()
        port = int(lines[-1].split("127.0.0.1:")[1].split("/")[0])
        until = time.monotonic() + 30
        while True:
            try:
                assert fetch(port, "/health") == (200, b"OK")
                break
            except OSError:
                assert time.monotonic() < until, "it never answered"
                time.sleep(0.05)
        status, text = fetch(port, "/")
        assert status == 200
        for path in (ROOT / "assets").iterdir():
            status, body = fetch(port, f"/assets/{path.name}")
            assert (status, body) == (200, path.read_bytes())
            if path.suffix in (".css", ".js"):
                assert f"/assets/{path.name}".encode() in text
        assert fetch(port, "/_dash-layout")[0] == 200
    finally:
        program.kill()
        program.communicate()
