"""One process is active: the chat platform lets a bot have one only, and two would each send half of everything."""

from pathlib import Path

from filelock import FileLock, Timeout

from companion.errors import UsedWrong
from companion.store.errors import DatabaseUnusable

OWNER_ONLY = 0o600
"""The rights of the files that the store makes: read and written by their owner, nobody else."""


class ActiveLock:
    """The lock beside the database file. The operating system lets it go when the process ends, however it ends.

    A forked child would hold it too, and longer: start children by spawning them.
    """

    def __init__(self, database: Path) -> None:
        self._database = database
        # Taken in one thread and let go in another; and never a mere file, which a killed process would leave behind.
        self._lock = FileLock(_beside(database), mode=OWNER_ONLY, blocking=False, thread_local=False, fallback_to_soft=False)

    def take(self) -> None:
        """Take it, or raise `UsedWrong` at once: somebody else has it."""
        # The lock would make the folder; a folder that is not there is more likely a slip of the pen.
        if not self._database.parent.is_dir():
            raise DatabaseUnusable(
                f"The database {self._database} can not be made: its folder is not there. "
                "Make the folder, or set COMPANION_DATABASE to a file elsewhere."
            )
        try:
            self._lock.acquire()
        except Timeout:
            raise UsedWrong(
                f"Another companion is running on {self._database}. Stop that one first, "
                "or set COMPANION_DATABASE to another file."
            ) from None
        except OSError as error:
            raise DatabaseUnusable(
                f"{_beside(self._database)} can not be written: {error.strerror}. "
                "Let the companion write in that folder, or set COMPANION_DATABASE to a file elsewhere."
            ) from error

    def let_go(self) -> None:
        """Let it go. Twice is fine."""
        self._lock.release()


def _beside(database: Path) -> Path:
    return database.with_name(database.name + ".lock")
