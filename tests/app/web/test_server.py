"""The server answers its own pages and refuses the rest (RFC 9110 gives the meaning of the status codes)."""

import json
import math
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

import pytest
from dash import Dash, html
from plotly.offline import get_plotlyjs_version

from app import places
from app.bind import ids as bound
from app.bind.page import Page
from app.pages import PAGES
from app.show import ids as shared_ids
from app.web import ids
from app.web.server import LARGEST_REQUEST_BYTES, Config, create_app, tell_trouble
from model.checks import InputError


@pytest.fixture(scope="module")
def app() -> Dash:
    return create_app(Config(demo=True))


@pytest.fixture
def client(app):
    return app.server.test_client()


def all_ids(tree: object) -> Iterator[str]:
    """Every id in a layout as the browser gets it."""
    if isinstance(tree, dict):
        props = tree.get("props", {})
        if "id" in props:
            yield json.dumps(props["id"], sort_keys=True)
        for value in props.values():
            yield from all_ids(value)
    elif isinstance(tree, list):
        for part in tree:
            yield from all_ids(part)


def test_the_health_route_answers(client):
    answer = client.get("/health")
    assert (answer.status_code, answer.text) == (200, "OK")


@pytest.mark.parametrize("host", ["evil.example", "evil.example:8050", "127.0.0.1.evil.example", ""])
def test_a_request_under_another_host_name_is_refused(client, host):
    answer = client.get("/", headers={"Host": host})
    assert answer.status_code == 400
    assert answer.is_json


@pytest.mark.parametrize("host", ["127.0.0.1:8050", "localhost:8051", "127.0.0.1"])
def test_a_request_under_its_own_name_is_answered(client, host):
    assert client.get("/", headers={"Host": host}).status_code == 200


def test_a_host_that_was_asked_for_is_answered_too():
    client = create_app(Config(hosts=("127.0.0.1", "coach-laptop"))).server.test_client()
    assert client.get("/", headers={"Host": "coach-laptop:8050"}).status_code == 200
    assert client.get("/", headers={"Host": "other-laptop:8050"}).status_code == 400


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "http://evil.example"},
        {"Origin": "http://localhost:9999"},
        {"Origin": "null"},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
    ],
)
def test_a_post_from_another_origin_is_refused(client, headers):
    answer = client.post("/_dash-update-component", json={}, headers=headers)
    assert answer.status_code == 403
    assert answer.json == {"error": "Forbidden", "reason": "This request came from another page."}


def show(client, path: str = "/", **headers: str):
    """The POST by which the browser asks for a page."""
    outputs = [
        {"id": ids.SHELL_MAIN, "property": "children"},
        {"id": ids.SHELL_NAV, "property": "children"},
        {"id": ids.SHELL_HELP_LIST, "property": "children"},
        {"id": ids.SHELL_TITLE, "property": "data"},
        {"id": ids.SHELL_ATHLETE, "property": "data"},
        {"id": ids.SHELL_ATHLETE, "property": "value"},
    ]
    body = {
        "output": ".." + "...".join(f"{one['id']}.{one['property']}" for one in outputs) + "..",
        "outputs": outputs,
        "inputs": [
            {"id": shared_ids.SHELL_URL, "property": "pathname", "value": path},
            {"id": shared_ids.SHELL_URL, "property": "search", "value": ""},
            {"id": bound.REFRESH, "property": "data", "value": None},
        ],
        "changedPropIds": [f"{shared_ids.SHELL_URL}.pathname"],
    }
    return client.post("/_dash-update-component", json=body, headers=headers)


def test_a_post_from_its_own_page_is_answered(client):
    answer = show(client, **{"Origin": "http://localhost", "Sec-Fetch-Site": "same-origin"})
    assert answer.status_code == 200
    assert answer.json["response"][ids.SHELL_TITLE]["data"] == f"{PAGES[0].title} · Levelpeak"


def test_a_body_that_is_too_large_is_refused(client):
    answer = client.post(
        "/_dash-update-component", data=b"x" * (LARGEST_REQUEST_BYTES + 1), content_type="application/json"
    )
    assert answer.status_code == 413
    assert answer.is_json


def test_the_browser_names_the_size_that_the_server_accepts():
    told = (places.assets() / "answers.js").read_text(encoding="utf-8")
    factors = re.search(r"MOST_BYTES = ([\d *]+);", told)[1].split("*")
    assert math.prod(map(int, factors)) == LARGEST_REQUEST_BYTES


def test_a_form_of_another_page_cannot_reach_the_callbacks(client):
    assert client.post("/_dash-update-component", data="{}", content_type="text/plain").status_code == 415


@pytest.mark.parametrize("path", ["/", "/health", "/assets/theme.js", "/_dash-layout", "/assets/nothing.js"])
def test_every_answer_tells_the_browser_to_fetch_from_here_only(client, path):
    with client.get(path) as answer:
        headers = answer.headers
    policy = dict(part.split(" ", 1) for part in headers["Content-Security-Policy"].split("; "))
    assert policy["default-src"] == "'self'"
    assert policy["connect-src"] == "'self'"
    assert policy["object-src"] == policy["base-uri"] == policy["frame-ancestors"] == "'none'"
    scripts = policy["script-src"].split()
    assert scripts[0] == "'self'"
    assert all(source.startswith("'sha256-") for source in scripts[1:])
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "no-referrer"
    assert headers["Cross-Origin-Opener-Policy"] == "same-origin"
    assert headers["Cross-Origin-Resource-Policy"] == "same-origin"


