"""Weekly charts a second on one core, beside the same figure made through pyplot without a layout engine.

    [ROUNDS=5] [CHARTS=8] .venv/bin/pytest -qs tests/benchmarks/charts.py

Ours is the whole way as the drawing process goes it: from a week's records to the PNG and its caption. Beside it stand two ways
through pyplot to the same figure in the same form, drawn right after it in each round, each chart of another client:

    measured   the sheet of ours, drawn by calls of pyplot, which also measures the texts that must be wrapped
    placed     the texts and shapes of the finished sheet, places and lines known beforehand, put there by calls of pyplot
    unfitted   the same, with letters not fitted to pixels, as in ours; pyplot fits them unless told otherwise

The last two have neither records to read nor a line to break: they are what a sheet costs at the least.
"""

import gc
from collections.abc import Callable, Sequence
from copy import copy
from dataclasses import dataclass
from datetime import date, timedelta
from io import BytesIO
from time import perf_counter, process_time
from typing import TypeVar

import matplotlib
import numpy as np
import pytest
from PIL import Image

matplotlib.use("Agg")
from matplotlib import pyplot as plt
from matplotlib.figure import Figure
from matplotlib.patches import Patch
from matplotlib.text import Text

from companion.content.folders import content_dir
from companion.content.texts import Texts
from companion.core.effects import Sheet
from companion.reports import figure, sheets
from companion.reports.asking import Task
from companion.reports.letters import drawable, unfitted
from companion.reports.page import BODY, DPI, PAPER, WIDTH, Align, Page, Type
from companion.reports.sheets import Content
from companion.reports.week import Case, summarise
from companion.reports.wording import Wording
from tests.benchmarks import courses
from tests.benchmarks.table import Line, number, show
from tests.reports.on_page import shapes_on, texts_on

T = TypeVar("T")
MONDAY = date(2026, 11, 23)
SUNDAY = MONDAY + timedelta(days=6)
ALIKE = 2.0
"""Of 255 shades of grey, between two pixels at the same place, on average: letters lie up to half a pixel apart."""
GOALS = {"measured": "2", "placed": "", "unfitted": ""}
CONTENT = Content(content_dir(), Texts(content_dir() / "texts"))


def task(number: int) -> Task:
    """The week of the client of that number, and the week before."""
    first = MONDAY - timedelta(days=7)
    whose = courses.client(number, first, SUNDAY)
    assert whose.plan is not None
    roles = ((whose.people.client, "client"), (whose.people.therapist, "therapist"))
    case = Case(whose.name, whose.zone, whose.plan, roles, since=whose.since)
    seen = tuple((what.at, what) for what in courses.course(number, first, SUNDAY))
    return Task(case, MONDAY, SUNDAY, seen, courses.at(SUNDAY, 18), "en", Sheet.WEEK)


def ours(of: Task) -> bytes:
    """As the program makes it."""
    return sheets.drawn(of, CONTENT).file


def sheet(of: Task) -> Figure:
    """The figure alone."""
    week = summarise(of.case, of.first, of.last, of.observations, of.as_of)
    return figure.draw(week, Wording(CONTENT.texts, "en", week.zone, week.roles))


class PyplotPage(Page):
    """A page that is filled by calls of pyplot. A text is as wide as it would be drawn there."""

    def __init__(self) -> None:
        super().__init__()
        self.figure = plt.figure(figsize=(WIDTH / DPI, 1), dpi=DPI, facecolor=PAPER, layout="none")
        plt.axes((0.0, 0.0, 1.0, 1.0))
        plt.axis("off")
        plt.xlim(0, WIDTH)

    def width(self, text: str, look: Type) -> float:
        known = plt.text(0, 0, drawable(text), fontproperties=look.font, parse_math=False)
        wide = known.get_window_extent().width
        known.remove()
        return float(wide)

    def write(
        self, x: float, y: float, text: str, look: Type = BODY, *, align: Align = "left", name: str | None = None
    ) -> None:
        plt.text(
            *(x, y, drawable(text)),
            color=look.colour,
            fontproperties=look.font,
            ha=align,
            va="baseline",
            parse_math=False,
            gid=name,
            zorder=5,
        )

    def add(self, patch: Patch, name: str | None = None, level: float = 2) -> None:
        patch.set_gid(name)
        patch.set_zorder(level)
        plt.gca().add_patch(patch)

    def finish(self) -> Figure:
        found = super().finish()
        plt.ylim(found.bbox.height, 0)
        return found


