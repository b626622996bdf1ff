"""What can go wrong in a way that a person can mend.

Every message says what is wrong and what to do next. The command line prints the message, without a
traceback, and ends with `exit_code`: 1 when something was found wrong, 2 when the program was used wrong.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import ClassVar


class CompanionError(Exception):
    """Something is wrong, and the message says what to do about it."""

    exit_code: ClassVar[int] = 1


class UsedWrong(CompanionError):
    """The program was called or set up wrongly: a missing setting, a bad option, a second start."""

    exit_code: ClassVar[int] = 2


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing found wrong in something a person wrote.

    `where` is a file or a field; `line` counts from 1, None where there is no line to point to; `what` says
    what is wrong and `do` what to do about it, both as sentences without the closing full stop.
    """

    where: str
    line: int | None
    what: str
    do: str

    def __str__(self) -> str:
        place = self.where if self.line is None else f"{self.where}:{self.line}"
        return f"{place}: {self.what}. {self.do}."


class FoundWrong(CompanionError):
    """Faults were found; all of them are told at once, one a line, so that one mending round is enough."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        if not self.faults:
            raise ValueError("FoundWrong needs at least one fault")
        super().__init__("\n".join(str(fault) for fault in self.faults))
