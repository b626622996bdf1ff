"""What was measured at the reviews, beside what is published for it: the therapist's page, read in ten seconds.

A row a measure, a column a review, the newest on a ground of its own. Nothing of home practice is on it, and what is said
against a norm or a threshold is said in words. What was left out at a review is empty and never a zero.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from matplotlib.figure import Figure

from companion.content.texts import Texts
from companion.core.review_values import FourStage, four_stage
from companion.measures.review import tandem_points
from companion.reports.asking import Drawn, ReviewsTask
from companion.reports.page import (
    ALARM,
    ASIDE,
    BODY,
    MARGIN,
    SHADE,
    SMALL,
    SMALL_STRONG,
    STRONG,
    TITLE,
    Page,
    Type,
    png,
)
from companion.reports.review_wording import (
    FIVE,
    HEEL_TO_TOE,
    STRONGER,
    WEAKER,
    ReviewWording,
    Timed,
    berg,
    number,
    signed,
)
from companion.reports.reviews import Against, Review, against, attained, change, reviews

MOST_SHOWN = 4
LEFT = MARGIN + 330
ROW = 46
BAD = Type(SMALL.size, bold=True, colour=ALARM)
NOT_TRIED = "–"

Cell = tuple[str, Type]
EMPTY: Cell = ("", SMALL)


def drawn(task: ReviewsTask, texts: Texts) -> Drawn:
    """The page as a picture, with its caption."""
    wording = ReviewWording(texts, task.language, task.zone)
    found = reviews(task.observations, task.as_of, task.zone)
    return Drawn(png(draw(task.name, found, wording)), wording.caption(task.name, found))


def draw(name: str, found: Sequence[Review], wording: ReviewWording, foot: str = "") -> Figure:
    """The page of all reviews of a client, oldest first. `foot`: what stands at its end, as a page of a document."""
    sheet = _Sheet(Page(), wording, tuple(found), tuple(found[-MOST_SHOWN:]))
    sheet.head(name)
    if found:
        left_out = [
            wording.told(what)
            for what, part in (
                ("four-stage", sheet.four_stage()),
                ("sit-to-stand", sheet.sit_to_stand()),
                ("one-leg", sheet.one_leg()),
                ("berg", sheet.berg()),
                ("goals", sheet.goals()),
            )
            if not part
        ]
        sheet.left_out(left_out)
    if foot:
        sheet.page.y += 12
        sheet.page.paragraph(foot, ASIDE, name="foot")
    return sheet.page.finish()


@dataclass(frozen=True, slots=True)
class _Sheet:
    """The page under way; lives only inside `draw`. A part tells whether it was measured at a review that is shown."""

    page: Page
    wording: ReviewWording
    found: tuple[Review, ...]
    shown: tuple[Review, ...]

    def head(self, name: str) -> None:
        page, say = self.page, self.wording
        page.paragraph(name, TITLE, most=3, name="name")
        page.paragraph(say.count(self.found, self.shown) if self.found else say.told("none"), STRONG, name="count")
        page.paragraph(say.told("note"), ASIDE, name="note")
        if self.found:
            page.paragraph(say.told("key"), ASIDE, name="key")
            self._dates()

    def four_stage(self) -> bool:
        tried = [one for one in self.shown if one.values.four_stage]
        if not tried:
            return False
        page, say = self.page, self.wording
        page.section(say.told("heading-four-stage"), "four-stage")
        for place, stage in enumerate(FourStage):
            self._row(say.told(f"stage-{stage}"), [self._held(one, place) for one in self.shown], f"stage:{stage}")
        self._row(say.told("row-risk"), [self._risk(one) for one in self.shown], "risk")
        points = [self._cell(self._tandem(one), one) for one in self.shown]
        self._row(say.told("row-tandem"), points, "tandem")
        page.y += 8
        at_risk = four_stage(tried[-1].values.four_stage).at_risk
        page.paragraph(f"{say.stopped(tried[-1])} {say.risk(tried[-1])}", STRONG if at_risk else BODY, name="four-stage")
        page.paragraph(say.told("tandem-source"), ASIDE, name="source")
        return True

    def sit_to_stand(self) -> bool:
        return self._times("sit-to-stand", (FIVE,))

    def one_leg(self) -> bool:
        if not self._times("one-leg", (WEAKER, STRONGER)):
            return False
        self.page.paragraph(self.wording.categories(self._measured((WEAKER, STRONGER))[-1]), ASIDE, name="category")
        return True

    def berg(self) -> bool:
        if all(one.values.berg is None for one in self.shown):
            return False
        page, say = self.page, self.wording
        page.section(say.told("heading-berg"), "berg")
        self._row(
            say.told("row-berg"),
            [self._cell(None if one.values.berg is None else str(one.values.berg), one) for one in self.shown],
            "berg",
        )
        changed = change(self.found, berg)
        if changed is not None:
            page.y += 8
            by = say.told("changed-berg", by=signed(changed.by))
            page.paragraph(say.told("changed", when=say.between(self.found, changed), what=by), STRONG, name="changed")
            for how, which in say.detectable(changed):
                page.write(MARGIN, page.y + STRONG.size, how, STRONG, name="reached")
                page.paragraph(which, indent=160, name="detectable")
            page.paragraph(say.told("beyond-means"), ASIDE, name="source")
        return True

    def goals(self) -> bool:
        having = [one for one in self.shown if one.values.goals]
        if not having:
            return False
        page, say = self.page, self.wording
        page.section(say.told("heading-goals"), "goals")
        self._row(say.told("row-goals"), [self._attained(one) for one in self.shown], "goals")
        page.y += 8
        page.paragraph(say.told("goals-of", day=say.date(having[-1].day)), name="goals-of")
        for place, goal in enumerate(having[-1].values.goals, 1):
            page.paragraph(say.goal(place, goal), indent=30, most=3, name="goal")
        page.paragraph(say.told("goals-source"), ASIDE, name="source")
        return True

    def left_out(self, what: Sequence[str]) -> None:
        if what:
            self.page.y += 12
            told = self.wording.told("not-measured", what=self.wording.many(what))
            self.page.paragraph(told, ASIDE, name="not-measured")

    # the cells

    def _cell(self, text: str | None, review: Review) -> Cell:
        return text or "", SMALL_STRONG if review is self.shown[-1] else SMALL

    def _held(self, review: Review, place: int) -> Cell:
        held = review.values.four_stage
        return self._cell(number(held[place]) if place < len(held) else NOT_TRIED if held else None, review)

    def _risk(self, review: Review) -> Cell:
        held = review.values.four_stage
        if not held:
            return EMPTY
        at_risk = four_stage(held).at_risk
        told = self.wording.told("risk-not-known" if at_risk is None else "risk-yes" if at_risk else "risk-no")
        return told, BAD if at_risk else SMALL

    def _tandem(self, review: Review) -> str | None:
        held = review.values.four_stage
        if not held:
            return None
        return str(tandem_points(held[HEEL_TO_TOE])) if len(held) > HEEL_TO_TOE else NOT_TRIED

    def _time(self, timed: Timed, review: Review) -> Cell:
        seconds = timed.value(review.values)
        return self._cell(None if seconds is None else number(seconds), review)

    def _attained(self, review: Review) -> Cell:
        value = attained(review.values)
        return self._cell(None if value is None else f"{value:.1f}", review)

    def _against(self, timed: Timed, review: Review) -> Cell:
        seconds = timed.value(review.values)
        if seconds is None:
            return EMPTY
        how = against(timed.norms, review.values.decade, seconds)
        return self.wording.told(how), BAD if how is Against.WORSE else SMALL

    # the parts

    def _times(self, section: str, measures: Sequence[Timed]) -> bool:
        page, say, measured = self.page, self.wording, self._measured(measures)
        if not measured:
            return False
        page.section(say.told(f"heading-{section}"), section)
        for timed in [one for one in measures if self._measured((one,))]:
            self._row(say.told(f"row-{timed.name}"), [self._time(timed, one) for one in self.shown], timed.name)
            self._row(say.told("row-against"), [self._against(timed, one) for one in self.shown], f"against:{timed.name}")
        page.y += 8
        changes = list(say.changed(self.found, measures))
        for told in changes:
            page.paragraph(told, name="changed")
        if changes:
            page.paragraph(say.told(f"threshold-{section}"), name="threshold")
        page.paragraph(say.norms(measures[0].norms, [one.values.decade for one in measured]), ASIDE, name="norm")
        return True

    def _measured(self, measures: Sequence[Timed]) -> list[Review]:
        return [one for one in self.shown if any(timed.value(one.values) is not None for timed in measures)]

    def _middle(self, place: int) -> float:
        return LEFT + self._width * (place + 0.5)

    @property
    def _width(self) -> float:
        return (MARGIN + self.page.room - LEFT) / MOST_SHOWN

    def _newest(self, height: float) -> None:
        """The ground of the newest review's column, from the cursor down."""
        left = self._middle(len(self.shown) - 1) - self._width / 2
        self.page.box((left, self.page.y, self._width, height), face=SHADE, name="newest")

    def _dates(self) -> None:
        page = self.page
        page.y += 10
        self._newest(2 * ROW - 6)
        for place, one in enumerate(self.shown):
            x = self._middle(place)
            page.write(x, page.y + 36, self.wording.month(one.day), SMALL_STRONG, align="center", name=f"day:{one.day}")
            page.write(x, page.y + 74, str(one.day.year), SMALL, align="center", name=f"year:{one.day}")
        page.y += 2 * ROW - 6

    def _row(self, label: str, cells: Sequence[Cell], name: str) -> None:
        page = self.page
        self._newest(ROW)
        page.write(MARGIN, page.y + 33, label, BODY, name=f"row:{name}")
        for place, (text, look) in enumerate(cells):
            if text:
                x = self._middle(place)
                page.write(x, page.y + 33, text, look, align="center", name=f"{name}:{self.shown[place].day}")
        page.y += ROW
