"""What may hang on a message: buttons under it, or the reply keyboard at the bottom of the screen."""

from dataclasses import dataclass
from typing import Any

from .chats import Button, Keyboard, Rows
from .limits import Limits
from .parameters import Parameters
from .refusals import Refusal, bad_request


@dataclass(frozen=True)
class Inline:
    """Buttons under a message; no rows means none."""

    rows: Rows


@dataclass(frozen=True)
class NoKeyboard:
    """Takes the reply keyboard away."""


@dataclass(frozen=True)
class ReplyForced:
    """Opens the answer field; changes no button."""


Markup = Inline | Keyboard | NoKeyboard | ReplyForced


def markup_of(parameters: Parameters, limits: Limits) -> Markup | None:
    """The `reply_markup` of a request; None if absent; refused if malformed or beyond the limits."""
    found = parameters.structure("reply_markup")
    if found is None or found == {}:
        return None
    if not isinstance(found, dict):
        raise bad_request("object expected as reply markup")
    if "inline_keyboard" in found:
        rows = tuple(tuple(_button(raw, limits) for raw in row) for row in _rows(found["inline_keyboard"], limits) if row)
        return Inline(rows)
    if "keyboard" in found:
        labels = tuple(tuple(_label(raw) for raw in row) for row in _rows(found["keyboard"], limits) if row)
        if not labels:
            raise bad_request("reply keyboard must have at least one button")
        return Keyboard(labels, *(_true(found, n) for n in ("is_persistent", "resize_keyboard", "one_time_keyboard")))
    if _true(found, "remove_keyboard"):
        return NoKeyboard()
    if _true(found, "force_reply"):
        return ReplyForced()
    raise bad_request("can't parse reply keyboard markup JSON object")


def inline_of(parameters: Parameters, limits: Limits) -> Rows:
    """The buttons of an edit, which can carry no other markup; () for none."""
    found = markup_of(parameters, limits)
    if found is None:
        return ()
    if not isinstance(found, Inline):
        raise bad_request("inline keyboard expected")
    return found.rows


def _true(found: dict[str, Any], name: str) -> bool:
    return found.get(name) in (True, "true", "True", 1)


def _rows(raw: Any, limits: Limits) -> list[list[Any]]:
    if not isinstance(raw, list) or not all(isinstance(row, list) for row in raw):
        raise bad_request("can't parse keyboard: array of arrays expected")
    if limits.buttons is not None and sum(map(len, raw)) > limits.buttons:
        raise Refusal(400, "Bad Request: REPLY_MARKUP_TOO_LONG")
    return raw


def _label(raw: Any) -> str:
    """A reply key is a text or an object with one."""
    label = raw.get("text") if isinstance(raw, dict) else raw
    if not isinstance(label, str) or not label.strip():
        raise bad_request("keyboard button text must be non-empty")
    return label.strip()


def _button(raw: Any, limits: Limits) -> Button:
    label = _label(raw) if isinstance(raw, dict) else ""
    if not label:
        raise bad_request("can't parse inline keyboard button: expected an Object")
    if raw.get("url"):
        return Button(label, url=str(raw["url"]))
    data = raw.get("callback_data")
    if not isinstance(data, str) or not data:
        raise bad_request("can't parse inline keyboard button: text buttons are unallowed in the inline keyboard")
    if limits.button_data_bytes is not None and len(data.encode()) > limits.button_data_bytes:
        raise bad_request("BUTTON_DATA_INVALID")
    return Button(label, data)
