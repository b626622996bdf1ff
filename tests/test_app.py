"""The whole, joined as it is for real: people are enrolled, join by their links, are reminded, stop, and come again."""

import asyncio
import os
import signal
from collections.abc import AsyncIterator
from datetime import timedelta
from pathlib import Path

import pytest

from companion.app import App, Setup, run
from companion.chat.wire import connect
from companion.core.observations import ConsentAnswer, ConsentNoted
from companion.errors import UsedWrong
from companion.settings import load
from companion.store import Store
from tests.crowd import says
from tests.playing import CONTENT, FILE, START, Play, playing, words


@pytest.fixture
async def play(tmp_path: Path) -> AsyncIterator[Play]:
    async with playing(tmp_path / "companion.sqlite3") as play:
        yield play


def test_the_operator_s_command_comes_from_the_settings(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COMPANION_TELEGRAM_TOKEN", "123456:" + "A" * 35)
    assert Setup.of(load(options={"emergency_number": "112", "alert_command": "/opt/tell 'the ward'"})).alert_command == (
        "/opt/tell",
        "the ward",
    )


async def test_everybody_gets_a_link_of_their_own_that_fits_a_start_link(play: Play) -> None:
    enrolled = await play.enrol()
    assert [invitation.person.id for invitation in enrolled.invitations] == ["ines", "rafe", "mara", "tomas"]
    payloads = [invitation.payload for invitation in enrolled.invitations]
    assert len(set(payloads)) == 4
    # up to 64 of A-Z a-z 0-9 _ and -: the platform's public manual, deep linking
    assert all(len(payload) <= 64 and payload.replace("-", "").replace("_", "").isalnum() for payload in payloads)


async def test_people_join_by_their_links_and_are_reminded(play: Play) -> None:
    enrolled = await play.enrol()
    async with play.running():
        await play.join(enrolled)
        assert "Hello Mara" in words(play.phone("mara"))
        assert play.phone("mara").fixed_row_stays
        assert any("Something is wrong" in row for row in play.phone("mara").fixed_row)
        await play.until(START + timedelta(hours=2, minutes=1))
        assert labels(play, "mara") == ["Start", "Later", "Not today"]


async def test_nobody_is_reminded_before_they_have_agreed(play: Play) -> None:
    enrolled = await play.enrol()
    async with play.running():
        for invitation in enrolled.invitations:
            await play.follow(invitation)
        await play.until(START + timedelta(hours=2, minutes=1))
        user = play.phone("mara").user_id
        said = [entry.text for entry in play.server.entries if entry.user_id == user and entry.kind == "text"]
        assert not any("Time to practise" in text for text in said)
        first_screen = says(CONTENT.library.without_number.consent.screens[0][0])
        assert sum(text.startswith(first_screen) for text in said) == 2, "asked again when practice was due"
        await play.answer_all("mara")
        assert labels(play, "mara") == ["Practise now"]


async def test_consent_and_briefing_are_kept_with_their_versions_and_an_open_one_waits_over_a_restart(play: Play) -> None:
    enrolled = await play.enrol()
    rules = CONTENT.library.without_number
    async with play.running():
        for invitation in enrolled.invitations:
            await play.follow(invitation)
        play.phone("mara").press("I understand. Go on")
        play.phone("tomas").press("Go on")
        await play.pass_by(10)
    async with play_store(play) as store, store.reading() as reading:
        client = await reading.client("mara")
    assert client is not None and client.consent is None and client.briefed == ()
    async with play.running():
        await play.answer_all("mara")
        await play.answer_all("tomas")
    async with play_store(play) as store, store.reading() as reading:
        client = await reading.client("mara")
    assert client is not None and client.consent is not None
    assert client.consent.version == rules.consent.version
    assert client.briefed == (("tomas", rules.briefing.version),)


async def test_something_is_wrong_brings_the_emergency_words_and_the_alert(play: Play) -> None:
    enrolled = await play.enrol()
    async with play.running():
        await play.join(enrolled)
        play.phone("mara").press_fixed("Something is wrong")
        await play.see(lambda: "112" in words(play.phone("mara")).rpartition("welcome")[2])
        before = len(play.phone("ines").messages)
        await play.pass_by(5)
        assert len(play.phone("ines").messages) >= before > 1


async def test_a_link_opens_one_door_once(play: Play) -> None:
    enrolled = await play.enrol()
    links = {invitation.person.id: invitation.payload for invitation in enrolled.invitations}
    async with play.running():
        play.phone("mara").start(links["mara"])
        await play.pass_by(5)
        stranger = play.phone("stranger")
        stranger.start(links["mara"])
        await play.see(lambda: "This link was used before." in words(stranger))
        stranger.start("A" * 22)
        await play.see(lambda: "I do not know this link." in words(stranger))
        async with play_store(play) as store, store.reading() as reading:
            assert await reading.person_by_user(stranger.user_id) is None


async def test_one_person_can_not_be_two(play: Play) -> None:
    """A link used by an account that is somebody else already is refused kindly, and stays good for its owner."""
    enrolled = await play.enrol()
    links = {invitation.person.id: invitation.payload for invitation in enrolled.invitations}
    async with play.running():
        play.phone("mara").start(links["mara"])
        await play.pass_by(5)
        play.phone("mara").start(links["ines"])
        await play.see(lambda: "This phone has joined as somebody else." in words(play.phone("mara")))
        play.phone("ines").start(links["ines"])
        await play.see(lambda: "Hello Ines" in words(play.phone("ines")))


async def test_a_link_that_is_too_old_opens_no_door(play: Play) -> None:
    enrolled = await play.enrol()
    links = {invitation.person.id: invitation.payload for invitation in enrolled.invitations}
    play.clock.move_to(START + timedelta(days=15))
    async with play.running():
        play.phone("mara").start(links["mara"])
        await play.see(lambda: "This link is too old." in words(play.phone("mara")))


async def test_enrolling_again_gives_new_links_to_those_who_have_not_joined(play: Play) -> None:
    first = await play.enrol()
    links = {invitation.person.id: invitation.payload for invitation in first.invitations}
    async with play.running():
        play.phone("mara").start(links["mara"])
        await play.pass_by(5)
    second = await play.enrol()
    assert second.already == ("mara",)
    assert [invitation.person.id for invitation in second.invitations] == ["ines", "rafe", "tomas"]
    assert not {invitation.payload for invitation in second.invitations} & set(links.values())


async def test_enrolling_again_with_another_plan_prescribes_it_and_tells_the_client(play: Play, tmp_path: Path) -> None:
    enrolled = await play.enrol()
    file = tmp_path / "people.yaml"
    file.write_text(FILE.read_text(encoding="utf-8").replace("rest_s: 60", "rest_s: 90"), encoding="utf-8")
    async with play.running():
        await play.join(enrolled)
        assert (await play.enrol(file)).renewed == ("mara",)
        assert (await play.enrol(file)).renewed == (), "the same plan again is nothing new"
        # on the machine's clock the sender looks every 30 s; here it is somebody's word that makes it look
        play.phone("mara").type("good morning")
        await play.pass_by(60)
        told = [message.text for message in play.phone("mara").messages]
        assert [text for text in told if "changed your plan" in str(text)] == ["Your therapist changed your plan."]
    async with play_store(play) as store, store.reading() as reading:
        client = await reading.client("mara")
    assert client is not None and client.plan is not None
    assert (client.plan.rest_s, client.plan.version) == (90, 2)


async def test_an_id_that_means_somebody_else_is_refused_and_nothing_is_written(play: Play, tmp_path: Path) -> None:
    await play.enrol()
    file = tmp_path / "other.yaml"
    file.write_text(FILE.read_text().replace("mara", "nell").replace("Mara", "Nell").replace("name: Ines", "name: Una"))
    with pytest.raises(UsedWrong, match='"ines" is enrolled already: Ines, therapist'):
        await play.enrol(file)
    async with play_store(play) as store, store.reading() as reading:
        assert [client.id for client in await reading.clients()] == ["mara"]


async def test_a_therapist_gets_the_clients_of_a_second_file_too(play: Play, tmp_path: Path) -> None:
    await play.enrol()
    file = tmp_path / "other.yaml"
    second = FILE.read_text().replace("mara", "nell").replace("Mara", "Nell").replace("tomas", "bo").replace("Tomas", "Bo")
    file.write_text(second.replace("user_id: 7003", "user_id: 7103").replace("user_id: 7004", "user_id: 7104"))
    await play.enrol(file)
    async with play_store(play) as store, store.reading() as reading:
        people = {person.id: person for person in await reading.people()}
    assert people["ines"].clients == ("mara", "nell")
    assert people["bo"].clients == ("nell",)
    assert people["rafe"].role == "contact"


async def test_a_user_id_that_is_taken_is_refused(play: Play, tmp_path: Path) -> None:
    enrolled = await play.enrol()
    async with play.running():
        await play.join(enrolled)
    file = tmp_path / "other.yaml"
    file.write_text(FILE.read_text().replace("mara", "nell").replace("Mara", "Nell"))
    with pytest.raises(UsedWrong, match='The user id 7003 of "nell" belongs to "mara" already'):
        await play.enrol(file)


async def test_what_was_said_while_it_was_away_is_handled_at_the_next_start(play: Play) -> None:
    enrolled = await play.enrol()
    async with play.running():
        await play.join(enrolled)
    before = len(play.phone("mara").messages)
    play.phone("mara").press_fixed("More")
    async with play.running():
        await play.see(lambda: len(play.phone("mara").messages) > before + 1)


@pytest.mark.parametrize("moments", [0, 2, 5, 13, 34, 89, 233])
async def test_a_power_cut_at_any_moment_counts_a_press_once(play: Play, moments: int) -> None:
    """Cut after so many turns of the loop: before it was fetched, in the middle, or after it was answered."""
    enrolled = await play.enrol()
    async with play.running():
        await play.join(enrolled)
        await play.until(START + timedelta(hours=2, minutes=1))
    app = await App.open(play.setup, play.clock, CONTENT)
    await app.start()
    await play.settle()
    play.phone("mara").press("Not today")
    for _ in range(moments):
        await asyncio.sleep(0)
    await app.cut()
    async with play.running():
        await play.see(lambda: "Not today" not in str(play.phone("mara").messages[-1].labels))
        await play.pass_by(60)
    said = [entry.text for entry in play.server.entries if entry.user_id == play.phone("mara").user_id]
    assert len([text for text in said if text.startswith("No practice today")]) == 1, said[-6:]
    async with play_store(play) as store, store.reading() as reading:
        client = await reading.client("mara")
    assert client is not None and client.day is not None and client.day.declined


@pytest.mark.parametrize("moments", [0, 5, 34, 89, 233])
async def test_a_power_cut_at_any_moment_keeps_an_agreement_and_a_briefing_once(play: Play, moments: int) -> None:
    """Cut after so many turns of the loop since the last answer of both."""
    enrolled, rules = await play.enrol(), CONTENT.library.without_number
    before_the_last = {"mara": len(rules.consent.screens), "tomas": 2 * len(rules.briefing.topics) - 1}
    async with play.running():
        for invitation in enrolled.invitations:
            await play.follow(invitation)
        for person, answers in before_the_last.items():
            for _ in range(answers):
                assert play.answer(person)
                await play.pass_by(10)
    app = await App.open(play.setup, play.clock, CONTENT)
    await app.start()
    await play.settle()
    assert play.answer("mara") and play.answer("tomas")
    for _ in range(moments):
        await asyncio.sleep(0)
    await app.cut()
    async with play.running():
        await play.see(lambda: says("consent-thanks") in words(play.phone("mara")))
        await play.see(lambda: says("briefing-done") in words(play.phone("tomas")))
    async with play_store(play) as store, store.reading() as reading:
        client = await reading.client("mara")
        seen = await reading.observations("mara", START, START + timedelta(days=1))
    assert [one.answer for _, one in seen if isinstance(one, ConsentNoted)] == [ConsentAnswer.AGREED]
    assert client is not None and client.carer_sees == ("sessions", "flags", "words")
    assert client.briefed == (("tomas", rules.briefing.version),)


async def test_a_second_start_on_the_same_database_is_refused(play: Play) -> None:
    async with play.running():
        with pytest.raises(UsedWrong, match="Another companion is running"):
            await App.open(play.setup)


async def test_a_second_program_on_the_same_bot_ends_this_one_with_a_sentence(play: Play) -> None:
    async with play.running() as app:
        await play.settle()
        other = connect(play.server.token, play.server.base_url)
        await other.fetch(None, 0, [])
        with pytest.raises(UsedWrong, match="Another program fetches this bot's messages"):
            await app.ended()
        await other.shutdown()


async def test_it_ends_in_order_when_the_process_is_told_to(play: Play) -> None:
    """On the machine's own clock, with the signal itself."""
    running = asyncio.create_task(run(play.setup))
    await play.server.wait_quiet()
    os.kill(os.getpid(), signal.SIGTERM)
    await running
    store = await Store.open(play.database)  # the lock is free again
    await store.close()


async def test_a_token_that_is_not_known_ends_the_run_with_a_sentence(play: Play) -> None:
    setup = Setup("1000001:some-other-token", play.server.base_url, play.database, "112")
    with pytest.raises(UsedWrong, match="COMPANION_TELEGRAM_TOKEN"):
        await run(setup)


def test_a_setup_needs_token_and_emergency_number_and_never_shows_the_token() -> None:
    with pytest.raises(UsedWrong, match="COMPANION_EMERGENCY_NUMBER is not set"):
        Setup.of(load(None, {"telegram_token": "12345:a-secret-of-some-length"}))
    setup = Setup.of(load(None, {"telegram_token": "12345:a-secret-of-some-length", "emergency_number": "112"}))
    assert setup.token == "12345:a-secret-of-some-length"
    assert "secret" not in repr(setup)


def labels(play: Play, person: str) -> list[str]:
    """The buttons under the newest message on that phone."""
    return [label for row in play.phone(person).messages[-1].labels for label in row]


def play_store(play: Play) -> "_Opened":
    return _Opened(play.database)


class _Opened:
    """The database beside the running companion."""

    def __init__(self, database: Path) -> None:
        self._database = database

    async def __aenter__(self) -> Store:
        self._store = await Store.open(self._database, active=False)
        return self._store

    async def __aexit__(self, *_: object) -> None:
        await self._store.close()
