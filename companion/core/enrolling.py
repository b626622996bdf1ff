"""The therapist makes a client in the chat and takes the baseline, by taps, with sensible defaults; or takes it anew.

    New client -> what must be answered -> summary -> written down: rows, baseline, one-time links -> prescribe now, or later

A half-made draft is kept by the phone's own record, also while something else is done there, and is offered to go on with.
Until it is written down nobody else knows of it.
"""

from dataclasses import replace

from companion.core import household, prescribing, setting, visit
from companion.core.baseline import About, Baseline
from companion.core.dialogues import Dialogue, Enrolling
from companion.core.effects import Enrol, Invite, Put, Words, words
from companion.core.events import BaselineTaken, Facts, Pressed, Typed
from companion.core.person_turn import PersonTurn
from companion.core.phone import Part
from companion.core.questionnaire import KEEP, End, Moved, Questionnaire
from companion.core.visit import Visit

CARD = "desk"
DRAFT, ANEW = "draft", "anew"
PRESCRIBE, NOT_NOW = "prescribe", "not_now"


def begin(turn: PersonTurn) -> None:
    """A new client; a draft that was begun is offered to go on with."""
    draft = _draft(turn, None)
    if draft is None:
        _start(turn, None)
    elif not draft.answers:
        turn.open(draft)
        _show(turn, draft)
    else:
        _offer(turn, draft)


def again(turn: PersonTurn, facts: Facts) -> None:
    """The baseline of a client is taken anew, beginning with the answers that there are."""
    draft = _draft(turn, facts.client)
    if draft is None:
        _start(turn, facts)
    else:
        _offer(turn, replace(draft, facts=facts))


def pressed(turn: PersonTurn, event: Pressed, dialogue: Enrolling) -> None:
    """A button of the baseline."""
    press = event.press
    if press.step == DRAFT and dialogue.at != PRESCRIBE:
        turn.reply()
        if press.choice == KEEP:
            _show(turn, dialogue)
        else:
            turn.close()
            _start(turn, dialogue.facts)
        return
    if dialogue.at == PRESCRIBE:
        _prescribe(turn, press.step, press.choice, dialogue)
        return
    answers = dict(dialogue.answers)
    table = visit.questions(answers, _visit(turn, dialogue))
    moved = table.pressed(dialogue.at, answers, press.choice) if press.step == dialogue.at else None
    if moved is None:
        turn.reply(words("press-stale"))
        return
    turn.reply()
    match moved.end:
        case End.WRITTEN:
            _write(turn, dialogue, table.filled(answers))
        case End.DROPPED:
            turn.close()
            turn.say(words("enrol-dropped"), card=CARD, put=Put.IN_PLACE)
        case None:
            _go(turn, dialogue, moved)


def typed(turn: PersonTurn, event: Typed, dialogue: Enrolling) -> bool:
    """Words typed while the dialogue is open; whether it had asked for anything."""
    if dialogue.at == PRESCRIBE:
        return False
    answers = dict(dialogue.answers)
    table = visit.questions(answers, _visit(turn, dialogue))
    moved = table.typed(dialogue.at, answers, event.text)
    if moved is not None:
        _go(turn, dialogue, moved)
        return True
    question = table.find(dialogue.at)
    asks_words = question is not None and question.reads is not None
    line = words(f"baseline-{dialogue.at.replace('_', '-')}.again") if asks_words else words("answer-by-tap")
    _show(turn, dialogue, line)
    return True


# --- from screen to screen ------------------------------------------------------------------------------------


def _draft(turn: PersonTurn, client: str | None) -> Enrolling | None:
    """The newest draft that is not written down: of that client's baseline, None: of a new client."""
    found: list[Dialogue | None] = [turn.person.dialogue, *reversed(turn.person.drafts)]
    drafts = [one for one in found if isinstance(one, Enrolling) and one.at != PRESCRIBE]
    return next((one for one in drafts if (one.facts.client if one.facts else None) == client), None)


def _start(turn: PersonTurn, facts: Facts | None) -> None:
    answers: dict[str, str] = {}
    if facts is not None:
        answers = visit.answers_of(facts.baseline, facts.about or About(facts.name, facts.zone))
    client = facts.client if facts is not None else f"{turn.person.id}.{turn.number('')}"
    dialogue = Enrolling(turn.number(), client, "", tuple(answers.items()), facts)
    at = visit.questions(answers, _visit(turn, dialogue)).start(answers)
    dialogue = replace(dialogue, at=at)
    turn.open(dialogue)
    _show(turn, dialogue)


