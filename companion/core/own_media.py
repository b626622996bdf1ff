"""What therapists recorded for the exercises of one client: given, kept, taken out. Asked about in `own_media_question.py`.

The client decides; until then what was agreed before stays. Only who sees to the client gives, and takes out.
"""

from dataclasses import replace
from datetime import datetime
from typing import Any

from companion.core import agreement
from companion.core.care import Client, facts, seeing
from companion.core.effects import ClearButtons, Pass, PersonId, Put, Subject, TakeBack, Words, words
from companion.core.events import Facts, MediaGiven, MediaRemoved, Opened, Opens
from companion.core.how import key
from companion.core.media import OwnMedia
from companion.core.observations import MediaDecided
from companion.core.programme import Plan, Rules
from companion.core.schedule import daytime, out_of_quiet
from companion.core.turn import ANSWER, Turn

TOPIC = "media"
CARD = "own"
"""Where the question stands on the client's phone."""
LETTER = "m"
"""What the id of a recording begins with, and so the tag of its question."""
TO_DESK: dict[str, Any] = {"card": "desk", "put": Put.IN_PLACE, **ANSWER}


def agreed(client: Client) -> tuple[OwnMedia, ...]:
    """What the client agreed to, recorded for what the plan has now: no other is ever used."""
    return tuple(one for one in client.own_media if one.kept_at is not None and fits(one, client.plan))


def fits(own: OwnMedia, plan: Plan | None) -> bool:
    """Whether the plan has the exercise in the form that it was recorded for."""
    form = planned_form(plan, own.exercise)
    return form is not None and form == (own.form or form)


def planned_form(plan: Plan | None, exercise: str) -> str | None:
    """The form in which the plan has that exercise; None if it has not."""
    return next((one.form for one in plan.exercises if one.exercise == exercise), None) if plan is not None else None


def exercise_name(exercise: str, rules: Rules) -> Words | str:
    """The name of an exercise; its id where content no longer has it."""
    return words(f"ex-{key(exercise)}") if exercise in rules.exercises else exercise


def without_files(client: Client) -> Facts:
    """What the dialogue on a therapist's phone is told."""
    own = tuple(replace(one, media=replace(one.media, file_id="")) for one in client.own_media)
    return replace(facts(client), own_media=own)


# --- the therapist --------------------------------------------------------------------------------------------


def opened(turn: Turn, by: PersonId) -> None:
    """The dialogue was asked for on the client's page."""
    no = _refused(turn.client)
    turn.reply(words(no) if no is not None else None)
    if no is None:
        turn.effects.append(Pass(Subject("person", by), Opened(turn.at, Opens.MEDIA, without_files(turn.client))))


def _refused(client: Client) -> str | None:
    """Why nothing can be recorded now, as a text; None if it can."""
    if client.discharged_at is not None:
        return "media-discharged"
    if client.consent is None:
        return "media-no-consent"
    return "media-no-plan" if client.plan is None else None


def given(turn: Turn, event: MediaGiven) -> None:
    """A therapist recorded something for an exercise of this client. One that waited for the same exercise makes way."""
    client, by = turn.client, event.by
    if by not in seeing(client, turn.at):
        _not_theirs(turn, by)
        return
    no = _refused(client)
    form = planned_form(client.plan, event.exercise)
    if no is None and (form is None or event.exercise not in turn.rules.exercises):
        no = "media-not-in-plan"
    if no is not None:
        turn.say(by, words(no), **TO_DESK)
        return
    for one in client.own_media:
        if one.exercise == event.exercise and one.kept_at is None:
            withdraw(turn, one)
            take_out(turn, one)
    day = by_day(turn.at, client)
    id = turn.number(LETTER)
    new = OwnMedia(id, event.exercise, event.media, event.beside, by, turn.at, ask_at=day, form=form or "")
    turn.set(own_media=(*turn.client.own_media, new))
    record(turn, new, by, "given")
    turn.say(by, words("media-given", **_named(turn, new)), words(f"media-when-{_when(turn, new)}"), **TO_DESK)


def removed(turn: Turn, event: MediaRemoved) -> None:
    """A therapist takes back what was recorded."""
    client, by = turn.client, event.by
    if by not in seeing(client, turn.at):
        _not_theirs(turn, by)
        return
    one = found(client, event.media)
    if one is None:
        turn.say(by, words("media-gone", name=client.name), **TO_DESK)
        return
    withdraw(turn, one)
    take_out(turn, one)
    record(turn, one, by, "removed")
    turn.say(by, words("media-removed", **_named(turn, one)), **TO_DESK)


def _not_theirs(turn: Turn, by: PersonId) -> None:
    if by not in turn.client.people.at_home():
        turn.say(by, words("not-your-client"), **ANSWER)


def plan_changes(turn: Turn, plan: Plan) -> None:
    """What was used and is recorded for a form that the new plan has no more is set aside; the therapists hear of it."""
    for one in agreed(turn.client):
        if not fits(one, plan):
            tell_therapists(turn, one, "media-set-aside")


def _when(turn: Turn, own: OwnMedia) -> str:
    """When the client is asked, or after what."""
    client = turn.client
    after = busy(client, turn.rules)
    if after is not None:
        return after
    if any(stands(one) for one in client.own_media):
        return "answered"
    return "now" if own.ask_at is None or own.ask_at <= turn.at else "day"


def busy(client: Client, rules: Rules) -> str | None:
    """After what the client can be asked; None if nothing is in the way but the night."""
    if not agreement.holds(client, rules) or client.people.client not in client.joined:
        return "joined"
    if client.hold is not None:
        return "lifted"
    if client.session is not None:
        return "session"
    return "back" if client.pause is not None else None


def by_day(at: datetime, client: Client) -> datetime:
    """That instant, or the end of the night or of the client's quiet hours."""
    return out_of_quiet(daytime(at, client.zone), client.quiet, client.zone)


# --- what is kept ---------------------------------------------------------------------------------------------


def found(client: Client, id: str) -> OwnMedia | None:
    """The recording of that id; None if it is not kept, or not any more."""
    return next((one for one in client.own_media if one.id == id), None)


def change(turn: Turn, own: OwnMedia) -> None:
    """It is kept as it is now."""
    turn.set(own_media=tuple(own if one.id == own.id else one for one in turn.client.own_media))


def take_out(turn: Turn, own: OwnMedia) -> None:
    """It is kept no more, nor what the platform knows its file by."""
    turn.set(own_media=tuple(one for one in turn.client.own_media if one.id != own.id))


def withdraw(turn: Turn, own: OwnMedia) -> None:
    """The question about it, if it stands or is on its way, goes."""
    if stands(own):
        turn.effects += [TakeBack(TOPIC), ClearButtons(turn.client.people.client, CARD, "talk")]


def stands(own: OwnMedia) -> bool:
    """Whether the client was asked about it and has not answered."""
    return own.asked and own.kept_at is None


def record(turn: Turn, own: OwnMedia, by: PersonId, what: str) -> None:
    """What became of it stays on record, the file does not."""
    turn.record(MediaDecided(turn.at, by, own.exercise, own.media.medium.value, what))


def _named(turn: Turn, own: OwnMedia) -> dict[str, Words | str]:
    name = exercise_name(own.exercise, turn.rules)
    return {"name": turn.client.name, "exercise": name, "medium": own.media.medium.value}


def tell_therapists(turn: Turn, own: OwnMedia, line: str) -> None:
    """Who sees to the client hears of it, without a sound."""
    for therapist in seeing(turn.client, turn.at):
        turn.say(therapist, words(line, **_named(turn, own)), silent=True, **ANSWER)
