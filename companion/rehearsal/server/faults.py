"""Faults to order: what goes wrong between the bot and the platform, how often and for whom."""

from dataclasses import dataclass
from typing import Literal

FaultKind = Literal["500", "502", "429", "garbage", "cut", "slow", "accepted_then_lost"]
"""500, 502, 429, garbage: answered so, nothing is done. cut: the connection ends before anything is done.
slow: done at once, answered late. accepted_then_lost: done, and the connection ends without an answer.
"""


@dataclass(frozen=True, kw_only=True)
class Fault:
    """One order.

    `method` in any case, None for every method but getUpdates (a poll is always there and would eat the
    fault; name it to hit it); `chat_id` None for every chat; `times` how many requests it hits; `seconds` of
    real time for "slow"; `retry_after` in seconds for "429".
    """

    kind: FaultKind
    method: str | None = None
    chat_id: int | None = None
    times: int = 1
    seconds: float = 0.05
    retry_after: int = 1

    def hits(self, method: str, chat_id: int | None) -> bool:
        """Whether a request of `method` (lower case) to `chat_id` is meant."""
        if self.method is None and method == "getupdates":
            return False
        named = self.method is None or self.method.lower() == method
        return named and (self.chat_id is None or self.chat_id == chat_id)


class FaultBook:
    """The orders that are still open, first come first served."""

    def __init__(self) -> None:
        self._open: list[tuple[Fault, int]] = []

    def order(self, fault: Fault) -> None:
        """From now on `fault` hits its next `times` requests."""
        self._open.append((fault, fault.times))

    def cancel_all(self) -> None:
        self._open.clear()

    @property
    def open(self) -> list[tuple[Fault, int]]:
        """Each open order and how many hits it has left."""
        return list(self._open)

    def take(self, method: str, chat_id: int | None) -> Fault | None:
        """The fault that this request suffers, counted off; None if none."""
        for place, (fault, left) in enumerate(self._open):
            if fault.hits(method, chat_id):
                self._open[place : place + 1] = [(fault, left - 1)] if left > 1 else []
                return fault
        return None
