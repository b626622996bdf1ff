"""The platform's limits as data, and the book that counts requests against the rates.

The lengths and the 64 bytes are the public manual's. The rates are not published in full: the manual names
about 30 messages a second for all chats and one a second in one chat with short bursts; the burst of 3 and
the 20 edits a minute are this project's working figures, without a
published source. `None` switches a limit off.
"""

import math
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Literal

from .refusals import too_many_requests

Cost = Literal["free", "plain", "send", "edit"]
"""What a method is charged for: nothing, the rate of all, that and the chat's bucket, that and the chat's
edits.
"""

SECOND = timedelta(seconds=1)
MINUTE = timedelta(seconds=60)


@dataclass(frozen=True)
class Limits:
    """Lengths in characters or bytes as named, lives in seconds, rates as named. `None`: no such limit."""

    text: int | None = 4096
    caption: int | None = 1024
    toast: int | None = 200
    button_data_bytes: int | None = 64
    start_payload: int | None = 64
    buttons: int | None = 100
    photo_bytes: int | None = 10 * 1024 * 1024
    file_bytes: int | None = 50 * 1024 * 1024
    requests_a_second: int | None = 30
    chat_burst: int | None = 3
    chat_refill_a_second: float = 1.0
    chat_edits_a_minute: int | None = 20
    callback_life: float | None = 15.0
    press_life: float | None = 150.0
    message_life: float | None = 24 * 3600.0
    delete_life: float | None = 48 * 3600.0

    @classmethod
    def without_rates(cls) -> "Limits":
        """Every limit but the rates, for tests that are about something else."""
        return cls(requests_a_second=None, chat_burst=None, chat_edits_a_minute=None)


@dataclass
class _Window:
    """When the last requests were accepted, for "so many in any such span"."""

    accepted: deque[datetime] = field(default_factory=deque)

    def wait(self, at: datetime, most: int, span: timedelta) -> float:
        """Seconds until one more is allowed; 0 if it is allowed at `at`."""
        while self.accepted and self.accepted[0] <= at - span:
            self.accepted.popleft()
        if len(self.accepted) < most:
            return 0.0
        return (self.accepted[len(self.accepted) - most] + span - at).total_seconds()


@dataclass
class _Bucket:
    """Tokens that one chat has left; it starts full."""

    level: float
    at: datetime

    def wait(self, at: datetime, most: int, refill: float) -> float:
        """Refills up to `at`; seconds until a token is there, 0 if one is."""
        self.level = min(float(most), self.level + max(0.0, (at - self.at).total_seconds()) * refill)
        self.at = at
        # A millionth of tolerance: thirds of a second must add up to a whole token.
        return 0.0 if self.level >= 1 - 1e-6 else (1 - self.level) / refill


class RateBook:
    """Counts what was accepted; a request that it refuses costs nothing."""

    def __init__(self, now: Callable[[], datetime]) -> None:
        self._now = now
        self._all = _Window()
        self._edits: dict[int, _Window] = {}
        self._buckets: dict[int, _Bucket] = {}

    def charge(self, limits: Limits, cost: Cost, chat_id: int) -> None:
        """Books one request of `cost` to `chat_id`, or raises the 429 with the longest of the waits."""
        at, waits = self._now(), [0.0]
        windows: list[_Window] = []
        bucket: _Bucket | None = None
        if cost != "free" and limits.requests_a_second is not None:
            windows.append(self._all)
            waits.append(self._all.wait(at, limits.requests_a_second, SECOND))
        if cost == "edit" and limits.chat_edits_a_minute is not None:
            windows.append(self._edits.setdefault(chat_id, _Window()))
            waits.append(windows[-1].wait(at, limits.chat_edits_a_minute, MINUTE))
        if cost == "send" and limits.chat_burst is not None:
            bucket = self._buckets.setdefault(chat_id, _Bucket(float(limits.chat_burst), at))
            waits.append(bucket.wait(at, limits.chat_burst, limits.chat_refill_a_second))
        if max(waits) > 0:
            raise too_many_requests(max(1, math.ceil(max(waits))))
        for window in windows:
            window.accepted.append(at)
        if bucket is not None:
            bucket.level -= 1
