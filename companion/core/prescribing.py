"""The therapist prescribes: exercises from the library, dose, clock, hand, range, days; what contradicts itself is refused.

    begin --> screens of the draft (see `plan_screens.py`) --> passed to the client's care, which takes it or sends it back

Every screen has a number. A press of an older one, a second press of the same button, typed words where none are asked for:
each gets one line, and nothing is lost. Back undoes the last step.
"""

from dataclasses import replace

from companion.core.dialogues import Prescribing, Step
from companion.core.effects import LookUp, Put, words
from companion.core.events import Facts, Found, PlanAsked, Prescribed, Pressed, Typed
from companion.core.intake import fit
from companion.core.person_turn import PersonTurn
from companion.core.plan_drafts import bare, continued, from_plan
from companion.core.plan_options import Act, Option, Screen, Writing
from companion.core.plan_rules import judge, refused
from companion.core.plan_screens import screen
from companion.core.plan_settings import after
from companion.core.programme import Plan
from companion.core.schedule import local_day

CARD = "desk"
KEPT_STEPS = 10


def begin(turn: PersonTurn, facts: Facts) -> None:
    """A first plan, a change of the one there is, the draft begun before, or a plan that was not taken (`facts.meant`)."""
    blank = bare(facts, turn.person.zone, turn.rules)
    if blank is None:
        turn.say(words("plan-no-baseline", name=facts.name), card=CARD, put=Put.IN_PLACE)
        return
    now = continued(facts.plan, local_day(turn.at, facts.zone)) if facts.plan is not None else blank
    made = Prescribing(turn.number(), facts, "plan" if facts.plan is not None else "start", now)
    old = _draft_of(turn, facts.client)
    if facts.meant is not None:
        made = replace(made, at="meanwhile", draft=_fitted(facts.meant, facts, blank.version))
    elif old is not None and old.draft.version != blank.version:
        made = replace(made, at="meanwhile", draft=_fitted(old.draft, facts, blank.version))
    elif old is not None:
        at = old.before[-1].at if old.at in ("cancel", "resume") and old.before else old.at
        before = (*old.before, Step(at, old.draft))[-KEPT_STEPS:]
        made = replace(old, id=made.id, facts=facts, at="resume", before=before)
    if old is not None:
        turn.set(drafts=tuple(draft for draft in turn.person.drafts if draft.id != old.id))
        if turn.person.dialogue == old:
            turn.close()
    _show(turn, made)


def pressed(turn: PersonTurn, event: Pressed, dialogue: Prescribing) -> None:
    """A button of the plan."""
    options, choice = _screen(turn, dialogue).options, event.press.choice
    if event.press.step != str(dialogue.turn) or not choice.isdecimal() or int(choice) >= len(options):
        turn.reply(words("press-over"))
        return
    turn.reply()
    _take(turn, dialogue, options[int(choice)])


def typed(turn: PersonTurn, event: Typed, dialogue: Prescribing) -> bool:
    """Words typed while a plan is written: the answer where one is asked for, else the screen again."""
    reads = _screen(turn, dialogue).reads
    option = reads(event.text) if reads is not None and event.text else None
    if option is not None:
        _take(turn, dialogue, option)
    else:
        turn.say(words("plan-not-read" if reads is not None else "plan-only-buttons"))
        _show(turn, dialogue)
    return True


def found(turn: PersonTurn, event: Found, dialogue: Prescribing) -> bool:
    """The clients to copy from were looked up; False if this dialogue did not ask."""
    if dialogue.at != "copy" or event.what != "caseload":
        return False
    _show(turn, replace(dialogue, entries=event.entries, first=event.first, total=event.total))
    return True


