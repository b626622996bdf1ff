"""A document on paper: pages filled from the top down, broken where they are full, and put into one PDF with text to select.

Each page is drawn like a chart, in pixels, and laid onto the paper as large as its margins allow; so a chart can be a page as
well. Equal content is equal bytes: the only date in the file is the one that is given.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from io import BytesIO

import matplotlib
from matplotlib.backends.backend_pdf import PdfPages
from matplotlib.figure import Figure
from pypdf import PageObject, PdfReader, PdfWriter, Transformation
from pypdf.generic import NameObject, TextStringObject

from companion.core.effects import Paper
from companion.reports.page import ASIDE, MARGIN, WIDTH, Page, Type

MM = 72 / 25.4
SIZES = {Paper.A4: (210 * MM, 297 * MM), Paper.LETTER: (612.0, 792.0)}
"""Width and height of a paper, in points (ISO 216; ANSI/ASME Y14.1)."""

EDGE = 12 * MM
HEAD = Type(28, bold=True)
TITLE = Type(36, bold=True)
TEXT = Type(21)
STRONG = Type(21, bold=True)
SMALL = Type(18, colour=ASIDE.colour)
FOOT = 40
"""Pixels at the bottom of a page that hold its number."""


@dataclass(frozen=True, slots=True)
class About:
    """What stands in the file beside its pages. `as_of`: up to when the records are."""

    title: str
    language: str
    as_of: datetime
    paper: Paper


class Document:
    """Pages of text. A line that does not fit begins the next page; a heading never stands alone at the end of one."""

    def __init__(self, paper: Paper, running: str) -> None:
        width, height = SIZES[paper]
        self._height = round(WIDTH * (height - 2 * EDGE) / (width - 2 * EDGE))
        self._running = running
        self._pages = [Page()]

    @property
    def _page(self) -> Page:
        return self._pages[-1]

    def _room_for(self, pixels: float) -> None:
        if self._page.y + pixels > self._height - MARGIN - FOOT:
            self._pages.append(Page())

    def title(self, text: str) -> None:
        """The title of the whole, once."""
        self._page.paragraph(text, TITLE)
        self._page.y += 6

    def heading(self, text: str) -> None:
        """A heading, kept with what comes next."""
        self._room_for(160)
        self._page.y += 18
        self._page.box((MARGIN, self._page.y, self._page.room, 2), face="#c2cad4")
        self._page.y += 4
        self._page.paragraph(text, HEAD)
        self._page.y += 4

    def line(self, text: str, look: Type = TEXT, indent: float = 0) -> None:
        """A paragraph, wrapped; it may go on on the next page."""
        for one in self._page.wrap(text, look, self._page.room - indent - min(indent, 20)):
            self._room_for(look.size * 1.28)
            self._page.y += look.size * 1.28
            self._page.write(MARGIN + indent, self._page.y - look.size * 0.3, one, look)

    def pair(self, name: str, text: str, across: float = 300) -> None:
        """A name on the left, and beside it what is said of it."""
        page = self._page
        left = page.wrap(name, STRONG, across - 20)
        right = page.wrap(text, TEXT, page.room - across)
        step = TEXT.size * 1.28
        self._room_for(min(max(len(left), len(right)), 12) * step + 6)
        for at in range(max(len(left), len(right))):
            self._room_for(step)
            page = self._page
            page.y += step
            for x, lines, look in ((MARGIN, left, STRONG), (MARGIN + across, right, TEXT)):
                if at < len(lines):
                    page.write(x, page.y - look.size * 0.3, lines[at], look)
        self._page.y += 6

    def finish(self, of: str, sheets: Sequence[Callable[[str], Figure]] = ()) -> list[Figure]:
        """The pages, each with its number; `of` is such as "Page {page} of {pages}". After them `sheets`, pages of their own:
        each is drawn with what it is given to stand at its foot."""
        pages = len(self._pages) + len(sheets)
        feet = [f"{self._running} · {of.format(page=number, pages=pages)}" for number in range(1, pages + 1)]
        figures = []
        for page, foot in zip(self._pages, feet, strict=False):
            page.y = self._height - MARGIN
            page.write(MARGIN, self._height - 12, foot, SMALL)
            figures.append(page.finish())
        return [*figures, *(sheet(foot) for sheet, foot in zip(sheets, feet[len(self._pages) :], strict=True))]


def pdf(figures: Sequence[Figure], about: About) -> bytes:
    """The figures as one PDF, a page each, on that paper."""
    writer = PdfWriter()
    for page in _drawn(figures):
        writer.add_page(_laid(page, about.paper))
    stamp = about.as_of.strftime("D:%Y%m%d%H%M%SZ")
    writer.metadata = {
        "/Title": about.title,
        "/CreationDate": stamp,
        "/ModDate": stamp,
        "/Producer": "companion",
    }
    writer._root_object[NameObject("/Lang")] = TextStringObject(about.language)
    out = BytesIO()
    writer.write(out)
    return out.getvalue()


def _drawn(figures: Sequence[Figure]) -> Sequence[PageObject]:
    """Each figure as a page. All are drawn into one file, so that its fonts are cut down to the letters in use only once."""
    buffer = BytesIO()
    nothing_told = {"Creator": None, "Producer": None, "CreationDate": None}
    # 42: letters go in as letters, so that they can be selected and searched
    with matplotlib.rc_context({"pdf.fonttype": 42, "pdf.compression": 6}), PdfPages(buffer, metadata=nothing_told) as pages:
        for figure in figures:
            pages.savefig(figure)
    buffer.seek(0)
    return PdfReader(buffer).pages


def _laid(drawn: PageObject, paper: Paper) -> PageObject:
    """A drawn page on the paper, as large as the margins allow, at the top and in the middle."""
    width, height = SIZES[paper]
    own_width, own_height = float(drawn.mediabox.width), float(drawn.mediabox.height)
    scale = min((width - 2 * EDGE) / own_width, (height - 2 * EDGE) / own_height)
    page = PageObject.create_blank_page(width=width, height=height)
    across = (width - own_width * scale) / 2
    page.merge_transformed_page(drawn, Transformation().scale(scale).translate(across, height - EDGE - own_height * scale))
    return page
