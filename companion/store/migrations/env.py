"""Alembic's way in: it is handed a connection that is in a transaction already, and never opens one itself."""

from alembic import context

from companion.store.schema import metadata

# In batches: SQLite can alter little of a table, so a changed one is copied. All in one transaction.
context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    render_as_batch=True,
    transactional_ddl=True,
)
with context.begin_transaction():
    context.run_migrations()
