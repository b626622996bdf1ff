"""The days of practice: a reminder when it is due, once more after "later", and what is written down when the day is over."""

from dataclasses import replace
from datetime import date, datetime, time, timedelta

from companion.core import agreement, carers, pausing
from companion.core.care import Client, Day
from companion.core.effects import Urgency, words
from companion.core.observations import DayClosed, Ending
from companion.core.schedule import instant, local_day, next_due, out_of_quiet
from companion.core.turn import Turn


def practice_due(turn: Turn, moment: datetime) -> None:
    client = turn.client
    turn.set(looked_at=moment)
    day = local_day(moment, client.zone)
    if client.consent is None:
        if _on_time(turn, moment):
            agreement.ask_instead_of_reminding(turn)
        return
    if client.day is not None and client.day.day != day:
        close_day(turn, moment)
    known = turn.client.day
    if known is None:
        known = Day(day, turn.number("o"), asked=False)
        turn.set(day=known)
    if client.hold is not None or pausing.paused_on(client, day):
        turn.set(day=replace(known, held=known.held or client.hold is not None, paused=pausing.paused_on(client, day)))
    if not _may_remind(turn, known, moment) or out_of_quiet(turn.at, client.quiet, client.zone) != turn.at:
        return
    if not _first_of_the_day(client, day, moment):
        turn.set(done=())  # the plan asks for the whole of it again
    elif any(past.day == day and past.ending is Ending.DONE for past in client.past):
        return
    _remind(turn, known)


def _on_time(turn: Turn, moment: datetime) -> bool:
    """Neither hours late, nor in the quiet hours."""
    client = turn.client
    late = (turn.at - moment).total_seconds() > turn.rules.patience.late_reminder_s
    return not late and out_of_quiet(turn.at, client.quiet, client.zone) == turn.at


def _first_of_the_day(client: Client, day: date, moment: datetime) -> bool:
    assert client.plan is not None
    before = instant(day, time(0), client.zone) - timedelta(microseconds=1)
    return next_due(client.plan.practice, client.zone, before, client.quiet) == moment


def _may_remind(turn: Turn, day: Day, moment: datetime) -> bool:
    """Nobody is reminded while held, paused, in a session, off for the day or out of reach, after "not today", hours late."""
    client = turn.client
    if client.consent is None or pausing.paused_on(client, turn.today):
        return False
    late = (turn.at - moment).total_seconds() > turn.rules.patience.late_reminder_s
    busy = client.session is not None or client.hold is not None
    off = day.declined or client.off_day == turn.today or {local_day(moment, client.zone), day.day} != {turn.today}
    return not (late or busy or off) and client.people.client in client.joined


def _remind(turn: Turn, day: Day) -> None:
    client, patience = turn.client, turn.rules.patience
    assert client.plan is not None
    turn.set(day=replace(day, asked=True, again_at=None, paused=False))
    too_late = turn.at + timedelta(seconds=patience.late_reminder_s)
    how = {"urgency": Urgency.REMINDER, "topic": "reminder", "not_after": too_late}
    buttons = tuple(
        turn.button(label, day.offer, "offer", choice)
        for label, choice in (("b-start", "start"), ("b-later", "later"), ("b-not-today", "not_today"))
    )
    minutes = words("reminder-minutes", minutes=client.plan.minutes)
    turn.say(client.people.client, words("reminder"), minutes, buttons=buttons, card="session", **how)
    if client.people.carer in client.joined:
        carers.remind(turn, minutes, how)


def remind_again(turn: Turn, moment: datetime) -> None:
    day = turn.client.day
    assert day is not None
    turn.set(day=replace(day, again_at=None))
    if _may_remind(turn, day, moment):
        _remind(turn, day)


def close_day(turn: Turn, moment: datetime) -> None:
    """The local day is over. A day without a session is written down for what it was; unknown is not "fine"."""
    day = turn.client.day
    assert day is not None
    turn.set(day=None)
    if day.day in {past.day for past in turn.client.past} | {blank.day for blank in turn.client.blanks}:
        return  # it is on record; a day may come a second time where the client's zone is changed
    if turn.client.session is not None and local_day(turn.client.session.began, turn.client.zone) == day.day:
        return
    if turn.client.hold is not None or turn.client.off_day == day.day or (day.held and not day.asked):
        ending = Ending.HELD
    elif day.paused and not day.declined:
        ending = Ending.PAUSED
    elif day.declined:
        ending = Ending.DECLINED
    else:
        ending = Ending.NO_ANSWER if day.asked else Ending.NOT_ASKED
    turn.record(DayClosed(turn.at, day.day, ending))
