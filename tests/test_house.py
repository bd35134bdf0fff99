"""The house keeps its shape: what lies where, who imports whom, and that what is public is explained."""

import ast
import contextlib
import io
import re
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
TOP_LEVEL = {"README.md", "DEVELOPERS.md", "pyproject.toml", "app", "model", "assets", "tests", "demo_data"}
LONGEST_FILE = 400
VENDORED = {"plotly-basic.min.js", "axe.min.js"}

SOURCES = sorted(path for folder in ("app", "model") for path in (ROOT / folder).rglob("*.py"))
MODEL = [path for path in SOURCES if path.is_relative_to(ROOT / "model")]
RECORDS = [path for path in SOURCES if path.is_relative_to(ROOT / "app" / "records")]
WRITTEN = sorted(
    path
    for folder in ("app", "model", "assets", "tests", "demo_data")
    for path in (ROOT / folder).rglob("*")
    if path.suffix in {".py", ".js", ".css", ".md", ".html"} and path.name not in VENDORED
)


def name_of(path: Path) -> str:
    """A file's place in the house."""
    return path.relative_to(ROOT).as_posix()


def tree_of(path: Path) -> ast.Module:
    """A file's syntax tree."""
    return ast.parse(path.read_text(encoding="utf-8"), filename=str(path))


def imported(path: Path) -> set[str]:
    """Every package that a file imports anywhere, by its first name."""
    names = set()
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.Import):
            names |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{name_of(path)} imports relatively"
            names.add(str(node.module).split(".")[0])
    return names


