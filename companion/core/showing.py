"""What a session shows at the step it is at: its questions, their buttons, the clock that runs."""

from dataclasses import replace
from datetime import datetime

from companion.core.cursor import Session
from companion.core.effects import Button, Countdown, PersonId, Put, Say, Words, words
from companion.core.events import Press
from companion.core.media import Media, Medium, SoundCheck, SoundClock, medium
from companion.core.programme import Posture
from companion.core.steps import Ask, Choice, Counted, Gate, Label, Phase, Show, Sounded, Step, Timed

TOPIC = "session"

SPOKEN_S = 30
"""Room for the spoken words of a voice note, whose length nobody here knows."""


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
    again = question(session, to, (*before, *_asked_again(step)), choices_at(session, step), card, Put.NEW)
    picture = None if isinstance(step, Gate) or _is_sound(step.media) else step.media
    return replace(again, media=picture)


def _asked_again(step: Ask | Counted | Sounded | Gate) -> tuple[Words, ...]:
    """Only the question: the cue that ended a hold is given once, in time, and a sound stays where it was sent."""
    if isinstance(step, Ask) and step.late is not None:
        return step.words[1:]
    return step.words[-1:] if not isinstance(step, Gate) and _is_sound(step.media) else step.words


def _is_sound(media: Media | None) -> bool:
    return media is not None and medium(media) is Medium.VOICE


def sounding_s(step: Step) -> int:
    """Seconds that the voice note of a step goes on at least, its spoken words left out; 0 without one."""
    match step.media if isinstance(step, Ask | Sounded) else None:
        case SoundClock() as clock:
            return clock.into_place_s + clock.seconds
        case SoundCheck() as check:
            return check.into_place_s
        case _:
            return 0


def sounding(session: Session, at: datetime) -> bool:
    """Whether a voice note may be playing, with somebody in a stance who listens to it."""
    seconds = sounding_s(session.current)
    return seconds > 0 and (at - session.since).total_seconds() < seconds + SPOKEN_S


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
    if isinstance(step, Sounded):
        return step.bout.posture is Posture.STANDING
    return isinstance(step, Counted | Ask) and (step.watch or step.id.endswith(".start"))


def filled(session: Session, lines: tuple[Words, ...]) -> tuple[Words, ...]:
    """The lines with what only the moment knows: the number to show, the second that the carer tapped."""
    moment: dict[str, tuple[tuple[str, str], ...]] = {}
    if session.numbers:
        moment["gate-client"] = (("number", str(session.numbers[0])),)
    if session.draft is not None and session.draft.tapped_s is not None:
        moment["ask-known"] = moment["b-known-right"] = (("tapped", str(round(session.draft.tapped_s))),)
    return tuple(replace(line, params=(*line.params, *moment.get(line.key.removesuffix(".carer"), ()))) for line in lines)


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
