"""Playing: one cause at a time, what must come true, what can go wrong on the stage."""

import json
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from companion.rehearsal.play import Files, Play
from companion.rehearsal.scenario import Scenario
from companion.rehearsal.server.refusals import conflict
from companion.rehearsal.stage import Stage
from tests.rehearsal.small import HABITS, content, scenario


async def played(what: Scenario, folder: Path) -> tuple[str, tuple[str, ...]]:
    """Its transcript, and what went wrong."""
    files, faults = await Play(what, folder, content()).run(lambda _: None)
    return text_of(files), faults


def text_of(files: Files) -> str:
    return files.transcript.read_text(encoding="utf-8")


def names_in(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


def lines_in(folder: Path) -> list[dict[str, Any]]:
    return [json.loads(line) for line in (folder / "messages.jsonl").read_text(encoding="utf-8").splitlines()]


async def test_a_session_is_played_from_start_link_to_closing(tmp_path: Path) -> None:
    expects = "expects:\n  - {phone: olga, text: Sit. Drink some water., by: 2026-07-06 10:03}\n"
    text, faults = await played(scenario(tmp_path, HABITS, expects), tmp_path / "out")
    assert faults == ()
    assert text.startswith("# A small one\n\nNobody in it is real; all is invented.\n")
    for line in ("| Olga (client)", "10:00:10 | > [Start]", "> [10]"):
        assert line in text
    assert names_in(tmp_path / "out") == {"transcript.md", "messages.jsonl", "companion.db", "pictures"}


async def test_time_is_told_as_it_is_played_and_ends_at_the_end(tmp_path: Path) -> None:
    told: list[timedelta] = []
    what = scenario(tmp_path, HABITS)
    await Play(what, tmp_path / "out", content()).run(told.append)
    assert told == sorted(told) and len(told) > 10
    assert told[-1] == what.ends - what.starts


async def test_what_never_comes_true_is_told_at_the_end(tmp_path: Path) -> None:
    added = """\
expects:
  - {phone: olga, text: Pigs fly., by: 2026-07-06 10:05}
happens:
  - {when: {phone: olga, sees: Pigs fly.}, who: olga, taps: More}
"""
    rules = HABITS + "      - {sees: Pigs fly., taps: More}\n"
    _, faults = await played(scenario(tmp_path, rules, added), tmp_path / "out")
    assert [fault.partition(": ")[2] for fault in faults] == [
        "olga's phone never showed 'Pigs fly.' in time",
        "it never happened",
        "olga never came to do it",
    ]


async def test_what_must_never_show_ends_the_rehearsal_when_it_does(tmp_path: Path) -> None:
    expects = "expects:\n  - {phone: olga, text: Is your place ready?, never: yes}\n".replace("Is ", '"Is ').replace("?", '?"')
    text, faults = await played(scenario(tmp_path, HABITS, expects), tmp_path / "out")
    assert len(faults) == 1 and "olga's phone shows it: 'Is your place ready?" in faults[0]
    assert "Is your place ready?" in text and "> [All ready]" not in text


async def test_a_tap_on_what_is_not_there_fails_with_what_is(tmp_path: Path) -> None:
    happens = "happens:\n  - {at: 2026-07-06 10:05, who: olga, taps: Try a harder way}\n"
    _, faults = await played(scenario(tmp_path, HABITS, happens), tmp_path / "out")
    assert len(faults) == 1
    assert faults[0].startswith("2026-07-06 10:05:00: ") and "Olga: nothing says 'Try a harder way'" in faults[0]
    assert "On the phone now: 105: Practise now. Fixed row: Something is wrong / Enough / More." in faults[0]


async def test_what_follows_something_is_counted_from_when_that_happened(tmp_path: Path) -> None:
    happens = """\
happens:
  - {when: {phone: olga, sees: Same as usual}, after: 31, who: olga, types: one}
  - {at: +40 s, who: olga, types: two}
"""
    await played(scenario(tmp_path, HABITS, happens), tmp_path / "out")
    typed = {line["text"]: line["at"] for line in lines_in(tmp_path / "out") if line["way"] == "in"}
    assert (typed["one"], typed["two"]) == ("2026-07-06T09:00:41+00:00", "2026-07-06T09:01:21+00:00")


async def test_power_and_network_come_and_go(tmp_path: Path) -> None:
    happens = """\
happens:
  - {at: 2026-07-06 10:00:12, power: cut}
  - {at: +60 s, power: back}
  - {at: +5 s, network: down}
  - {at: +30 s, network: up}
"""
    expects = "expects:\n  - {phone: olga, text: Sit. Drink some water.}\n"
    text, faults = await played(scenario(tmp_path, HABITS, happens, expects), tmp_path / "out")
    assert faults == ()
    for note in ("loses its power", "has power again", "network is down", "network is back"):
        assert f"--- the companion {note} ---" in text or f"--- the companion's {note} ---" in text


@pytest.fixture
def used(tmp_path: Path) -> Path:
    """A folder in which something was rehearsed before."""
    out = tmp_path / "out"
    out.mkdir()
    for name in ("chart-2020-01-01.png", "companion.db", "transcript.md"):
        (out / name).write_bytes(b"of an earlier rehearsal")
    return out


async def test_an_earlier_rehearsal_leaves_nothing_behind(tmp_path: Path, used: Path) -> None:
    what = scenario(tmp_path, HABITS)
    first, _ = await played(what, used)
    second, faults = await played(what, used)
    assert (first, faults) == (second, ())
    assert names_in(used) == {"transcript.md", "messages.jsonl", "companion.db", "pictures"}


async def test_a_rehearsal_that_does_not_come_to_rest_says_what_is_not_at_rest(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    settle, hung = Stage.settle, list[Stage]()

    async def one_loop_hangs(stage: Stage) -> None:
        await settle(stage)
        if stage.clock.now() > scenario_start + timedelta(minutes=1):
            outbox = next(parked for parked in stage.clock._parked if parked.name == "outbox")
            stage.clock._parked.remove(outbox)
            hung.append(stage)
            stage.patience_s = 0.3
            await settle(stage)

    what = scenario(tmp_path, HABITS)
    scenario_start = what.starts
    monkeypatch.setattr(Stage, "settle", one_loop_hangs)
    _, faults = await played(what, tmp_path / "out")
    assert hung and "is stuck" in faults[0] and "the loop outbox is not parked" in faults[0]


async def test_an_app_that_ends_by_itself_ends_the_rehearsal_with_its_reason(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    settle, ended = Stage.settle, list[Stage]()
    what = scenario(tmp_path, HABITS)

    async def somebody_else_fetches(stage: Stage) -> None:
        await settle(stage)
        if not ended and stage.clock.now() > what.starts + timedelta(minutes=1):
            ended.append(stage)
            stage.server.updates.end_poll(conflict("terminated by other getUpdates request"))
            await settle(stage)

    monkeypatch.setattr(Stage, "settle", somebody_else_fetches)
    _, faults = await played(what, tmp_path / "out")
    assert ended and len(faults) == 1 and "Another program fetches this bot's messages." in faults[0]
