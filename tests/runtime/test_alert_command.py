"""The operator's command is run for an alert that can not be delivered, and whatever it does holds nobody up."""

import asyncio
import json
import logging
import sys
from pathlib import Path

import pytest

from companion.core.effects import Urgency
from companion.runtime.alert_command import AlertCommand
from companion.runtime.settling import StuckAlert
from companion.runtime.transport import NoWay, Undeliverable
from tests.runtime.hands import World, at, message

TOKEN = "123456:invented-token"
KEEPS = "import os, sys; open(sys.argv[1], 'w').write(sys.stdin.read() + '\\n'.join(map('='.join, os.environ.items())))"
UNTIL_THERE = "import os, sys, time\nwhile not os.path.exists(sys.argv[1]): time.sleep(0.01)"
ALERT = StuckAlert(41, "c1", "undeliverable")


def keeping(file: Path) -> AlertCommand:
    """A command that keeps what it was given, and its environment."""
    return AlertCommand((sys.executable, "-c", KEEPS, str(file)), TOKEN)


async def test_the_command_gets_the_alert_as_json_without_words_or_names(tmp_path: Path) -> None:
    command = keeping(tmp_path / "given")
    command(ALERT)
    await command.close()
    given = (tmp_path / "given").read_text().splitlines()[0]
    assert json.loads(given) == {"alert": 41, "client": "c1", "why": "undeliverable"}


async def test_the_command_s_environment_does_not_hold_the_token(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COMPANION_TELEGRAM_TOKEN", TOKEN)
    monkeypatch.setenv("SOMETHING_ELSE", f"https://api.example/bot{TOKEN}/getMe")
    monkeypatch.setenv("WHERE_TO", "the ward")
    command = keeping(tmp_path / "given")
    command(ALERT)
    await command.close()
    given = (tmp_path / "given").read_text()
    assert "WHERE_TO=the ward" in given
    assert TOKEN not in given


async def test_no_shell_reads_the_command(tmp_path: Path) -> None:
    command = AlertCommand((sys.executable, "-c", KEEPS, str(tmp_path / "a;b $(c)")), TOKEN)
    command(ALERT)
    await command.close()
    assert (tmp_path / "a;b $(c)").exists()


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((sys.executable, "-c", "raise SystemExit(3)"), "it ended with 3"),
        (("/no/such/program",), "FileNotFoundError"),
        ((sys.executable, "-c", "while True: pass"), "TimeoutExpired"),
    ],
)
async def test_a_command_that_fails_is_said_loudly(words: tuple[str, ...], said: str, caplog: pytest.LogCaptureFixture) -> None:
    command = AlertCommand(words, TOKEN, patience_s=1)
    command(ALERT)
    await command.close()
    failed = [record for record in caplog.records if "alert command failed" in record.getMessage()]
    assert [record.levelno for record in failed] == [logging.CRITICAL]
    assert said in failed[0].getMessage()
    assert TOKEN not in caplog.text


async def test_a_command_that_takes_its_time_holds_nobody_up(world: World, tmp_path: Path) -> None:
    command = AlertCommand((sys.executable, "-c", UNTIL_THERE, str(tmp_path / "gate")), TOKEN)
    for _ in range(5):
        command(ALERT)
    await world.say(message("for Ada"))
    await world.clock.move(at(5))
    assert world.platform.texts() == ["for Ada"]
    closing = asyncio.create_task(command.close())
    await asyncio.sleep(0)
    assert not closing.done()
    (tmp_path / "gate").touch()
    await closing


async def test_the_log_tells_of_the_alert_too(caplog: pytest.LogCaptureFixture) -> None:
    command = AlertCommand((sys.executable, "-c", ""), TOKEN)
    command(ALERT)
    await command.close()
    assert "alert 41 of client c1 is not delivered: undeliverable" in caplog.text


async def test_an_alert_that_can_not_be_delivered_runs_the_command(world: World, tmp_path: Path) -> None:
    command = keeping(tmp_path / "given")
    world.hook = command
    world.platform.judge = lambda out: Undeliverable(NoWay.BLOCKED) if out.chat_id == 90 else None
    [row] = await world.say(message("a red flag", to="tess", urgency=Urgency.ALERT))
    await world.clock.move(at(5))
    await command.close()
    assert json.loads((tmp_path / "given").read_text().splitlines()[0])["alert"] == row
