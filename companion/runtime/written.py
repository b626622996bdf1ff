"""Effects written down: words rendered, rows put into the transaction that the event belongs to."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import assert_never

from companion.core.effects import (
    Button,
    ClearButtons,
    Digest,
    Effect,
    Enrol,
    HaveMade,
    Invite,
    LookUp,
    Pass,
    PassOn,
    PersonId,
    Record,
    Reply,
    Report,
    Say,
    Subject,
    TakeBack,
    Urgency,
    Words,
)
from companion.core.events import Found, Press
from companion.core.programme import Rules
from companion.runtime.clock import Clock
from companion.runtime.letting_in import enrol, invite
from companion.runtime.transport import Doors, Renderer
from companion.store import DigestRow, OutboxRow
from companion.store.transactions import Tx


@dataclass(slots=True)
class Written:
    """What an event left to do: messages to send, a chart to draw, media to make, somebody to tell, an answer to the press."""

    said: bool = False
    asked_report: bool = False
    wanted: bool = False
    passed: bool = False
    reply: Words | None = None


@dataclass(frozen=True, slots=True)
class Source:
    """Whose effects they are: the row that the event belongs to, the clients they are about, and when they are written.

    `on_wire` is the message that is being sent meanwhile.
    """

    subject: Subject
    clients: tuple[str, ...]
    at: datetime
    on_wire: OutboxRow | None

    @property
    def client(self) -> str | None:
        """The client whose own effects these are."""
        return self.subject.id if self.subject.aggregate == "client" else None


@dataclass(frozen=True, slots=True)
class Means:
    """What effects are written down with. `edition` names everything that pictures and sounds depend on."""

    renderer: Renderer
    doors: Doors
    clock: Clock
    rules: Rules
    edition: str = ""


async def write_down(tx: Tx, source: Source, effects: Sequence[Effect], means: Means) -> Written:
    """Write all effects of one event. Raises what rendering raises; then nothing of the event may stay."""
    written = Written()
    languages: dict[PersonId, str] = {}
    for effect in effects:
        match effect:
            case Say():
                language = await _language(tx, effect.to, languages)
                written.wanted |= await _say(tx, source, effect, means, language)
                written.said = True
            case ClearButtons():
                await tx.put_outbox(_clearing(source, effect))
                written.said = True
            case TakeBack():
                await _take_back(tx, source, effect)
            case Record():
                await tx.record(_only_client(source), effect.observation)
            case Report():
                await tx.request_report(_only_client(source), effect)
                written.asked_report = True
            case Digest():
                await tx.request_digest(await _digest(tx, source, effect, means.renderer, languages))
                written.asked_report = True
            case Pass():
                await tx.put_pass(effect.to, effect.event)
                written.passed = True
            case Reply():
                written.reply = effect.words or written.reply
            case Enrol():
                await enrol(tx, effect, means.rules, source.at)
            case Invite():
                await invite(tx, effect, source.subject, (means.renderer, means.doors, means.clock), source.at)
                written.said = True
            case LookUp():
                await _look_up(tx, source, effect)
                written.passed = True
            case PassOn():
                await tx.put_outbox(_copy(source, effect))
                written.said = True
            case HaveMade():
                language = await _language(tx, effect.to, languages)
                written.wanted |= await _have_made(tx, source, effect, means, language)
            case _:
                assert_never(effect)
    return written


async def _say(tx: Tx, source: Source, say: Say, means: Means, language: str) -> bool:
    """Write a message down; whether what goes with it has to be made."""
    row, new = _message(source, say, means.renderer, language), False
    if say.media is not None:
        key, new = await tx.want(say.media, language, means.edition, source.at)
        row = replace(row, media=say.media, media_key=key)
    await tx.put_outbox(row)
    return new


async def _have_made(tx: Tx, source: Source, ahead: HaveMade, means: Means, language: str) -> bool:
    """Ask for what will be needed; whether any of it has to be made."""
    return any([(await tx.want(media, language, means.edition, source.at, ahead=True))[1] for media in ahead.media])


async def _digest(tx: Tx, source: Source, effect: Digest, renderer: Renderer, languages: dict[PersonId, str]) -> DigestRow:
    if source.subject.aggregate != "person":
        raise LookupError("only a person's own row asks for a digest")
    person = source.subject.id
    language = await _language(tx, person, languages)
    text, buttons = render(effect.words, renderer, language), render_buttons(effect.buttons, renderer, language)
    return DigestRow(person, effect.first, effect.last, text, buttons)


async def _look_up(tx: Tx, source: Source, effect: LookUp) -> None:
    if source.subject.aggregate != "person":
        raise LookupError("only a person's own row looks a list up")
    if effect.what in ("digest", "others"):
        whole = await tx.whole_caseload(source.subject.id)
        await tx.put_pass(source.subject, Found(source.at, effect.what, 0, len(whole), whole))
        return
    look = tx.caseload if effect.what == "caseload" else tx.colleagues
    page = await look(source.subject.id, effect.first)
    await tx.put_pass(source.subject, Found(source.at, effect.what, effect.first, page.total, page.entries))


async def _take_back(tx: Tx, source: Source, effect: TakeBack) -> None:
    """A request on the wire can not be recalled, but it need not be tried again: it counts as lost until its receipt."""
    for client in source.clients:
        await tx.take_back(client, effect.topic, effect.to)
    row = source.on_wire
    if row is None or row.client_id not in source.clients or row.topic != effect.topic:
        return
    if effect.to is None or effect.to == row.person_id:
        await tx.set_lost(row.id)


async def _language(tx: Tx, person_id: PersonId, known: dict[PersonId, str]) -> str:
    if person_id not in known:
        person = await tx.person(person_id)
        if person is None:
            raise LookupError(f"no person {person_id}")
        known[person_id] = person.language
    return known[person_id]


def _only_client(source: Source) -> str:
    if source.client is None:
        raise LookupError("only a client's own row records observations and asks for charts")
    return source.client


def render(lines: Sequence[Words], renderer: Renderer, language: str) -> str:
    """Lines of words as one text, a line each."""
    return "\n".join(renderer.text(line, language) for line in lines)


def render_buttons(buttons: Sequence[Button], renderer: Renderer, language: str) -> tuple[tuple[str, Press], ...]:
    """Buttons as (label, what a press means)."""
    return tuple((renderer.text(button.label, language), button.press) for button in buttons)


def _message(source: Source, say: Say, renderer: Renderer, language: str) -> OutboxRow:
    return OutboxRow(
        subject=source.subject,
        person_id=say.to,
        client_id=source.client,
        created_at=source.at,
        urgency=say.urgency,
        topic=say.topic,
        text=render(say.words, renderer, language),
        buttons=render_buttons(say.buttons, renderer, language),
        fixed_row=tuple(renderer.text(label, language) for label in say.fixed_row),
        card=say.card,
        put=say.put,
        silent=say.silent,
        not_after=say.not_after,
        tag=say.tag,
    )


def _copy(source: Source, copied: PassOn) -> OutboxRow:
    return OutboxRow(
        subject=source.subject,
        person_id=copied.to,
        client_id=source.client,
        created_at=source.at,
        urgency=copied.urgency,
        topic=copied.topic,
        copy_of=copied.message_id,
        copy_from=copied.by,
    )


def _clearing(source: Source, clear: ClearButtons) -> OutboxRow:
    return OutboxRow(
        subject=source.subject,
        person_id=clear.to,
        client_id=source.client,
        created_at=source.at,
        urgency=Urgency.LIVE,
        topic=clear.topic,
        card=clear.card,
        clears=True,
    )
