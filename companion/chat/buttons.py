"""What a button under a message carries: a `Press` as callback data, and back.

The platform allows 64 bytes and hands them back as they were, so they hold ids only. Buttons live for years
in a chat: a form, once shipped, must be read for ever, so it begins with the number of its form.
"""

import re

from companion.core.events import Press

MOST_BYTES = 64
FORM = "1"
BETWEEN = "|"
# Printable ASCII without space and separator: what is no id of ours is refused, in both directions.
PART = re.compile(r"[!-{}~]*")


def encode(press: Press) -> str:
    """The callback data of a press, at most 64 bytes. ValueError if it does not fit: the caller's fault."""
    parts = (press.client, press.scope, press.step, press.choice)
    if not all(PART.fullmatch(part) for part in parts):
        raise ValueError(f"a button can not carry {press}: only printable ASCII, no space, no {BETWEEN!r}")
    data = BETWEEN.join((FORM, *parts))
    if len(data) > MOST_BYTES:
        raise ValueError(f"a button can not carry {press}: {len(data)} bytes, {MOST_BYTES} are allowed")
    return data


def decode(data: object) -> Press | None:
    """The press that callback data stands for; None for anything that `encode` never wrote."""
    if not isinstance(data, str) or len(data) > MOST_BYTES:
        return None
    form, *parts = data.split(BETWEEN)
    if form != FORM or len(parts) != 4 or not all(PART.fullmatch(part) for part in parts):
        return None
    client, scope, step, choice = parts
    return Press(client, scope, step, choice)
