"""How a session is closed: what is written down, and the last words on each phone."""

from dataclasses import replace
from datetime import timedelta
from typing import assert_never

from companion.core import alerts, carer_closing
from companion.core.care import Day, seeing
from companion.core.cursor import Outcome
from companion.core.effects import ClearButtons, Put, Urgency, Words, words
from companion.core.observations import Ending, Quality
from companion.core.schedule import clock_text, local_day
from companion.core.session import in_doubt, interrupt, stopped
from companion.core.steps import Over
from companion.core.turn import ALERT, CLOSING, Turn

GOAL_EVERY = 3
"""After so many sessions the goal is said again."""


def session_over(turn: Turn) -> None:
    """The session under way has an outcome: write it down, and close it with fitting words on every phone."""
    session, people = turn.client.session, turn.client.people
    assert session is not None and session.outcome is not None
    over, facts, by = session.outcome.over, session.outcome.facts, session.outcome.by
    if over is Over.FLAG:
        turn.set(session=replace(session, outcome=None))
        alerts.raise_flag(turn, facts, by or people.client)
        return
    done, planned = len(session.done), session.script.planned
    stop = (words("hand-down"), words("feet-apart")) if carer_closing.stood(session) else ()
    rest = words("closing-sit")
    if over is Over.DONE:
        part = session.seated_only or done < planned
        turn.end_session(Ending.PARTLY if part else Ending.DONE)
        counted = words("closing-clean", clean=session.clean)
        did = words("closing-done", done=done, planned=planned) if done < planned else words("closing-all", planned=planned)
        turn.say(people.client, did, counted, *_goal_now_and_then(turn), *stop, rest, **CLOSING)
        carer_closing.ask(turn, session)
    elif over is Over.ENOUGH:
        turn.end_session(Ending.PARTLY)
        turn.say(people.client, words("closing-enough"), *stop, rest, **CLOSING)
        carer_closing.ask(turn, session)
    elif over is Over.LATER:
        _later(turn, done)
    elif over in (Over.NOT_READY, Over.UNSURE):
        turn.end_session(Ending.NOT_READY)
        _not_today(turn, unsure=over is Over.UNSURE)
    elif over is Over.NO_WORD:
        turn.end_session(Ending.NO_WORD)
        _no_word(turn)
    elif over is Over.IDLE:
        turn.end_session(Ending.PARTLY if done else Ending.NO_ANSWER)
        turn.say(people.client, words("closing-idle"), rest, **CLOSING)
        turn.effects.append(ClearButtons(people.carer or people.client, "carer", "closing"))
    else:
        assert_never(over)


def _goal_now_and_then(turn: Turn) -> tuple[Words, ...]:
    """The client's own goal, said back after every few sessions."""
    client = turn.client
    return (words("goal-is", goal=client.goal),) if client.goal and client.sessions % GOAL_EVERY == 0 else ()


def end_early(turn: Turn) -> None:
    """The client ends the session under way: kind, no alarm, no nagging. What is left may be done later, after a new check."""
    session = turn.client.session
    assert session is not None
    over = Over.UNSURE if in_doubt(session) else Over.ENOUGH
    stopped_short, effects = interrupt(session, turn.at, Quality.ENDED_EARLY)
    turn.effects += effects
    turn.set(session=stopped(stopped_short, Outcome(over)))
    session_over(turn)


def _later(turn: Turn, done: int) -> None:
    client = turn.client
    session = client.session
    yesterday = session is not None and local_day(session.began, client.zone) != turn.today
    if done or yesterday:  # a session over midnight leaves a line, or its day would be forgotten
        turn.end_session(Ending.PARTLY if done else Ending.NO_ANSWER)
    else:
        turn.set(session=None)
    again_at = turn.at + timedelta(seconds=turn.rules.patience.later_s)
    day = turn.client.day or Day(turn.today, turn.number("o"))
    turn.set(day=replace(day, again_at=again_at, declined=False))
    minutes = turn.rules.patience.later_s // 60
    turn.say(client.people.client, words("later", minutes=minutes), words("closing-sit"), **CLOSING)
    if client.people.carer in client.joined:
        turn.effects.append(ClearButtons(client.people.carer or "", "carer", "closing"))


def _not_today(turn: Turn, unsure: bool) -> None:
    client = turn.client
    people = client.people
    if client.day is not None:
        turn.set(day=replace(client.day, declined=True, again_at=None))
    if unsure:
        turn.set(off_day=turn.today)
        for therapist in seeing(client, turn.at):
            turn.say(therapist, words("unsure-therapist", name=client.name), urgency=Urgency.ALERT, topic="talk")
        turn.say(people.client, words("unsure-today"), words("unsure-told"), words("closing-sit"), **CLOSING)
    else:
        turn.say(people.client, words("not-today"), words("not-today-kind"), **CLOSING)
    if people.carer in client.joined:
        said = words("carer-stay" if unsure else "carer-not-today", name=client.name)
        turn.say(people.carer, said, card="carer", put=Put.IN_PLACE, topic="closing")


def _no_word(turn: Turn) -> None:
    people, name = turn.client.people, turn.client.name
    zone = turn.client.plan.report.zone if turn.client.plan else turn.client.zone
    call = words("typed-emergency", number=turn.rules.emergency_number)
    turn.say(people.client, words("no-word-client"), words("closing-sit"), **CLOSING)
    if people.carer in turn.client.joined:
        turn.say(people.carer, words("no-word-carer", name=name), call, **ALERT)
    for therapist in seeing(turn.client, turn.at):
        turn.say(therapist, words("no-word-therapist", name=name, at=clock_text(turn.at, zone), zone=zone), **ALERT)
