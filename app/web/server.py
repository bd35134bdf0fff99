"""The web server: one app, made from one `Config`, that answers only the machine it is meant for."""

import logging
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from dash import Dash, set_props
from dash.exceptions import CallbackException, DependencyException
from flask import Flask, Response, abort, request
from werkzeug.exceptions import HTTPException

from app import places
from app.bind.page import Page
from app.pages import PAGES
from app.records.demo import passing_store
from app.records.store import Store
from app.version import VERSION
from app.web import ids, shell
from app.web.packing import pack
from model.checks import InputError

log = logging.getLogger(__name__)

LOCAL_HOSTS = ("127.0.0.1", "localhost")
LARGEST_REQUEST_BYTES = 2 * 1024 * 1024  # the state of a page is a few kB; a pasted table stays under 1 MB
HEALTH = "health"
UPDATE_PATH = "/_dash-update-component"
MALFORMED = (KeyError, IndexError, TypeError, ValueError, AttributeError, RecursionError, CallbackException)
"""What Dash raises on a body that it cannot take apart."""

INDEX = """<!DOCTYPE html>
<html lang="en" data-theme="light">
<head>
{%metas%}
<title>{%title%}</title>
<link rel="icon" type="image/svg+xml" href="/assets/icon.svg">
{%css%}
<script src="/assets/theme.js?v=VERSION"></script>
</head>
<body>
{%app_entry%}
{%config%}
{%scripts%}
{%renderer%}
</body>
</html>
""".replace("VERSION", VERSION)


@dataclass(frozen=True)
class Config:
    """What the app is started with.

    Parameters
    ----------
    demo : bool
        Open on the invented demo data.
    hosts : tuple of str
        The names and addresses by which the app may be called.
    store : Store, optional
        The records; without, some that are gone with the program.
    """

    demo: bool = False
    hosts: tuple[str, ...] = LOCAL_HOSTS
    store: Store | None = None


def create_app(config: Config, pages: Sequence[Page] = PAGES) -> Dash:
    """Make the app: pages in their shell, behind a server that is locked as `lock` says.

    Parameters
    ----------
    config : Config
        What it is started with; callbacks and layouts find it as ``flask.current_app.config["LEVELPEAK"]``.
    pages : sequence of Page
        The pages; the first is where the name of the program leads.

    Returns
    -------
    Dash
        The app, whose ``server`` is the WSGI application.
    """
    app = Dash(
        __name__,
        title="Levelpeak",
        update_title="",  # the tab's title does not flicker while a number is worked out
        index_string=INDEX,
        assets_folder=str(places.assets()),
        assets_ignore=r"^theme\.js$",  # stands in the head, before the first paint
        suppress_callback_exceptions=True,  # a page's parts are there only while it is shown
        use_pages=False,
        health_endpoint=HEALTH,
        on_error=tell_trouble,
    )
    app.server.config["LEVELPEAK"] = replace(config, store=config.store or passing_store(config.demo))
    app.layout = shell.layout
    shell.register(app, pages)
    for page in pages:
        page.register(app)
    lock(app.server, config.hosts, app.csp_hashes())
    answer_errors(app.server)
    pack(app.server)
    return app


def lock(server: Flask, hosts: Sequence[str], script_hashes: Sequence[str]) -> None:
    """Refuse what does not come from this app's own pages, and tell the browser to do the same.

    A request under another host name is answered 400 (a foreign page that resolves its own name to this machine), a
    POST from another origin 403, a body over `LARGEST_REQUEST_BYTES` 413. Scripts, styles and data come from here only.

    Parameters
    ----------
    server : Flask
        The server to lock.
    hosts : sequence of str
        The host names it answers to.
    script_hashes : sequence of str
        Hashes of the inline scripts that may run, in the form of the policy.
    """
    server.config.update(MAX_CONTENT_LENGTH=LARGEST_REQUEST_BYTES, TRUSTED_HOSTS=list(hosts))
    policy = "; ".join(
        (
            "default-src 'self'",
            " ".join(("script-src 'self'", *script_hashes)),
            "style-src 'self' 'unsafe-inline'",  # the components and the figures set styles on elements
            "img-src 'self' data: blob:",
            "font-src 'self' data:",
            "connect-src 'self'",
            "worker-src 'self' blob:",
            "object-src 'none'",
            "base-uri 'none'",
            "form-action 'self'",
            "frame-ancestors 'none'",
        )
    )

    @server.before_request
    def same_origin_only() -> None:
        host_url = request.host_url.rstrip("/")  # reading it checks TRUSTED_HOSTS
        if request.method in ("GET", "HEAD", "OPTIONS"):
            return
        origin, site = request.headers.get("Origin"), request.headers.get("Sec-Fetch-Site")
        if (origin and origin != host_url) or site not in (None, "same-origin", "none"):
            abort(403, "This request came from another page.")

    @server.after_request
    def headers(response: Response) -> Response:
        response.headers["Content-Security-Policy"] = policy
        response.headers["X-Content-Type-Options"] = "nosniff"
        response.headers["Referrer-Policy"] = "no-referrer"
        response.headers["Cross-Origin-Opener-Policy"] = "same-origin"
        response.headers["Cross-Origin-Resource-Policy"] = "same-origin"
        return response


def answer_errors(server: Flask) -> None:
    """Answer every error with a short JSON body; what went wrong inside goes to the log, never to the screen.

    Parameters
    ----------
    server : Flask
        The server whose errors are answered.
    """

    @server.errorhandler(HTTPException)
    def refused(error: HTTPException) -> tuple[dict[str, str | None], int]:
        return {"error": error.name, "reason": error.description}, error.code or 500

    @server.errorhandler(DependencyException)
    def no_such_file(_: DependencyException) -> tuple[dict[str, str | None], int]:
        return {"error": "Not Found", "reason": "There is no such file."}, 404

    @server.errorhandler(Exception)
    def failed(error: Exception) -> tuple[dict[str, str], int]:
        if request.path == UPDATE_PATH and isinstance(error, MALFORMED):
            # What a callback raises goes to `tell_trouble`: this is a body that no page of ours sent.
            log.warning("%s %s: a body of another shape, %s", request.method, request.path, type(error).__name__)
            return {"error": "Bad Request", "reason": "This request has another shape than a page's own."}, 400
        log.error("%s %s failed", request.method, request.path, exc_info=error)
        return {"error": "Internal Server Error", "reason": "Something in the program failed; its log says what."}, 500


def tell_trouble(error: Exception, show: Callable[[str, dict[str, object]], None] = set_props) -> None:
    """Tell in a quiet notice that a callback failed, and write why into the log; what is on the screen stays.

    Parameters
    ----------
    error : Exception
        What the callback raised.
    show : callable
        Sets properties of a component on the screen.
    """
    if isinstance(error, InputError):
        reason = str(error)
    else:
        log.error("A callback failed", exc_info=error)
        reason = "The program could not work this out; its log, in the terminal, says why."
    notice = {
        "action": "show",
        "id": "trouble",
        "title": "Not changed",
        "message": f"{reason} Everything you entered is still there.",
        "color": "gray",
        "closeButtonProps": {"aria-label": "Close"},
        "autoClose": False,
    }
    show(ids.SHELL_NOTICE, {"sendNotifications": [notice]})