def project() -> dict:
    """The project's table of pyproject.toml."""
    return tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def code_blocks(language: str) -> list[str]:
    """The README's code blocks in a language."""
    return re.findall(rf"```{language}\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.DOTALL)


def test_the_top_level_holds_what_was_agreed_and_nothing_else():
    ignored = {line.rstrip("/") for line in (ROOT / ".gitignore").read_text(encoding="utf-8").split()}
    assert {entry.name for entry in ROOT.iterdir() if not entry.name.startswith(".")} - ignored == TOP_LEVEL


@pytest.mark.parametrize("path", MODEL, ids=name_of)
def test_the_model_knows_no_screen(path):
    assert imported(path) & {"app", "dash", "dash_mantine_components", "plotly", "flask", "pandas", "waitress"} == set()


def modules_of_the_app(path: Path) -> set[str]:
    """Every module or package of `app` that a file imports anywhere, with what it takes from it."""
    found = set()
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            found |= {f"{node.module}.{alias.name}" for alias in node.names}
    return {name for name in found if name.split(".")[0] == "app"}


FILES_AND_DEMO = ("places", "version", "demo", "csv_files", "progress")
"""Modules at the top of `app` that stand above the units only."""

MAY_IMPORT = {
    "units": {"units"},
    **{name: {"units", *FILES_AND_DEMO} for name in FILES_AND_DEMO},
    "records": {"records", "units", "csv_files", "demo", "places", "version"},
    "show": {"show", "records", "units", *FILES_AND_DEMO},
    "bind": {"bind", "show", "records", "units", *FILES_AND_DEMO},
    "pages": {"pages", "bind", "show", "records", "units", *FILES_AND_DEMO},
    "web": {"web", "pages", "bind", "show", "records", "units", *FILES_AND_DEMO},
}
"""The rooms of `app` and these modules, and what each may know of it: imports run down only."""


def room_of(path: Path) -> str:
    """The room of a file of `app`, or its own name at the top."""
    return path.relative_to(ROOT / "app").parts[0].removesuffix(".py")


IN_ROOMS = [path for path in SOURCES if path.is_relative_to(ROOT / "app") and room_of(path) in MAY_IMPORT]


@pytest.mark.parametrize("path", IN_ROOMS, ids=name_of)
def test_imports_run_down_only(path):
    room = room_of(path)
    upwards = {name for name in modules_of_the_app(path) if name.split(".")[1] not in MAY_IMPORT[room]}
    assert upwards == set()


PAGES = sorted(path.name for path in (ROOT / "app" / "pages").iterdir() if path.is_dir() and path.name[0] != "_")
IN_PAGES = [path for path in SOURCES if name_of(path).startswith("app/pages/") and len(name_of(path).split("/")) > 3]


@pytest.mark.parametrize("path", IN_PAGES, ids=name_of)
def test_no_page_imports_another_page(path):
    own = name_of(path).split("/")[2]
    of_pages = {name.split(".")[2] for name in modules_of_the_app(path) if name.startswith("app.pages.")}
    assert of_pages <= {own}


@pytest.mark.parametrize("page", PAGES)
def test_a_page_is_a_folder_with_its_page_and_a_line_in_the_list(page):
    assert (ROOT / "app" / "pages" / page / "page.py").is_file()
    assert f"app.pages.{page}.page" in modules_of_the_app(ROOT / "app" / "pages" / "__init__.py")


@pytest.mark.parametrize("path", RECORDS, ids=name_of)
def test_the_records_know_no_screen(path):
    assert imported(path) & {"dash", "dash_mantine_components", "plotly", "flask", "pandas", "waitress"} == set()


def test_what_is_imported_is_declared():
    declared = {re.split(r"[^\w-]", line)[0].replace("-", "_") for line in project()["dependencies"]}
    used = set().union(*map(imported, SOURCES)) - set(sys.stdlib_module_names) - {"app", "model"}
    assert used - declared == set()


@pytest.mark.parametrize("path", WRITTEN, ids=name_of)
def test_no_file_is_too_long_to_be_read(path):
    assert len(path.read_text(encoding="utf-8").splitlines()) <= LONGEST_FILE


def test_ci_runs_the_readmes_test_command_unchanged_and_the_slow_tests_after_it():
    blocks = [block.strip() for block in code_blocks("sh")]
    (command,) = (block for block in blocks if "pytest" in block)
    assert "\n" not in command
    steps = (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines()
    assert steps.count(command) == 1
    after = steps[steps.index(command) + 1 :]
    assert after[0] == f"{command.split(' && ')[-1]} -m slow"


def test_one_line_of_the_readme_opens_the_dashboard_on_demo_data():
    (command,) = (block.strip() for block in code_blocks("sh") if "--demo" in block)
    assert "\n" not in command
    (test_command,) = (block.strip() for block in code_blocks("sh") if "pytest" in block)
    assert command.split(" && ")[0] == test_command.split(" && ")[0]


def test_the_readmes_python_runs_and_is_ten_lines():
    (program,) = code_blocks("python")
    assert len([line for line in program.splitlines() if line.strip()]) == 10
    said = io.StringIO()
    with contextlib.redirect_stdout(said):
        exec(compile(program, "README.md", "exec"), {})
    lines = re.findall(r"(\d+) g at ([\d.]+) m/s: peak ([\d.]+) N·m, area ([\d.]+) N·m·s", said.getvalue())
    assert [(mass, speed) for mass, speed, _, _ in lines] == [("145", "37.0"), ("275", "32.0")]
    assert 65 <= float(lines[0][2]) <= 90  # the reference throw's peak: adult groups' means run from 64 to 90 N·m


def public(body: list[ast.stmt]) -> Iterator[ast.FunctionDef | ast.ClassDef]:
    """The public functions and classes of a body."""
    for node in body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_"):
            yield node


@pytest.mark.parametrize("path", SOURCES, ids=name_of)
def test_what_is_public_says_what_it_is(path):
    tree = tree_of(path)
    assert ast.get_docstring(tree) or not tree.body, f"{name_of(path)} does not say what it holds"
    nodes = list(public(tree.body))
    nodes += [method for node in nodes if isinstance(node, ast.ClassDef) for method in public(node.body)]
    assert [node.name for node in nodes if not ast.get_docstring(node)] == []


LISTS = ("Parameters", "Attributes", "Returns", "Yields")
_SECTION = re.compile(r"^(\w+)\n-+\n(.*?)(?=^\w+\n-+\n|\Z)", re.DOTALL | re.MULTILINE)
_SIZE = r"(?:\.\.\.|(?:[0-9]+ )?(?:[0-9]+|[a-z]|[A-Z]+|intervals)(?: [-+*] [0-9]+)*)"
_SAID_BY_THE_TYPE = re.compile(rf"\({_SIZE}?(?:, ?{_SIZE})*,?\)|\{{.+\}}|`")
"""What no signature can say: a shape, as (N, 3); the words that are accepted; a reference to where it is told."""
_UNIT = re.compile(r"_(?:k?g|[mck]?m|m?s|hz|rad|deg|percent|nm?|nms|nm_s|m_s2?|j|kg_m2|1_m)$")
_NUMBERS = re.compile(r"\b(?:float|Array|ArrayLike|NDArray)\b")
_ARRAY = re.compile(r"\b(?:Array|ArrayLike|NDArray)\b")


def entries(docstring: str) -> list[tuple[str, str, str, bool]]:
    """What a docstring lists: the section, the names (none of what is returned), the type, and whether more is said."""
    found = []
    for title, body in _SECTION.findall(docstring):
        lines = [line for line in body.splitlines() if line.strip()] if title in LISTS else []
        for i, line in enumerate(lines):
            if line.startswith(" "):
                continue
            names, colon, kind = line.partition(" : ")
            more = i + 1 < len(lines) and lines[i + 1].startswith(" ")
            found.append((title, names if colon else "", kind if colon else line, more))
    return found


def empty_entries(docstring: str) -> list[str]:
    """What is listed with nothing but its type, which the signature has already."""
    return [
        names or kind for _, names, kind, more in entries(docstring) if not more and not _SAID_BY_THE_TYPE.search(kind)
    ]


def unexplained(node: ast.FunctionDef | ast.ClassDef) -> list[str]:
    """Quantities of a public function or class that its docstring does not tell.

    Of a function: each parameter in an SI unit by its name, each number and each array; and what it returns, if that is
    a number or an array. One whose docstring is a line, as every property's, tells what it returns in that line.
    Of a class: each array. Other fields carry their unit in their name.
    """
    docstring = ast.get_docstring(node) or ""
    listed = {name for title, names, _, _ in entries(docstring) for name in re.findall(r"\w+", names)}
    if isinstance(node, ast.ClassDef):
        fields = {
            one.target.id: one
            for one in node.body
            if isinstance(one, ast.AnnAssign) and isinstance(one.target, ast.Name)
        }
        arrays = [name for name, one in fields.items() if _ARRAY.search(ast.unparse(one.annotation))]
        return [name for name in arrays if name[0] != "_" and not re.search(rf"\b{name}\b", docstring, re.IGNORECASE)]
    arguments = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
    kinds = {one.arg: ast.unparse(one.annotation) if one.annotation else "" for one in arguments}
    lacking = [name for name, kind in kinds.items() if _UNIT.search(name) or _NUMBERS.search(kind)]
    lacking = [name for name in lacking if name not in listed]
    returned = _NUMBERS.search(ast.unparse(node.returns)) if node.returns else None
    if returned and "\n" in docstring and not {"Returns", "Yields"} & {title for title, *_ in entries(docstring)}:
        lacking.append("what is returned")
    return lacking


@pytest.mark.parametrize("path", MODEL, ids=name_of)
def test_the_model_explains_its_quantities(path):
    nodes = list(public(tree_of(path).body))
    assert {node.name: unexplained(node) for node in nodes if unexplained(node)} == {}


@pytest.mark.parametrize("path", MODEL, ids=name_of)
def test_no_docstring_of_the_model_repeats_the_signature(path):
    nodes = [node for node in ast.walk(tree_of(path)) if isinstance(node, ast.FunctionDef | ast.ClassDef)]
    found = {node.name: empty_entries(ast.get_docstring(node) or "") for node in nodes}
    assert {name: empty for name, empty in found.items() if empty} == {}


REPEATING = '''
def weight_of(ball: Ball, phase: Array, level: float) -> Array:
    """Weight of a ball.

    Parameters
    ----------
    ball : Ball
    phase : ndarray (N,)
    keys : sequence of (str, str)

    Returns
    -------
    ndarray
    """
'''


def test_what_repeats_the_signature_and_what_is_not_explained_is_found():
    (node,) = public(ast.parse(REPEATING).body)
    assert empty_entries(ast.get_docstring(node)) == ["ball", "keys", "ndarray"]
    assert unexplained(node) == ["level"]


def test_vendored_code_comes_with_its_licence():
    found = {path.name: path for folder in ("assets", "tests") for path in (ROOT / folder).rglob("*.min.js")}
    assert set(found) == VENDORED
    for name, path in found.items():
        assert path.with_name(name.replace(".min.js", ".LICENSE.txt")).is_file()


ON_THE_DEVICE = {"theme.js", "old_tab.js"}
"""Scripts that read the browser's storage: what is worn before the first paint; what an older version left there."""

OF_THE_DEVICE = {"SHELL_THEME", "SHELL_DECIMAL", "SHELL_KEYS"}
"""The only stores that the browser keeps."""


def test_nothing_that_is_typed_is_kept_by_the_browser():
    for path in sorted((ROOT / "assets").glob("*.js")):
        if path.name in ON_THE_DEVICE or path.name.startswith("plotly"):
            continue
        assert "Storage" not in path.read_text(encoding="utf-8").replace("the browser's storage", ""), path.name
    kept = set()
    for path in SOURCES:
        kept |= set(re.findall(r"dcc\.Store\(\s*id=[\w.]*?(\w+),[^)]*storage_type", path.read_text(encoding="utf-8")))
    assert kept == OF_THE_DEVICE


def test_stores_that_a_layout_fills_are_few():
    """The others hold what was worked out from the records."""
    filled = re.compile(r"dcc\.Store\(id=([\w.]+), data=")
    assert len([one for path in SOURCES for one in filled.findall(path.read_text(encoding="utf-8"))]) <= 20
