"""What every benchmark prints: a table of two things side by side, with their ratio and the goal."""

import os
from collections.abc import Sequence
from dataclasses import dataclass
from math import isnan
from statistics import quantiles

from rich.console import Console
from rich.table import Table


@dataclass(frozen=True, slots=True)
class Line:
    """One figure of ours and of the other. `unit` is written behind both; `over`: what the ratio divides by is ours."""

    what: str
    ours: float | str
    other: float | str
    goal: str = ""


def percentile(values: Sequence[float], percent: int) -> float:
    """The value that so many of a hundred do not exceed; nan where there are none."""
    if not values:
        return float("nan")
    return quantiles(values, n=100, method="inclusive")[percent - 1] if len(values) > 1 else values[0]


def busiest_second(times: list[float]) -> int:
    """The most that fell into any one second."""
    most = first = 0
    for last, time in enumerate(times):
        while times[first] <= time - 1.0:
            first += 1
        most = max(most, last - first + 1)
    return most


def number(name: str, usual: int) -> int:
    """A size: as the environment says, else the usual one."""
    return int(os.environ.get(name, usual))


def show(title: str, ours: str, other: str, lines: Sequence[Line]) -> None:
    """Print it."""
    table = Table(title=title, title_justify="left")
    for heading in ("what", ours, other, "ratio", "goal"):
        table.add_column(heading, justify="left" if heading in ("what", "goal") else "right", overflow="fold")
    for line in lines:
        table.add_row(line.what, _told(line.ours), _told(line.other), _ratio(line), line.goal)
    Console(width=120).print(table)


def _told(value: float | str) -> str:
    if isinstance(value, str):
        return value
    return "none" if isnan(value) else f"{value:,.3f}" if abs(value) < 100 else f"{value:,.0f}"


def _ratio(line: Line) -> str:
    """How many times the other's figure is ours."""
    if isinstance(line.ours, str) or isinstance(line.other, str) or not line.ours or isnan(line.other):
        return ""
    return f"{line.other / line.ours:,.2f}"
