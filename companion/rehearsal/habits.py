"""The people of a scenario: each sees only what came to their own phone, and taps only what is on it then."""

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from fnmatch import fnmatchcase

from companion.errors import CompanionError
from companion.rehearsal import invented
from companion.rehearsal.scenario import Act, Copies, Counts, Habits, Ignores, Rule, Sends, Taps, Types
from companion.rehearsal.seen_and_heard import look_at
from companion.rehearsal.server import Entry, NotOnThePhone, Phone, PhoneMessage

LINK = re.compile(r"https://t\.me/\w+\?start=([A-Za-z0-9_-]+)")
"""A one-time start link, as a person sees it."""

TONES = re.compile(r"(\d+)[a-z ]* tones? to count")
"""How many tones are in a voice note, as its description says it."""

Buttons = tuple[str, ...]
"""What the buttons under a message send, in order; two questions never send the same."""


class ScenarioFailed(CompanionError):
    """A scenario did not come to pass as written."""


@dataclass(frozen=True, slots=True)
class Intention:
    """What `person` is about to do at `at`, because of what they saw: message `message_id`, with these buttons."""

    person: str
    at: datetime
    rule: Rule
    label: str | None
    message_id: int
    buttons: Buttons
    words: str


def shows(entry: Entry, fragments: tuple[str, ...]) -> bool:
    """Whether every fragment is in the words, or is what a button says."""
    labels = {label for row in entry.buttons for label in row}
    return all(fragment in entry.text or fragment in labels for fragment in fragments)


