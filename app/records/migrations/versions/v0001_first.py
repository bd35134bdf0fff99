"""The first tables."""

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

CODE, WORD, NAME, UID, INITIALS = (sa.String(length=length) for length in (24, 40, 60, 24, 8))
LONG, WHOLE, FLAG = sa.Text(), sa.Integer(), sa.Boolean()
NUMBER: sa.types.TypeEngine[float] = sa.Double()
DAY, MOMENT, DATA = sa.Date(), sa.DateTime(), sa.JSON()

Columns = dict[str, Any]
COUNTED: Columns = {"version": WHOLE, "compacted": WHOLE}
WITH_THE_ATHLETE = {"athlete_id": ("athlete", "CASCADE")}


def upgrade() -> None:
    """Make all tables, and the row of the team."""
    _table("team", COUNTED)
    _table("chore", {"what": WORD, "detail": LONG, "since": MOMENT}, never_again=True)
    op.create_table(
        "mark",
        sa.Column("key", WORD, nullable=False),
        sa.Column("text", LONG, nullable=False),
        sa.PrimaryKeyConstraint("key", name="pk_mark"),
    )
    about = {"sex": WORD, "handedness": WORD, "still_growing": FLAG, "archived_at": MOMENT, "opened_at": MOMENT}
    _kept("athlete", {"code": CODE, "invented": FLAG, "created": MOMENT, **COUNTED}, about, once=[("code",)])
    _kept(
        "ball",
        {"name": NAME, "position": WHOLE},
        {"athlete_id": WHOLE, "mass_kg": NUMBER, "diameter_m": NUMBER, "archived_at": MOMENT},
        once=[("athlete_id",)],
        links=WITH_THE_ATHLETE,
    )
    _kept("lesson", {"name": NAME, "body": DATA}, {"athlete_id": WHOLE}, links={"athlete_id": ("athlete", "SET NULL")})
    _of_athlete(
        "comparison",
        {"name": NAME, "kind": WORD, "quantity": WORD, "align": WORD, "scale": WORD},
        {"reference": UID, "headline": UID, "day": DAY, "above": NUMBER},
        index=[("athlete_id",)],
    )
    _of_athlete("limits", {"key": WORD, "counted": WORD}, {"amount": NUMBER}, once=[("athlete_id", "key")])
    sizes = ("stature_m", "body_mass_kg", "upper_arm_length_m", "forearm_length_m", "hand_length_m")
    _of_athlete("measures", {"day": DAY}, dict.fromkeys(("age_years", *sizes), NUMBER), index=[("athlete_id", "day")])
    _of_athlete("note", {"day": DAY, "text": LONG}, index=[("athlete_id", "day")])
    _of_athlete("plan", {"name": NAME, "body": DATA}, {"start": DAY, "archived_at": MOMENT}, index=[("athlete_id",)])
    _of_athlete("setting", {"key": NAME}, {"value": DATA}, once=[("athlete_id", "key")])
    signed = {"by": INITIALS, "role": WORD, "on": DAY, "words": LONG}
    _of_athlete(
        "stop_sign",
        {"sign": WORD, "since": DAY, **{f"entered_{name}": kind for name, kind in signed.items()}},
        {
            "session": UID,
            **{f"{act}_{name}": kind for act in ("cleared", "withdrawn") for name, kind in signed.items()},
        },
        sa.CheckConstraint("entered_by <> ''", name=op.f("ck_stop_sign_entered_by_somebody")),
        index=[("athlete_id",)],
    )
    _of_athlete(
        "reading",
        {"day": DAY, "speed_is": WORD},
        {"ball_id": WHOLE, "speed_m_s": NUMBER, "asked_effort": NUMBER, "distance_m": NUMBER},
        links={"ball_id": ("ball", None)},
        index=[("athlete_id", "day")],
    )
    op.create_index("ix_reading_of_ball", "reading", ["ball_id", "day", "speed_m_s", "asked_effort", "distance_m"])
    _of_athlete(
        "reference",
        {"kind": WORD},
        {"ball_id": WHOLE, "day": DAY, "speed_m_s": NUMBER, "relative_sd": NUMBER},
        links={"ball_id": ("ball", None)},
        index=[("athlete_id", "day")],
    )
    _of_athlete(
        "session_log",
        {"position": WHOLE, "day": DAY, "body": DATA},
        {"plan_id": WHOLE},
        links={"plan_id": ("plan", "CASCADE")},
        index=[("athlete_id", "day"), ("plan_id",)],
    )
    _of_athlete(
        "throw",
        {"comparison_id": WHOLE, "position": WHOLE, "hold": WORD},
        {"thrower_id": WHOLE, "mass_kg": NUMBER, "diameter_m": NUMBER, "number": NUMBER},
        links={"comparison_id": ("comparison", "CASCADE"), "thrower_id": ("athlete", "CASCADE")},
        index=[("athlete_id",), ("comparison_id",), ("thrower_id",)],
    )
    words = dict.fromkeys(("tab", "mode", "kind", "table"), WORD)
    _table(
        "revision",
        {"version": WHOLE, "at": MOMENT, "by": INITIALS, "sent": sa.BigInteger(), "row": UID, "field": NAME, **words},
        {"athlete_id": WHOLE, "of": WHOLE, "before": DATA, "after": DATA},
        links=WITH_THE_ATHLETE,
        index=[("athlete_id", "version"), ("row", "field")],
        never_again=True,
    )
    op.execute("INSERT INTO team (id, version, compacted) VALUES (1, 0, 0)")


def _of_athlete(name: str, filled: Columns, empty: Columns | None = None, *rules: Any, **more: Any) -> None:
    """A table of rows that go with their athlete."""
    links = WITH_THE_ATHLETE | more.pop("links", {})
    _kept(name, {**filled, "athlete_id": WHOLE}, empty, *rules, links=links, **more)


def _kept(name: str, filled: Columns, empty: Columns | None = None, *rules: Any, once: Any = (), **more: Any) -> None:
    """A table of rows that have a uid, typed texts and refused ones."""
    filled = {**filled, "uid": UID, "typed": DATA, "draft": DATA}
    _table(name, filled, empty, *rules, once=[*once, ("uid",)], never_again=True, **more)


def _table(
    name: str,
    filled: Columns,
    empty: Columns | None = None,
    *rules: Any,
    once: Any = (),
    links: Any = None,
    index: Any = (),
    never_again: bool = False,
) -> None:
    """A table: columns that are filled, those that may be empty; what stands once; links, and what goes with them."""
    op.create_table(
        name,
        sa.Column("id", WHOLE, nullable=False),
        *(sa.Column(column, kind, nullable=False) for column, kind in filled.items()),
        *(sa.Column(column, kind, nullable=True) for column, kind in (empty or {}).items()),
        *rules,
        *(
            sa.ForeignKeyConstraint([column], [f"{to}.id"], name=f"fk_{name}_{column}", ondelete=goes)
            for column, (to, goes) in (links or {}).items()
        ),
        sa.PrimaryKeyConstraint("id", name=f"pk_{name}"),
        *(sa.UniqueConstraint(*columns, name=f"uq_{name}_{'_'.join(columns)}") for columns in once),
        sqlite_autoincrement=never_again,
    )
    for columns in index:
        op.create_index(f"ix_{name}_{'_'.join(columns)}", name, list(columns))


def downgrade() -> None:
    """There is nothing before: a dated copy is what one goes back to."""
    raise NotImplementedError("a dated copy is what one goes back to")
