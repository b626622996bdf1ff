"""data_dictionary.yaml: what each column of the data of a client means."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from companion.content.yaml_lines import Line, Shape, parse, read
from companion.errors import FoundWrong

FILE = "data_dictionary.yaml"


class ColumnShape(Shape):
    """A column as it is written."""

    column: Line
    meaning: Line
    unit: str = ""
    values: str = ""


class DictionaryShape(Shape):
    """The whole file: the columns of each table, in order."""

    tables: Mapping[str, tuple[ColumnShape, ...]]


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its meaning, its unit and its possible values, empty where there is none to name."""

    column: str
    meaning: str
    unit: str
    values: str


@dataclass(frozen=True, slots=True)
class Dictionary:
    """The columns of each table, in order."""

    tables: Mapping[str, tuple[Column, ...]]

    @property
    def names(self) -> tuple[str, ...]:
        """The tables, in order."""
        return tuple(self.tables)

    def columns(self, table: str) -> tuple[Column, ...]:
        """The columns of a table; KeyError if there is none of that name."""
        return self.tables[table]


def load(content: Path) -> Dictionary:
    """The dictionary of a folder of content. Raises FoundWrong: not there, or not well."""
    page = read(content / FILE)
    shape = parse(page, DictionaryShape)
    tables = {
        name: tuple(Column(one.column, one.meaning, one.unit, one.values) for one in columns)
        for name, columns in shape.tables.items()
    }
    faults = [
        page.fault(("tables", name, place, "column"), f'the column "{one.column}" is here twice', "Keep one of them")
        for name, columns in tables.items()
        for place, one in enumerate(columns)
        if one.column in [other.column for other in columns[:place]]
    ]
    if faults:
        raise FoundWrong(faults)
    return Dictionary(tables)
