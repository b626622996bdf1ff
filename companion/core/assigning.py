"""Who sees to a client: hand-over to another therapist for good, cover for a time, working hours and deputies.

The care decides and tells the phones: who sees to the client from now on may press its buttons (`Assigned`), who no longer does
sees and changes nothing more (`Released`). Client and carer hear in plain words who it is. An open red flag goes along.
"""

from dataclasses import replace
from datetime import datetime

from companion.core import alerts
from companion.core.alert_words import alert, card
from companion.core.care import Client, Cover, Hold, People, seeing
from companion.core.effects import ClearButtons, Pass, PersonId, Put, Subject, TakeBack, Words, words
from companion.core.events import Assigned, CoverAgreed, DutySet, HandedOver, Left, Released
from companion.core.lifting import release_deputies
from companion.core.observations import TherapistChanged
from companion.core.schedule import clock_text, daytime
from companion.core.turn import ANSWER, Turn

TO_DESK = {"card": "desk", **ANSWER}


def zone_of(client: Client, person: PersonId) -> str:
    """The time zone in which that therapist reads."""
    duty = next((duty for duty in client.duties if duty.by == person), None)
    if duty is not None:
        return duty.zone
    return client.plan.report.zone if client.plan is not None else client.zone


def _known(people: People, person: PersonId, name: str) -> People:
    """The people, that person's call name among them."""
    return replace(people, names=(*((one, called) for one, called in people.names if one != person), (person, name)))


def _entitled(client: Client, person: PersonId) -> bool:
    """Whether that person still has a part in this client's care."""
    cover = client.cover.by if client.cover is not None and client.cover.begun else None
    part = (client.people.therapist, cover, *client.people.contacts, *client.people.at_home())
    return person in part or (client.hold is not None and person in client.hold.alerted)


def _assign(turn: Turn, person: PersonId) -> None:
    turn.set(joined=tuple(dict.fromkeys((*turn.client.joined, person))))
    turn.effects.append(Pass(Subject("person", person), Assigned(turn.at, turn.client.id)))


def _release(turn: Turn, person: PersonId) -> None:
    """That therapist sees nothing more, unless they have another part: what is on its way to them is taken back. Say what they
    are to know of it afterwards."""
    client = turn.client
    turn.set(duties=tuple(duty for duty in client.duties if duty.by != person))
    if client.hold is not None and person in (*client.hold.alerted, *client.hold.seen_by):
        turn.set(hold=_without(client.hold, person))
    if _entitled(turn.client, person):
        return
    if person not in [duty.deputy for duty in turn.client.duties]:
        turn.set(joined=tuple(one for one in turn.client.joined if one != person))
    turn.effects += [TakeBack(topic, person) for topic in ("alert", "talk", "report")]
    turn.effects.append(ClearButtons(person, card(client), "talk"))
    turn.effects.append(Pass(Subject("person", person), Released(turn.at, client.id)))


def _without(hold: Hold, person: PersonId) -> Hold:
    """The flag without this therapist. If nobody else has seen it, it is not acknowledged: somebody must."""
    seen_by = tuple(one for one in hold.seen_by if one != person)
    alerted = tuple(one for one in hold.alerted if one != person)
    return replace(hold, seen_by=seen_by, alerted=alerted, acknowledged_at=hold.acknowledged_at if seen_by else None)


def _alert_anew(turn: Turn, to: PersonId, title: str) -> None:
    """The open red flag, for one who has not seen it. Its rhythm begins anew where nobody has."""
    hold = turn.client.hold
    if hold is None:
        return
    if hold.acknowledged_at is None:
        turn.set(hold=replace(hold, rhythm_at=turn.at, alerts=1))
    alert(turn, to, title)


def _tell_home(turn: Turn, news: str) -> None:
    """Client and carer hear who it is: at once, in the morning, or after the session, for a phone in a stance stays quiet."""
    turn.set(whose_news=news, whose_news_at=daytime(turn.at, turn.client.zone))
    announce(turn)