@dataclass(slots=True)
class Actor:
    """A person with their phone. `beside` is the phone of the client they stand beside, for a carer."""

    name: str
    phone: Phone
    habits: Habits
    beside: Phone | None
    local_day: Callable[[datetime], date]
    mind: str = ""
    _followed: set[Rule] = field(default_factory=set)
    _met: dict[int, tuple[Rule | None, Buttons]] = field(default_factory=dict)
    _words: dict[int, str] = field(default_factory=dict)

    def unfollowed(self) -> list[Rule]:
        """The rules that had to be followed and were not."""
        return [rule for rule in self.habits.rules if rule.own and rule not in self._followed]

    def sees(self, entry: Entry) -> Intention | None:
        """Look at what the phone shows as of `entry`; what is to be done about it, None: nothing, or nothing new.

        Raises ScenarioFailed if a rule fits and what it taps is not on the phone.
        """
        message_id = entry.message_id
        message = next((m for m in self.phone.messages if m.message_id == message_id), None)
        if message is None or message_id is None:
            return None
        buttons = _buttons(message)
        if not buttons and entry.text == self._words.get(message_id):
            # Only the buttons went: there is nothing new to read.
            return None
        rule = self._rule(entry)
        before = self._met.get(message_id)
        self._met[message_id], self._words[message_id] = (rule, buttons), entry.text
        if rule is None or isinstance(rule.act, Ignores):
            if rule is not None:
                self._followed.add(rule)
            return None
        # A running clock changes the words every few seconds; to its reader it is still the same question.
        if before is not None and before == (rule, buttons):
            return None
        self._followed.add(rule)
        label = self._label(rule.act, message, rule.where)
        listened = timedelta(seconds=look_at(entry.file).seconds) if entry.kind == "voice" and entry.file else timedelta()
        return Intention(self.name, entry.at + listened + rule.after, rule, label, message_id, buttons, entry.text)

    def does(self, intention: Intention) -> bool:
        """Do it; False if what was seen is there no longer, so that nobody would do it any more."""
        rule, label = intention.rule, intention.label
        if label is None:
            assert isinstance(rule.act, (Types, Sends))
            self._says(rule.act)
        elif self._in_fixed_row(label) and label not in self._labels(intention.message_id):
            self._tap_fixed(label)
        elif self._buttons_now(intention.message_id) != intention.buttons:
            self._followed.discard(rule)
            return False
        else:
            self._tap(label, intention.message_id)
        if rule.keeps:
            self.mind = intention.words
        return True

    def acts(self, act: Taps | Types | Sends, where: str) -> None:
        """Do something of one's own accord. Raises ScenarioFailed if it is not on the phone."""
        try:
            if not isinstance(act, Taps):
                self._says(act)
                return
            self.phone.press(act.label)
            if self.habits.twice:
                self.phone.press(act.label)
        except NotOnThePhone as gone:
            raise ScenarioFailed(f"{where}: {gone}") from None

    def link(self, sees: tuple[str, ...], where: str) -> str:
        """What the start link carries that this phone shows in its newest message with all of `sees`. Raises ScenarioFailed."""
        for message in reversed(self.phone.messages):
            found = LINK.search(message.words)
            if found is not None and all(part in message.words for part in sees):
                return found[1]
        raise ScenarioFailed(f"{where}: {self.name}'s phone shows no start link beside {sees}")

    def _rule(self, entry: Entry) -> Rule | None:
        day = self.local_day(entry.at)
        for rule in self.habits.rules:
            if rule.once and rule in self._followed:
                continue
            first, last = rule.days
            if first <= day <= last and shows(entry, rule.sees) and all(part in self.mind for part in rule.in_mind):
                return rule
        return None

    def _label(self, act: Act, message: PhoneMessage, where: str) -> str | None:
        if isinstance(act, (Types, Sends)):
            return None
        labels = [label for row in message.labels for label in row]
        if isinstance(act, Copies):
            return self._number([label for label in labels if label.isdigit()], act.wrong, where)
        if isinstance(act, Counts):
            return self._tones([label for label in labels if label[0].isdigit()], act.wrong, where)
        assert isinstance(act, Taps)
        named = [label for label in labels if fnmatchcase(label, act.label)]
        if len(named) == 1 or self._in_fixed_row(act.label):
            return named[0] if named else act.label
        what = f"nothing says {act.label!r} under {message.words!r}. {self.phone.what_is_on_it()}"
        raise ScenarioFailed(f"{where}: {self.name}: {what}")

    def _number(self, offered: list[str], wrong: bool, where: str) -> str:
        """The number that stands on the phone beside, or one that does not."""
        for message in reversed(self.beside.messages if self.beside is not None else []):
            shown = set(message.words.split()) & set(offered)
            if shown:
                return next(number for number in offered if (number in shown) != wrong)
        raise ScenarioFailed(f"{where}: {self.name}: none of the numbers {offered} stands on the phone beside")

    def _tones(self, offered: list[str], wrong: bool, where: str) -> str:
        """How many tones are in the newest voice note, or another number of those offered."""
        notes = [message.file for message in self.phone.messages if message.kind == "voice" and message.file]
        heard = TONES.search(look_at(notes[-1]).description) if notes else None
        right = [label for label in offered if heard is not None and label.split()[0] == heard[1]]
        if not right:
            raise ScenarioFailed(f"{where}: {self.name}: none of {offered} is how many tones the newest voice note has")
        return next(label for label in offered if (label in right) != wrong)

    def _says(self, act: Types | Sends) -> None:
        if isinstance(act, Types):
            self.phone.type(act.text)
        elif act.form == "voice":
            self.phone.send_voice(invented.voice_note(act.of, act.seconds), act.seconds)
        elif act.form == "photo":
            self.phone.send_photo(invented.picture(act.of))
        else:
            self.phone.send_video(invented.clip(act.of), act.seconds)

    def _tap(self, label: str, message_id: int) -> None:
        self.phone.press(label, message_id)
        if self.habits.twice:
            self.phone.press(label, message_id)

    def _tap_fixed(self, label: str) -> None:
        self.phone.press_fixed(label)
        if self.habits.twice:
            self.phone.press_fixed(label)

    def _in_fixed_row(self, label: str) -> bool:
        return any(label in row for row in self.phone.fixed_row)

    def _labels(self, message_id: int) -> list[str]:
        return [label for m in self.phone.messages if m.message_id == message_id for row in m.labels for label in row]

    def _buttons_now(self, message_id: int) -> Buttons:
        return next((_buttons(m) for m in self.phone.messages if m.message_id == message_id), ())


def _buttons(message: PhoneMessage) -> Buttons:
    return tuple(button.data or button.label for row in message.buttons for button in row)
