"""A client's home as a driver of the core: phones that show what was said, presses of what stands there, time that passes.

Receipts come back at once. Every event goes through the laws of `laws.py`, so each test of the core checks them all.
"""

from copy import copy
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from typing import TypeVar

from companion.core import client as care
from companion.core.care import Client, Consent, Hold
from companion.core.client import Decision
from companion.core.cursor import Session
from companion.core.effects import Button, ClearButtons, Effect, Record, Reply, Report, Say, Words
from companion.core.events import Arrived, Control, Controlled, Event, Lost, Press, Pressed, Typed, Why, Woke
from companion.core.media import SoundCheck
from companion.core.observations import Bout, Observation, SessionEnded
from companion.core.programme import Plan, Rules
from companion.core.showing import sounding
from companion.core.steps import Ask, Counted, Gate, Sounded, Timed
from tests.core.laws import Laws
from tests.core.practice import CARER, CLIENT, MONDAY, NINE, RULES, THERAPIST, plan, planned
from tests.core.practice import client as made

Seen = TypeVar("Seen")


@dataclass
class Phone:
    """What one phone shows: cards by name, and everything that was said to it."""

    cards: dict[str, Say] = field(default_factory=dict)
    said: list[Say] = field(default_factory=list)

    def take(self, say: Say) -> None:
        self.said.append(say)
        if say.card is not None:
            self.cards.pop(say.card, None)
            self.cards[say.card] = say

    def clear(self, card: str) -> None:
        if card in self.cards:
            self.cards[card] = replace(self.cards[card], buttons=())

    def buttons(self) -> list[Button]:
        """What can be pressed, newest card first."""
        return [button for say in reversed(self.cards.values()) for button in say.buttons]

    def copy(self) -> "Phone":
        return Phone(dict(self.cards), list(self.said))