def test_the_page_asks_for_nothing_from_elsewhere(client):
    text = client.get("/").text
    sources = [part.split('"')[0] for mark in ('src="', 'href="') for part in text.split(mark)[1:]]
    assert sources
    assert all(source.startswith("/") and not source.startswith("//") for source in sources)


def test_the_theme_is_set_in_the_head_and_only_there(client):
    head, body = client.get("/").text.split("</head>")
    assert "/assets/theme.js" in head
    assert "/assets/theme.js" not in body


def test_the_layout_answers_and_no_id_is_there_twice(client):
    shell = list(all_ids(client.get("/_dash-layout").json))
    assert f'"{ids.SHELL_MAIN}"' in shell
    for page in PAGES:
        inside = list(all_ids(show(client, page.path).json["response"][ids.SHELL_MAIN]["children"]))
        assert inside, f"{page.title} shows nothing"
        assert [name for name, times in Counter(shell + inside).items() if times > 1] == []


def test_an_unknown_address_is_json_without_a_trace(client):
    answer = client.get("/assets/nothing.js")
    assert answer.status_code == 404
    assert answer.json["error"] == "Not Found"


def test_a_failure_inside_is_json_without_a_trace_and_stands_in_the_log(caplog):
    def fail() -> html.Div:
        raise RuntimeError("a secret of the program")

    app = create_app(Config())
    app.layout = fail
    app.server.config["PROPAGATE_EXCEPTIONS"] = False
    answer = app.server.test_client().get("/_dash-layout")
    assert answer.status_code == 500
    assert "secret" not in answer.text
    assert answer.json["error"] == "Internal Server Error"
    assert "a secret of the program" in caplog.text


def notice_of(error: Exception) -> str:
    """What the notice says about an error."""
    shown = []
    tell_trouble(error, show=lambda place, props: shown.append((place, props)))
    ((place, props),) = shown
    assert place == ids.SHELL_NOTICE
    return props["sendNotifications"][0]["message"]


def test_a_failed_callback_is_logged_and_told_without_its_details(caplog):
    message = notice_of(RuntimeError("a secret of the program"))
    assert "secret" not in message
    assert "still there" in message
    assert "a secret of the program" in caplog.text


def test_a_value_that_cannot_be_used_is_told_by_name():
    message = notice_of(InputError("speed_m_s", 99.0, "a number from 5 to 50 m/s"))
    assert message.startswith("speed_m_s: 99.0 given; accepted: a number from 5 to 50 m/s")


def test_pages_find_what_the_app_was_started_with_and_records(app):
    found = app.server.config["LEVELPEAK"]
    assert replace(found, store=None) == Config(demo=True)
    assert found.store.invented


def test_without_the_demo_the_records_begin_empty():
    assert create_app(Config()).server.config["LEVELPEAK"].store.codes() == ()


def test_an_app_can_be_made_of_other_pages():
    page = Page("/", "Only", lambda _visit: html.H1("Only"), lambda _app: None, of_athlete=False)
    client = create_app(Config(), pages=(page,)).server.test_client()
    assert show(client).json["response"][ids.SHELL_TITLE]["data"] == "Only · Levelpeak"


def test_the_small_figure_library_is_the_version_that_plotly_writes_for():
    text = (places.assets() / "plotly-basic.min.js").read_text(encoding="utf-8")
    assert f"plotly.js (basic - minified) v{get_plotlyjs_version()}" in text[:200]
    assert (places.assets() / "plotly-basic.LICENSE.txt").read_text(encoding="utf-8").startswith("MIT License")


FORGED = (
    [],
    {},
    "x",
    {"output": "x.y"},
    {"output": "..compare-figure.figure..", "inputs": []},
    {"output": {"a": 1}, "inputs": [], "changedPropIds": []},
)


@pytest.mark.parametrize("body", FORGED, ids=range(len(FORGED)))
def test_a_body_that_no_page_sends_is_refused_in_a_line_of_the_log(client, caplog, body):
    answer = client.post("/_dash-update-component", json=body)
    assert answer.status_code == 400
    assert answer.json["error"] == "Bad Request"
    assert "Traceback" not in answer.text + caplog.text
    assert "a body of another shape" in caplog.text


def test_a_body_nested_without_end_or_asking_for_fewer_parts_than_a_callback_has_is_refused_alike(client, caplog):
    deep = client.post("/_dash-update-component", data="[" * 100_000, content_type="application/json")
    whole = next(d for d in client.get("/_dash-dependencies").json if f"{bound.UNDO}.disabled" in d["output"])
    short = client.post("/_dash-update-component", json={"output": whole["output"]})
    assert (deep.status_code, short.status_code) == (400, 400)
    assert "Traceback" not in caplog.text


@pytest.mark.parametrize("path", ["dash/../../../../etc/passwd", "dash/dash.py", "nope/x.js"])
def test_a_file_that_no_page_asks_for_is_not_there(client, path):
    assert client.get(f"/_dash-component-suites/{path}").status_code == 404
