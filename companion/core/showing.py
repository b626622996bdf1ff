"""What a session shows at the step it is at: its questions, their buttons, the clock that runs."""

from dataclasses import replace

from companion.core.cursor import Session
from companion.core.effects import Button, Countdown, PersonId, Put, Say, Words, words
from companion.core.events import Press
from companion.core.steps import Ask, Choice, Counted, Gate, Label, Phase, Show, Sounded, Timed

TOPIC = "session"


def ask_again(session: Session, before: tuple[Words, ...], to: PersonId) -> Say | None:
    """The question that this phone is at, said new with fresh buttons, after `before`; None if it is not asked anything."""
    step = session.current
    if session.outcome is not None or isinstance(step, Label | Show | Timed):
        return None
    if isinstance(step, Gate) and to == step.shown_to:
        return question(session, to, (*before, *step.shown), (), "session", Put.NEW)
    if to != step.to:
        return None
    card = "carer" if isinstance(step, Gate) else step.card
    # the cue that ended a hold is given once, in time; asked again, only the question is
    asked = step.words[1:] if isinstance(step, Ask) and step.late is not None else step.words
    return question(session, to, (*before, *asked), choices_at(session, step), card, Put.NEW)


def countdown(session: Session) -> Countdown | None:
    """The countdown on a phone, if a clock is running that has one."""
    step = session.current
    if session.outcome is not None or not isinstance(step, Timed) or session.clock_began is None:
        return None
    if step.phase is Phase.REST:
        return None
    lines = tuple(replace(line, key=f"{line.key}-left") for line in step.words)
    buttons = buttons_for(session, (step.tap,)) if step.tap else ()
    return Countdown(step.to, step.card, lines, session.clock_began, step.seconds, buttons)


def standing(session: Session) -> bool:
    """Whether somebody may be standing on this session's word right now."""
    step = session.current
    if isinstance(step, Timed):
        return step.phase is not Phase.REST
    return isinstance(step, Counted | Ask) and (step.watch or step.id.endswith(".start"))


def filled(session: Session, lines: tuple[Words, ...]) -> tuple[Words, ...]:
    """The lines with what only the moment knows: the number to show, the second that the carer tapped."""
    moment: dict[str, tuple[tuple[str, str], ...]] = {}
    if session.numbers:
        moment["gate-client"] = (("number", str(session.numbers[0])),)
    if session.draft is not None and session.draft.tapped_s is not None:
        moment["ask-known"] = moment["b-known-right"] = (("tapped", str(round(session.draft.tapped_s))),)
    return tuple(replace(line, params=(*line.params, *moment.get(line.key, ()))) for line in lines)


def buttons_for(session: Session, choices: tuple[Choice, ...]) -> tuple[Button, ...]:
    def press(choice: str) -> Press:
        return Press(session.client, session.id, str(session.turn), choice)

    return tuple(Button(filled(session, (choice.label,))[0], press(choice.id)) for choice in choices)


def choices_at(session: Session, step: Ask | Counted | Sounded | Gate) -> tuple[Choice, ...]:
    if not isinstance(step, Gate):
        return step.choices
    # in rising order, so that the place of a number says nothing about which one is right
    picks = tuple(Choice(f"n{number}", words("b-number", shown=number)) for number in sorted(session.numbers))
    return (*picks, step.not_there, step.different)


def question(
    session: Session,
    to: PersonId,
    lines: tuple[Words, ...],
    choices: tuple[Choice, ...],
    card: str | None,
    put: Put,
) -> Say:
    return Say(to, filled(session, lines), buttons_for(session, choices), topic=TOPIC, card=card, put=put)
