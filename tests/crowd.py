"""Many homes at once, written straight into the database: for measuring, and for what must be due when the program starts.

Each home is a client alone with a phone; some therapists share them. All are invented. It is about noon where they live,
whatever the hour is here, so that no day ends under them.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import UTC, datetime, time, timedelta
from pathlib import Path

from companion.chat.buttons import decode
from companion.core import client as clients
from companion.core.care import Client, Consent, Day, People
from companion.core.cursor import Session
from companion.core.effects import words
from companion.core.events import Arrived, Control, Controlled, Event, Press, Pressed, Woke
from companion.core.person import Part, Person
from companion.core.programme import (
    CheckStyle,
    Clock,
    Hand,
    Place,
    Plan,
    Planned,
    Practice,
    ReportTime,
    Rules,
    Supervision,
)
from companion.core.schedule import local_day
from companion.core.showing import choices_at
from companion.core.steps import Ask, Counted, Gate, Phase, Timed
from companion.rehearsal.server import Phone, RehearsalServer
from companion.runtime.client_rows import add_client
from companion.runtime.routing import PERSON_WAKE_CLASS
from companion.store import Store
from tests.playing import CONTENT

FIRST_USER = 100_000
FIRST_THERAPIST = 90_000
CLIENTS_OF_ONE = 100
"""A therapist has so many clients."""

AGREED = CONTENT.library.without_number.consent.version
"""The words that everybody agreed to."""

BATCH = 1_000
STANCES = ("feet_together", "half_step", "heel_to_toe")
WISHES = ("practise", "same", "ready", "clean", "held", "hardly", "medium", "right")


@dataclass(frozen=True, slots=True)
class Pace:
    """Seconds of a session: a hold, getting into place before it, the rest after it. As they usually are."""

    hold_s: int = 60
    into_place_s: int = 20
    rest_s: int = 60


def choice_of(data: str | None) -> str:
    """What a button answers; of a bot that is not ours, what it sends."""
    press = decode(data)
    return press.choice if press is not None else data or ""


def says(key: str, **params: str | int) -> str:
    """What a text of the content reads, so that whoever mends its words need not come here."""
    return CONTENT.texts.text(words(key, **params), "en")


def press(phone: Phone, choice: str) -> int:
    """Press the newest button on that phone that answers so; the number of the update. LookupError if there is none."""
    for message in reversed(phone.messages):
        for button in (one for row in message.buttons for one in row if choice_of(one.data) == choice):
            return phone.press(button.label, message.message_id)
    raise LookupError(f"nothing to press for {choice}: {phone.what_is_on_it()}")


def can_press(phone: Phone, choice: str) -> bool:
    """Whether there is such a button."""
    return any(choice_of(one.data) == choice for message in phone.messages for row in message.buttons for one in row)


def noon_zone(now: datetime) -> str:
    """A time zone in which it is about noon. Etc/GMT-5 is five hours ahead of UTC."""
    ahead = 12 - now.astimezone(UTC).hour
    return f"Etc/GMT{-ahead:+d}" if ahead else "Etc/GMT"


def user_of(number: int) -> int:
    """The user id of the client of home `number`."""
    return FIRST_USER + number


def home(number: int, now: datetime, pace: Pace | None = None) -> Client:
    """A client who has joined, with a plan that makes nothing due for days."""
    zone, pace = noon_zone(now), pace or Pace()
    far = (local_day(now, zone) + timedelta(days=3)).weekday()
    plan = Plan(
        version=1,
        exercises=(
            Planned("seated_press", "edge", 10, Hand.ONE_HAND, Clock.NONE, "edge", Hand.ONE_HAND),
            *(_stance(stance, pace.hold_s) for stance in STANCES),
        ),
        practice=Practice((far,), (time(12),)),
        report=ReportTime(far, time(12), zone),
        place=Place("worktop", "shoes"),
        supervision=Supervision.WHEN_FORM_NEEDS,
        check=CheckStyle.ONE_LOOK,
        into_place_s=pace.into_place_s,
        rest_s=pace.rest_s,
    )
    name, therapist = f"c{number}", f"t{number // CLIENTS_OF_ONE}"
    names = ((name, f"Client {number}"), (therapist, "Tess"))
    people = People(name, therapist, names=names)
    return Client(
        name, f"Client {number}", zone, people, now, now, plan=plan, joined=(name, therapist), consent=Consent(AGREED, now)
    )


def _stance(exercise: str, hold_s: int) -> Planned:
    form = {"feet_together": "together", "half_step": "close", "heel_to_toe": "touching"}[exercise]
    return Planned(exercise, form, hold_s, Hand.FINGERTIPS, Clock.SCREEN, form, Hand.FINGERTIPS)


def reminded_at(client: Client, moment: datetime) -> Client:
    """The same client, who had pressed "later" and is to be reminded at that very moment."""
    day = Day(local_day(moment, client.zone), f"o{client.serial}", again_at=moment)
    return replace(client, day=day, serial=client.serial + 1)


def resting(client: Client, rules: Rules, since: datetime) -> Client:
    """The same client in a session, in the first rest, which began at `since`."""
    return timing(client, rules, Phase.REST, since)


def timing(client: Client, rules: Rules, phase: Phase, since: datetime) -> Client:
    """The same client in a session, where a clock of that phase runs for the first time; it began at `since`."""
    tried = _until(client, rules, phase, since).session
    assert tried is not None and tried.clock_began is not None
    return _until(client, rules, phase, since - (tried.clock_began - since))


def _until(client: Client, rules: Rules, phase: Phase, begins: datetime) -> Client:
    """Practised from `begins` on by the rules of the core, all answered and arrived at once."""
    at = begins
    started: tuple[Event, ...] = (
        Controlled(at, client.id, Control.MORE),
        Pressed(at, client.id, Press(client.id, "menu", "more", "practise")),
    )
    for event in started:
        client = clients.step(client, event, rules).client
    while True:
        session = client.session
        assert session is not None, f"the session is over before its first {phase}"
        step = session.current
        if isinstance(step, Timed) and session.clock_began is not None:
            if step.phase is phase:
                return client
            at = clients.wake_at(client, rules) or at
        client = clients.step(client, _what_follows(session, at), rules).client


def _what_follows(session: Session, at: datetime) -> Event:
    step = session.current
    if isinstance(step, Ask | Counted | Gate):
        choices = [choice.id for choice in choices_at(session, step)]
        choice = next((wish for wish in WISHES if wish in choices), choices[0])
        return Pressed(at, step.to, Press(session.client, session.id, str(session.turn), choice))
    if isinstance(step, Timed) and step.by_receipt and session.clock_began is None:
        return Arrived(at, f"{session.id}.{session.turn}")
    return Woke(at)


async def write(database: Path, homes: Iterable[Client], rules: Rules) -> None:
    """Make the database, with these clients, their phones and their therapists in it."""
    store = await Store.open(database, active=False)
    try:
        crowd = list(homes)
        for first in range(0, len(crowd), BATCH):
            async with store.writing() as tx:
                for person in _persons(crowd[first : first + BATCH]):
                    if await tx.person(person.id) is None:
                        await tx.add_person(person, None, PERSON_WAKE_CLASS)
                for client in crowd[first : first + BATCH]:
                    await add_client(tx, client, rules, client.looked_at)
    finally:
        await store.close()


def _persons(crowd: list[Client]) -> Iterator[Person]:
    for client in crowd:
        number = int(client.id[1:])
        yield Person(client.id, Part.CLIENT, client.name, client.zone, (client.id,), user_id=user_of(number))
        first = number // CLIENTS_OF_ONE * CLIENTS_OF_ONE
        own = tuple(f"c{one}" for one in range(first, first + CLIENTS_OF_ONE))
        therapist = client.people.therapist
        yield Person(therapist, Part.THERAPIST, "Tess", client.zone, own, user_id=FIRST_THERAPIST + first)


def phones(server: RehearsalServer, homes: int) -> dict[str, Phone]:
    """The phones of so many clients, and of their therapists, all in the chat already; by person."""
    known = {f"c{number}": server.add_phone(user_of(number), f"Client {number}") for number in range(homes)}
    for first in range(0, homes, CLIENTS_OF_ONE):
        known[f"t{first // CLIENTS_OF_ONE}"] = server.add_phone(FIRST_THERAPIST + first, "Tess")
    for phone in known.values():
        phone.start()
    server.updates.forget_all()
    return known
