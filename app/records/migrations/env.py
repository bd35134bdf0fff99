"""What Alembic runs: the steps on the connection that it is given, inside of that connection's own transaction."""

from alembic import context

from app.records.migrations import VERSION_TABLE
from app.records.tables import Base

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Base.metadata,
    version_table=VERSION_TABLE,
    render_as_batch=True,  # SQLite changes a table by making it anew
    transactional_ddl=True,
)
with context.begin_transaction():
    context.run_migrations()
