"""Answers on the carer's phone: after a bout that leaves the client no hand or eye for a phone, who answers first counts."""

from dataclasses import replace

from companion.core.cursor import Session
from companion.core.effects import Effect, PersonId, Put, Say, Words, words
from companion.core.observations import CarerSeen
from companion.core.showing import question
from companion.core.steps import Ask, Counted, Gate, Sounded

CARD = "carer"

THEIRS = frozenset(
    {
        "ask-known",
        "ask-when",
        "b-unwell",
        "b-unheard",
        "b-stepped-or-touched",
        "b-broke-hand",
        "b-broke-leaned",
    }
)
"""Texts that speak of the client as "you" or "I": their attribute `.carer` says the same to the carer."""


def also(session: Session) -> PersonId | None:
    """The carer who may answer the present question too: shown to be there, on a phone of their own; None if nobody may."""
    step = session.current
    if not isinstance(step, Ask | Sounded) or session.outcome is not None or session.carer is not CarerSeen.VERIFIED:
        return None
    return step.also if step.also == session.carer_phone else None


def may_answer(session: Session, step: Ask | Counted | Gate | Sounded, by: PersonId) -> bool:
    """Whether that person is asked at the present step."""
    return by == step.to or (by == also(session))


def copy(session: Session, effects: list[Effect]) -> None:
    """Put the present question on the carer's phone too, without a sound. What the carer is told at that very moment keeps its
    words and gets the question below."""
    step, to = session.current, also(session)
    if to is None or not isinstance(step, Ask | Sounded):
        return
    before = step.also_words if isinstance(step, Sounded) else ()
    choices = tuple(replace(choice, label=_for_them(choice.label)) for choice in step.choices)
    asked = question(session, to, (*before, words("also-carer"), _for_them(step.words[-1])), choices, CARD, Put.IN_PLACE)
    told = effects[-1] if effects else None
    if isinstance(told, Say) and told.to == to and told.card == CARD:
        effects[-1] = replace(told, words=(*told.words, *asked.words), buttons=asked.buttons)
    else:
        effects.append(replace(asked, silent=True))


def told(before: Session, after: Session, by: PersonId, effects: list[Effect]) -> None:
    """Say on the other phone that it was answered: `before` is the session that was asked, `effects` what followed from it."""
    carer = also(before)
    if carer is None:
        return
    if by == carer:
        for at, effect in enumerate(effects):
            if isinstance(effect, Say) and effect.to == before.phone and effect.card == "session":
                effects[at] = replace(effect, words=(words("also-helper-answered"), *effect.words))
                break
    if also(after) is None and after.outcome is None:
        done = words("also-thanks" if by == carer else "also-answered")
        effects.insert(0, replace(question(after, carer, (done,), (), CARD, Put.IN_PLACE), silent=True))


def _for_them(line: Words) -> Words:
    return replace(line, key=f"{line.key}.carer") if line.key in THEIRS else line
