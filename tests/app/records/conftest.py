"""Records on both databases: a fresh file, and a database on a server where there is one.

`LEVELPEAK_TEST_POSTGRES` says where: the address of a PostgreSQL whose user may make databases.
"""

import os
import shutil
from collections.abc import Iterator

import pytest
from sqlalchemy import Engine, create_engine, make_url, text

from app.records.acts import TEAM, Add
from app.records.opening import open_store
from app.records.place import VARIABLE, Place, find_place
from tests.app.records.hands import HAND, TODAY

SERVER = "LEVELPEAK_TEST_POSTGRES"
REQUIRED = "LEVELPEAK_REQUIRE_POSTGRES"


def statement(*statements: str) -> None:
    """Run statements on the server, each by itself."""
    url = make_url(os.environ[SERVER]).set(drivername="postgresql+psycopg")
    engine = create_engine(url, isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        for one in statements:
            connection.execute(text(one))
    engine.dispose()


def place_on_server(name: str, folder) -> Place:
    url = make_url(os.environ[SERVER]).set(database=name)
    return find_place(str(folder), None, {VARIABLE: url.render_as_string(hide_password=False)})


@pytest.fixture(scope="session")
def server() -> Iterator[str]:
    """The name of a database of this worker's own, with tables and nothing in them."""
    if not os.environ.get(SERVER):
        if os.environ.get(REQUIRED):
            pytest.fail(f"{REQUIRED} is set, and {SERVER} names no server")
        pytest.skip(f"no PostgreSQL: {SERVER} names no server")
    name = f"levelpeak_test_{os.getpid()}"
    statement(f"DROP DATABASE IF EXISTS {name} WITH (FORCE)", f"CREATE DATABASE {name}")
    yield name
    statement(f"DROP DATABASE {name} WITH (FORCE)")


@pytest.fixture(scope="session")
def server_with_tables(server, tmp_path_factory) -> str:
    open_store(place_on_server(server, tmp_path_factory.mktemp("server"))).close()
    return server


@pytest.fixture(scope="session")
def empty_file(tmp_path_factory):
    """A file with tables and nothing in them, to be copied."""
    place = Place(tmp_path_factory.mktemp("empty"))
    open_store(place).close()
    return place.file


EMPTIED = (
    'DELETE FROM "revision"',
    "DELETE FROM athlete",
    "DELETE FROM ball",
    "DELETE FROM lesson",
    "DELETE FROM chore",
    "DELETE FROM mark",
    "UPDATE team SET version = 0, compacted = 0",
)


@pytest.fixture(scope="session")
def emptying(server_with_tables, tmp_path_factory) -> Iterator[Engine]:
    place = place_on_server(server_with_tables, tmp_path_factory.mktemp("emptying"))
    engine = create_engine(place.engine_url, pool_pre_ping=True)
    yield engine
    engine.dispose()


@pytest.fixture
def on_server(server_with_tables, emptying, tmp_path) -> Place:
    """A server's database, emptied."""
    with emptying.begin() as connection:
        for one in EMPTIED:
            connection.execute(text(one))
    return place_on_server(server_with_tables, tmp_path / "data")


@pytest.fixture
def in_file(empty_file, tmp_path) -> Place:
    """A file of its own."""
    place = Place(tmp_path / "data")
    place.folder.mkdir(mode=0o700)
    shutil.copy(empty_file, place.file)
    return place


@pytest.fixture(params=["sqlite", "postgres"])
def place(request) -> Place:
    """Both databases, one after the other."""
    return request.getfixturevalue("in_file" if request.param == "sqlite" else "on_server")


@pytest.fixture
def store(place):
    """Open records without anything in them."""
    opened = open_store(place)
    yield opened
    opened.close()


@pytest.fixture
def fresh_server(server, tmp_path) -> Iterator[Place]:
    """A database of its own, without tables."""
    name = f"{server}_fresh"
    statement(f"DROP DATABASE IF EXISTS {name} WITH (FORCE)", f"CREATE DATABASE {name}")
    yield place_on_server(name, tmp_path / "data")
    statement(f"DROP DATABASE {name} WITH (FORCE)")


@pytest.fixture(params=["sqlite", "postgres"])
def fresh(request, tmp_path) -> Place:
    """A place where there is nothing yet."""
    return Place(tmp_path / "data") if request.param == "sqlite" else request.getfixturevalue("fresh_server")


@pytest.fixture
def athlete(store) -> str:
    """The uid of an athlete with the code B12."""
    return store.new_athlete("B12", HAND)


@pytest.fixture
def act(store, athlete):
    """Do something to that athlete's records."""
    return lambda *acts, hand=HAND, owner=None, **more: store.act(owner or athlete, acts, hand, today=TODAY, **more)


@pytest.fixture
def added(act):
    """Add a row; its uid."""
    return lambda table, owner=None, values=None, **texts: (
        act(Add(table, texts, values or {}), owner=owner).outcomes[0].row
    )


@pytest.fixture
def ball(added) -> str:
    """The uid of a ball of the team: 275 g, 73 mm."""
    return added("ball", TEAM, name="green", mass_kg="275", diameter_m="73")


@pytest.fixture
def reading(added, ball) -> str:
    """The uid of a reading: 33.1 m/s with that ball."""
    return added("reading", speed_m_s="33.1", ball=ball)
