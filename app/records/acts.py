"""What can be done to the records, who does it, and what came of it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

TEAM = "team"
"""Stands for the uid of an athlete where something belongs to the team."""

NOTHING: Mapping[str, Any] = MappingProxyType({})

KEPT, SAME, OVERTAKEN, REFUSED, CONFLICT, GONE = "kept", "same", "overtaken", "refused", "conflict", "gone"
"""What became of an act: it was kept; it changes nothing; the same tab has sent a later text already; its text cannot
be accepted and stands in its field; somebody else has written the field since the page was drawn; its row is there no
longer.
"""


@dataclass(frozen=True)
class Hand:
    """Who does something.

    Attributes
    ----------
    tab : str
        The browser's tab, or what else does it.
    by : str
        Initials; empty where nobody gave them.
    sent : int
        When it was typed, by the tab's own clock (ms); 0 where that does not matter.
    seen : int or None
        The version that the page showed; None to write whatever others have written.
    """

    tab: str = ""
    by: str = ""
    sent: int = 0
    seen: int | None = None


@dataclass(frozen=True)
class Edit:
    """A field that was typed into, or whose choice was changed.

    Attributes
    ----------
    path : str
        Of the field, as in `field_list`.
    text : str
        As it stands on the page; the key of a choice, or a row's uid for a link.
    row : str
        uid of its row; empty for the athlete's own fields and settings. A limit may be called by its key.
    mine : bool
        Whether it shall stand whatever somebody else has written since (*keep mine*).
    """

    path: str
    text: str
    row: str = ""
    mine: bool = False


@dataclass(frozen=True)
class Put:
    """A value that was not typed: a plan's body, a place in a list, whether something is archived.

    Attributes
    ----------
    table, column : str
    value : object
    row : str
        uid of its row; empty for the athlete's own.
    """

    table: str
    column: str
    value: Any
    row: str = ""


@dataclass(frozen=True)
class Add:
    """A new row.

    Attributes
    ----------
    table : str
    texts : mapping of str to str
        Typed texts by column; one that is refused stands in its field of the new row.
    values : mapping of str to object
        Values (SI) by column, uids for links.
    uid : str
        Its uid, made with `app.records.tables.new_uid` where other acts are to lead to it; else it is made here.
    """

    table: str
    texts: Mapping[str, str] = field(default_factory=lambda: NOTHING)
    values: Mapping[str, Any] = field(default_factory=lambda: NOTHING)
    uid: str = ""


@dataclass(frozen=True)
class Remove:
    """A row to be taken out, with all that belongs to it."""

    table: str
    row: str


Act = Edit | Put | Add | Remove


@dataclass(frozen=True)
class Outcome:
    """What became of an act.

    Attributes
    ----------
    state : str
        KEPT, SAME, OVERTAKEN, REFUSED, CONFLICT or GONE.
    row : str
        uid of the row; of a new one too.
    message : str
        What is to be said beside the field; empty if nothing.
    problems : mapping of str to str
        Of a new row: messages by column.
    """

    state: str
    row: str = ""
    message: str = ""
    problems: Mapping[str, str] = field(default_factory=lambda: NOTHING)


@dataclass(frozen=True)
class Acted:
    """What became of several acts that were done as one.

    Attributes
    ----------
    version : int
        Of the athlete, or of the team, after it; the same as before if nothing was changed.
    outcomes : tuple of Outcome
        One for each act. Where one met a conflict, or its row was gone, none was done.
    noted : bool
        Whether a refused text was kept in its field, or one that stood there is gone: no value changed, but a page
        that does not compute with a field while it holds a refused text shows something else now.
    """

    version: int
    outcomes: tuple[Outcome, ...]
    noted: bool = False

    @property
    def done(self) -> bool:
        """Whether anything was changed."""
        return any(one.state == KEPT for one in self.outcomes) and not self.stopped

    @property
    def stopped(self) -> bool:
        """Whether nothing was done because of one of them."""
        return any(one.state in (CONFLICT, GONE) for one in self.outcomes)
