"""What is remembered: the only SQL. One transaction an event, reading queries, versioned records, migrations."""

from companion.store.rows import (
    CardRow,
    DigestRow,
    JournalRow,
    LinkState,
    LinkUse,
    MediaRow,
    MediaState,
    OutboxRow,
    OutboxState,
    PassRow,
    ReportRow,
    ReportState,
    Wake,
)
from companion.store.store import Store

__all__ = [
    "CardRow",
    "DigestRow",
    "JournalRow",
    "LinkState",
    "LinkUse",
    "MediaRow",
    "MediaState",
    "OutboxRow",
    "OutboxState",
    "PassRow",
    "ReportRow",
    "ReportState",
    "Store",
    "Wake",
]