def copied(turn: PersonTurn, facts: Facts) -> None:
    """Another client's plan came: its exercises, with the days, the supervision and the permissions of this client."""
    dialogue = turn.person.dialogue
    if not isinstance(dialogue, Prescribing) or dialogue.at != "copy":
        return
    if facts.plan is None:
        turn.say(words("plan-copy-none", name=facts.name))
        _show(turn, dialogue)
        return
    blank = bare(dialogue.facts, turn.person.zone, turn.rules) or dialogue.draft
    draft = from_plan(blank, facts.plan, whole=False)
    _go(turn, dialogue, after(draft), draft)


def _take(turn: PersonTurn, dialogue: Prescribing, option: Option) -> None:
    """What an option does."""
    match option.act:
        case Act.GO:
            reason = option.value or dialogue.reason
            _go(turn, replace(dialogue, reason=reason), option.at, option.draft or dialogue.draft)
        case Act.BACK if dialogue.before:
            last = dialogue.before[-1]
            _show(turn, replace(dialogue, at=last.at, draft=last.draft, before=dialogue.before[:-1]))
        case Act.BACK:
            _show(turn, replace(dialogue, at="cancel", before=(Step(dialogue.at, dialogue.draft),)))
        case Act.DROP:
            turn.close()
            page = turn.client_button("b-plan-page", dialogue.facts.client, "open", "open")
            turn.say(words("plan-dropped", name=dialogue.facts.name), buttons=(page,), card=CARD, put=Put.IN_PLACE)
        case Act.PRESCRIBE:
            _prescribe(turn, dialogue, option.value)
        case Act.LOOK_UP:
            if dialogue.at != "copy":
                dialogue = _stepped(dialogue, "copy", dialogue.draft)
            turn.set(dialogue=dialogue)
            turn.effects.append(LookUp("caseload", int(option.value)))
        case Act.COPY:
            turn.tell(option.value, PlanAsked(turn.at, turn.person.id))


def _prescribe(turn: PersonTurn, dialogue: Prescribing, reason: str) -> None:
    """To the client's care, which has the last word on it: another plan may have come between."""
    facts, today = dialogue.facts, local_day(turn.at, dialogue.facts.zone)
    if refused(judge(dialogue.draft, turn.rules, facts.carer is not None, today)):
        _go(turn, dialogue, "plan", dialogue.draft)
        return
    turn.close()
    turn.tell(facts.client, Prescribed(turn.at, dialogue.draft, turn.person.id, reason))


def _go(turn: PersonTurn, dialogue: Prescribing, at: str, draft: Plan) -> None:
    _show(turn, _stepped(dialogue, at, draft))


def _stepped(dialogue: Prescribing, at: str, draft: Plan) -> Prescribing:
    """The dialogue one screen on. What Back goes to is kept, not for ever."""
    before = (*dialogue.before, Step(dialogue.at, dialogue.draft))[-KEPT_STEPS:]
    return replace(dialogue, at=at, draft=draft, before=before)


def _show(turn: PersonTurn, dialogue: Prescribing) -> None:
    """The screen that stands, as a new one: the buttons of what was shown before are over."""
    dialogue = replace(dialogue, turn=dialogue.turn + 1)
    turn.open(dialogue)
    shown = _screen(turn, dialogue)
    buttons = tuple(
        turn.button(option.label, dialogue.id, str(dialogue.turn), str(place)) for place, option in enumerate(shown.options)
    )
    turn.say(*shown.lines, buttons=buttons, card=CARD, put=Put.IN_PLACE)


def _screen(turn: PersonTurn, dialogue: Prescribing) -> Screen:
    return screen(Writing(dialogue, turn.rules, local_day(turn.at, dialogue.facts.zone)))


def _draft_of(turn: PersonTurn, client: str) -> Prescribing | None:
    """The draft for that client, under way or put by."""
    person = turn.person
    drafts = (*person.drafts, *((person.dialogue,) if person.dialogue is not None else ()))
    return next((one for one in reversed(drafts) if isinstance(one, Prescribing) and one.facts.client == client), None)


def _fitted(draft: Plan, facts: Facts, version: int) -> Plan:
    draft = replace(draft, version=version)
    return fit(draft, facts.baseline) if facts.baseline is not None else draft
