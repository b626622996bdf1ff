"""How a transaction writes: what nobody waits for an answer to is collected, and written in one go.

It is written before the next question, so that a question sees it, and at the end of the transaction.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Executable, Insert, Row, Select, Update
from sqlalchemy.exc import IntegrityError

from companion.errors import CompanionError
from companion.store.lists import Lists
from companion.store.questions import Scripts
from companion.store.records import Records


@dataclass(slots=True)
class _Later:
    """A statement yet to be executed, for one or more sets of values. `clash`: what it means if a constraint forbids it."""

    statement: Executable
    values: list[Mapping[str, Any]]
    clash: CompanionError | None


class Collecting(Lists):
    """Questions on the writing side, and statements that wait for the next question or the end."""

    def __init__(self, connection: Connection, records: Records, scripts: Scripts) -> None:
        super().__init__(connection, records, scripts)
        self._collected: list[_Later] = []

    async def write_collected(self) -> None:
        """Write what was collected so far. Raises the clash of the first statement that a constraint forbids."""
        if self._collected:
            collected, self._collected = self._collected, []
            _write(self._connection, collected)

    def _later(self, statement: Executable, values: Mapping[str, Any], clash: CompanionError | None = None) -> None:
        last = self._collected[-1] if self._collected else None
        if last is None or last.statement is not statement or clash or last.clash or last.values[0].keys() != values.keys():
            self._collected.append(_Later(statement, [values], clash))
        else:
            last.values.append(values)

    async def _rows(self, statement: Select[Any], values: Mapping[str, Any]) -> Sequence[Row[Any]]:
        await self.write_collected()
        return await super()._rows(statement, values)

    async def _insert(self, statement: Insert, values: Mapping[str, Any]) -> int:
        """The number that the database gave the new row."""
        await self.write_collected()
        key = self._connection.execute(statement, values).inserted_primary_key
        assert key is not None
        return int(key[0])

    async def _count(self, statement: Insert | Update, values: Mapping[str, Any]) -> int:
        """How many rows were changed."""
        await self.write_collected()
        return int(self._connection.execute(statement, values).rowcount)


def _write(connection: Connection, collected: list[_Later]) -> None:
    for later in collected:
        try:
            connection.execute(later.statement, later.values if len(later.values) > 1 else later.values[0])
        except IntegrityError as error:
            if later.clash is None:
                raise
            raise later.clash from error
