"""The words of the page of reviews. A published value never stands without whom it was found in and where it is published."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from companion.core.review_values import STAGE_S, FourStage, GoalLevel, ReviewValues, four_stage
from companion.core.words import words
from companion.measures.review import (
    BERG_CHANGE,
    FIVE_SIT_TO_STANDS,
    ONE_LEG_EYES_OPEN,
    Detectable,
    Norms,
    one_leg_category,
)
from companion.reports.reviews import Change, Review, Value, against, attained, change
from companion.reports.wording import Wording

STAGES = tuple(FourStage)
HEEL_TO_TOE = STAGES.index(FourStage.HEEL_TO_TOE)
MOST_NAME = 100
MINUS = "\N{MINUS SIGN}"


@dataclass(frozen=True, slots=True)
class Timed:
    """A measure in seconds with a published norm; `name` is a text of the page."""

    name: str
    value: Value
    norms: Norms


FIVE = Timed("sit-to-stand", lambda values: values.sit_to_stand_5, FIVE_SIT_TO_STANDS)
WEAKER = Timed("one-leg-weaker", lambda values: values.one_leg_weaker, ONE_LEG_EYES_OPEN)
STRONGER = Timed("one-leg-stronger", lambda values: values.one_leg_stronger, ONE_LEG_EYES_OPEN)
TIMED = (FIVE, WEAKER, STRONGER)


def berg(values: ReviewValues) -> float | None:
    """The total of the scale."""
    return values.berg


@dataclass(frozen=True, slots=True)
class ReviewWording(Wording):
    """Puts what was measured into words of one language."""

    def told(self, key: str, **params: str | int) -> str:
        """A text of the page, by its key without `review-page-`."""
        return self.texts.text(words(f"review-page-{key.replace('_', '-')}", **params), self.language)

    def month(self, day: date) -> str:
        """Day and month."""
        return self.told("day-month", day=day.day, month=self.say(f"month-{day.month}"))

    def date(self, day: date) -> str:
        """Day, month and year."""
        return self.told("date", day=self.month(day), year=day.year)

    def count(self, found: Sequence[Review], shown: Sequence[Review]) -> str:
        """How many reviews there are, and how many of them are shown."""
        return self.told("count-last" if len(found) > len(shown) else "count", count=len(found), shown=len(shown))

    # the 4-stage test

    def stopped(self, review: Review) -> str:
        """Where the test ended, and what heel-to-toe says of the risk of falls."""
        held = review.values.four_stage
        found = four_stage(held)
        if found.next is not None:
            end = self.told("unfinished", stage=self._stage(found.next))
        elif held[-1] < STAGE_S:
            end = self.told("stopped", stage=self._stage(STAGES[len(held) - 1]), seconds=number(held[-1]))
        else:
            end = self.told("all-held")
        return self.told("on", day=self.month(review.day), what=end)

    def _stage(self, stage: FourStage) -> str:
        return self.told(f"stage-{stage}").lower()

    def risk(self, review: Review) -> str:
        """The fall risk flag as published, or that there is none, or that it is not known."""
        held = review.values.four_stage
        found = four_stage(held)
        if found.at_risk is None:
            return self.told("risk-unknown")
        if not found.at_risk:
            return self.told("risk-none")
        return self.told("risk-flag" if len(held) > HEEL_TO_TOE else "risk-flag-not-reached")

    # times

    def norms(self, norms: Norms, decades: Sequence[int | None]) -> str:
        """The published values for these ages, with population and source; or that there is none."""
        found = dict.fromkeys(norm for decade in decades if decade is not None and (norm := norms.at(decade)) is not None)
        if not found:
            return self.told("norm-no-age" if None in decades else "norm-none", source=norms.source)
        way = "norm-under" if norms.longer_is_better else "norm-above"
        values = self.many(
            self.told(way, first=norm.first_year, last=norm.last_year, seconds=number(norm.seconds)) for norm in found
        )
        population = self.told(f"population-{norms.population}")
        return self.told("norm", values=values, population=population, source=norms.source)

    def changed(self, found: Sequence[Review], measures: Sequence[Timed]) -> Iterator[str]:
        """The plain difference of each since the time before; a line for each pair of days."""
        parts: dict[str, list[str]] = {}
        for timed in measures:
            changed = change(found, timed.value)
            if changed is not None:
                part = self.told(f"changed-{timed.name}", by=signed(changed.by))
                parts.setdefault(self.between(found, changed), []).append(part)
        for when, told in parts.items():
            yield self.told("changed", when=when, what=self.many(told))

    def between(self, found: Sequence[Review], changed: Change) -> str:
        """Between which reviews."""
        if changed.at == found[-1].day:
            return self.told("since", since=self.date(changed.since))
        return self.told("between", since=self.date(changed.since), at=self.date(changed.at))

    def categories(self, review: Review) -> str:
        """The categories of both times on one leg; a side that was left out is told so."""
        weaker, stronger = (
            self.told("category-none") if seconds is None else str(one_leg_category(seconds) or self.told("category-0"))
            for seconds in (review.values.one_leg_weaker, review.values.one_leg_stronger)
        )
        return self.told("category", day=self.month(review.day), weaker=weaker, stronger=stronger)

    # the Berg scale, goals

    def reached(self, detectable: Detectable, changed: Change) -> str:
        """Beyond or within."""
        return self.told("beyond" if detectable.reached(changed.by) else "within")

    def detectable(self, changed: Change) -> tuple[tuple[str, str], ...]:
        """Beyond or within, and of which detectable change, each named."""
        return tuple(
            (
                self.reached(one, changed),
                self.told(
                    "detectable",
                    level=one.level,
                    points=number(one.points),
                    population=self.told(f"population-{one.population}"),
                    source=one.source,
                ),
            )
            for one in BERG_CHANGE
        )

    def goal(self, place: int, goal: GoalLevel) -> str:
        """The level and weight of a goal, which stands in the client's words where it has some."""
        name = self.told("goal-words", words=" ".join(goal.words.split())) if goal.words else self.told("goal", number=place)
        return self.told("goal-level", goal=name, level=signed(goal.level), weight=goal.weight)

    # the caption

    def caption(self, name: str, found: Sequence[Review]) -> str:
        """The newest of each measure, in words that fit below a picture."""
        if not found:
            lines = [f"{name[:MOST_NAME]}. {self.told('none')}"]
        else:
            newest = self.told("newest", count=len(found), day=self.date(found[-1].day))
            lines = [f"{name[:MOST_NAME]}. {newest}", *self._newest(found)]
        return "\n".join([*lines, self.told("note")])

    def _newest(self, found: Sequence[Review]) -> Iterator[str]:
        for review in [one for one in found if one.values.four_stage][-1:]:
            yield f"{self.stopped(review)} {self.risk(review)}"
        for timed in TIMED:
            for review in [one for one in found if timed.value(one.values) is not None][-1:]:
                yield self._time(timed, review)
        for review in [one for one in found if one.values.berg is not None][-1:]:
            changed = change(found, berg)
            told = self.told("caption-berg", day=self.month(review.day), total=review.values.berg or 0)
            yield told + (self._berg_changed(changed) if changed is not None else "")
        for review in [one for one in found if one.values.goals][-1:]:
            value = f"{attained(review.values):.1f}"
            yield self.told("caption-goals", day=self.month(review.day), value=value, count=len(review.values.goals))

    def _time(self, timed: Timed, review: Review) -> str:
        decade, seconds = review.values.decade, timed.value(review.values)
        assert seconds is not None
        how = self.told(
            f"caption-{against(timed.norms, decade, seconds)}",
            first=decade or "",
            last=(decade or 0) + 9,
            source=timed.norms.source.partition(",")[0],
        )
        return self.told(
            "caption-time", what=self.told(timed.name), day=self.month(review.day), seconds=number(seconds), how=how
        )

    def _berg_changed(self, changed: Change) -> str:
        told = (
            self.told(
                "caption-detectable",
                level=one.level,
                points=number(one.points),
                source=one.source,
                how=self.reached(one, changed),
            )
            for one in BERG_CHANGE
        )
        return self.told("caption-changed", by=signed(changed.by), told="; ".join(told))


def number(value: float) -> str:
    """A number as it was entered: 9.99 is not told as 10."""
    return f"{value:g}"


def signed(value: float) -> str:
    """A difference with its sign, free of what binary fractions add; 0 has none."""
    value = round(value, 3)
    return "0" if value == 0 else f"{'+' if value > 0 else MINUS}{abs(value):g}"
