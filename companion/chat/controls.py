"""How typed words are known as a control: the labels of the fixed row come back as text, and commands stand for them.

A fixed row stays on a phone for as long as nobody lays a new one, so a label, once shipped, is known for ever: when a
text is changed, its old words go into `RETIRED`.
"""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from companion.core.effects import words
from companion.core.events import Control
from companion.runtime.transport import Renderer

ROW: Mapping[str, Control] = MappingProxyType(
    {
        "row-something-wrong": Control.SOMETHING_WRONG,
        "row-enough": Control.ENOUGH,
        "row-had-to-leave": Control.HAD_TO_LEAVE,
        "row-more": Control.MORE,
        "row-caseload": Control.CASELOAD,
        "row-new-client": Control.NEW_CLIENT,
        "row-settings": Control.SETTINGS,
    }
)
"""The texts of the fixed rows, by key."""

COMMANDS: Mapping[str, Control] = MappingProxyType(
    {
        "/wrong": Control.SOMETHING_WRONG,
        "/stop": Control.ENOUGH,
        "/leave": Control.HAD_TO_LEAVE,
        "/more": Control.MORE,
        "/help": Control.MORE,
        "/clients": Control.CASELOAD,
        "/new": Control.NEW_CLIENT,
        "/settings": Control.SETTINGS,
    }
)

RETIRED: Mapping[str, Control] = MappingProxyType({})
"""Labels that were shipped once and are in no text any more."""


def controls(texts: Renderer, languages: Iterable[str]) -> dict[str, Control]:
    """Every text that is a control, as it was laid and in small letters, for people also type it."""
    labels = {texts.text(words(key), language): control for language in languages for key, control in ROW.items()}
    known = {**RETIRED, **COMMANDS, **labels}
    return known | {label.casefold(): control for label, control in known.items()}
