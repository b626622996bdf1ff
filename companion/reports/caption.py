"""The chart's caption: the same week in words and numbers, for those who read, hear or search rather than look."""

from collections.abc import Iterable
from dataclasses import dataclass

from companion.reports import bar
from companion.reports.stances import StanceLine
from companion.reports.week import Week
from companion.reports.wording import Wording

LIMIT = 1024
"""The platform's limit of a caption, in UTF-16 code units."""


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of the caption. Where there is no room, the highest ranks go first; rank 0 stays."""

    rank: int
    text: str


def caption(week: Week, wording: Wording) -> str:
    """The week in the order of the chart, at most `LIMIT` code units long.

    Open flags, silence, sessions and the waiting decision are never left out. Where it is too long, own words go first,
    then confidence, carer, effort and support, then stances from the last on, then what is over; it then says that the
    chart has more.
    """
    said = [(line.text, line.more) for line in bar.lines(week, wording)]
    first = [_Line(3 if part else 0, text) for line in said for part, text in enumerate(line) if text]
    lines = [_Line(0, f"{week.name}. {wording.span(week)}."), *first, *_flags(week, wording), *_sessions(week, wording)]
    lines += _stances(week, wording)
    if week.support.bouts:
        lines += [_Line(3, text) for text in wording.support(week)]
    lines += [_Line(1, text) for text in wording.carer_saw_more(week.carer_saw_more)]
    aside = (wording.effort(week.effort), wording.carer(week), *wording.confidence(week.confidence))
    lines += [_Line(3, text) for text in aside]
    lines += [_Line(4, wording.quote(said)) for said in week.said]
    text = _joined(lines)
    more = _Line(0, wording.say("caption-more"))
    while length(text) > LIMIT and any(line.rank for line in lines):
        rank = max(line.rank for line in lines)
        last = max(place for place, line in enumerate(lines) if line.rank == rank)
        lines = lines[:last] + lines[last + 1 :]
        text = _joined((*lines, more))
    return text if length(text) <= LIMIT else _cut(text)


def length(text: str) -> int:
    """UTF-16 code units, as the platform counts."""
    return len(text.encode("utf-16-le")) // 2


def _joined(lines: Iterable[_Line]) -> str:
    return "\n".join(line.text for line in lines)


def _cut(text: str) -> str:
    """What of the text fits, with an ellipsis."""
    while length(text) >= LIMIT:
        text = text[: len(text) - max(1, (length(text) - LIMIT) // 2)]
    return f"{text.rstrip()}…"


def _flags(week: Week, wording: Wording) -> list[_Line]:
    lines = [
        _Line(
            0 if flag.open else 1,
            f"{wording.flag_title(flag)}. {wording.flag_facts(flag)} {wording.flag_course(flag)}",
        )
        for flag in wording.gravest(week)
    ]
    more = len(week.flags) - len(lines)
    if more:
        lines.append(_Line(0, wording.say("flags-more", count=more)))
    silences = [_Line(0, text) for text in (*wording.silences(week), *wording.answered(week))]
    near = [_Line(0, text) for text in wording.near_falls(week.near_falls)]
    lower = [] if week.lower is None else [_Line(0, ". ".join(wording.lower(week.lower)))]
    first = [_Line(0, text) for text in (*wording.no_flag(week), *wording.falls(week))]
    return [*first, *lines, *near, *silences, *lower]


def _sessions(week: Week, wording: Wording) -> list[_Line]:
    tally = week.tally
    reported = wording.say("caption-sessions", reported=wording.reported(tally), states=wording.states(tally))
    parts = [_Line(1, text) for text in (*wording.parts(week), *wording.sessions(week))]
    parts += [_Line(1, text) for text in wording.pause(week) if week.pause is not None]
    return [_Line(0, reported), *parts, *([_Line(1, wording.say("more-than-70"))] if week.more_than_70 else [])]


def _stances(week: Week, wording: Wording) -> list[_Line]:
    if not week.practised:
        return [_Line(0, wording.say("no-bout"))]
    head = wording.say("caption-first" if week.first_week else "caption-against")
    return [_Line(1, head), *(_Line(2, _stance(line, wording)) for line in week.stances)]


def _stance(line: StanceLine, wording: Wording) -> str:
    sides = "; ".join(wording.side_in_words(side, line.measure) for side in line.sides)
    return wording.say("caption-stance", stance=wording.stance(line, hand=False), sides=sides)
