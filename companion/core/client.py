"""Start here. The care of one client: `step(client, event, rules) -> Decision`, `wake_at(client, rules)`.

Rules kept here, above those of a session (see `session.py`):
- `step` is total: it never raises, and an event that does not fit changes no meaning;
- the next moment to look at a client is read off the state, so nobody can be forgotten;
- a red flag stops everything until the therapist lifts it, and its day stays off;
- nobody is reminded while held, in a session, or after having said "not today";
- a reminder that is hours late is skipped and noted; an unacknowledged alert is never too late.

    waiting --due--> reminded --start--> session --end--> (carer: all is well?) --> waiting
       |                |  later: reminded again     |
       |                |  not today, no answer      +--- flag, fall, something is wrong ---> held --lifted--> waiting
       +--- something is wrong, a fall, at any time -------------------------------------------^
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from typing import assert_never

from companion.core import (
    agreement,
    alerts,
    assigning,
    carer_closing,
    carer_leaving,
    carer_menu,
    carers,
    caseload,
    client_menu,
    days,
    early_notice,
    hearing,
    keeping,
    lifting,
    own_media,
    own_media_question,
    page,
    pausing,
    prescribed,
    proposal_card,
    proposals,
    review,
    talk,
    visited,
    weekly,
)
from companion.core.care import Client, Day, People
from companion.core.closing import end_early, session_over
from companion.core.effects import Countdown, Effect, Put, Record, words
from companion.core.events import (
    Arrived,
    Assessed,
    Assigned,
    BaselineTaken,
    Briefed,
    ChartDue,
    Consented,
    Control,
    Controlled,
    CoverAgreed,
    Declined,
    DutySet,
    Event,
    Found,
    HandedOver,
    Joined,
    Left,
    Lost,
    MediaGiven,
    MediaRemoved,
    Opened,
    PlanAsked,
    Prescribed,
    Pressed,
    Released,
    ReviewDone,
    ToClient,
    Typed,
    Woke,
)
from companion.core.programme import Rules
from companion.core.schedule import end_of_day, local_day, next_due
from companion.core.session import advance
from companion.core.showing import countdown, standing
from companion.core.starting import make_ahead, start_session
from companion.core.tally import counted
from companion.core.turn import ANSWER, Turn
from companion.core.waiting import due

__all__ = ["Client", "Decision", "People", "countdowns", "phases", "step", "wake_at", "wake_class"]

FAR = datetime(9999, 1, 1, tzinfo=UTC)
MOST_MOMENTS = 5000


@dataclass(frozen=True, slots=True)
class Decision:
    """The state after an event, and what is to be done."""

    client: Client
    effects: tuple[Effect, ...]


def step(client: Client, event: Event, rules: Rules) -> Decision:
    """What an event makes of a client. Total."""
    turn = Turn(client, event.at, event.seed, rules)
    match event:
        case Woke():
            _woke(turn, event)
        case Pressed():
            _pressed(turn, event)
        case Controlled():
            _controlled(turn, event)
        case Typed():
            _typed(turn, event)
        case Arrived() | Lost():
            _settled(turn, event)
        case Joined():
            talk.joined(turn, event)
        case Left():
            talk.left(turn, event)
            assigning.left(turn, event)
        case Opened() | Found() | Assigned() | Released():
            pass  # what only a person's phone handles
        case _:
            _told(turn, event)
    prescribed.announce(turn)
    assigning.announce(turn)
    own_media_question.follow(turn)
    keeping.note(turn, client)
    hearing.follow(turn, client)
    make_ahead(turn, client)
    turn.set(tally=counted(turn.client.tally, (one.observation for one in turn.effects if isinstance(one, Record))))
    proposals.follow(turn)
    if isinstance(event, Woke):
        turn.set(listed_at=event.at)  # the therapist's list is written with the state, as it is now
    return Decision(turn.client, tuple(turn.effects))


def _told(turn: Turn, event: ToClient) -> None:
    """A person's phone, or an enrolment, tells the care something."""
    match event:
        case Prescribed():
            if turn.client.plan is not None:
                _woke(turn, Woke(event.at, event.seed))  # what the old plan made due is seen to first
            prescribed.taken(turn, event)
        case PlanAsked():
            prescribed.asked(turn, event)
        case Consented():
            agreement.given(turn, event)
        case Declined():
            agreement.declined(turn, event)
        case Briefed():
            carers.briefed(turn, event)
        case BaselineTaken():
            if turn.client.plan is not None:
                _woke(turn, Woke(event.at, event.seed))
            visited.baseline_taken(turn, event)
        case HandedOver():
            assigning.handed_over(turn, event)
        case CoverAgreed():
            assigning.cover_agreed(turn, event)
        case DutySet():
            assigning.duty_set(turn, event)
        case _:
            _brought(turn, event)


