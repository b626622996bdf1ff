"""The people of a scenario: they see what came, and tap what is there."""

from collections.abc import AsyncIterator
from datetime import date, datetime, timedelta
from json import dumps
from typing import Literal

import httpx
import pytest

from companion.rehearsal import invented
from companion.rehearsal.habits import Actor, Intention, ScenarioFailed, shows
from companion.rehearsal.scenario import ALL_DAYS, Act, Copies, Counts, Habits, Ignores, Rule, Sends, Taps, Types
from companion.rehearsal.seen_and_heard import look_at
from companion.rehearsal.server import Entry, Phone, RehearsalServer
from tests.rehearsal.server.hands import START, Bot, HandClock, buttons, keyboard

OLGA, CARL = 1001, 1002


def rule(sees: str, act: Act, **how: object) -> Rule:
    given: dict[str, object] = {"once": False, "days": ALL_DAYS, "in_mind": (), "keeps": False, "own": True}
    return Rule(f"line of {sees}", (sees,), act, timedelta(seconds=5), **(given | how))  # type: ignore[arg-type]


class Scene:
    """Olga and Carl with their phones, and a bot that writes to them."""

    def __init__(self, bot: Bot) -> None:
        self.bot = bot
        self.phones: dict[int, Phone] = {}
        for user, name in ((OLGA, "Olga"), (CARL, "Carl")):
            self.phones[user] = bot.server.add_phone(user, name)
            self.phones[user].start()

    def actor(self, *rules: Rule, user: int = OLGA, twice: bool = False) -> Actor:
        beside = self.phones[OLGA] if user == CARL else None
        return Actor("somebody", self.phones[user], Habits(rules, twice), beside, datetime.date)

    async def says(self, text: str, *labels: str, user: int = OLGA) -> Entry:
        markup = {"reply_markup": buttons(*labels)} if labels else {}
        await self.bot.do("sendMessage", chat_id=user, text=text, **markup)
        return self.bot.server.entries[-1]

    async def plays(self, says: str, seconds: int, *labels: str) -> Entry:
        """A voice note with buttons under it."""
        files = {"voice": invented.voice_note(says, seconds)}
        await self.bot.upload("sendVoice", files, chat_id=OLGA, caption="Listen.", reply_markup=dumps(buttons(*labels)))
        return self.bot.server.entries[-1]

    async def changes(self, entry: Entry, text: str, *labels: str) -> Entry:
        markup = {"reply_markup": buttons(*labels)} if labels else {}
        await self.bot.do("editMessageText", chat_id=entry.user_id, message_id=entry.message_id, text=text, **markup)
        return self.bot.server.entries[-1]

    def done(self, user: int = OLGA) -> list[str]:
        """What a person pressed and typed after start."""
        return [entry.text for entry in self.bot.server.entries if entry.way == "in" and entry.user_id == user][1:]


@pytest.fixture
async def scene() -> AsyncIterator[Scene]:
    server = RehearsalServer(now=HandClock())
    await server.start()
    async with httpx.AsyncClient() as http:
        yield Scene(Bot(server, http))
    await server.stop()


async def test_a_person_acts_so_many_seconds_after_they_saw_it(scene: Scene) -> None:
    actor = scene.actor(rule("Ready", Taps("Ready")))
    intention = actor.sees(await scene.says("Feet together.", "Ready", "Easier"))
    assert intention is not None and intention.at == START + timedelta(seconds=5)
    assert scene.done() == [], "seeing is not doing"
    assert actor.does(intention)
    assert scene.done() == ["Ready"]


async def test_the_first_rule_that_fits_is_followed(scene: Scene) -> None:
    actor = scene.actor(rule("Nothing of that", Taps("Easier")), rule("Feet", Taps("Easier")), rule("Ready", Taps("Ready")))
    intention = actor.sees(await scene.says("Feet together.", "Ready", "Easier"))
    assert intention is not None and intention.label == "Easier"


async def test_what_a_rule_taps_must_be_on_the_phone(scene: Scene) -> None:
    actor = scene.actor(rule("Feet", Taps("Harder")))
    entry = await scene.says("Feet together.", "Ready", "Easier")
    with pytest.raises(ScenarioFailed, match=r"line of Feet: somebody: nothing says 'Harder'.*Ready / Easier"):
        actor.sees(entry)


