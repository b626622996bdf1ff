"""Invented reviews to draw, and their page read as it is shown."""

from collections.abc import Sequence
from datetime import date
from itertools import count

from companion.core.observations import Observation, Reviewed
from companion.core.review_values import GoalLevel, ReviewValues
from companion.reports.review_page import MOST_SHOWN, draw
from companion.reports.review_wording import ReviewWording
from companion.reports.reviews import Review, reviews
from tests.reports.on_page import texts_on
from tests.reports.samples import TEXTS
from tests.reports.weeks import MONDAY_MORNING, ZONE, at, dated

GOALS = (GoalLevel("Walk to the gate and back on my own", -1, 3), GoalLevel("Stand at the sink to wash up", 0, 2))
DAYS = (date(2026, 3, 2), date(2026, 5, 4), date(2026, 7, 6), date(2026, 9, 7), date(2026, 11, 23))

FIRST = ReviewValues((10, 4.2), 18.3, 1.5, 6, 31, GOALS, 60)
SECOND = ReviewValues((10, 10, 2.99), 16.1, 2.9, 9.4, 36, GOALS, 60)
THIRD = ReviewValues((10, 10, 7.2), None, 4.9, 10.1, 41, (), 60)
FOURTH = ReviewValues((10, 10, 9.99), 13.25, 5, 17.5, 43, (), 70)
NEWEST = ReviewValues((10, 10, 10, 3), 12.5, 8.6, 17.2, 46, (GoalLevel("Walk to the gate and back on my own", 1, 3),), 70)
COURSE = (FIRST, SECOND, THIRD, FOURTH, NEWEST)


def reviewed(*values: ReviewValues, days: Sequence[date] = DAYS) -> list[Observation]:
    """Reviews on those days, the last of them on the last day."""
    return [Reviewed(at(day, 11), "thea", one) for day, one in zip(days[-len(values) :], values, strict=True)]


def course(*values: ReviewValues) -> tuple[Review, ...]:
    """The same, as they are put on the page."""
    return reviews(dated(*reviewed(*values)), MONDAY_MORNING, ZONE)


def numbered(*levels: int) -> tuple[GoalLevel, ...]:
    """Goals without words, of equal weight."""
    return tuple(GoalLevel(None, level, weight) for level, weight in zip(levels, count(1), strict=False))


LONG = ReviewValues(
    (10, 10, 10, 10),
    600,
    600,
    600,
    56,
    (GoalLevel("Thewalkdowntothewaterandbackagainwithoutanybodynear " * 6, -2, 5), *numbered(2, -1)),
    90,
)

SAMPLES: dict[str, tuple[ReviewValues, ...]] = {
    "none": (),
    "one": (SECOND,),
    "five": COURSE,
    "some_left_out": (
        ReviewValues((10, 10)),
        ReviewValues(sit_to_stand_5=15, decade=90),
        ReviewValues(one_leg_weaker=0, berg=40, decade=50),
        ReviewValues(berg=38),
    ),
    "age_not_told": (ReviewValues((7,), 14, 3, None, None, numbered(0, 1)), ReviewValues((), 12, 3.5, 20)),
    "long": (LONG, LONG, LONG, LONG),
}


class Shown:
    """The page of reviews as it is read: by name, a paragraph's lines in one, and the cells of a row from the oldest on."""

    def __init__(self, *values: ReviewValues, name: str = "Odda Fennimore") -> None:
        self.wording = ReviewWording(TEXTS, "en", ZONE)
        self.reviews = course(*values) if values else ()
        self.figure = draw(name, self.reviews, self.wording)
        self.caption = self.wording.caption(name, self.reviews)
        self._texts = sorted(texts_on(self.figure), key=lambda text: (text.get_position()[1], text.get_position()[0]))

    def names(self) -> set[str]:
        """What there is on it."""
        return {str(text.get_gid()) for text in self._texts}

    def said(self, name: str) -> str:
        """The paragraphs of that name as one text; empty where there is none."""
        return " ".join(text.get_text() for text in self._texts if text.get_gid() == name)

    def row(self, name: str) -> list[str]:
        """The cells of a row, oldest review first; empty where nothing was measured."""
        return [self.said(f"{name}:{one.day}") for one in self.reviews[-MOST_SHOWN:]]

    def newest(self, name: str) -> str:
        """The cell of the newest review."""
        return self.row(name)[-1]
