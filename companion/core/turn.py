"""One event in the life of a client: the state as it changes, and the effects so far. Lives only inside `client.step`."""

from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any

from companion.core.care import Client, Past
from companion.core.cursor import Session
from companion.core.effects import Button, Effect, PersonId, Put, Record, Reply, Report, Say, Sheet, Urgency, Words, words
from companion.core.events import Press
from companion.core.observations import Ending, Observation, SessionEnded
from companion.core.programme import Rules
from companion.core.schedule import local_day

KEPT_OUTCOMES = 20


class Turn:
    """The state and the effects of one step."""

    def __init__(self, client: Client, at: datetime, seed: int, rules: Rules) -> None:
        self.client = client
        self.at = at
        self.seed = seed
        self.rules = rules
        self.effects: list[Effect] = []

    @property
    def today(self) -> date:
        """The client's local date."""
        return local_day(self.at, self.client.zone)

    def set(self, **changes: Any) -> None:
        """Change the state."""
        self.client = replace(self.client, **changes)

    def number(self, letter: str) -> str:
        """A new name for a session (s), an offer (o) or a flag (f) of this client."""
        self.set(serial=self.client.serial + 1)
        return f"{letter}{self.client.serial}"

    def say(self, to: PersonId | None, *lines: Words, **how: Any) -> None:
        """Say lines to a person; nothing if there is no such person."""
        if to is not None:
            self.effects.append(Say(to, lines, **how))

    def reply(self, line: Words | None = None) -> None:
        """Answer the press that is being handled."""
        self.effects.append(Reply(line))

    def record(self, observation: Observation) -> None:
        """Remember an observation."""
        self.effects.append(Record(observation))

    def button(self, label: str, scope: str, step: str, choice: str) -> Button:
        """A button of this client."""
        return Button(words(label), Press(self.client.id, scope, step, choice))

    def end_session(self, ending: Ending) -> Session:
        """Write down that the session under way is over, and count its bouts for today. There must be one."""
        session = self.client.session
        assert session is not None
        # a session belongs to the local day on which it began, even if it ends after midnight
        day = local_day(session.began, self.client.zone)
        done = self.client.done if self.client.done_day == day else ()
        planned = session.script.planned
        self.record(
            SessionEnded(
                at=self.at,
                session=session.id,
                day=day,
                began=session.began,
                ending=ending,
                planned=planned,
                done=len(session.done),
                carer=session.carer,
                effort=session.effort,
            )
        )
        if session.done:  # there is something to assess; what comes of it is in `early_notice.py`
            self.effects.append(Report(self.client.people.client, day, day, Sheet.ASSESSED))
        due = self.client.plan.practice.sessions(day) if self.client.plan is not None else 0
        past = Past(day, ending, len(session.done), planned, session.practised_s, due)
        practised = bool(session.done)
        self.set(
            session=None,
            done_day=day,
            done=(*done, *session.done),
            past=self._kept(past),
            sessions=self.client.sessions + practised,
            last_session_at=self.at if practised else self.client.last_session_at,
            flagged_since=False if practised else self.client.flagged_since,
            confident_at=self.today if session.confidence else self.client.confident_at,
        )
        asked = self.client.day
        if asked is not None:
            self.set(day=replace(asked, again_at=None))
        return session

    def _kept(self, newest: Past) -> tuple[Past, ...]:
        """The last sessions, and all of the days that adherence is counted over."""
        past, since = (*self.client.past, newest), newest.day - timedelta(days=self.rules.listing.window_days)
        return tuple(one for place, one in enumerate(reversed(past)) if place < KEPT_OUTCOMES or one.day > since)[::-1]


ALERT: dict[str, Any] = {"urgency": Urgency.ALERT, "topic": "alert"}
ANSWER: dict[str, Any] = {"urgency": Urgency.ANSWER, "topic": "talk"}
CLOSING: dict[str, Any] = {"card": "session", "put": Put.NEW, "topic": "closing"}
