"""Start the dashboard: find a port, serve, open the browser when the server answers, end on Ctrl-C."""

import errno
import gc
import logging
import socket
import sys
import threading
import time
import webbrowser
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from http.client import HTTPConnection, HTTPException

from flask import Flask
from waitress import create_server
from waitress.server import TcpWSGIServer

from app.records.demo import demo_store
from app.records.faults import RecordsError
from app.records.opening import open_store
from app.records.place import find_place
from app.records.store import Store
from app.web.server import HEALTH, LOCAL_HOSTS, Config, create_app

PORTS_TRIED = 20
THREADS = 8
WAIT_S = 20.0
THIS_MACHINE = "127.0.0.1"
EVERY_ADDRESS = "0.0.0.0"  # noqa: S104 (never the default: a person has to ask for it)
DEMO_LIES = "The demo’s athletes are invented. Its records are a database of their own, gone when the program ends."
SOMEWHERE_ELSE = ("192.0.2.1", 9)  # an address kept for documentation: RFC 5737


class NoPlaceError(Exception):
    """There is no address or port to serve at; the message says what was given and what is accepted."""


def serve(
    host: str, port: int, demo: bool, browser: bool, data_dir: str | None = None, database: str | None = None
) -> int:
    """Serve the dashboard until it is interrupted.

    Parameters
    ----------
    host : str
        The address or name to answer at; ``127.0.0.1`` for this machine only, ``0.0.0.0`` for all its addresses.
    port : int
        The first port to try.
    demo : bool
        Open on the invented demo data.
    browser : bool
        Open a browser window when the server answers.
    data_dir, database : str, optional
        Where the records lie, see `app.records.place.find_place`; the demo has its own.

    Returns
    -------
    int
        The exit status: 0 after an interrupt, 1 if there is no place to serve at or the records cannot be opened.
    """
    logging.basicConfig(level=logging.WARNING, format="%(levelname)s %(name)s: %(message)s")
    try:
        listener = take_port(host, port)
    except NoPlaceError as error:
        print(error, file=sys.stderr)
        return 1
    taken = listener.getsockname()[1]
    if taken != port:
        print(f"Port {port} is busy: taking {taken}.")
    names = names_of(host)
    if host not in LOCAL_HOSTS:
        print(
            f"Warning: whoever can reach {names[0]} can open the dashboard and change what it shows; it has no login."
        )
    try:
        with records(demo, data_dir, database) as store:
            config = Config(demo=demo, hosts=(*LOCAL_HOSTS, *names), store=store)
            run(config, listener, host, names[0], DEMO_LIES if demo else store.place.who, browser)
    except RecordsError as error:
        listener.close()
        print(error, file=sys.stderr)
        return 1
    except KeyboardInterrupt:  # pressed before the server ran
        listener.close()
    print("\nLevelpeak has ended.")
    return 0


@contextmanager
def records(demo: bool, data_dir: str | None, database: str | None) -> Iterator[Store]:
    """Open the records.

    Parameters
    ----------
    demo : bool
        The demo, made anew, instead of what is kept.
    data_dir, database : str or None

    Yields
    ------
    Store

    Raises
    ------
    RecordsError
        If they cannot be opened.
    """
    if demo:
        with demo_store() as store:
            yield store
        return
    store = open_store(find_place(data_dir, database), tell=print)
    try:
        yield store
    finally:
        store.close()


def run(config: Config, listener: socket.socket, host: str, name: str, lies: str, browser: bool) -> None:
    """Serve until Ctrl-C.

    Parameters
    ----------
    config : Config
    listener : socket.socket
    host, name : str
        What is answered at, and what it is called there.
    lies : str
        Where the records lie and who can read them.
    browser : bool
        Open a browser window when the server answers.
    """
    port = listener.getsockname()[1]
    server = listen(create_app(config).server, listener)
    gc.collect()
    gc.freeze()  # what the program is made of is no garbage: to look through it took longer than a page of a long log
    print(f"Levelpeak is at http://{name}:{port}/ (Ctrl-C ends it)")
    print(lies, flush=True)
    if browser:
        near = THIS_MACHINE if host == EVERY_ADDRESS else host
        threading.Thread(target=open_when_ready, args=(near, port), daemon=True).start()
    server.run()  # comes back on Ctrl-C
    server.close()


