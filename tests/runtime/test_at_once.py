"""Client and carer press in the same second: one comes before the other, and nothing of either is lost."""

import asyncio
from collections import Counter
from dataclasses import dataclass
from itertools import repeat
from pathlib import Path
from random import Random
from typing import Any

import pytest

from companion.runtime.transport import Inbound, InPress, InText
from tests.crowd import _what_follows
from tests.runtime.permissions import Trial

TIMES = 1_000
STEPS = 24
"""So many steps of a session are looked at: the check, the number, getting into place, a hold, the answer, a rest."""

AT_ANY_TIME = {"ada": ("/wrong", "/stop", "/more", "good morning"), "ben": ("/wrong", "/leave", "/more", "good morning")}
USERS = {"ada": 11, "ben": 12}


@dataclass(frozen=True, slots=True)
class Act:
    """What somebody does."""

    by: str
    what: InText | InPress

    def inbound(self) -> Inbound:
        user = USERS[self.by]
        return Inbound(f"tg:{user}:{user}:{user}", user, user, self.what, 900_000 + user)


async def moments(trial: Trial) -> dict[str, dict[str, list[Act]]]:
    """Moments of a session, by name, and what client and carer can do at each."""
    found: dict[str, dict[str, list[Act]]] = {}
    trial.begin("practising")
    for place in range(STEPS):
        name = f"step {place}"
        trial.worlds[name] = trial.rows()
        found[name] = {
            who: [Act(who, InPress(press)) for press in trial.buttons(who)[:6]] + [Act(who, InText(text)) for text in texts]
            for who, texts in AT_ANY_TIME.items()
        }
        async with trial.store.reading() as reading:
            client = await reading.client("c1")
        assert client is not None and client.session is not None
        await trial.happens(_what_follows(client.session, trial.clock.now()))
    return found


def kept(trial: Trial) -> dict[str, Any]:
    """All that is kept, but for the numbers that the database gave."""
    rows = trial.rows()
    state: dict[str, Any] = {table: rows[table] for table in ("client", "person", "caseload", "script", "last_message")}
    state["observation"] = [row[1:] for row in rows["observation"]]
    state["outbox"] = [row[1:] for row in rows["outbox"]]
    state["journal"] = Counter(row[1:] for row in rows["journal"])
    assert rows["passes"] == []
    return state


def order(trial: Trial, acts: tuple[Act, Act]) -> tuple[Act, ...]:
    """The acts in the order of the journal. Each is there once."""
    keys = [row[0] for row in trial.rows()["journal"] if row[0].startswith("tg:")]
    by_key = {act.inbound().key: act for act in acts}
    assert sorted(keys) == sorted(by_key), "each is heard, once"
    return tuple(by_key[key] for key in keys)


async def at_once(trial: Trial, acts: tuple[Act, Act], chance: Random) -> None:
    """Both at the same time, as chance will have it."""
    handler = trial.handler()

    async def act(one: Act, later: int) -> None:
        for _ in range(later):
            await asyncio.sleep(0)
        await handler.receive(one.inbound())

    await asyncio.gather(*(act(one, chance.randrange(12)) for one in chance.sample(acts, 2)))


async def test_of_two_presses_in_one_second_one_comes_first_and_nothing_is_lost(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    trial = await Trial.make(tmp_path)
    # a session that ended comes back with its moment: reading its script again each time would take most of the time
    monkeypatch.setattr(trial.store._scripts, "drop", lambda name: None)
    trial.clock._seeds = repeat(7)  # so that the same order leaves the same state
    one_by_one: dict[tuple[str, tuple[Act, ...]], dict[str, Any]] = {}
    first: Counter[str] = Counter()
    try:
        found = await moments(trial)
        for number in range(TIMES):
            chance = Random(number)
            moment = chance.choice(list(found))
            acts = (chance.choice(found[moment]["ada"]), chance.choice(found[moment]["ben"]))
            trial.begin(moment)
            await at_once(trial, acts, chance)
            came, state = order(trial, acts), kept(trial)
            first[came[0].by] += 1
            if (moment, came) not in one_by_one:
                trial.begin(moment)
                for act in came:
                    await trial.handler().receive(act.inbound())
                one_by_one[moment, came] = kept(trial)
            assert state == one_by_one[moment, came], (moment, came)
    finally:
        await trial.store.close()
    assert min(first["ada"], first["ben"]) > TIMES // 10, "both orders were tried"
    both = [
        (state, one_by_one[moment, came[::-1]])
        for (moment, came), state in one_by_one.items()
        if (moment, came[::-1]) in one_by_one
    ]
    assert sum(one != other for one, other in both) > 10, "and the order matters"
