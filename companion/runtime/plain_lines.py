"""What the runtime says by itself, in one plain line: to strangers, about links, and when something went wrong."""

import logging
from datetime import datetime, timedelta

from companion.core.effects import Subject, Urgency, Words, words
from companion.core.events import Control, Controlled, Event, Typed
from companion.core.person import Person
from companion.core.programme import Rules
from companion.runtime.clock import Clock
from companion.runtime.mishap import told
from companion.runtime.transport import Renderer, ReplyText
from companion.store import OutboxRow

log = logging.getLogger(__name__)

STRANGERS = 500
"""So many strangers are remembered as told."""

AN_HOUR = timedelta(hours=1)
LANGUAGE = "en"
"""What strangers are spoken to in."""


class PlainLines:
    """Words of the runtime's own. Where content has none, the log says so and nothing is said: no event fails by it."""

    def __init__(self, rules: Rules, renderer: Renderer, clock: Clock) -> None:
        self._rules = rules
        self._renderer = renderer
        self._clock = clock
        self._told: dict[tuple[int, str], datetime] = {}

    def fault(self) -> Words:
        """Something went wrong here; what to do in an emergency."""
        return words("fault", number=self._rules.emergency_number)

    def reply(self, line: Words | None, person: Person | None) -> ReplyText | None:
        """The answer to a press."""
        text = self._text(line, person.language if person is not None else LANGUAGE) if line is not None else None
        return ReplyText(text) if text is not None else None

    def for_stranger(self, user_id: int, line: Words) -> str | None:
        """A line for somebody who is nobody here; None if they were told the same within the last hour."""
        now, name = self._clock.now(), (user_id, line.key)
        last = self._told.pop(name, None)
        if last is not None and now - last < AN_HOUR:
            self._told[name] = last
            return None
        while len(self._told) >= STRANGERS:
            self._told.pop(next(iter(self._told)))
        self._told[name] = now
        return self._text(line, LANGUAGE)

    def apology(self, subject: Subject, event: Event, person: Person | None) -> OutboxRow | None:
        """For somebody who typed or pressed a control that could not be handled. A cry for help is answered first."""
        if person is None or not isinstance(event, Controlled | Typed):
            return None
        text = self._text(self.fault(), person.language)
        if text is None:
            return None
        for_help = isinstance(event, Controlled) and event.control is Control.SOMETHING_WRONG
        return OutboxRow(
            subject=subject,
            person_id=person.id,
            created_at=self._clock.now(),
            urgency=Urgency.ALERT if for_help else Urgency.ANSWER,
            topic="fault",
            text=text,
        )

    def _text(self, line: Words, language: str) -> str | None:
        try:
            return self._renderer.text(line, language)
        except Exception as error:
            log.error("no words for %s in %s: %s", line.key, language, told(error))
            return None