def _brought(turn: Turn, event: MediaGiven | MediaRemoved | Assessed | ReviewDone | ChartDue) -> None:
    """Something to look at is brought to the care, or asked of it."""
    match event:
        case Assessed():
            early_notice.assessed(turn, event)
        case ReviewDone():
            review.done(turn, event)
        case MediaGiven():
            own_media.given(turn, event)
        case MediaRemoved():
            own_media.removed(turn, event)
        case ChartDue():
            weekly.chart_due(turn, event)
        case _:
            assert_never(event)


def _typed(turn: Turn, event: Typed) -> None:
    people = turn.client.people
    if event.by in people.contacts and event.by not in people.at_home():
        lifting.contact_wrote(turn, event)
    else:
        talk.typed(turn, event)


def _settled(turn: Turn, event: Arrived | Lost) -> None:
    """What became of a message: an alert's tag begins as a flag's id does, that of a recording as its id, any other is the
    session's."""
    if event.tag.startswith("f"):
        alerts.settled(turn, event)
    elif event.tag.startswith(own_media.LETTER):
        own_media_question.settled(turn, event)
    else:
        _session_event(turn, event)


def wake_at(client: Client, rules: Rules) -> datetime | None:
    """The one next moment at which this client must be looked at; None if there is nothing ahead."""
    return min(_moments(client, rules).values(), default=None)


def wake_class(client: Client) -> int:
    """0: a live session or an open alert, 1: a reminder, 2: anything else. Lower is looked at first."""
    if client.session is not None:
        return 0
    hold = client.hold
    if hold is not None and (hold.acknowledged_at is None or (hold.fall is not None and not hold.fall.answered)):
        return 0
    return 1 if client.plan is not None else 2


def countdowns(client: Client, rules: Rules) -> tuple[Countdown, ...]:
    """The clocks that are running on somebody's screen."""
    running = countdown(client.session) if client.session is not None else None
    return (running,) if running is not None else ()


def phases(client: Client) -> tuple[str, ...]:
    """The phases this client is in, for the reader of a table: held, session, reminded, waiting ..."""
    names = []
    if client.hold is not None:
        names.append("held" if client.hold.acknowledged_at is None else "held, seen")
    if client.session is not None:
        names.append("standing" if standing(client.session) else "session")
    if client.day is not None and client.session is None and client.hold is None and client.pause is None:
        practised = any(past.day == client.day.day and past.done for past in client.past)
        asked = "reminded" if client.day.asked else "not asked"
        names.append("declined" if client.day.declined else "practised" if practised else asked)
    if client.consent is None:
        names.append("not agreed")
    elif client.pause is not None:
        names.append("paused")
    if client.discharged_at is not None:
        names.append("discharged")
    return tuple(names) or (("waiting",) if client.plan else ("no plan",))


# --- time -----------------------------------------------------------------------------------------------------


def _moments(client: Client, rules: Rules) -> dict[str, datetime]:
    moments: dict[str, datetime] = {}
    if client.session is not None:
        session_due = due(client.session, rules.patience)
        if session_due is not None:
            moments["session"] = session_due
    for what, moment in alerts.moments(client, rules).items():
        moments[f"hold.{what}"] = moment
    moments |= assigning.moments(client)
    if client.day is not None:
        moments["close"] = end_of_day(client.day.day, client.zone)
        if client.day.again_at is not None:
            moments["again"] = client.day.again_at
    listed = caseload.changes_at(client, rules.listing)
    if listed is not None:
        moments["list"] = listed
    if client.proposal is not None and client.proposal.later_at is not None:
        moments["proposal"] = client.proposal.later_at
    pause_over = pausing.over_at(client)
    if pause_over is not None:
        moments["pause"] = pause_over
    plan_over = prescribed.over_at(client)
    if plan_over is not None:
        moments["plan"] = plan_over
    own_media_at = own_media_question.ask_at(client, rules)
    if own_media_at is not None:
        moments["own_media"] = own_media_at
    if client.plan is not None and client.discharged_at is None:
        practice = next_due(client.plan.practice, client.zone, client.looked_at, client.quiet)
        if practice is not None and not client.plan.over(local_day(practice, client.zone)):
            moments["practice"] = practice
    return moments