def measured(of: Task) -> bytes:
    """The sheet through pyplot."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(figure, "Page", PyplotPage)
        sheet(of)
    return saved()


@dataclass(frozen=True, slots=True)
class Placed:
    """What is on a finished sheet, of which only copies are drawn."""

    inches: tuple[float, float]
    height: float
    texts: Sequence[Text]
    patches: Sequence[Patch]


def read_off(of: Task) -> Placed:
    """What is on our sheet."""
    found = sheet(of)
    wide, high = found.get_size_inches()
    return Placed((float(wide), float(high)), found.bbox.height, texts_on(found), [_loose(one) for one in shapes_on(found)])


def _loose(patch: Patch) -> Patch:
    """The shape as its maker left it, of no figure yet."""
    alone = copy(patch)
    alone.axes = None
    alone._parent_figure = None  # type: ignore[attr-defined]
    alone._remove_method = None  # type: ignore[attr-defined]
    alone._transformSet = False  # type: ignore[attr-defined]
    alone.set_clip_path(None)
    return alone


def placed(what: Placed) -> bytes:
    """The finished sheet put together again through pyplot."""
    plt.figure(figsize=what.inches, dpi=DPI, facecolor=PAPER, layout="none")
    axes = plt.axes((0.0, 0.0, 1.0, 1.0))
    plt.axis("off")
    plt.xlim(0, WIDTH)
    plt.ylim(what.height, 0)
    for text in what.texts:
        plt.text(
            *text.get_position(),
            text.get_text(),
            color=text.get_color(),
            fontproperties=text.get_fontproperties(),
            ha=text.get_horizontalalignment(),
            va="baseline",
            parse_math=False,
            zorder=text.get_zorder(),
        )
    for patch in what.patches:
        axes.add_patch(copy(patch))
    return saved()


def saved() -> bytes:
    """The current figure as a PNG, and closed."""
    buffer = BytesIO()
    plt.savefig(buffer, format="png", dpi=DPI)
    plt.close()
    return buffer.getvalue()


def looks_like_it(ours: bytes, other: bytes) -> None:
    """AssertionError unless both are the same sheet: of one size, and alike but for parts of a pixel."""
    here, there = (np.asarray(Image.open(BytesIO(png)).convert("L"), dtype=float) for png in (ours, other))
    assert here.shape == there.shape
    assert np.abs(here - there).mean() < ALIKE


@dataclass(frozen=True, slots=True)
class Cost:
    """Charts a second of the processor, and by the clock."""

    a_core: float
    by_the_clock: float


def cost(way: Callable[[T], bytes], charts: Sequence[T]) -> Cost:
    """Make each of these charts once, that way. What others left behind is cleared away before."""
    gc.collect()
    began, used = perf_counter(), process_time()
    for one in charts:
        way(one)
    return Cost(len(charts) / (process_time() - used), len(charts) / (perf_counter() - began))


def best(rounds: Sequence[Cost]) -> Cost:
    """Of several rounds the quickest: what slowed the others was not theirs."""
    return Cost(max(one.a_core for one in rounds), max(one.by_the_clock for one in rounds))


def test_charts_a_second() -> None:
    rounds, charts = number("ROUNDS", 5), number("CHARTS", 8)
    with unfitted():
        looks_like_it(ours(task(0)), placed(read_off(task(0))))
    found: dict[str, list[Cost]] = {way: [] for way in ("ours", "measured", "placed", "unfitted")}
    for turn in range(rounds):
        tasks = [task(turn * charts + place) for place in range(charts)]
        ready = [read_off(of) for of in tasks]
        found["ours"].append(cost(ours, tasks))
        found["measured"].append(cost(measured, tasks))
        found["placed"].append(cost(placed, ready))
        with unfitted():
            found["unfitted"].append(cost(placed, ready))
    own = best(found.pop("ours"))
    lines = []
    for way, rounds_of_it in found.items():
        other = best(rounds_of_it)
        lines.append(Line(f"ms of the processor a chart; pyplot: {way}", 1000 / own.a_core, 1000 / other.a_core, GOALS[way]))
        lines.append(Line("  ms by the clock", 1000 / own.by_the_clock, 1000 / other.by_the_clock))
    lines.append(Line("charts a second of one core; pyplot: measured", own.a_core, best(found["measured"]).a_core))
    show(f"weekly charts, best of {rounds} rounds of {charts}", "companion", "pyplot", lines)