class Home:
    """One client's life under test. `receipts`: whether the platform takes a tagged message at once. `judged`: by the laws."""

    def __init__(self, client: Client, rules: Rules = RULES, now: datetime = MONDAY, judged: bool = True) -> None:
        self.client, self.rules, self.now = client, rules, now
        self.phones: dict[str, Phone] = {}
        self.records: list[Observation] = []
        self.replies: list[Words | None] = []
        self.reports: list[Report] = []
        self.ever: list[tuple[str, Press]] = []
        self.tags: list[str] = []
        self.last: tuple[Effect, ...] = ()
        self.receipts = True
        self.seed = 0
        self.laws = Laws(rules) if judged else None

    def copy(self) -> "Home":
        """The same life, to be led another way."""
        twin = copy(self)
        twin.phones = {who: phone.copy() for who, phone in self.phones.items()}
        twin.records, twin.replies, twin.reports = [*self.records], [*self.replies], [*self.reports]
        twin.ever, twin.tags, twin.laws = [*self.ever], [*self.tags], self.laws and self.laws.copy()
        return twin

    # --- what happens ---------------------------------------------------------------------------------------

    def do(self, event: Event) -> Decision:
        """Let an event happen; its effects reach the phones. `last` holds the effects, receipts' effects left out."""
        before, tags = self.client, len(self.tags)
        decision = care.step(before, event, self.rules)
        if self.laws is not None:
            self.laws.judge(before, event, decision)
        self.client = decision.client
        for effect in decision.effects:
            self._take(effect)
        if self.receipts:
            for tag in self.tags[tags:]:
                self.do(Arrived(self.now, tag))
        self.last = decision.effects
        return decision

    def _take(self, effect: Effect) -> None:
        match effect:
            case Say():
                self.phone(effect.to).take(effect)
                self.ever += [(effect.to, button.press) for button in effect.buttons]
                if effect.tag is not None:
                    self.tags.append(effect.tag)
            case ClearButtons():
                self.phone(effect.to).clear(effect.card)
            case Record():
                self.records.append(effect.observation)
            case Reply():
                self.replies.append(effect.words)
            case Report():
                self.reports.append(effect)

    def press(self, by: str, choice: str) -> Decision:
        """Press what stands on that phone now; fails if it does not."""
        there = [button.press for button in self.phone(by).buttons()]
        found = [press for press in there if press.choice == choice]
        assert found, f"{by} has no {choice!r}, but {[press.choice for press in there]}"
        return self.send(by, found[0])

    def send(self, by: str, press: Press) -> Decision:
        """A press, whether or not its button still stands anywhere."""
        self.seed += 7
        return self.do(Pressed(self.now, by, press, self.seed))

    def row(self, by: str, control: Control) -> Decision:
        """A press of the fixed row."""
        return self.do(Controlled(self.now, by, control, self.now))

    def write(self, by: str, text: str) -> Decision:
        """Words are typed."""
        return self.do(Typed(self.now, by, text))

    def lose(self, why: Why = Why.EXPIRED) -> Decision:
        """The newest tagged message is lost."""
        return self.do(Lost(self.now, self.tags[-1], why))

    # --- time -----------------------------------------------------------------------------------------------

    @property
    def next_wake(self) -> datetime | None:
        """When the client must be looked at next, if ever."""
        return care.wake_at(self.client, self.rules)

    @property
    def wake(self) -> datetime:
        """When the client must be looked at next."""
        moment = self.next_wake
        assert moment is not None, "nobody looks at this client any more"
        return moment

    def until(self, moment: datetime) -> None:
        """Time passes, each alarm on time."""
        while (wake := care.wake_at(self.client, self.rules)) is not None and wake <= moment:
            self.now = max(self.now, wake)
            self.do(Woke(self.now))
        self.now = max(self.now, moment)

    def wait(self, seconds: float) -> None:
        """Seconds pass, each alarm on time."""
        self.until(self.now + timedelta(seconds=seconds))

    def away(self, seconds: float) -> Decision:
        """The companion is away for so long, and then the alarm goes off once, late."""
        self.now += timedelta(seconds=seconds)
        return self.do(Woke(self.now))

    # --- what can be seen -----------------------------------------------------------------------------------

    def phone(self, who: str) -> Phone:
        return self.phones.setdefault(who, Phone())

    def keys(self, who: str) -> list[str]:
        """The keys of the words that the last event said to somebody."""
        return [line.key for say in self.last if isinstance(say, Say) and say.to == who for line in say.words]

    def heard(self, who: str) -> list[str]:
        """The keys of everything ever said to somebody."""
        return [line.key for say in self.phone(who).said for line in say.words]

    def all(self, kind: type[Seen]) -> list[Seen]:
        """The observations of one kind, in order."""
        return [record for record in self.records if isinstance(record, kind)]

    @property
    def bouts(self) -> list[Bout]:
        return self.all(Bout)

    @property
    def ended(self) -> list[SessionEnded]:
        return self.all(SessionEnded)

    @property
    def session(self) -> Session:
        """The session under way; fails if there is none."""
        assert self.client.session is not None, "no session runs"
        return self.client.session

    @property
    def over(self) -> bool:
        """Whether no session runs."""
        return self.client.session is None

    @property
    def hold(self) -> Hold:
        """The red flag that is open; fails if there is none."""
        assert self.client.hold is not None, "no red flag is open"
        return self.client.hold

    @property
    def held(self) -> bool:
        """Whether a red flag is open."""
        return self.client.hold is not None

    @property
    def at(self) -> str:
        """The id of the step that the session waits at; empty if none runs."""
        session = self.client.session
        step = session.current if session is not None else None
        return step.id if isinstance(step, Ask | Gate | Timed | Counted | Sounded) else ""

    # --- a session ------------------------------------------------------------------------------------------

    def start(self) -> "Home":
        """The reminder at nine, and Start."""
        self.until(NINE)
        self.press(CLIENT, "start")
        return self

    def number(self) -> None:
        """The carer picks the number that the client's phone shows."""
        lines = self.phone(CLIENT).cards["session"].words
        shown = next(dict(line.params)["number"] for line in lines if line.key == "gate-client")
        self.press(CARER, f"n{shown}")

    def check(self) -> "Home":
        """The whole safety check, with nothing out of the ordinary."""
        while self.at.startswith("check"):
            self.press(CLIENT, "same")
        self.press(CLIENT, "ready")
        if self.at == "helper":
            self.go_on(("beside",))
        return self

    def go_on(self, prefer: tuple[str, ...] = ()) -> None:
        """What comes next happens: time passes, or the answer is given (the first of `prefer` that is there, or the first)."""
        step = self.session.current
        if isinstance(step, Timed):
            self.until(self.wake)
        elif isinstance(step, Gate):
            self.number()
        elif isinstance(step, Ask | Counted | Sounded):
            while sounding(self.session, self.now):  # nobody answers before it has been played
                self.wait(1)
            ids = [choice.id for choice in step.choices]
            if isinstance(step, Ask) and isinstance(step.media, SoundCheck):
                prefer = (*prefer, f"t{step.media.tones}")
            self.press(step.to, next((choice for choice in prefer if choice in ids), ids[0]))

    def reach(self, end: str, prefer: tuple[str, ...] = ()) -> "Home":
        """Go on until the session waits at a step whose id ends so."""
        for _ in range(500):
            if self.at.endswith(end):
                return self
            assert self.client.session is not None, f"the session ended before {end!r}"
            self.go_on(prefer)
        raise AssertionError(f"{end!r} was never reached; the session waits at {self.at!r}")

    def finish(self, prefer: tuple[str, ...] = ()) -> "Home":
        """Go on until the session is over."""
        for _ in range(500):
            if self.client.session is None:
                return self
            self.go_on(prefer)
        raise AssertionError(f"the session never ended; it waits at {self.at!r}")

    def lift(self, reason: str = "spoke") -> "Home":
        """The therapist lifts the stop."""
        self.press(THERAPIST, "lift")
        self.press(THERAPIST, reason)
        return self


def home(of: Plan | None, rules: Rules = RULES, **more: object) -> Home:
    """The home of a client with that plan, Monday at eight, who agreed to the words of these rules; the carer read them."""
    begun = {"consent": Consent(rules.consent.version, MONDAY), "briefed": ((CARER, rules.briefing.version),)}
    return Home(made(of, **(begun | more)), rules)


def holding() -> Home:
    """A client in a hold on the screen's clock."""
    return home(plan(planned("press"), planned("together"))).start().check().reach(".hold")


def carer_holding() -> Home:
    """A client in a hold on the carer's clock, eyes closed."""
    return home(plan(planned("press"), planned("dark"), eyes_closed=True)).start().check().reach(".hold")
