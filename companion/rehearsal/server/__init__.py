"""A loopback Telegram Bot API server for rehearsals and tests, written from the public Bot API manual.

It imports nothing of this project, for a witness that shares code with the accused is no witness.
`RehearsalServer` is the door; `Phone` is a person's side; `Limits` and `Fault` say what the platform refuses
and what goes wrong.
"""

from .chats import Button, PhoneMessage
from .entries import Entry
from .faults import Fault, FaultKind
from .limits import Limits
from .methods import OFFERED
from .phones import NotOnThePhone, Phone
from .platform import Call
from .server import TOKEN, RehearsalServer

__all__ = [
    "OFFERED",
    "TOKEN",
    "Button",
    "Call",
    "Entry",
    "Fault",
    "FaultKind",
    "Limits",
    "NotOnThePhone",
    "Phone",
    "PhoneMessage",
    "RehearsalServer",
]
