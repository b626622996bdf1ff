"""What running clocks show on the phones: one countdown a chat, in memory only, drawn when sent.

A countdown is no event and no row. It changes every five seconds, or as often as the sender has a slot to spare; a step
that passes a quarter goes before the others. It is never drawn in the last two seconds, which belong to the end cue. A
restart reads it off the state again.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from math import ceil

from companion.core.effects import ClientId, Countdown, PersonId, Words

STEP_S = 5
LAST_S = 2


@dataclass(slots=True)
class _Running:
    """`passed` is how many steps of five seconds were drawn, or gone by before there was anything to draw on."""

    countdown: Countdown
    client: ClientId
    passed: int

    def reached(self, now: datetime) -> int:
        return int((now - self.countdown.began) / timedelta(seconds=STEP_S))

    def over_at(self) -> datetime:
        return self.countdown.began + timedelta(seconds=self.countdown.seconds - LAST_S)

    def next_at(self) -> datetime:
        return self.countdown.began + timedelta(seconds=STEP_S * (self.passed + 1))

    def quarter(self, steps: int) -> int:
        return min(3, 4 * STEP_S * steps // self.countdown.seconds)


@dataclass(frozen=True, slots=True)
class Due:
    """A countdown that may be drawn now. `quarter`: a quarter has passed since it was drawn last."""

    countdown: Countdown
    client: ClientId
    quarter: bool


class Countdowns:
    """The countdowns of all chats."""

    def __init__(self) -> None:
        self._running: dict[PersonId, _Running] = {}

    def replace(self, client: ClientId, countdowns: Iterable[Countdown], now: datetime) -> bool:
        """What the state of this client shows now, in place of what it showed before. Whether a new one began."""
        wanted = {countdown.to: countdown for countdown in countdowns if countdown.seconds > LAST_S}
        for to in [to for to, old in self._running.items() if old.client == client and to not in wanted]:
            del self._running[to]
        began = False
        for to, countdown in wanted.items():
            old = self._running.get(to)
            if old is not None and old.client == client and _same_clock(old.countdown, countdown):
                old.countdown = countdown
                continue
            new = _Running(countdown, client, 0)
            new.passed = max(0, new.reached(now))
            self._running[to] = new
            began = True
        return began

    def drop(self, to: PersonId) -> None:
        """Another message goes to this chat."""
        self._running.pop(to, None)

    def runs(self, countdown: Countdown) -> bool:
        """Whether this very countdown still runs."""
        running = self._running.get(countdown.to)
        return running is not None and running.countdown == countdown

    def card_of(self, to: PersonId) -> str | None:
        """The card on which this chat's countdown stands, if there is one."""
        running = self._running.get(to)
        return running.countdown.card if running else None

    def due(self, now: datetime, ready: Callable[[PersonId], datetime | None]) -> Due | None:
        """The one to draw first: a quarter before a mere step, then the one that is furthest behind.

        `ready` says from when on a chat may be sent to (None: not before something else changes).
        """
        best: tuple[bool, int, datetime, PersonId] | None = None
        for to, running in self._alive(now):
            behind = running.reached(now) - running.passed
            open_from = ready(to) if behind > 0 else None
            if open_from is None or open_from > now:
                continue
            quarter = running.quarter(running.reached(now)) > running.quarter(running.passed)
            rank = (not quarter, -behind, running.countdown.began, to)
            if best is None or rank < best:
                best = rank
        if best is None:
            return None
        chosen = self._running[best[3]]
        return Due(chosen.countdown, chosen.client, not best[0])

    def drawn(self, to: PersonId, now: datetime) -> None:
        """It was drawn, or tried to be; the next step is the next chance."""
        running = self._running.get(to)
        if running is not None:
            running.passed = running.reached(now)

    def next_at(self, now: datetime, ready: Callable[[PersonId], datetime | None]) -> datetime | None:
        """The earliest moment at which any will be due."""
        moments = []
        for to, running in self._alive(now):
            open_from = ready(to)
            if open_from is None:
                continue
            moment = max(running.next_at(), open_from)
            if moment < running.over_at():
                moments.append(moment)
        return min(moments, default=None)

    def _alive(self, now: datetime) -> list[tuple[PersonId, _Running]]:
        for to in [to for to, running in self._running.items() if now >= running.over_at()]:
            del self._running[to]
        return list(self._running.items())


def _same_clock(one: Countdown, other: Countdown) -> bool:
    return (one.card, one.began, one.seconds) == (other.card, other.began, other.seconds)


def with_left(countdown: Countdown, now: datetime) -> tuple[Words, ...]:
    """The words of a countdown with the parameter `left`: whole seconds left, rounded up."""
    left = ceil(countdown.seconds - (now - countdown.began).total_seconds())
    return tuple(Words(line.key, (*line.params, ("left", str(left)))) for line in countdown.words)