def announce(turn: Turn) -> None:
    """What waits to be told of who sees to the client, once it is day and no session runs. Called at the end of each step."""
    client, news, at = turn.client, turn.client.whose_news, turn.client.whose_news_at
    if not news or client.session is not None or (at is not None and turn.at < at):
        return
    turn.set(whose_news="", whose_news_at=None)
    people, cover = client.people, client.cover
    if news == "cover-now" and cover is not None:
        line = words(news, who=people.name(cover.by), therapist=people.name(people.therapist))
    else:  # also where a cover has ended meanwhile: what counts is who it is now
        line = words("cover-back" if news == "cover-now" else news, who=people.name(people.therapist))
    for person in people.at_home():
        if person in client.joined:
            turn.say(person, line, **ANSWER)


def _night(turn: Turn, to: PersonId) -> bool:
    """Whether it is night where that therapist reads: then news makes no sound."""
    zone = zone_of(turn.client, to)
    return daytime(turn.at, zone) != turn.at


def _refuse(turn: Turn, by: PersonId) -> None:
    """A therapist's dialogue comes too late: the client has another therapist by now."""
    if by not in turn.client.people.at_home():
        turn.say(by, words("not-your-client"), **ANSWER)


# --- hand-over ------------------------------------------------------------------------------------------------


def handed_over(turn: Turn, event: HandedOver) -> None:
    """The client has another therapist from now on. Only their own therapist hands over."""
    client, old, new = turn.client, event.by, event.to
    if old != client.people.therapist:
        _refuse(turn, old)
        return
    if new == old:
        return
    people = _known(client.people, new, event.name)
    contacts = tuple(contact for contact in people.contacts if contact != new)
    turn.set(people=replace(people, therapist=new, contacts=contacts))
    if client.cover is not None and client.cover.by == new:
        turn.set(cover=None)
    turn.record(TherapistChanged(turn.at, "handed_over", new))
    _release(turn, old)
    turn.say(old, words("handed-over-from", name=client.name, who=event.name), put=Put.IN_PLACE, **TO_DESK)
    _assign(turn, new)
    was = people.name(old)
    opened = turn.button("b-open-page", "page", "open", "open")
    turn.say(new, words("handed-over-to", name=client.name, who=was), *_situation(turn, new), buttons=(opened,), **TO_DESK)
    _alert_anew(turn, new, "alert-handed-over")
    _tell_home(turn, "therapist-now")


def _situation(turn: Turn, to: PersonId) -> tuple[Words, ...]:
    """What the new therapist must know at a glance: the plan, the last session, an open flag."""
    client = turn.client
    plan = words("situation-plan", version=client.plan.version) if client.plan else words("situation-no-plan")
    last = client.last_session_at
    when = words("situation-last", at=clock_text(last, zone_of(client, to))) if last else words("situation-none")
    return (plan, when, *((words("situation-flag"),) if client.hold is not None else ()))


# --- cover ----------------------------------------------------------------------------------------------------


def cover_agreed(turn: Turn, event: CoverAgreed) -> None:
    """Another therapist sees to the client too, for a time. An `end` that is not ahead ends the cover there is."""
    client = turn.client
    if event.by != client.people.therapist:
        _refuse(turn, event.by)
        return
    if client.cover is not None:
        end_cover(turn, told=event.end <= turn.at)
    elif event.end <= turn.at:
        turn.say(event.by, words("cover-none", name=client.name), **TO_DESK)
    if event.to == client.people.therapist or event.end <= max(event.start, turn.at):
        return
    turn.set(people=_known(turn.client.people, event.to, event.name), cover=Cover(event.to, event.start, event.end))
    zone = zone_of(client, event.by)
    span = {"start": clock_text(event.start, zone), "end": clock_text(event.end, zone), "zone": zone}
    turn.say(event.by, words("cover-agreed", name=client.name, who=event.name, **span), put=Put.IN_PLACE, **TO_DESK)
    if event.start <= turn.at:
        begin_cover(turn)