def _woke(turn: Turn, event: Woke) -> None:
    """Everything that is due by now, in the order in which it fell due."""
    for _ in range(MOST_MOMENTS):
        moments = _moments(turn.client, turn.rules)
        what, moment = min(moments.items(), key=lambda item: item[1], default=("", FAR))
        if moment > turn.at:
            return
        if what.startswith("hold."):
            alerts.woke(turn, what.removeprefix("hold."))
        elif what == "session":
            _session_event(turn, event)
        else:
            _DUE[what](turn, moment)


_DUE: dict[str, Callable[[Turn, datetime], None]] = {
    "practice": days.practice_due,
    "again": days.remind_again,
    "close": days.close_day,
    "pause": pausing.ended,
    "plan": prescribed.ended,
    "own_media": lambda turn, moment: own_media_question.follow(turn),
    "list": lambda turn, moment: turn.set(listed_at=moment),
    "proposal": lambda turn, _: proposals.asked_again(turn),
    "cover_start": lambda turn, moment: assigning.begin_cover(turn),
    "cover_end": lambda turn, moment: assigning.end_cover(turn),
    "whose_news": lambda turn, moment: assigning.announce(turn),
}


# --- presses and controls -------------------------------------------------------------------------------------


def _pressed(turn: Turn, event: Pressed) -> None:
    client, press = turn.client, event.press
    if press.client != client.id:
        turn.reply(words("press-not-yours"))
    elif client.session is not None and press.scope == client.session.id:
        _session_event(turn, event)
    elif press.scope == own_media_question.SCOPE:
        own_media_question.pressed(turn, event)
    elif press.scope == "page":
        page.pressed(turn, event)
    elif press.step == proposal_card.STEP:
        proposals.pressed(turn, event)
    elif press.scope.startswith("f"):
        alerts.pressed(turn, event)
    elif client.day is not None and press.scope == client.day.offer and event.by == client.people.client:
        _offer_pressed(turn, event, client.day)
    elif press.scope.startswith("o") and event.by == client.people.client:
        turn.reply(words("press-another-day"))
    elif press.step == "after" and carers.is_carer(client, event.by):
        carer_closing.pressed(turn, event)
    elif press.scope == "menu" and event.by in client.people.at_home():
        _menu_pressed(turn, event)
    else:
        turn.reply(words("press-over"))


def _offer_pressed(turn: Turn, event: Pressed, day: Day) -> None:
    turn.reply()
    choice = event.press.choice
    if turn.client.session is not None:
        again = talk.where_we_are(turn, event.by, ())
        if again is not None:
            turn.effects.append(again)
    elif choice == "start":
        start_session(turn)
    elif choice == "later":
        again_at = turn.at + timedelta(seconds=turn.rules.patience.later_s)
        turn.set(day=replace(day, declined=False, again_at=again_at))
        minutes = turn.rules.patience.later_s // 60
        turn.say(event.by, words("later", minutes=minutes), card="session", put=Put.IN_PLACE, **ANSWER)
    elif choice == "not_today":
        turn.set(day=replace(day, declined=True, again_at=None))
        if turn.client.people.carer in turn.client.joined:
            said = words("carer-not-today", name=turn.client.name)
            turn.say(turn.client.people.carer, said, card="carer", put=Put.IN_PLACE, **ANSWER)
        turn.say(event.by, words("not-today"), words("not-today-kind"), card="session", put=Put.IN_PLACE, **ANSWER)


def _menu_pressed(turn: Turn, event: Pressed) -> None:
    if event.by == turn.client.people.client:
        client_menu.pressed(turn, event)
        return
    carer_menu.pressed(turn, event)


def _controlled(turn: Turn, event: Controlled) -> None:
    client = turn.client
    if event.by not in client.people.at_home():
        turn.say(event.by, words("nothing-runs"), **ANSWER)
        return
    match event.control:
        case Control.SOMETHING_WRONG:
            alerts.raise_flag(turn, ("pressed_wrong",), event.by, ask="what")
        case Control.ENOUGH if client.session is not None and event.by == client.people.client:
            end_early(turn)
        case Control.HAD_TO_LEAVE if carer_leaving.counts_on(client, event.by):
            carer_leaving.had_to_leave(turn, event.by)
        case Control.MORE if event.by == client.people.client:
            client_menu.more(turn)
        case Control.MORE if event.by == client.people.carer:
            carer_menu.more(turn, event.by)
        case _:
            turn.say(event.by, words("nothing-runs"), **ANSWER)


# --- the session ----------------------------------------------------------------------------------------------


def _session_event(turn: Turn, event: Pressed | Woke | Arrived | Lost) -> None:
    if turn.client.session is None:
        return
    session, effects = advance(turn.client.session, event, turn.rules.patience)
    turn.set(session=session)
    turn.effects += effects
    if session.outcome is not None:
        session_over(turn)
