"""How a session starts: what is in the way of it, and how its script is made."""

from dataclasses import replace
from datetime import timedelta

from companion.core import agreement, carers, hearing, own_media, pausing
from companion.core.care import Client, usual_signs
from companion.core.effects import HaveMade, TakeBack, words
from companion.core.how import How
from companion.core.observations import CarerSeen
from companion.core.programme import CheckStyle
from companion.core.scenes import made_first, to_be_made
from companion.core.script import compile_session, in_library
from companion.core.session import begin
from companion.core.turn import ANSWER, Turn


def start_session(turn: Turn) -> None:
    """Start today's session at its safety check, or say kindly why not."""
    client = turn.client
    to = client.people.client
    if client.hold is not None:
        turn.say(to, words("held"), **ANSWER)
        return
    if client.discharged_at is not None:
        turn.say(to, words("ended-start"), **ANSWER)
        return
    if not agreement.holds(client, turn.rules):
        agreement.ask(turn)
        return
    if pausing.paused_on(client, turn.today):
        pausing.say_paused(turn)
        return
    if client.off_day == turn.today:
        turn.say(to, words("off-today"), **ANSWER)
        return
    if client.plan is None or not in_library(client.plan, turn.rules.exercises):
        turn.say(to, words("no-plan"), **ANSWER)
        return
    if client.plan.over(turn.today):
        therapist = client.people.name(client.people.therapist)
        turn.say(to, words("plan-over"), words("plan-over-next", therapist=therapist), **ANSWER)
        return
    carer = carers.carer_phone(client)
    how = how_to(turn, turn.number("s"))
    script = compile_session(client.plan, turn.rules.exercises, how)
    if not script.bouts:
        turn.set(serial=client.serial)
        turn.say(to, words("nothing-left" if how.done else "needs-helper"), **ANSWER)
        return
    turn.effects.append(TakeBack("reminder"))
    if not how.briefed:
        carers.ask_to_read(turn)
    session, effects = begin(script, to, carer, turn.at, turn.seed, turn.rules.patience)
    if carer is None and (client.people.carer is not None or client.plan.supervision.value == "always"):
        session = replace(session, carer=CarerSeen.ABSENT)
    turn.set(session=replace(session, heard=True if client.sound_heard_at is not None else None))
    if turn.client.day is not None:
        turn.set(day=replace(turn.client.day, again_at=None, declined=False))
    turn.effects += effects
    turn.effects.append(HaveMade(to, to_be_made(script)))


def how_to(turn: Turn, session: str) -> How:
    """What the script of a session now depends on, beside plan and library. `session` is its id."""
    client = turn.client
    return How(
        session=session,
        client=client.id,
        name=client.name,
        phone=client.people.client,
        carer_phone=carers.carer_phone(client),
        emergency_number=turn.rules.emergency_number,
        sign_by_sign=_sign_by_sign(turn),
        signs=turn.rules.signs,
        patience=turn.rules.patience,
        done=frozenset(client.done if client.done_day == turn.today else ()),
        confidence=_asks_confidence(turn),
        briefed=not carers.must_read_first(client, turn.rules),
        usual=usual_signs(client),
        weaker=client.baseline.weaker_side if client.baseline is not None else "unknown",
        tones=hearing.tones(turn.seed),
        short=client.short_words,
        own=own_media.agreed(client),
    )


def make_ahead(turn: Turn, before: Client) -> None:
    """What a new plan shows first is made ahead; also where a visit finds another weaker side."""
    client, plan = turn.client, turn.client.plan
    if plan is None or client.discharged_at is not None or not in_library(plan, turn.rules.exercises):
        return
    if plan == before.plan and client.baseline == before.baseline:
        return
    how = replace(how_to(turn, ""), done=frozenset())
    turn.effects.append(HaveMade(how.phone, made_first(compile_session(plan, turn.rules.exercises, how))))


def _asks_confidence(turn: Turn) -> bool:
    """Once in a week, counted from Monday."""
    last = turn.client.confident_at
    return last is None or last.isocalendar()[:2] != turn.today.isocalendar()[:2]


def _sign_by_sign(turn: Turn) -> bool:
    client, rules = turn.client, turn.rules
    last = client.last_session_at
    rested = last is None or (turn.at - last) >= timedelta(days=rules.sign_by_sign_gap_days)
    return (
        (client.plan is not None and client.plan.check is CheckStyle.SIGN_BY_SIGN)
        or client.sessions < rules.sign_by_sign_sessions
        or client.flagged_since
        or rested
    )
