"""Files travel packed to whoever takes them so, and mean the same."""

import gc
import gzip
import re
import warnings

import pytest

from app.web.server import Config, create_app

FIRST_VISIT_LIMIT_BYTES = 1_500_000


@pytest.fixture(scope="module")
def client():
    return create_app(Config(demo=True)).server.test_client()


def get(client, path: str, headers: dict[str, str] | None = None):
    """Ask for a path, and read the answer to its end."""
    return client.get(path, headers=headers, buffered=True)


def files_of(client) -> list[str]:
    """Every script and style that the page names."""
    page = get(client, "/").get_data(as_text=True)
    return [path for path in re.findall(r'(?:src|href)="(/[^"]+)"', page) if not path.endswith(".svg")]


def test_a_script_comes_packed_and_is_the_same_unpacked(client):
    path = next(path for path in files_of(client) if "plotly-basic" in path)
    plain, packed = get(client, path), get(client, path, headers={"Accept-Encoding": "gzip"})
    assert plain.content_encoding is None
    assert packed.content_encoding == "gzip"
    assert gzip.decompress(packed.data) == plain.data
    assert len(packed.data) < 0.4 * len(plain.data)
    assert "Accept-Encoding" in packed.headers["Vary"]
    assert "Accept-Encoding" in plain.headers["Vary"]


def test_a_first_visit_stays_under_one_and_a_half_megabytes(client):
    sizes = [len(get(client, path, headers={"Accept-Encoding": "gzip, br"}).data) for path in files_of(client)]
    assert len(sizes) > 15
    assert sum(sizes) < FIRST_VISIT_LIMIT_BYTES


@pytest.mark.parametrize("accepted", ["", "identity", "gzip;q=0", "br"])
def test_who_does_not_take_it_packed_gets_it_plain(client, accepted):
    assert get(client, "/assets/02_style.css", headers={"Accept-Encoding": accepted}).content_encoding is None


def test_answers_that_change_and_what_is_not_found_are_left_alone(client):
    ask = {"Accept-Encoding": "gzip"}
    assert get(client, "/_dash-layout", headers=ask).content_encoding is None
    missing = get(client, "/assets/no-such-file.js", headers=ask)
    assert missing.status_code == 404
    assert missing.content_encoding is None


def test_a_second_visit_is_still_answered_with_not_modified(client):
    first = get(client, "/assets/02_style.css", headers={"Accept-Encoding": "gzip"})
    again = get(
        client, "/assets/02_style.css", headers={"Accept-Encoding": "gzip", "If-None-Match": first.headers["ETag"]}
    )
    assert again.status_code == 304


@pytest.mark.parametrize("way", ["not modified", "head"])
def test_a_file_of_which_no_body_is_sent_is_closed(client, way):
    path = "/assets/02_style.css"
    tag = get(client, path).headers["ETag"]
    with warnings.catch_warnings(record=True) as seen:
        warnings.simplefilter("always")
        answer = client.head(path) if way == "head" else client.get(path, headers={"If-None-Match": tag})
        assert answer.status_code == (200 if way == "head" else 304)
        del answer
        gc.collect()
    assert seen == []
