"""The words of a sheet of many weeks: what each stance measures over it, and the sessions of each plan with their interval."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from companion.core.programme import Side
from companion.core.words import Words
from companion.measures.adherence import Adherence
from companion.measures.course import Compared, Series, compared, course, measured, whole
from companion.measures.holds import Between, Hold
from companion.reports.spans import Span
from companion.reports.stances import StanceLine
from companion.reports.wording import Wording

MOST_LISTED = 8
MOST_PLANS = 3
"""Of earlier ones only the counts are told, together."""


@dataclass(frozen=True, slots=True)
class SpansWording(Wording):
    """`trends`: the sheet looks back far enough for one. `spread`: what the client's own one allows to be noticed."""

    trends: bool = False
    spread: Words | None = None

    def from_to(self, span: Span) -> str:
        """From when to when."""
        first, last = self.full_day(span.first), self.full_day(span.last)
        return self.say("span-dates", first=first, last=last, year=span.last.year)

    def caption(self, span: Span) -> str:
        """Whose, from when to when, sessions, flags: short, for the picture has the rest."""
        flags = sum(column.flags for column in span.columns)
        falls = sum(column.falls for column in span.columns)
        counted = self.say("span-caption", flags=flags, falls=falls)
        return "\n".join([f"{span.name[:200]}. {self.from_to(span)}.", *self.plans(span), counted, *self.allowed()])

    def as_known(self, span: Span) -> str:
        """As of when, and in which time zone."""
        return self.say("footer", at=self.moment(span.as_of), zone=span.zone)

    def month(self, day: date) -> str:
        """The short month."""
        return self.say(f"month-{day.month}")

    def of(self, count: int, total: int) -> str:
        """So many of so many; nothing where nothing was due."""
        return f"{count}/{total}" if total else ""

    def plans(self, span: Span) -> Iterator[str]:
        """Sessions reported of those due, by plan, with the 95 % interval and those that nobody told of."""
        windows = [one for one in span.practised if one.sessions.total]
        if not windows:
            yield self.say("reported-none-due.title")
            return
        earlier, newest = windows[:-MOST_PLANS], windows[-MOST_PLANS:]
        if earlier:
            count = sum(one.sessions.count for one in earlier)
            total, unknown = sum(one.sessions.total for one in earlier), sum(one.unknown for one in earlier)
            yield self.say("span-earlier", plans=len(earlier), count=count, total=total, unknown=unknown)
        for one in newest:
            share = self._share(one)
            plan = self.say("span-plan", plan=one.version, first=self.full_day(one.first), share=share)
            yield plan if len(windows) > 1 else share

    def _share(self, one: Adherence) -> str:
        found = one.sessions.interval
        assert found is not None
        low, high = round(found.low * 100), round(found.high * 100)
        count, total = one.sessions.count, one.sessions.total
        return self.say("span-share", count=count, total=total, unknown=one.unknown, low=low, high=high)

    def allowed(self) -> tuple[str, ...]:
        """What the client's own spread from session to session allows to be noticed."""
        if self.spread is None:
            return ()
        short = replace(self.spread, key=f"{self.spread.key}.short")
        return (self.texts.text(short, self.language),)

    def measures(self, span: Span, line: StanceLine) -> Iterator[str]:
        """What is measured of a stance: when half had broken, the trend, and both sides against each other."""
        wanted = (line.exercise, line.stance, line.eyes)
        for held in whole(span.bouts):
            if (held.condition.exercise, held.condition.stance, held.condition.eyes) == wanted:
                yield from self._held(held)
        for pair in compared(span.bouts):
            one = pair.weaker.condition
            if (one.exercise, one.stance, one.eyes) == wanted:
                yield self._sides(pair)

    def _held(self, held: Series) -> Iterator[str]:
        found = measured(held)
        if found is None:
            return
        what = self._condition(held)
        if found.listed:
            shown = self.many(self._hold(one, held.target) for one in found.listed[-MOST_LISTED:])
            rest = len(found.listed) - MOST_LISTED
            more = self.say("span-more", count=rest) if rest > 0 else ""
            told = self.say("span-listed", what=what, sessions=found.sessions, holds=shown, more=more)
        else:
            told = self.say("span-median", what=what, sessions=found.sessions, median=self._between(found.median, held.target))
        yield f"{told} {self._trend(held)}" if self.trends else told

    def _trend(self, held: Series) -> str:
        seen = course(held)
        direction = str(seen.direction).replace("_", "-") if seen else "too-few"
        return self.say(f"span-trend-{direction}", weeks=seen.weeks if seen else 0)

    def _condition(self, held: Series) -> str:
        side = [self.side(Side(held.condition.side))] if held.condition.side is not None else []
        return self.many([*side, self.say(f"hand-{held.condition.hand}"), self.say(f"clock-{held.condition.clock}")])

    def _sides(self, pair: Compared) -> str:
        what = self.many([self.say(f"hand-{pair.weaker.condition.hand}"), self.say(f"clock-{pair.weaker.condition.clock}")])
        if pair.sides is None:
            return self.say("span-sides-none", what=what)
        shorter = pair.sides.shorter
        return self.say("span-sides", what=what, count=shorter.count, total=shorter.total)

    def _between(self, median: Between, target: int) -> str:
        if median.high is None:
            return self.say("span-not-reached", seconds=min(round(median.low), target))
        return self.say("span-half", seconds=self._seconds(median.low, median.high))

    def _seconds(self, low: float, high: float) -> str:
        if round(low) == round(high):
            return str(round(low))
        return self.say("range", low=round(low), high=round(high))

    def _hold(self, hold: Hold, target: int) -> str:
        if hold.high is None:
            return self.say("span-at-least", seconds=min(round(hold.low), target))
        return self._seconds(hold.low, hold.high)