def take_port(host: str, port: int, tries: int = PORTS_TRIED) -> socket.socket:
    """Take the first free port.

    Parameters
    ----------
    host : str
        The address or name to answer at.
    port : int
        The first port to try.
    tries : int
        How many ports to try, one after the other.

    Returns
    -------
    socket.socket
        A listening socket that holds the port.

    Raises
    ------
    NoPlaceError
        If the host is not this machine's, or no port is free.
    """
    last = min(port + tries - 1, 65535)
    for number in range(port, last + 1):
        listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        if sys.platform == "win32":  # there SO_REUSEADDR would share a port that is in use
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_EXCLUSIVEADDRUSE, 1)
        else:  # a port that was given up a minute ago is free
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listener.bind((host, number))
            listener.listen()
        except OSError as error:
            listener.close()
            if error.errno not in (errno.EADDRINUSE, errno.EACCES):
                accepted = f"a name or an IPv4 address of this machine, such as {THIS_MACHINE} or {EVERY_ADDRESS}"
                raise NoPlaceError(f"--host: {host!r} given; accepted: {accepted}") from error
        else:
            return listener
    raise NoPlaceError(f"--port: {port} given, but {port} to {last} are not to be had; accepted: another port")


def listen(application: Flask, listener: socket.socket) -> TcpWSGIServer:
    """Make the web server for a socket.

    Parameters
    ----------
    application : Flask
        What answers the requests.
    listener : socket.socket
        The listening socket.

    Returns
    -------
    TcpWSGIServer
        The server, not yet running.
    """
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)  # one user's page asks for more at once than threads
    return create_server(application, sockets=[listener], threads=THREADS)


def names_of(host: str) -> tuple[str, ...]:
    """Say under which names a host is called.

    Parameters
    ----------
    host : str
        The address or name to answer at.

    Returns
    -------
    tuple of str
        Itself; for every address of the machine, the one others reach it at, its name, and the rest of its addresses.
    """
    if host != EVERY_ADDRESS:
        return (host,)
    own = [socket.gethostname()]
    with suppress(OSError):  # a name that nothing resolves
        own += socket.gethostbyname_ex(own[0])[2]
    with suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as outward:  # no network: the name must do
        outward.connect(SOMEWHERE_ELSE)  # sends nothing: it only asks which address would be used
        own.insert(0, outward.getsockname()[0])
    return tuple(dict.fromkeys(own))


def open_when_ready(host: str, port: int, wait_s: float = WAIT_S) -> bool:
    """Open the browser as soon as the server answers.

    Parameters
    ----------
    host : str
        Where this machine reaches the server.
    port : int
        Its port.
    wait_s : float
        How long to wait for it (s).

    Returns
    -------
    bool
        Whether a browser was opened.
    """
    until = time.monotonic() + wait_s
    while time.monotonic() < until:
        if answers(host, port):
            return webbrowser.open(f"http://{host}:{port}/")
        time.sleep(0.1)
    return False


def answers(host: str, port: int) -> bool:
    """Ask the server whether it is up.

    Parameters
    ----------
    host : str
        Where this machine reaches the server.
    port : int
        Its port.

    Returns
    -------
    bool
        Whether its health route answered 200.
    """
    connection = HTTPConnection(host, port, timeout=1.0)
    try:
        connection.request("GET", f"/{HEALTH}")
        return connection.getresponse().status == 200
    except (OSError, HTTPException):
        return False
    finally:
        connection.close()
