"""Starting and ending: ports, hosts, the browser, Ctrl-C."""

import os
import signal
import socket
import subprocess
import sys
import threading
import time
from http.client import HTTPConnection

import pytest
from flask import Flask

from app.web import serve as serving

PATIENCE_S = 90.0  # a busy machine is no failure
WINDOWS = sys.platform == "win32"


@pytest.fixture
def busy():
    """A port that is in use, with one free port after it."""
    for _ in range(50):
        with socket.socket() as first, socket.socket() as second:
            first.bind(("127.0.0.1", 0))
            port = first.getsockname()[1]
            try:
                second.bind(("127.0.0.1", port + 1))
            except (OSError, OverflowError):
                continue
            second.close()
            first.listen()
            yield port
            return
    pytest.fail("found no two neighbouring ports")


def test_a_busy_port_takes_the_next(busy):
    with serving.take_port("127.0.0.1", busy) as listener:
        assert listener.getsockname() == ("127.0.0.1", busy + 1)


def test_ports_that_are_all_busy_are_named(busy):
    with pytest.raises(serving.NoPlaceError, match=f"--port: {busy} given, but {busy} to {busy} are not to be had"):
        serving.take_port("127.0.0.1", busy, tries=1)


@pytest.mark.parametrize("host", ["192.0.2.77", "no-such-machine.invalid"])  # RFC 5737, RFC 6761: never this machine's
def test_a_host_that_is_not_this_machines_is_named(host):
    with pytest.raises(serving.NoPlaceError, match=f"--host: '{host}' given; accepted: a name or an IPv4 address"):
        serving.take_port(host, 8050)


def test_no_place_ends_with_status_1_and_its_reason(capsys):
    assert serving.serve(host="no-such-machine.invalid", port=8050, demo=True, browser=False) == 1
    assert capsys.readouterr().err.startswith("--host: 'no-such-machine.invalid' given")


def test_one_address_is_called_by_itself():
    assert serving.names_of("127.0.0.1") == ("127.0.0.1",)
    assert serving.names_of("coach-laptop") == ("coach-laptop",)


def test_every_address_is_called_by_the_machines_name_too():
    names = serving.names_of("0.0.0.0")
    assert socket.gethostname() in names
    assert "0.0.0.0" not in names
    assert len(set(names)) == len(names)


@pytest.fixture
def answering():
    """A server with a health route, on a free port."""
    flask = Flask("answering")
    flask.add_url_rule("/health", view_func=lambda: "OK")
    server = serving.listen(flask, serving.take_port("127.0.0.1", 0))
    running = True

    def run() -> None:
        while running:
            server.asyncore.loop(timeout=0.05, map=server._map, count=1)

    thread = threading.Thread(target=run)
    thread.start()
    yield int(server.effective_port)
    running = False
    thread.join()
    server.task_dispatcher.shutdown()
    server.asyncore.close_all(server._map)  # the listener and every connection


def test_the_browser_opens_when_the_server_answers(answering, monkeypatch):
    opened = []
    monkeypatch.setattr(serving.webbrowser, "open", lambda url: opened.append(url) or True)
    assert serving.open_when_ready("127.0.0.1", answering)
    assert opened == [f"http://127.0.0.1:{answering}/"]


def test_no_browser_opens_for_a_server_that_never_answers(busy, monkeypatch):
    opened = []
    monkeypatch.setattr(serving.webbrowser, "open", opened.append)
    assert not serving.open_when_ready("127.0.0.1", busy + 1, wait_s=0.3)
    assert opened == []


@pytest.mark.skipif(WINDOWS, reason="Windows gives no way to press Ctrl-C for another process alone")
def test_it_starts_on_a_busy_port_says_so_and_ends_cleanly_on_ctrl_c(busy):
    started = [sys.executable, "-c", "import sys; from app.main import main; sys.exit(main())"]
    with subprocess.Popen(
        [*started, "--demo", "--no-browser", "--port", str(busy)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.default_int_handler),  # a shell's "&" has it ignored
    ) as program:
        try:
            assert program.stdout.readline() == f"Port {busy} is busy: taking {busy + 1}.\n"
            assert program.stdout.readline() == f"Levelpeak is at http://127.0.0.1:{busy + 1}/ (Ctrl-C ends it)\n"
            assert program.stdout.readline() == f"{serving.DEMO_LIES}\n"
            until = time.monotonic() + PATIENCE_S
            while not serving.answers("127.0.0.1", busy + 1):
                assert time.monotonic() < until, "it never answered"
                time.sleep(0.05)
            connection = HTTPConnection("127.0.0.1", busy + 1, timeout=PATIENCE_S)
            connection.request("GET", "/")
            assert b"/assets/theme.js" in connection.getresponse().read()
            connection.close()
            program.send_signal(signal.SIGINT)
            out, err = program.communicate(timeout=PATIENCE_S)
        finally:
            program.kill()
    assert program.returncode == 0
    assert out.strip() == "Levelpeak has ended."
    assert err == ""


def test_another_host_comes_with_a_warning(monkeypatch, capsys):
    made = {}

    class Ended:
        """A server that is interrupted at once."""

        def run(self) -> None:
            raise KeyboardInterrupt

    def make(flask: Flask, listener: socket.socket) -> Ended:
        made["hosts"] = flask.config["TRUSTED_HOSTS"]
        return Ended()

    monkeypatch.setattr(serving, "listen", make)
    assert serving.serve(host="0.0.0.0", port=8050, demo=True, browser=False) == 0
    assert "Warning: whoever can reach" in capsys.readouterr().out
    assert made["hosts"][:2] == ["127.0.0.1", "localhost"]
    assert socket.gethostname() in made["hosts"]
    assert serving.serve(host="127.0.0.1", port=8050, demo=True, browser=False) == 0
    assert "Warning" not in capsys.readouterr().out


def test_the_terminal_says_where_the_records_lie_and_who_can_read_them(monkeypatch, tmp_path, capsys):
    class Ended:
        """A server that is interrupted at once."""

        def run(self) -> None:
            raise KeyboardInterrupt

    monkeypatch.setattr(serving, "listen", lambda *_: Ended())
    assert serving.serve(host="127.0.0.1", port=8050, demo=False, browser=False, data_dir=str(tmp_path)) == 0
    said = capsys.readouterr().out
    assert f"The records lie in {tmp_path / 'records.sqlite3'}. " in said
    assert (tmp_path / "records.sqlite3").is_file()


def test_records_that_cannot_be_opened_end_it_with_status_1_and_what_to_do(tmp_path, capsys):
    (tmp_path / "records.sqlite3").write_bytes(b"no database at all" * 100)
    assert serving.serve(host="127.0.0.1", port=8050, demo=False, browser=False, data_dir=str(tmp_path)) == 1
    assert "levelpeak restore" in capsys.readouterr().err
