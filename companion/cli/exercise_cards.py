"""What the phones show of one form of an exercise until it is done: each message with its words, buttons, picture or sound.

It is read off the script of a session, so it is what a session says, and not a second telling of it.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import get_args

from companion.app import Content
from companion.core.how import How
from companion.core.media import Made
from companion.core.programme import Exercise, Form, Plan, Rules, Side
from companion.core.script import compile_session, planned_sides
from companion.core.steps import Ask, BoutSpec, Counted, Label, Show, Sounded, Step, Timed
from companion.core.words import Words

CLIENT, CARER = "client", "carer"
SPOKEN_TO = "Edda"


@dataclass(frozen=True, slots=True)
class Card:
    """One message on somebody's phone, `to` "client" or "carer"."""

    to: str
    text: str
    buttons: tuple[str, ...]
    media: Made | None


def cards(exercise: Exercise, form: Form, plan: Plan, content: Content, language: str) -> dict[Side | None, tuple[Card, ...]]:
    """The messages of that form as the plan has it, by side, in order, up to the hold or the count."""
    rules = content.library.without_number
    planned = next(one for one in plan.exercises if one.exercise == exercise.id)
    blocks = list(_blocks(compile_session(plan, rules.exercises, _how(rules)).steps))
    found: dict[Side | None, tuple[Card, ...]] = {}
    for side in planned_sides(planned, exercise):
        for steps, spec in blocks:
            as_planned = (spec.exercise, spec.form, spec.side, spec.eased) == (exercise.id, form.id, side, 0)
            if as_planned and spec.clock is planned.clock:
                found[side] = tuple(_card(step, content, language) for step in steps)
    return found


def _how(rules: Rules) -> How:
    return How(
        session="",
        client="",
        name=SPOKEN_TO,
        phone=CLIENT,
        carer_phone=CARER,
        emergency_number="",
        sign_by_sign=False,
        signs=rules.signs,
        patience=rules.patience,
        weaker="left",
    )


Message = Show | Ask | Counted | Sounded


def _blocks(steps: tuple[Step, ...]) -> Iterator[tuple[list[Message], BoutSpec]]:
    """The messages of each block from its beginning to its hold or count, and the bout that this belongs to."""
    said: list[Message] = []
    over = False
    for step in steps:
        if isinstance(step, Label):
            said, over = ([], False) if step.block else (said, over)
        elif not over:
            said += [step] if isinstance(step, Message) else []
            spec = step.bout if isinstance(step, Timed | Counted | Sounded) else None
            if spec is not None:
                over = True
                yield said, spec


def _card(step: Message, content: Content, language: str) -> Card:
    choices = () if isinstance(step, Show) else step.choices
    media = None if isinstance(step, Counted) else step.media
    return Card(
        to=step.to,
        text="\n".join(_text(line, content, language) for line in step.words),
        buttons=tuple(_text(choice.label, content, language) for choice in choices),
        media=media if isinstance(media, get_args(Made)) else None,
    )


def _text(words: Words, content: Content, language: str) -> str:
    return content.texts.text(words, language)
