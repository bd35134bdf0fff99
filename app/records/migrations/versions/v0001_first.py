"""The first tables."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make all tables, and the row of the team."""
    op.create_table(
        "athlete",
        sa.Column("code", sa.String(length=24), nullable=False),
        sa.Column("sex", sa.String(length=40), nullable=True),
        sa.Column("handedness", sa.String(length=40), nullable=True),
        sa.Column("still_growing", sa.Boolean(), nullable=True),
        sa.Column("invented", sa.Boolean(), nullable=False),
        sa.Column("archived_at", sa.DateTime(), nullable=True),
        sa.Column("opened_at", sa.DateTime(), nullable=True),
        sa.Column("created", sa.DateTime(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("compacted", sa.Integer(), nullable=False),
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("uid", sa.String(length=24), nullable=False),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("draft", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_athlete"),
        sa.UniqueConstraint("code", name="uq_athlete_code"),
        sa.UniqueConstraint("uid", name="uq_athlete_uid"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "chore",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("what", sa.String(length=40), nullable=False),
        sa.Column("detail", sa.Text(), nullable=False),
        sa.Column("since", sa.DateTime(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_chore"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "mark",
        sa.Column("key", sa.String(length=40), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("key", name="pk_mark"),
    )
    op.create_table(
        "team",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("compacted", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_team"),
    )
    op.create_table(
        "ball",
        sa.Column("athlete_id", sa.Integer(), nullable=True),
        sa.Column("name", sa.String(length=60), nullable=False),
        sa.Column("mass_kg", sa.Double(), nullable=True),
        sa.Column("diameter_m", sa.Double(), nullable=True),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("archived_at", sa.DateTime(), nullable=True),
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("uid", sa.String(length=24), nullable=False),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("draft", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["athlete_id"], ["athlete.id"], name="fk_ball_athlete_id", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name="pk_ball"),
        sa.UniqueConstraint("athlete_id", name="uq_ball_athlete_id"),
        sa.UniqueConstraint("uid", name="uq_ball_uid"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "comparison",
        sa.Column("name", sa.String(length=60), nullable=False),
        sa.Column("reference", sa.String(length=24), nullable=True),
        sa.Column("headline", sa.String(length=24), nullable=True),
        sa.Column("kind", sa.String(length=40), nullable=False),
        sa.Column("day", sa.Date(), nullable=True),
        sa.Column("quantity", sa.String(length=40), nullable=False),
        sa.Column("above", sa.Double(), nullable=True),
        sa.Column("align", sa.String(length=40), nullable=False),
        sa.Column("scale", sa.String(length=40), nullable=False),
        sa.Column("athlete_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("uid", sa.String(length=24), nullable=False),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("draft", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["athlete_id"], ["athlete.id"], name="fk_comparison_athlete_id", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name="pk_comparison"),
        sa.UniqueConstraint("uid", name="uq_comparison_uid"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_comparison_athlete_id", "comparison", ["athlete_id"], unique=False)
    op.create_table(
        "lesson",
        sa.Column("athlete_id", sa.Integer(), nullable=True),
        sa.Column("name", sa.String(length=60), nullable=False),
        sa.Column("body", sa.JSON(), nullable=False),
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("uid", sa.String(length=24), nullable=False),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("draft", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["athlete_id"], ["athlete.id"], name="fk_lesson_athlete_id", ondelete="SET NULL"),
        sa.PrimaryKeyConstraint("id", name="pk_lesson"),
        sa.UniqueConstraint("uid", name="uq_lesson_uid"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "limits",
        sa.Column("key", sa.String(length=40), nullable=False),
        sa.Column("counted", sa.String(length=40), nullable=False),
        sa.Column("amount", sa.Double(), nullable=True),
        sa.Column("athlete_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("uid", sa.String(length=24), nullable=False),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("draft", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["athlete_id"], ["athlete.id"], name="fk_limits_athlete_id", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name="pk_limits"),
        sa.UniqueConstraint("athlete_id", "key", name="uq_limits_athlete_id_key"),
        sa.UniqueConstraint("uid", name="uq_limits_uid"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "measures",
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("age_years", sa.Double(), nullable=True),
        sa.Column("stature_m", sa.Double(), nullable=True),
        sa.Column("body_mass_kg", sa.Double(), nullable=True),
        sa.Column("upper_arm_length_m", sa.Double(), nullable=True),
        sa.Column("forearm_length_m", sa.Double(), nullable=True),
        sa.Column("hand_length_m", sa.Double(), nullable=True),
        sa.Column("athlete_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("uid", sa.String(length=24), nullable=False),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("draft", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["athlete_id"], ["athlete.id"], name="fk_measures_athlete_id", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name="pk_measures"),
        sa.UniqueConstraint("uid", name="uq_measures_uid"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_measures_athlete_id_day", "measures", ["athlete_id", "day"], unique=False)
    op.create_table(
        "note",
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("athlete_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("uid", sa.String(length=24), nullable=False),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("draft", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["athlete_id"], ["athlete.id"], name="fk_note_athlete_id", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name="pk_note"),
        sa.UniqueConstraint("uid", name="uq_note_uid"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_note_athlete_id_day", "note", ["athlete_id", "day"], unique=False)
    op.create_table(
        "plan",
        sa.Column("name", sa.String(length=60), nullable=False),
        sa.Column("start", sa.Date(), nullable=True),
        sa.Column("body", sa.JSON(), nullable=False),
        sa.Column("archived_at", sa.DateTime(), nullable=True),
        sa.Column("athlete_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("uid", sa.String(length=24), nullable=False),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("draft", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["athlete_id"], ["athlete.id"], name="fk_plan_athlete_id", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name="pk_plan"),
        sa.UniqueConstraint("uid", name="uq_plan_uid"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_plan_athlete_id", "plan", ["athlete_id"], unique=False)
    op.create_table(
        "revision",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("athlete_id", sa.Integer(), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("at", sa.DateTime(), nullable=False),
        sa.Column("tab", sa.String(length=40), nullable=False),
        sa.Column("by", sa.String(length=8), nullable=False),
        sa.Column("sent", sa.BigInteger(), nullable=False),
        sa.Column("mode", sa.String(length=40), nullable=False),
        sa.Column("of", sa.Integer(), nullable=True),
        sa.Column("kind", sa.String(length=40), nullable=False),
        sa.Column("table", sa.String(length=40), nullable=False),
        sa.Column("row", sa.String(length=24), nullable=False),
        sa.Column("field", sa.String(length=60), nullable=False),
        sa.Column("before", sa.JSON(), nullable=True),
        sa.Column("after", sa.JSON(), nullable=True),
        sa.ForeignKeyConstraint(["athlete_id"], ["athlete.id"], name="fk_revision_athlete_id", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name="pk_revision"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_revision_athlete_id_version", "revision", ["athlete_id", "version"], unique=False)
    op.create_index("ix_revision_row_field", "revision", ["row", "field"], unique=False)
    op.create_table(
        "setting",
        sa.Column("key", sa.String(length=60), nullable=False),
        sa.Column("value", sa.JSON(), nullable=True),
        sa.Column("athlete_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("uid", sa.String(length=24), nullable=False),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("draft", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["athlete_id"], ["athlete.id"], name="fk_setting_athlete_id", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name="pk_setting"),
        sa.UniqueConstraint("athlete_id", "key", name="uq_setting_athlete_id_key"),
        sa.UniqueConstraint("uid", name="uq_setting_uid"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "stop_sign",
        sa.Column("sign", sa.String(length=40), nullable=False),
        sa.Column("since", sa.Date(), nullable=False),
        sa.Column("session", sa.String(length=24), nullable=True),
        sa.Column("entered_by", sa.String(length=8), nullable=False),
        sa.Column("entered_role", sa.String(length=40), nullable=False),
        sa.Column("entered_on", sa.Date(), nullable=False),
        sa.Column("entered_words", sa.Text(), nullable=False),
        sa.Column("cleared_by", sa.String(length=8), nullable=True),
        sa.Column("cleared_role", sa.String(length=40), nullable=True),
        sa.Column("cleared_on", sa.Date(), nullable=True),
        sa.Column("cleared_words", sa.Text(), nullable=True),
        sa.Column("withdrawn_by", sa.String(length=8), nullable=True),
        sa.Column("withdrawn_role", sa.String(length=40), nullable=True),
        sa.Column("withdrawn_on", sa.Date(), nullable=True),
        sa.Column("withdrawn_words", sa.Text(), nullable=True),
        sa.Column("athlete_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("uid", sa.String(length=24), nullable=False),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("draft", sa.JSON(), nullable=False),
        sa.CheckConstraint("entered_by <> ''", name=op.f("ck_stop_sign_entered_by_somebody")),
        sa.ForeignKeyConstraint(["athlete_id"], ["athlete.id"], name="fk_stop_sign_athlete_id", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name="pk_stop_sign"),
        sa.UniqueConstraint("uid", name="uq_stop_sign_uid"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_stop_sign_athlete_id", "stop_sign", ["athlete_id"], unique=False)
    op.create_table(
        "reading",
        sa.Column("ball_id", sa.Integer(), nullable=True),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("speed_m_s", sa.Double(), nullable=True),
        sa.Column("speed_is", sa.String(length=40), nullable=False),
        sa.Column("asked_effort", sa.Double(), nullable=True),
        sa.Column("distance_m", sa.Double(), nullable=True),
        sa.Column("athlete_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("uid", sa.String(length=24), nullable=False),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("draft", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["athlete_id"], ["athlete.id"], name="fk_reading_athlete_id", ondelete="CASCADE"),
        sa.ForeignKeyConstraint(["ball_id"], ["ball.id"], name="fk_reading_ball_id"),
        sa.PrimaryKeyConstraint("id", name="pk_reading"),
        sa.UniqueConstraint("uid", name="uq_reading_uid"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_reading_athlete_id_day", "reading", ["athlete_id", "day"], unique=False)
    op.create_index(
        "ix_reading_of_ball", "reading", ["ball_id", "day", "speed_m_s", "asked_effort", "distance_m"], unique=False
    )
    op.create_table(
        "reference",
        sa.Column("ball_id", sa.Integer(), nullable=True),
        sa.Column("day", sa.Date(), nullable=True),
        sa.Column("kind", sa.String(length=40), nullable=False),
        sa.Column("speed_m_s", sa.Double(), nullable=True),
        sa.Column("relative_sd", sa.Double(), nullable=True),
        sa.Column("athlete_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("uid", sa.String(length=24), nullable=False),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("draft", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["athlete_id"], ["athlete.id"], name="fk_reference_athlete_id", ondelete="CASCADE"),
        sa.ForeignKeyConstraint(["ball_id"], ["ball.id"], name="fk_reference_ball_id"),
        sa.PrimaryKeyConstraint("id", name="pk_reference"),
        sa.UniqueConstraint("uid", name="uq_reference_uid"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_reference_athlete_id_day", "reference", ["athlete_id", "day"], unique=False)
    op.create_table(
        "session_log",
        sa.Column("plan_id", sa.Integer(), nullable=True),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("body", sa.JSON(), nullable=False),
        sa.Column("athlete_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("uid", sa.String(length=24), nullable=False),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("draft", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["athlete_id"], ["athlete.id"], name="fk_session_log_athlete_id", ondelete="CASCADE"),
        sa.ForeignKeyConstraint(["plan_id"], ["plan.id"], name="fk_session_log_plan_id", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name="pk_session_log"),
        sa.UniqueConstraint("uid", name="uq_session_log_uid"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_session_log_athlete_id_day", "session_log", ["athlete_id", "day"], unique=False)
    op.create_index("ix_session_log_plan_id", "session_log", ["plan_id"], unique=False)
    op.create_table(
        "throw",
        sa.Column("comparison_id", sa.Integer(), nullable=False),
        sa.Column("thrower_id", sa.Integer(), nullable=True),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("mass_kg", sa.Double(), nullable=True),
        sa.Column("diameter_m", sa.Double(), nullable=True),
        sa.Column("hold", sa.String(length=40), nullable=False),
        sa.Column("number", sa.Double(), nullable=True),
        sa.Column("athlete_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("uid", sa.String(length=24), nullable=False),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("draft", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["athlete_id"], ["athlete.id"], name="fk_throw_athlete_id", ondelete="CASCADE"),
        sa.ForeignKeyConstraint(
            ["comparison_id"], ["comparison.id"], name="fk_throw_comparison_id", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(["thrower_id"], ["athlete.id"], name="fk_throw_thrower_id", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name="pk_throw"),
        sa.UniqueConstraint("uid", name="uq_throw_uid"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_throw_athlete_id", "throw", ["athlete_id"], unique=False)
    op.create_index("ix_throw_comparison_id", "throw", ["comparison_id"], unique=False)
    op.create_index("ix_throw_thrower_id", "throw", ["thrower_id"], unique=False)

    op.execute("INSERT INTO team (id, version, compacted) VALUES (1, 0, 0)")


def downgrade() -> None:
    """There is nothing before: a dated copy is what one goes back to."""
    raise NotImplementedError("a dated copy is what one goes back to")
