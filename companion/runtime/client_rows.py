"""A client's row and their line on the therapists' lists, written together."""

import logging
from datetime import datetime

from companion.core import client as clients
from companion.core.care import Client, seeing
from companion.core.caseload import look
from companion.core.programme import Rules
from companion.runtime.mishap import told
from companion.store.transactions import Tx

log = logging.getLogger(__name__)


async def add_client(tx: Tx, client: Client, rules: Rules, at: datetime) -> None:
    """Write a new client down. `AlreadyThere` if the id is taken."""
    await tx.add_client(client, clients.wake_at(client, rules), int(clients.wake_class(client)))
    await _list(tx, client, rules, at)


async def save_client(tx: Tx, client: Client, wake_at: datetime | None, rules: Rules, at: datetime) -> None:
    """Write the client's new state, to be looked at again at `wake_at`. LookupError if there is no such client."""
    await tx.save_client(client, wake_at, int(clients.wake_class(client)))
    await _list(tx, client, rules, at)


async def _list(tx: Tx, client: Client, rules: Rules, at: datetime) -> None:
    try:
        line, seen_by = look(client, at, rules), seeing(client, at)
    except Exception as error:  # an alert must not fail because a list could not be made
        log.error("client %s keeps an old line on the lists: %s", client.id, told(error))
        return
    await tx.set_caseload(client, seen_by, line)
