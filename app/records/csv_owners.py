"""Whose rows they are, in a table with several athletes: known by their codes, made where there is none yet."""

from collections.abc import Iterable

from sqlalchemy import Connection, insert, select

from app.records.acts import TEAM, Hand
from app.records.rows import Links, table_of
from app.records.store import Store
from app.records.tables import new_uid
from app.records.writer import Writer, lock_owner

INVENTED = "invented demo data"
MIXED = "the row says that it is invented, and this athlete is not"


class Owners:
    """The athletes of a table.

    Attributes
    ----------
    numbers : dict of str to int
        By code, of those that are here.
    new : list of str
        Codes of those that are not.
    invented : set of str
        Codes of those whose rows say that they are invented.
    """

    def __init__(self, connection: Connection, store: Store) -> None:
        self._connection = connection
        self._store = store
        of = table_of("athlete").c
        found = connection.execute(select(of.code, of.id, of.uid, of.invented)).all()
        self.numbers = {row.code: row.id for row in found}
        self._uids = {row.code: row.uid for row in found}
        self._here_invented = {row.code for row in found if row.invented}
        self.new: list[str] = []
        self.invented: set[str] = set()

    def trouble(self, code: str, data: str | None) -> str:
        """Why a row of an athlete is not taken; empty if it is."""
        says = data == INVENTED
        if code in self.numbers:
            return MIXED if says and code not in self._here_invented else ""
        if code not in self.new:
            self.new.append(code)
        if says:
            self.invented.add(code)
        return ""

    def hold(self, codes: Iterable[str], hand: Hand) -> dict[str | None, Writer]:
        """Make those who are new, and begin a version of each: the team first, then by number, so that two who do the
        same at once wait for one another and not both for each other.

        Parameters
        ----------
        codes : iterable of str
        hand : Hand

        Returns
        -------
        dict of str or None to Writer
            By code; the team's under None, without a version of its own until something is added.
        """
        wanted, links = list(codes), Links(self._connection)
        links.learn_all("ball")
        writers: dict[str | None, Writer] = {}
        writers[None] = Writer(self._connection, lock_owner(self._connection, TEAM), hand, links=links)
        for code in wanted:
            if code in self.numbers:
                continue
            uid = self._uids[code] = new_uid()
            marked = code in self.invented or self._store.invented
            made = {"uid": uid, "code": code, "invented": marked, "version": 0}
            self._connection.execute(insert(table_of("athlete")).values(made))
        for code in sorted(wanted, key=lambda one: self.numbers.get(one, 1 << 40)):
            owner = lock_owner(self._connection, self._uids[code])
            writers[code] = Writer(self._connection, owner, hand, links=links)
            if code not in self.numbers:
                writers[code].write("add", "athlete", owner.uid, "", None, [{"table": "athlete", "code": code}])
        return writers