def moments(client: Client) -> dict[str, datetime]:
    """When a cover begins and ends, and when client and carer are to hear of it."""
    cover, news_at = client.cover, client.whose_news_at
    news = {"whose_news": news_at} if news_at is not None and client.session is None else {}
    if cover is None:
        return news
    return news | ({"cover_end": cover.end} if cover.begun else {"cover_start": cover.start})


def begin_cover(turn: Turn) -> None:
    """The cover begins: the colleague may see and press, client and carer hear of it, an open flag goes to them too."""
    client, cover = turn.client, turn.client.cover
    assert cover is not None
    turn.set(cover=replace(cover, begun=True))
    if cover.end <= turn.at:  # all of it went by while the companion was away
        return
    people = client.people
    turn.record(TherapistChanged(turn.at, "cover_began", cover.by))
    _assign(turn, cover.by)
    until = clock_text(cover.end, zone_of(client, cover.by))
    opened = turn.button("b-open-page", "page", "open", "open")
    title = words("cover-to", name=client.name, who=people.name(people.therapist), end=until)
    how = {**TO_DESK, "silent": _night(turn, cover.by)}
    turn.say(cover.by, title, *_situation(turn, cover.by), buttons=(opened,), **how)
    if client.hold is not None:
        alert(turn, cover.by, "alert-handed-over")
    _tell_home(turn, "cover-now")


def end_cover(turn: Turn, told: bool = True) -> None:
    """The cover is over: the colleague sees nothing more. A flag that only they had seen is the therapist's to see again."""
    client, cover = turn.client, turn.client.cover
    assert cover is not None
    people = client.people
    turn.set(cover=None)
    who = people.name(cover.by)
    seen = client.hold is not None and client.hold.acknowledged_at is not None
    if cover.begun:
        turn.record(TherapistChanged(turn.at, "cover_ended", cover.by))
        how = {**TO_DESK, "silent": _night(turn, cover.by)}
        _release(turn, cover.by)
        turn.say(cover.by, words("cover-over-to", name=client.name), **how)
    if told:
        how = {**TO_DESK, "silent": _night(turn, people.therapist)}
        turn.say(people.therapist, words("cover-over", name=client.name, who=who), **how)
        if cover.begun:
            _tell_home(turn, "cover-back")
    hold = turn.client.hold
    if hold is not None and seen and hold.acknowledged_at is None:
        _alert_anew(turn, people.therapist, "alert-handed-over")


# --- hours and deputies ---------------------------------------------------------------------------------------


def duty_set(turn: Turn, event: DutySet) -> None:
    """A therapist's hours and deputy, from now on. Who was deputy of an open flag and is not any more is released."""
    client, duty = turn.client, event.duty
    mine = duty.by == client.people.therapist or (client.cover is not None and client.cover.by == duty.by)
    if not mine:
        return
    was = next((known.deputy for known in client.duties if known.by == duty.by), None)
    turn.set(duties=(*(known for known in client.duties if known.by != duty.by), duty))
    if duty.deputy is not None:
        turn.set(people=_known(client.people, duty.deputy, event.deputy_name))
        turn.set(joined=tuple(dict.fromkeys((*turn.client.joined, duty.deputy))))
    hold = client.hold
    if hold is not None and was is not None and was != duty.deputy and was in hold.alerted:
        others = [known.deputy for known in turn.client.duties]
        if was not in seeing(turn.client, turn.at) and was not in others:
            release_deputies(turn, replace(hold, alerted=(was,)))
            turn.set(hold=replace(hold, alerted=tuple(one for one in hold.alerted if one != was)))


# --- leaving the chat -----------------------------------------------------------------------------------------


def left(turn: Turn, event: Left) -> None:
    """A phone blocked the companion. Alerts pass it over at once; of a colleague who covers, the therapist hears."""
    if event.back:
        return
    alerts.unreached(turn, event.by)
    client, cover = turn.client, turn.client.cover
    if cover is not None and cover.by == event.by and event.by != client.people.therapist:
        who = client.people.name(event.by)
        turn.say(client.people.therapist, words("cover-left", name=client.name, who=who), **ANSWER)
