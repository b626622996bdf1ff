"""spread.yaml: what fall is noticed of a client whose holds differ so much from session to session."""

from collections.abc import Iterator

from pydantic import Field

from companion.content.yaml_lines import Line, Page, Shape
from companion.core.programme import Noticeable
from companion.errors import Fault


class RowShape(Shape):
    """A row of the table: a log-SD, and cases noticed of 100."""

    log_sd: float = Field(gt=0, lt=2)
    third: int = Field(ge=0, le=100)
    half: int = Field(ge=0, le=100)


class SpreadShape(Shape):
    """The whole file."""

    source: Line
    rows: tuple[RowShape, ...] = Field(min_length=2)

    def core(self) -> tuple[Noticeable, ...]:
        """The rows as values."""
        return tuple(Noticeable(row.log_sd, row.third, row.half) for row in self.rows)


def faults(page: Page, shape: SpreadShape) -> Iterator[Fault]:
    """Rows that are not in order, or there twice."""
    spreads = [row.log_sd for row in shape.rows]
    if spreads != sorted(set(spreads)):
        yield page.fault(("rows",), "the rows do not rise by log_sd", "Write each log_sd once, the smallest first")
