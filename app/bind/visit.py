"""A visit to a page: whose page it is, in which units, and the records it is made from."""

import secrets
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from types import MappingProxyType
from typing import Any, TypeGuard
from urllib.parse import parse_qs, unquote, urlencode

from dash import dcc, html
from dash.development.base_component import Component
from flask import current_app, has_request_context, request

from app.bind import ids
from app.records.acts import TEAM, Hand
from app.records.faults import GoneError
from app.records.reads import AthleteData, TeamData, athlete_data, team_data
from app.records.store import Store
from app.records.tables import LONGEST_INITIALS, LONGEST_WORD, Athlete
from app.units.systems import System, system_named

MOST_COUNT = 2**53  # beyond, a browser cannot count one by one
UNITS_COOKIE = "levelpeak-units"
INITIALS_COOKIE = "levelpeak-initials"
ATHLETE = "athlete"
"""What the athlete's code is called in an address."""


@dataclass(frozen=True)
class Visit:
    """A visit.

    Attributes
    ----------
    store : Store
    path : str
        Of the page.
    asked : mapping of str to str
        What the address says behind its question mark.
    code : str
        Of the athlete in the address, or the one looked at last; empty if there is none.
    tab : str
        This load of the page.
    today : date
    system : System
        The reader's units.
    uid : str
        The athlete's, where it is known without reading all that is kept.
    """

    store: Store
    path: str
    asked: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    code: str = ""
    tab: str = ""
    today: date = field(default_factory=date.today)
    system: System = field(default_factory=lambda: reader_system())
    uid: str = ""

    @cached_property
    def data(self) -> AthleteData | None:
        """All that is kept of the athlete; None if there is none."""
        return self.of_athlete(self.code) if self.code else None

    @cached_property
    def athlete(self) -> Athlete | None:
        """The athlete alone, without all that is kept; None if there is none."""
        if "data" in self.__dict__:
            return self.data.athlete if self.data else None
        return self.store.find(self.code) if self.code else None

    @cached_property
    def team(self) -> TeamData:
        """What belongs to the team."""
        return team_data(self.store)

    def of_athlete(self, code: str) -> AthleteData | None:
        """What is kept of an athlete by this code; None if there is none."""
        try:
            return athlete_data(self.store, code)
        except GoneError:
            return None

    @property
    def owner(self) -> str:
        """The athlete's uid; TEAM if there is none."""
        if self.uid:
            return self.uid
        return self.athlete.uid if self.athlete else TEAM

    def address(self, path: str, **asked: str) -> str:
        """The address of a page for the same athlete."""
        return address(path, self.code, **asked)


def address(path: str, code: str, **asked: str) -> str:
    """The address of a page for an athlete."""
    said = ({ATHLETE: code} if code else {}) | asked
    return f"{path}?{urlencode(said)}" if said else path


def the_store() -> Store:
    """The records of this app."""
    store = current_app.config["LEVELPEAK"].store
    if not isinstance(store, Store):
        raise TypeError("the app was made without records")
    return store


def reader_system() -> System:
    """The units the reader has chosen, which the browser keeps in a cookie."""
    return system_named(request.cookies.get(UNITS_COOKIE) if has_request_context() else None)


def reader_initials() -> str:
    """The initials of who sits there, which the browser keeps in a cookie."""
    return unquote(request.cookies.get(INITIALS_COOKIE, ""))[:LONGEST_INITIALS] if has_request_context() else ""


def visit_of(path: str, search: str | None) -> Visit:
    """Read whose page is asked for; without a code it is the athlete who was looked at last.

    Parameters
    ----------
    path : str
    search : str or None
        The address from its question mark on.

    Returns
    -------
    Visit
    """
    store = the_store()
    asked = {key: values[0] for key, values in parse_qs((search or "").lstrip("?")).items()}
    code = asked.pop(ATHLETE, "").strip() or store.last_opened()
    return Visit(store, path, asked, code, secrets.token_hex(4))


def stores(visit: Visit) -> list[Component]:
    """The stores of a page: whose it is, its version, what it has seen. Every load of a page is a tab of its own."""
    here: dict[str, Any] = {"athlete": visit.owner, "code": visit.code, "tab": visit.tab}
    here |= {"path": visit.path, "asked": dict(visit.asked)}
    seen = {TEAM: visit.team.version} | ({visit.owner: visit.athlete.version} if visit.athlete else {})
    return [
        dcc.Store(id=ids.HERE, data=here),
        dcc.Store(id=ids.VERSION, data=seen),
        dcc.Store(id=ids.CALM),
        dcc.Store(id=ids.CLOCK),
        dcc.Store(id=ids.TYPED),
        dcc.Store(id=ids.TOLD),
    ]


def visit_again(here: Any) -> Visit:
    """The visit of a page that asks something: the records are read anew.

    Parameters
    ----------
    here : object
        What the browser sent of the store `ids.HERE`.

    Returns
    -------
    Visit
    """
    sent = here if isinstance(here, dict) else {}
    store, uid = the_store(), str(sent.get("athlete", ""))
    code = "" if uid in ("", TEAM) else (store.code_of(uid) or "")
    said = sent.get("asked")
    asked = {str(key): str(value) for key, value in said.items()} if isinstance(said, dict) else {}
    return Visit(store, str(sent.get("path", "")), asked, code, str(sent.get("tab", "")), uid=uid if code else "")


def hand_of(here: Any, seen: Any, sent: Any, owner: str) -> Hand:
    """Who acts: the tab, the initials that the browser keeps, when it was typed, and the version that was seen."""
    sure = here if isinstance(here, dict) else {}
    version = seen.get(owner) if isinstance(seen, dict) else None
    tab = str(sure.get("tab", ""))[:LONGEST_WORD].encode("utf-8", "ignore").decode("utf-8")
    return Hand(tab, reader_initials(), int(sent) if is_count(sent) else 0, int(version) if is_count(version) else None)


def is_count(given: Any) -> TypeGuard[float]:
    """Whether this can be a version, or a time in milliseconds."""
    return isinstance(given, int | float) and not isinstance(given, bool) and 0 <= given <= MOST_COUNT


def nobody(visit: Visit) -> Component:
    """What stands on a page of an athlete where there is none."""
    said = f"There is no athlete with the code “{visit.code}” here." if visit.code else "No athlete is chosen."
    return html.Div(
        [html.P(said), html.P("Choose one above, or type a new code there.", className="quiet")], className="nobody"
    )
