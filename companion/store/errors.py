"""What can go wrong with the database, each with what to do."""

from companion.errors import CompanionError


class AlreadyHandled(CompanionError):
    """An event of this key is in the journal already; nothing of this transaction may stay."""


class AlreadyThere(CompanionError):
    """An id, or a user id of the platform, belongs to somebody else already."""


class RecordUnreadable(CompanionError):
    """A stored record does not fit its shape, or is of a newer version."""


class DatabaseUnusable(CompanionError):
    """The file can not be opened, read or written, is not ours, or is of a newer version."""
