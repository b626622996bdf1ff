"""How messages lie in the table `outbox`: the columns of an `OutboxRow`, and back."""

from typing import Any

from sqlalchemy import Row

from companion.core.effects import Put, Subject, Urgency
from companion.store.records import Records
from companion.store.rows import OutboxRow, OutboxState


def outbox_columns(row: OutboxRow, records: Records) -> dict[str, Any]:
    """The columns of a message that is written down; the id is the database's to give."""
    return {
        "aggregate": row.subject.aggregate,
        "subject_id": row.subject.id,
        "client_id": row.client_id,
        "person_id": row.person_id,
        "urgency": int(row.urgency),
        "topic": row.topic,
        "card": row.card,
        "put": row.put.value,
        "text": row.text,
        "buttons": records.dump(row.buttons),
        "fixed_row": records.dump(row.fixed_row),
        "silent": row.silent,
        "not_after": row.not_after,
        "tag": row.tag,
        "clears": row.clears,
        "photo": row.photo,
        "state": row.state.value,
        "attempts": row.attempts,
        "try_after": row.try_after,
        "created_at": row.created_at,
        "sent_at": row.sent_at,
        "message_id": row.message_id,
        "copy_of": row.copy_of,
        "copy_from": row.copy_from,
        "secret": row.secret,
        "media": records.dump(row.media) if row.media is not None else None,
        "media_key": row.media_key,
    }


def outbox_row(found: Row[Any], records: Records) -> OutboxRow:
    """The message of a row of the table."""
    what = f"message {found.id} of the outbox"
    return OutboxRow(
        id=found.id,
        subject=Subject(found.aggregate, found.subject_id),
        client_id=found.client_id,
        person_id=found.person_id,
        urgency=Urgency(found.urgency),
        topic=found.topic,
        card=found.card,
        put=Put(found.put),
        text=found.text,
        buttons=records.buttons(found.buttons, what),
        fixed_row=records.labels(found.fixed_row, what),
        silent=found.silent,
        not_after=found.not_after,
        tag=found.tag,
        clears=found.clears,
        photo=found.photo,
        state=OutboxState(found.state),
        attempts=found.attempts,
        try_after=found.try_after,
        created_at=found.created_at,
        sent_at=found.sent_at,
        message_id=found.message_id,
        copy_of=found.copy_of,
        copy_from=found.copy_from,
        secret=found.secret,
        media=records.media(found.media, what) if found.media is not None else None,
        media_key=found.media_key,
    )
