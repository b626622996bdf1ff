"""What waits to be sent: which message may go now, and which alerts have waited too long.

Messages are looked at by class, then by id; of the live ones, what begins or ends a clock is looked at first, for it may
come too late, and of these what will be too late soonest. In a chat the first is the only candidate: while it may not go,
it holds back its own class and lower ones, which come after it, and nothing else. A message whose picture or sound is
still being made may not go yet: a picture is waited for a little, a sound until it is made or can not be.
"""

from dataclasses import dataclass, field
from datetime import datetime, timedelta

from companion.core.effects import PersonId, Put, Urgency
from companion.runtime.envelope import must_sound
from companion.runtime.pace import Pace
from companion.runtime.settling import OperatorHook, StuckAlert
from companion.store import OutboxRow
from companion.store.reading import Reading

PAGE = 16
A_CENTURY = timedelta(days=36_525)

PATIENCE = timedelta(seconds=10)
"""So long a message waits for its picture, from when it was written down."""

IN_TIME = timedelta(seconds=1)
"""What must not come too late goes without its picture so long before that."""

STUCK = timedelta(seconds=30)
"""An alert that has waited so long takes the operator's hook."""


@dataclass(slots=True)
class Scan:
    """What waits. `row` may go now, as far as its chat is concerned, and `behind` are some of those that come after it;
    `held` are persons whose messages may not go yet, the earliest from `until` on."""

    row: OutboxRow | None = None
    behind: tuple[OutboxRow, ...] = ()
    held: set[PersonId] = field(default_factory=set)
    until: datetime | None = None

    @property
    def waits(self) -> bool:
        """Whether anything waits at all."""
        return self.row is not None or self.until is not None

    def later(self, moment: datetime | None) -> None:
        """Something may go from `moment` on."""
        if moment is not None:
            self.until = moment if self.until is None else min(self.until, moment)


async def look(reading: Reading, pace: Pace, now: datetime) -> Scan:
    """The most urgent message that its chat may be sent now; without one, all that waits."""
    scan = Scan()
    while True:
        rows = await reading.waiting(PAGE, now, tuple(scan.held))
        whole = len(rows) < PAGE
        live = next((place for place, row in enumerate(rows) if row.urgency is Urgency.LIVE), None)
        if live is not None:
            rows[live:live] = await reading.cues(PAGE, now, tuple(scan.held))
        for place, row in enumerate(rows, 1):
            if row.person_id in scan.held:
                continue
            ready: datetime | None = ready_at(row, pace)
            if ready is not None and ready <= now and await reading.is_wanted(row):
                ready = waits_until(row)
            if ready is not None and ready <= now:
                scan.row, scan.behind = row, tuple(rows[place:])
                return scan
            scan.held.add(row.person_id)
            scan.later(ready)
        if whole:
            scan.later(await reading.next_try(now))
            return scan


def ready_at(row: OutboxRow, pace: Pace) -> datetime:
    """From when on its chat may be sent this message."""
    return pace.ready(row.person_id, edit=row.clears or row.put is Put.IN_PLACE)


def waits_until(row: OutboxRow) -> datetime | None:
    """Until when a message waits for what is being made to go with it (None: as long as that takes)."""
    if must_sound(row):
        return row.not_after
    limit = row.created_at + PATIENCE
    return limit if row.not_after is None else min(limit, row.not_after - IN_TIME)


class StuckAlerts:
    """Tells the operator of alerts that do not get through, each once."""

    def __init__(self, hook: OperatorHook) -> None:
        self._hook = hook
        self._told: set[int] = set()

    async def look(self, reading: Reading, now: datetime) -> datetime | None:
        """Tell of those that have waited too long. When the next will have."""
        # Seen from far enough ahead, no message waits for its next try any more.
        rows = await reading.waiting(PAGE, now + A_CENTURY)
        alerts = [row for row in rows if row.urgency is Urgency.ALERT]
        self._told &= {row.id for row in alerts}
        later: list[datetime] = []
        for row in alerts:
            if row.id in self._told:
                continue
            if row.created_at + STUCK > now:
                later.append(row.created_at + STUCK)
                continue
            self._told.add(row.id)
            self._hook(StuckAlert(row.id, row.client_id, "it waits"))
        return min(later, default=None)
