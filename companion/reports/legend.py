"""What the bars of a week's stances can show, and which of it occurs: the legend says that and no more. Pure."""

from collections.abc import Iterable
from datetime import date
from enum import StrEnum

from companion.core.observations import Quality
from companion.core.programme import Measure
from companion.measures.due import UNKNOWN, Day, State
from companion.reports.stances import BoutMark, StanceLine


class Sign(StrEnum):
    """A part of a bar, or what stands in the place of one, in the order of the legend. The texts `report-key-*` say it."""

    HELD = "held"
    HELD_OR_COUNTED = "held_or_counted"
    BROKE = "broke"
    BROKE_UNKNOWN = "broke_unknown"
    RAN = "ran"
    NOT_RUN = "not_run"
    EARLY = "early"
    STOPPED = "stopped"
    COUNTED = "counted"
    COUNT_BETWEEN = "count_between"
    NOT_DONE = "not_done"
    NO_ANSWER = "no_answer"
    DAY_UNKNOWN = "day_unknown"
    DAY_MISSED = "day_missed"
    DAY_STOPPED = "day_stopped"
    DAY_HELD = "day_held"
    DAY_PAUSED = "day_paused"
    DAY_TO_COME = "day_to_come"


_DAY = date.min
SAMPLES = {
    Sign.HELD: BoutMark(_DAY, Quality.CLEAN, 1.0, 1.0),
    Sign.HELD_OR_COUNTED: BoutMark(_DAY, Quality.CLEAN, 1.0, 1.0),
    Sign.BROKE: BoutMark(_DAY, Quality.BROKE, 0.5, 1.0),
    Sign.BROKE_UNKNOWN: BoutMark(_DAY, Quality.BROKE, 0.0, 1.0),
    Sign.RAN: BoutMark(_DAY, Quality.BROKE, 0.0, 0.0, 1.0),
    Sign.NOT_RUN: BoutMark(_DAY, Quality.BROKE, 0.0, 0.4, 0.4),
    Sign.EARLY: BoutMark(_DAY, Quality.ENDED_EARLY, 0.0, 0.0, 0.6),
    Sign.STOPPED: BoutMark(_DAY, Quality.UNWELL, 0.0, 0.0, 0.5),
    Sign.COUNTED: BoutMark(_DAY, Quality.CLEAN, 1.0, 1.0),
    Sign.COUNT_BETWEEN: BoutMark(_DAY, Quality.ENDED_EARLY, 0.0, 0.7),
    Sign.NOT_DONE: BoutMark(_DAY, Quality.ENDED_EARLY, 0.35, 0.35),
    Sign.NO_ANSWER: BoutMark(_DAY, Quality.UNKNOWN),
}
"""A bar of which each sign is the plainest part."""

OF_DAY = {
    **dict.fromkeys(UNKNOWN, Sign.DAY_UNKNOWN),
    State.NOT_READY: Sign.DAY_MISSED,
    State.DECLINED: Sign.DAY_MISSED,
    State.STOPPED: Sign.DAY_STOPPED,
    State.HELD: Sign.DAY_HELD,
    State.PAUSED: Sign.DAY_PAUSED,
    State.TO_COME: Sign.DAY_TO_COME,
}
"""What stands in the place of bars on a day of that state; nothing on the others, nor on a day not due."""


def signs(lines: Iterable[StanceLine], days: Iterable[Day]) -> tuple[Sign, ...]:
    """The signs that occur in these lines."""
    rows = [(line, side.marks) for line in lines for side in line.sides]
    every = tuple(days)
    found = {sign for line, marks in rows for mark in marks for sign in _of_bout(mark, line.measure)}
    found |= {sign for line, marks in rows for day in every if (sign := of_day(day, marks, line.version)) is not None}
    if {Sign.HELD, Sign.COUNTED} <= found:  # they look the same
        found = (found - {Sign.HELD, Sign.COUNTED}) | {Sign.HELD_OR_COUNTED}
    return tuple(sign for sign in Sign if sign in found)


def of_day(day: Day, marks: Iterable[BoutMark], version: int | None) -> Sign | None:
    """What stands in a row on a day of which it has no bout; nothing in the row of one plan on a day of another."""
    if day.state is None or version not in (None, day.version) or any(mark.day == day.day for mark in marks):
        return None
    return OF_DAY.get(day.state)


def _of_bout(mark: BoutMark, measure: Measure) -> set[Sign]:
    if mark.quality is Quality.UNKNOWN:
        return {Sign.NO_ANSWER}
    ran = mark.practised or 0.0
    if measure is Measure.COUNTED:
        shown = {
            Sign.COUNTED: mark.sure > 0,
            Sign.COUNT_BETWEEN: mark.at_most > mark.sure,
            Sign.NOT_DONE: mark.at_most < 1,
            Sign.STOPPED: mark.quality is Quality.UNWELL,
        }
    else:
        through = mark.sure == 0 and mark.at_most == 1
        broke = mark.at_most > mark.sure
        on = ran > mark.at_most
        stopped = mark.quality is Quality.UNWELL
        early = on and mark.quality is Quality.ENDED_EARLY
        shown = {
            Sign.HELD: mark.sure > 0,
            Sign.BROKE: broke and not through,
            Sign.BROKE_UNKNOWN: broke and through,
            Sign.RAN: on and not early and not stopped,
            Sign.EARLY: early,
            Sign.STOPPED: stopped,
            Sign.NOT_RUN: max(ran, mark.at_most) < 1,
        }
    return {sign for sign, occurs in shown.items() if occurs}
