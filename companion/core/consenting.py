"""The client's consent, on the client's own phone: plain words, one screen at a time, recorded with version and time.

    screen 1 -> ... -> last screen: agree? -> what the carer may see (if there is one) -> passed to the client's care
       |                      |
       +----------------------+--- declined: passed to the client's care, which answers kindly and tells the therapist

What stands where is content: `content/consent.yaml`. A changed version starts again at its first screen.
"""

from dataclasses import replace

from companion.core.dialogues import Consenting
from companion.core.effects import Button, Put, Words, words
from companion.core.events import Consented, Declined, Facts, Pressed
from companion.core.person_turn import PersonTurn

CARD = "consent"
CARER_SEES: dict[str, tuple[str, ...]] = {
    "sees_all": ("sessions", "flags", "words"),
    "sees_practice": ("sessions", "flags"),
    "sees_none": (),
}
"""What the carer may see beside what keeps the client safe, by choice."""


def begin(turn: PersonTurn, facts: Facts) -> None:
    """The client's care asks for the consent: from the first screen, or again where it was left."""
    if not turn.rules.consent.screens:
        return
    dialogue = turn.person.dialogue
    if not isinstance(dialogue, Consenting) or not _of_today(turn, dialogue) or dialogue.client != facts.client:
        dialogue = Consenting(turn.number(), facts.client, turn.rules.consent.version)
    dialogue = replace(dialogue, carer=facts.carer or "")
    turn.set(dialogue=dialogue)
    _show(turn, dialogue, Put.NEW)


def pressed(turn: PersonTurn, event: Pressed, dialogue: Consenting) -> None:
    """A button of the consent. One of another screen than stands there answers nothing."""
    choice = event.press.choice
    if not _of_today(turn, dialogue):
        turn.reply(words("consent-new-words"))
        begin(turn, Facts(dialogue.client, "", "", carer=dialogue.carer or None))
    elif event.press.step != str(dialogue.screen):
        turn.reply(words("press-stale"))
    elif choice == "decline":
        turn.reply()
        turn.close()
        turn.tell(dialogue.client, Declined(turn.at, turn.person.id, dialogue.version))
    elif choice in CARER_SEES:
        _agreed(turn, dialogue, CARER_SEES[choice])
    elif choice == "agree" and not dialogue.carer:
        _agreed(turn, dialogue, ())
    elif choice in ("go_on", "agree"):
        turn.reply()
        dialogue = replace(dialogue, screen=dialogue.screen + 1)
        turn.set(dialogue=dialogue)
        _show(turn, dialogue, Put.IN_PLACE)
    else:
        turn.reply(words("press-stale"))


def carer_sees_buttons() -> tuple[tuple[str, str], ...]:
    """The choices of what the carer may see, as (label, choice)."""
    return tuple((f"b-{choice.replace('_', '-')}", choice) for choice in CARER_SEES)


def _of_today(turn: PersonTurn, dialogue: Consenting) -> bool:
    """Whether the dialogue is about the words as they are now."""
    return dialogue.version == turn.rules.consent.version


def _agreed(turn: PersonTurn, dialogue: Consenting, carer_sees: tuple[str, ...]) -> None:
    turn.reply()
    turn.close()
    turn.tell(dialogue.client, Consented(turn.at, turn.person.id, dialogue.version, carer_sees))


def _show(turn: PersonTurn, dialogue: Consenting, put: Put) -> None:
    screens = turn.rules.consent.screens
    at, last = dialogue.screen, len(screens) - 1
    lines: tuple[Words, ...]
    if at <= last:
        lines = tuple(words(key, number=turn.rules.emergency_number) for key in screens[at])
        yes, no = ("agree", "disagree") if at == last else ("go-on", "stop")
        choices: tuple[tuple[str, str], ...] = ((f"b-consent-{yes}", yes.replace("-", "_")), (f"b-consent-{no}", "decline"))
    else:
        lines = (words("consent-carer", carer=dialogue.carer), words("consent-carer-ask"))
        choices = carer_sees_buttons()
    buttons: tuple[Button, ...] = tuple(turn.button(label, dialogue.id, str(at), choice) for label, choice in choices)
    turn.say(*lines, buttons=buttons, card=CARD, put=put)