def _offer(turn: PersonTurn, draft: Enrolling) -> None:
    turn.open(draft)
    line = words("enrol-draft" if draft.facts is None else "enrol-draft-again", name=dict(draft.answers).get("name", "?"))
    buttons = (
        turn.button("b-answer-keep", draft.id, DRAFT, KEEP),
        turn.button("b-enrol-anew", draft.id, DRAFT, ANEW),
    )
    turn.say(line, buttons=buttons, card=CARD, put=Put.IN_PLACE)


def _go(turn: PersonTurn, dialogue: Enrolling, moved: Moved) -> None:
    asked = _visit(turn, dialogue)
    kept = visit.tidy(moved.answers, asked)
    answers = dict(kept)
    # an answer may bring a question that must be answered too
    at = visit.questions(answers, asked).screen(moved.at, answers).at
    dialogue = replace(dialogue, at=at, answers=kept)
    turn.set(dialogue=dialogue)
    _show(turn, dialogue)


def _show(turn: PersonTurn, dialogue: Enrolling, *before: Words) -> None:
    answers = dict(dialogue.answers)
    asked = _visit(turn, dialogue)
    table = visit.questions(answers, asked)
    screen = table.screen(dialogue.at, answers)
    title = words("baseline-title", name=answers["name"]) if "name" in answers else words("baseline-title-new")
    remarks = visit.remarks(table.filled(answers), asked) if table.find(screen.at) is None and _complete(table, answers) else ()
    buttons = tuple(turn.button(label, dialogue.id, screen.at, choice) for label, choice in screen.choices)
    turn.say(*before, title, *screen.lines, *remarks, buttons=buttons, card=CARD, put=Put.IN_PLACE)


def _complete(table: Questionnaire, answers: dict[str, str]) -> bool:
    return table.missing(answers) is None


def _visit(turn: PersonTurn, dialogue: Enrolling) -> Visit:
    carer = dialogue.facts is not None and dialogue.facts.carer is not None
    deputy = turn.person.deputy_name if turn.person.deputy is not None else ""
    return Visit(turn.person.zone, turn.rules.can_be_usual, deputy, carer)


# --- written down ---------------------------------------------------------------------------------------------


def _write(turn: PersonTurn, dialogue: Enrolling, filled: dict[str, str]) -> None:
    """Rows first, then the baseline for the care of the client, then a link for each new phone."""
    person, client = turn.person, dialogue.client
    about, people = household.of(turn, dialogue, filled, _visit(turn, dialogue))
    if people:
        turn.effects.append(Enrol(client, about.name, about.zone, person.id, person.name, people))
    baseline = visit.baseline_of(filled)
    turn.tell(client, BaselineTaken(turn.at, person.id, baseline, about))
    setting.tell_duty(turn, (client,))
    for one in people:
        # a deputy is in the chat already, and on one shared phone the carer needs no link
        if one.id != person.deputy and not (one.role == Part.CARER and baseline.shared_phone):
            line = words(f"enrol-link-{one.role}", name=one.name, client=about.name)
            turn.effects.append(Invite(person.id, one.id, line))
    if dialogue.facts is None:
        _made(turn, dialogue, baseline, about)
        return
    turn.close()
    page = turn.client_button(words("b-enrol-page", name=about.name), client, "open", "open")
    turn.say(words("baseline-kept", name=about.name), buttons=(page,), card=CARD, put=Put.IN_PLACE)


def _made(turn: PersonTurn, dialogue: Enrolling, baseline: Baseline, about: About) -> None:
    """The client is this therapist's, and the plan comes next: now, or from the client's page."""
    client, carer = dialogue.client, about.carer[1] if about.carer is not None else None
    now = Facts(client, about.name, about.zone, None, baseline, carer, about=about)
    dialogue = replace(dialogue, at=PRESCRIBE, facts=now)
    turn.set(clients=(*turn.person.clients, client), dialogue=dialogue)
    setting.tell_duty(turn, (client,))
    buttons = (
        turn.button("b-enrol-prescribe", dialogue.id, PRESCRIBE, PRESCRIBE),
        turn.button("b-enrol-not-now", dialogue.id, PRESCRIBE, NOT_NOW),
    )
    turn.say(words("enrol-done", name=about.name), buttons=buttons, card=CARD, put=Put.IN_PLACE)


def _prescribe(turn: PersonTurn, step: str, choice: str, dialogue: Enrolling) -> None:
    facts = dialogue.facts
    if step != PRESCRIBE or facts is None:
        turn.reply(words("press-stale"))
        return
    turn.reply()
    turn.close()
    if choice == PRESCRIBE:
        prescribing.begin(turn, facts)
        return
    page = turn.client_button(words("b-enrol-page", name=facts.name), facts.client, "open", "open")
    turn.say(words("enrol-later", name=facts.name), buttons=(page,), card=CARD, put=Put.IN_PLACE)