async def test_what_somebody_does_of_their_own_accord_must_be_on_the_phone(scene: Scene) -> None:
    actor = scene.actor()
    await scene.says("Feet together.", "Ready")
    with pytest.raises(ScenarioFailed, match=r"happens: Olga: nothing says 'Enough'.*On the phone now: \d+: Ready"):
        actor.acts(Taps("Enough"), "happens")


async def test_a_label_may_be_named_by_its_beginning(scene: Scene) -> None:
    actor = scene.actor(rule("How", Taps("Whole*")))
    intention = actor.sees(await scene.says("How did it go?", "Whole 60 s", "Not quite"))
    assert intention is not None and intention.label == "Whole 60 s"


async def test_nobody_presses_what_was_there_before(scene: Scene) -> None:
    actor = scene.actor(rule("Ready", Taps("Ready")))
    entry = await scene.says("Feet together.", "Ready")
    intention = actor.sees(entry)
    assert intention is not None
    await scene.changes(entry, "Stop now.", "Other")
    assert not actor.does(intention)
    assert scene.done() == []
    assert actor.unfollowed() == list(actor.habits.rules), "what was not done counts as not followed"


async def test_a_running_clock_is_one_and_the_same_question(scene: Scene) -> None:
    actor = scene.actor(rule("seconds", Taps("Step")))
    entry = await scene.says("60 seconds", "Step")
    first = actor.sees(entry)
    second = actor.sees(await scene.changes(entry, "55 seconds", "Step"))
    assert first is not None and second is None
    assert actor.does(first), "the words changed, the button did not"


async def test_the_next_question_on_the_same_card_is_a_new_one(scene: Scene) -> None:
    actor = scene.actor(rule("seconds", Taps("*")))
    entry = await scene.says("60 seconds", "One")
    assert actor.sees(entry) is not None
    assert actor.sees(await scene.changes(entry, "50 seconds", "Two")) is not None


async def test_buttons_taken_off_are_nothing_new_to_read(scene: Scene) -> None:
    actor = scene.actor(rule("Feet", Types("well?")))
    entry = await scene.says("Feet together.", "Ready")
    assert actor.sees(entry) is not None
    await scene.bot.do("editMessageReplyMarkup", chat_id=OLGA, message_id=entry.message_id)
    assert actor.sees(scene.bot.server.entries[-1]) is None


async def test_a_rule_for_once_is_followed_once(scene: Scene) -> None:
    actor = scene.actor(rule("Ready", Taps("Ready"), once=True))
    assert actor.sees(await scene.says("One", "Ready")) is not None
    assert actor.sees(await scene.says("Two", "Ready")) is None


async def test_a_rule_holds_on_its_days_only(scene: Scene) -> None:
    today, tomorrow = START.date(), START.date() + timedelta(days=1)
    for days, followed in (((today, today), True), ((tomorrow, date.max), False), ((date.min, today), True)):
        actor = scene.actor(rule("Ready", Taps("Ready"), days=days))
        assert (actor.sees(await scene.says("One", "Ready")) is not None) == followed


async def test_a_person_keeps_in_mind_what_they_answered(scene: Scene) -> None:
    actor = scene.actor(rule("How", Taps("Fine"), in_mind=("Heel",)), rule("Ready", Taps("Ready"), keeps=True))
    assert actor.sees(await scene.says("How was it?", "Fine")) is None
    ready = actor.sees(await scene.says("Heel to toe", "Ready"))
    assert ready is not None and actor.does(ready)
    assert actor.sees(await scene.says("How was it?", "Fine")) is not None


async def test_who_ignores_it_does_nothing_and_no_later_rule_does(scene: Scene) -> None:
    actor = scene.actor(rule("Ready", Ignores()), rule("Ready", Taps("Ready")))
    assert actor.sees(await scene.says("One", "Ready")) is None
    assert [one.act for one in actor.unfollowed()] == [Taps("Ready")]


async def test_a_carer_copies_the_number_from_the_phone_beside(scene: Scene) -> None:
    await scene.says("Show this number: 47")
    await scene.says("Something later")
    entry = await scene.says("Pick it.", "16", "47", "88", "Not there", user=CARL)
    right, wrong = (scene.actor(rule("Pick", Copies(wrong)), user=CARL).sees(entry) for wrong in (False, True))
    assert right is not None and right.label == "47"
    assert wrong is not None and wrong.label == "16"


