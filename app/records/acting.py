"""How one act is done inside of a transaction: read the text, see who wrote the field last, write, say what came."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from sqlalchemy import select

from app.records.acts import CONFLICT, GONE, KEPT, OVERTAKEN, REFUSED, SAME, Act, Add, Edit, Hand, Outcome, Put
from app.records.differences import from_text, with_text
from app.records.faults import GoneError
from app.records.field_list import COUNTED_AT_FIRST, DEPENDENT, as_kept, field_of, from_kept, is_setting, of_session
from app.records.fields import Field, in_words
from app.records.rows import REVISION, Document, all_rows, columns_of, first_row, link_name, plain, table_of
from app.records.tables import KEPT as TABLES
from app.records.tables import LINKS, new_uid
from app.records.writer import MOMENTS, Writer
from app.units.systems import System
from model.ceilings import BOUNDS
from model.checks import InputError

BY_ITSELF = ("measures", "reading", "note", "session_log")
"""Tables whose rows are of today unless a day is given."""

IN_A_LIST = {"ball": "", "throw": "comparison", "session_log": "plan"}
"""Tables whose rows have a place in a list, and what holds the list."""

NEVER_BY_HAND = ("stop_sign", "athlete")
"""Tables whose rows are added and removed by functions of their own."""

ONE_EACH = {
    "ball": "This athlete has an own ball already: change it, or add a ball of the team.",
    "limits": "This limit is there already: change it.",
    "measures": "The measures of this day are there already: change them.",
}
THROWS_IN = ("reference", "headline")
"""What of a comparison is the uid of one of its throws."""

SIGNED = "one that nobody signs for: a stop sign is entered, cleared and withdrawn on Build up"
LONGEST_DRAFT = 200  # characters of a refused text
IN_USE = "Readings were made with this ball: it stays, so that they keep their mass. It can be archived."


def sendable(text: str) -> str:
    """A text without halves of characters, which no file can hold."""
    return text.encode("utf-8", "ignore").decode("utf-8")


class Doer:
    """Does acts for one who sits at a page."""

    def __init__(self, writer: Writer, hand: Hand, system: System, today: date | None) -> None:
        self.writer = writer
        self.hand = hand
        self.system = system
        self.today = today
        self._led: list[tuple[str, str, Any]] = []

    def do(self, act: Act) -> Outcome:
        """Do one act; what it changes is only kept when the transaction is."""
        if isinstance(act, Edit):
            act = replace(act, text=sendable(act.text))
        elif isinstance(act, Add):
            act = replace(act, texts={name: sendable(text) for name, text in act.texts.items()})
        try:
            if isinstance(act, Edit):
                return self._setting(act) if is_setting(act.path) else self._edit(act)
            if isinstance(act, Put):
                return self._put(act)
            if isinstance(act, Add):
                return self._add(act)
            return self._remove(act.table, act.row)
        except GoneError as error:
            return Outcome(GONE, getattr(act, "row", ""), str(error))

    def _edit(self, act: Edit) -> Outcome:
        table, _, name = act.path.partition(".")
        if table not in TABLES or table == "stop_sign":
            raise InputError("Field", act.path, SIGNED if table == "stop_sign" else "a field that is typed into")
        row = self._row(table, act)
        field = field_of(act.path, row)
        column = f"{name}_id" if field.kind == "link" else name
        typed = row["typed"].get(column, "")
        try:
            value, text = self._read(field, act.text, field.kept(row[column], typed))
            if act.path == "athlete.code":
                self._free(value)
        except InputError as error:
            draft = row["draft"] | {column: act.text[:LONGEST_DRAFT]}
            self.writer.note_texts(table, row, row["typed"], draft)
            return Outcome(REFUSED, row["uid"], in_words(error))
        if value == row[column]:
            texts = {key: one for key, one in row["typed"].items() if key != column}
            draft = {key: one for key, one in row["draft"].items() if key != column}
            self.writer.note_texts(table, row, texts | ({column: text} if text else {}), draft)
            return Outcome(SAME, row["uid"])
        met = self._met(row["uid"], column, act, field)
        if met is not None:
            return met
        self.writer.set_value(table, row, column, value, text)
        self._leads(table, row["uid"], {column: value})
        if act.path in DEPENDENT:
            self._clear(table, row["uid"], DEPENDENT[act.path].partition(".")[2])
        return Outcome(KEPT, row["uid"])

    def _row(self, table: str, act: Edit) -> Mapping[str, Any]:
        try:
            return self.writer.find(table, act.row)
        except GoneError:
            if table != "limits" or act.row not in BOUNDS:
                raise
        counted = COUNTED_AT_FIRST.get(act.row, "share")
        self.writer.add([{"table": "limits", "key": act.row, "counted": counted}])
        return self.writer.find(table, act.row)

    def _read(self, field: Field, text: str, before: str) -> tuple[Any, str]:
        """The value of a text, for a link the number of the row that it points at; and the text to keep beside it."""
        parsed = field.parse(text, self.system, before, self.today)
        if field.kind == "link" and parsed.value is not None:
            return self._linked(field.to, parsed.value), ""
        empty = parsed.value == "" and table_of(field.group).c[field.name].nullable
        return None if empty else parsed.value, parsed.typed

    def _linked(self, table: str, uid: str) -> int:
        """The number of a row that may be pointed at: an own one, or, of balls and athletes, a common one."""
        of = table_of(table)
        found = select(of.c.id).where(of.c.uid == uid)
        if table == "ball":
            found = found.where(of.c.athlete_id.is_(None) | (of.c.athlete_id == self.writer.owner.id))
        elif table != "athlete":
            found = found.where(of.c.athlete_id == self.writer.owner.id)
        number: int | None = self.writer.connection.execute(found).scalar()
        if number is None:
            raise GoneError(f"This {table.replace('_', ' ')} was removed in the meantime.")
        return number

    def _free(self, code: str) -> None:
        of = table_of("athlete")
        others = select(of.c.id).where(of.c.code == code, of.c.id != self.writer.owner.id)
        if self.writer.connection.execute(others).first() is not None:
            raise InputError("Code", code, "a code that no other athlete here has")

    def _met(self, row: str, field: str, act: Edit, spec: Field) -> Outcome | None:
        """What stands against writing a field: a later text of the same tab, or somebody else's that was not seen."""
        of = REVISION.c
        found = select(of.version, of.tab, of.by, of.sent, of.kind, of.after, of.mode)
        found = found.where(of.row == row, (of.field == field) | (of.kind == "add"))
        last = first_row(self.writer.connection, found.order_by(of.version.desc(), of.id.desc()).limit(1))
        if last is None or last["version"] == self.writer.owner.version:
            return None
        if last["kind"] == "add":
            (made,) = last["after"]
            if made.get(link_name(field)) is None and field not in made.get("draft", {}):
                return None
            last["after"] = with_text(made.get(link_name(field)), made.get("typed", {}).get(field, ""))
        if last["tab"] == self.hand.tab:
            later = last["mode"] == "do" and 0 < self.hand.sent < last["sent"]
            return Outcome(OVERTAKEN, row) if later else None
        if act.mine or self.hand.seen is None or last["version"] <= self.hand.seen:
            return None
        value, typed = from_text(last["after"])
        shown = spec.shown(from_kept(spec, value), typed, self.system)
        by = last["by"] or "somebody else"
        message = f"{spec.label}: {by} has written “{shown}” here since this page was drawn."
        return Outcome(CONFLICT, row, message)

    def _clear(self, table: str, uid: str, column: str) -> None:
        """Empty a number whose unit has changed."""
        row = self.writer.find(table, uid)
        if row[column] is not None:
            self.writer.set_value(table, row, column, None)
        elif column in row["draft"] or column in row["typed"]:
            rest = [{key: one for key, one in row[name].items() if key != column} for name in ("typed", "draft")]
            self.writer.note_texts(table, row, *rest)

    def _setting(self, act: Edit) -> Outcome:
        row = self.writer.setting(act.path)
        field = field_of(act.path, self.writer.settings() if act.path == "start.wanted_peak" else None)
        value, typed = (None, "") if row is None else (row["value"], row["typed"].get("value", ""))
        uid = self.writer.owner.uid
        now = field.default if row is None else from_kept(field, value)
        try:
            parsed = field.parse(act.text, self.system, field.kept(now, typed), self.today)
            if field.kind == "link" and parsed.value is not None:
                self._linked(field.to, parsed.value)
        except InputError as error:
            self.writer.set_setting(act.path, None, draft=act.text[:LONGEST_DRAFT])
            return Outcome(REFUSED, uid, in_words(error))
        new, text = as_kept(field, parsed.value), parsed.typed
        untouched = row is None and of_session(act.path)
        if parsed.value == now and not untouched and (row is not None or not text):
            if row is not None:
                texts = {"value": text} if text else {}
                self.writer.note_texts("setting", row, texts, {})
            return Outcome(SAME, uid)
        met = self._met(uid, act.path, act, field)
        if met is not None:
            return met
        self.writer.set_setting(act.path, new, text)
        if act.path in DEPENDENT and (self.writer.settings().get(DEPENDENT[act.path]) is not None):
            self.writer.set_setting(DEPENDENT[act.path], None)
        return Outcome(KEPT, uid)

    def _put(self, act: Put) -> Outcome:
        if act.table == "stop_sign":
            raise InputError("Field", f"stop_sign.{act.column}", SIGNED)
        row = self.writer.find(act.table, act.row)
        value = act.value
        if act.column not in MOMENTS:
            value = field_of(f"{act.table}.{act.column}", row).check(value, self.system, self.today)
        if value == row[act.column]:
            return Outcome(SAME, row["uid"])
        self.writer.set_value(act.table, row, act.column, value)
        self._leads(act.table, row["uid"], {act.column: value})
        return Outcome(KEPT, row["uid"])

    def _add(self, act: Add) -> Outcome:
        if act.table in NEVER_BY_HAND or act.table not in TABLES:
            raise InputError("table", act.table, "one whose rows are added by hand")
        there = self._there(act) if act.table in ONE_EACH else None
        if there is not None:
            return self._into(there, act)
        document: Document = {"table": act.table, "uid": act.uid or new_uid()}
        names = {link_name(name) for name in columns_of(act.table)}
        for name, value in act.values.items():
            if name not in names:
                raise InputError("field", f"{act.table}.{name}", "a field of the records")
            if f"{name}_id" in LINKS:
                self._linked(LINKS[f"{name}_id"], value)
            elif name not in MOMENTS and value is not None and not (act.table == "throw" and name == "comparison"):
                field_of(f"{act.table}.{name}", act.values).check(value, self.system, self.today)
            document[name] = plain(value)
        problems = self._type_into(document, act)
        if act.table in BY_ITSELF and "day" not in document:
            document["day"] = (self.today or date.today()).isoformat()
        if act.table in IN_A_LIST and "position" not in document:
            parent = IN_A_LIST[act.table]
            number = self._linked(parent, document[parent]) if document.get(parent) else None
            document["position"] = self.writer.next_position(act.table, f"{parent}_id" if parent else "", number)
        (uid,) = self.writer.add([document])
        self._leads(act.table, uid, document)
        return Outcome(KEPT, uid, " ".join(problems.values()), problems)

    def _there(self, act: Add) -> str | None:
        """The uid of the one that an athlete can have: own ball, limit of a key, measures of a day."""
        if self.writer.owner.id is None:
            return None
        name = {"limits": "key", "measures": "day"}.get(act.table, "")
        wanted = act.values.get(name, act.texts.get(name)) or (self.today or date.today())
        rows = (row for row in self.writer.all_of(act.table) if not name or plain(row[name]) == plain(wanted))
        return next((str(row["uid"]) for row in rows), None)

    def _into(self, row: str, act: Add) -> Outcome:
        """What was typed into a new row of measures goes into those that another tab has made of the same day."""
        if act.table != "measures" or len(act.texts) != 1:
            return Outcome(REFUSED, "", ONE_EACH[act.table])
        ((name, text),) = act.texts.items()
        return self._edit(Edit(f"measures.{name}", text, row))

    def _leads(self, table: str, row: str, values: Mapping[str, Any]) -> None:
        """Note what of a comparison is to be one of its throws, which may be added after it."""
        if table == "comparison":
            self._led += [(row, name, values[name]) for name in THROWS_IN if values.get(name)]

    def astray(self) -> str:
        """What is wrong where a comparison leads to what is no throw of it; empty if nothing is."""
        comparison, throw = table_of("comparison"), table_of("throw")
        for row, name, uid in self._led:
            own = (throw.c.comparison_id == comparison.c.id) & (throw.c.uid == uid)
            found = select(throw.c.uid).select_from(comparison.outerjoin(throw, own))
            still = found.where(comparison.c.uid == row, comparison.c[name] == uid)
            if self.writer.connection.execute(still).first() == (None,):
                return in_words(InputError(field_of(f"comparison.{name}").label, uid, "a throw of this comparison"))
        return ""

    def _type_into(self, document: Document, act: Add) -> dict[str, str]:
        """Read the typed texts of a new row; a refused one is left standing in its field."""
        problems: dict[str, str] = {}
        typed, draft = {}, {}
        for name, text in act.texts.items():
            row = dict(act.values) | {key: one for key, one in act.texts.items() if key in ("hold", "key", "counted")}
            field = field_of(f"{act.table}.{name}", row)
            column = f"{name}_id" if field.kind == "link" else name
            try:
                parsed = field.parse(text, self.system, "", self.today)
            except InputError as error:
                problems[name] = in_words(error)
                draft[column] = text[:LONGEST_DRAFT]
                continue
            if field.kind == "link" and parsed.value is not None:
                self._linked(field.to, parsed.value)
            if parsed.value is not None:
                document[name] = plain(parsed.value)
            if parsed.typed:
                typed[column] = parsed.typed
        document |= {key: one for key, one in (("typed", typed), ("draft", draft)) if one}
        return problems

    def _remove(self, table: str, uid: str) -> Outcome:
        if table in NEVER_BY_HAND or table not in TABLES:
            raise InputError("table", table, "one whose rows are removed by hand")
        row = self.writer.find(table, uid)
        if table == "ball" and self._used(row):
            return Outcome(REFUSED, row["uid"], IN_USE)
        self.writer.remove(table, row["uid"])
        if table == "throw":
            self._without(row)
        return Outcome(KEPT, row["uid"])

    def _used(self, ball: Mapping[str, Any]) -> bool:
        """Whether a reading or a reference was made with a ball."""
        tables = (table_of(table) for table in ("reading", "reference"))
        asked = (select(of.c.id).where(of.c.ball_id == ball["id"]).limit(1) for of in tables)
        return any(self.writer.connection.execute(one).first() for one in asked)

    def _without(self, throw: Mapping[str, Any]) -> None:
        """A comparison whose reference or headline was taken out: the first throw left becomes the reference."""
        of = table_of("comparison")
        found = select(of).where(of.c.id == throw["comparison_id"])
        (row,) = all_rows(self.writer.connection, found)
        if row["reference"] == throw["uid"]:
            throws = table_of("throw").c
            left = select(throws.uid).where(throws.comparison_id == row["id"]).order_by(throws.position, throws.id)
            self.writer.set_value("comparison", row, "reference", self.writer.connection.execute(left).scalar())
            (row,) = all_rows(self.writer.connection, found)
        if row["headline"] == throw["uid"]:
            self.writer.set_value("comparison", row, "headline", None)