async def test_a_number_that_is_nowhere_can_not_be_copied(scene: Scene) -> None:
    await scene.says("Show this number: 31")
    entry = await scene.says("Pick it.", "16", "47", "88", user=CARL)
    with pytest.raises(ScenarioFailed, match="none of the numbers"):
        scene.actor(rule("Pick", Copies(wrong=False)), user=CARL).sees(entry)


async def test_a_voice_note_is_listened_to_before_its_answer(scene: Scene) -> None:
    actor = scene.actor(rule("Listen", Taps("Clean")))
    intention = actor.sees(await scene.plays("60 seconds, a tone each quarter", 92, "Clean", "Not quite"))
    assert intention is not None and intention.at == START + timedelta(seconds=92 + 5)
    assert actor.does(intention)
    assert scene.done() == ["Clean"]


async def test_a_person_counts_the_tones_of_the_newest_voice_note(scene: Scene) -> None:
    await scene.plays("Then 2 short tones to count.", 30)
    await scene.plays("Stand where you practise. 10 seconds. Then 3 short tones to count.", 30)
    entry = await scene.says("How many tones?", "2 tones", "3 tones", "4 tones", "I heard nothing")
    right, wrong = (scene.actor(rule("How many", Counts(wrong))).sees(entry) for wrong in (False, True))
    assert right is not None and right.label == "3 tones"
    assert wrong is not None and wrong.label == "2 tones"


async def test_tones_that_nobody_can_have_heard_are_not_counted(scene: Scene) -> None:
    await scene.plays("Then 5 short tones to count.", 30)
    entry = await scene.says("How many tones?", "2", "3", "4")
    with pytest.raises(ScenarioFailed, match="how many tones"):
        scene.actor(rule("How many", Counts(wrong=False))).sees(entry)


async def test_a_person_answers_with_a_voice_note_a_picture_or_a_clip_of_their_own(scene: Scene) -> None:
    forms: tuple[Literal["voice", "photo", "video"], ...] = ("voice", "photo", "video")
    for form in forms:
        actor = scene.actor(rule("Send", Sends(form, of="Long neck", seconds=2)))
        intention = actor.sees(await scene.says("Send it now."))
        assert intention is not None and actor.does(intention)
    scene.actor().acts(Sends("voice"), "happens")
    sent = [entry for entry in scene.bot.server.entries if entry.way == "in" and entry.file]
    assert [entry.kind for entry in sent] == ["voice", "photo", "video", "voice"]
    assert [look_at(entry.file or b"").told for entry in sent] == [
        "voice note 0:02: Long neck",
        "picture: Long neck",
        "clip: Long neck",
        "voice note 0:03",
    ]


async def test_the_fixed_row_can_be_tapped_at_any_time(scene: Scene) -> None:
    await scene.bot.do("sendMessage", chat_id=OLGA, text="Hello", reply_markup=keyboard("Stop", "More"))
    actor = scene.actor(rule("seconds", Taps("Stop")))
    entry = await scene.says("60 seconds", "Step")
    intention = actor.sees(entry)
    await scene.changes(entry, "Time.")
    assert intention is not None and actor.does(intention), "the row stays when the message changes"
    assert scene.done() == ["Stop"]


async def test_who_taps_twice_taps_everything_twice(scene: Scene) -> None:
    await scene.bot.do("sendMessage", chat_id=OLGA, text="Hello", reply_markup=keyboard("Stop"))
    actor = scene.actor(rule("One", Taps("Ready")), twice=True)
    intention: Intention | None = actor.sees(await scene.says("One", "Ready"))
    assert intention is not None and actor.does(intention)
    actor.acts(Taps("Stop"), "happens")
    assert scene.done() == ["Ready", "Ready", "Stop", "Stop"]


async def test_all_fragments_must_show(scene: Scene) -> None:
    entry = await scene.says("Feet together. Hand on.", "Ready")
    assert shows(entry, ("together", "Hand", "Ready"))
    assert not shows(entry, ("together", "Read"))
