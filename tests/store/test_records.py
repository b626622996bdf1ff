"""Records: what is written comes back the same, older ones load for ever, and what does not fit is said."""

import json
import os
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from companion.core.care import Client
from companion.core.effects import Effect, Words
from companion.core.events import Event, Press, Pressed
from companion.core.observations import Observation
from companion.core.person import Person
from companion.core.steps import Script
from companion.store.errors import RecordUnreadable
from companion.store.records import VERSION, Records
from tests.store.golden_records import GOLDEN, SHAPES, write, written
from tests.store.people import NOW
from tests.store.values import different, full, values

RECORDS = Records()

if "GOLDEN" in os.environ:
    write(again=os.environ["GOLDEN"] == "again")

# A client is a deep shape: drawing one takes Hypothesis longer than it likes.
patient = settings(
    max_examples=60, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.large_base_example]
)


@given(values(Event))
def test_any_event_comes_back_the_same(event: Event) -> None:
    assert different(RECORDS.event(RECORDS.dump(event), "it"), event) == []


@given(values(tuple[Effect, ...]))
def test_any_effects_come_back_the_same(effects: tuple[Effect, ...]) -> None:
    assert different(RECORDS.effects(RECORDS.dump(effects), "it"), effects) == []


@given(values(Observation))
def test_any_observation_comes_back_the_same(observation: Observation) -> None:
    assert different(RECORDS.observation(RECORDS.dump(observation), "it"), observation) == []


@given(values(Person))
def test_any_person_comes_back_the_same(person: Person) -> None:
    assert different(RECORDS.person(RECORDS.dump(person), "it"), person) == []


@patient
@given(values(Client))
def test_any_client_comes_back_the_same_with_the_script_beside(client: Client) -> None:
    script = client.session.script if client.session is not None else None
    beside = RECORDS.script(RECORDS.dump(script), "it") if script is not None else None
    assert different(RECORDS.client(RECORDS.dump_client(client), beside, "it"), client) == []


@given(st.text(st.characters(codec=None), max_size=6))
def test_any_words_come_back_the_same_even_broken_ones(text: str) -> None:
    said = Pressed(NOW, text, Press(text, text, text, text))
    assert different(RECORDS.event(RECORDS.dump(said), "it"), said) == []
    assert RECORDS.dump(said).isascii()


def test_a_moment_of_any_time_zone_comes_back_in_utc() -> None:
    event = Pressed(datetime.fromisoformat("2026-11-23T10:00:00+05:30"), "alva", full(Press))
    found = RECORDS.event(RECORDS.dump(event), "it")
    assert found == event and found.at.utcoffset() == timedelta(0)


def test_words_within_words_come_back_the_same() -> None:
    words = Words("told", (("who", Words("told-therapist", (("therapist", "Tora"),))), ("count", "3")))
    effects = (full(tuple[Effect, ...])[0],)
    say = type(effects[0])("alva", (words,))
    assert different(RECORDS.effects(RECORDS.dump((say,)), "it"), (say,)) == []


def test_a_record_is_compact_and_says_its_version() -> None:
    record = RECORDS.dump(full(Press))
    assert record == f'{{"v":{VERSION},"data":{{"client":"text","scope":"text","step":"text","choice":"text"}}}}'


# --- golden records -------------------------------------------------------------------------------------------


def load(name: str, text: str, script: Script | None) -> Any:
    """Load a golden record as what its name says."""
    if name == "client":
        return RECORDS.client(text, script, name)
    return getattr(RECORDS, name.partition("-")[0])(text, name)


def lost(golden: Any, now: Any, at: str = "$") -> list[str]:
    """What of a golden record is no longer there, or is different."""
    if isinstance(golden, dict) and isinstance(now, dict):
        return [fault for key in golden for fault in lost(golden[key], now.get(key), f"{at}.{key}")]
    if isinstance(golden, list) and isinstance(now, list) and len(golden) == len(now):
        pairs = enumerate(zip(golden, now, strict=True))
        return [fault for index, (one, other) in pairs for fault in lost(one, other, f"{at}[{index}]")]
    return [] if golden == now else [at]


@pytest.mark.parametrize("path", sorted(GOLDEN.glob("v*/*.json")), ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_a_golden_record_loads_and_nothing_of_it_is_lost(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    script = RECORDS.script((path.parent / "script.json").read_text(encoding="utf-8"), "script")
    value = load(path.stem, text, script)
    again = RECORDS.dump_client(value) if isinstance(value, Client) else RECORDS.dump(value)
    if path.parent.name == f"v{VERSION}":
        assert lost(json.loads(text), json.loads(again)) == []


def test_every_shape_has_a_golden_record_of_this_version() -> None:
    kept = {path.stem for path in (GOLDEN / f"v{VERSION}").glob("*.json")}
    assert kept == SHAPES.keys(), "run with GOLDEN=new to write those that are missing"


# --- what does not fit ----------------------------------------------------------------------------------------


def changed(name: str, change: Callable[[Any], None]) -> str:
    """A record of this program, changed by somebody else."""
    record = json.loads(written(name))
    change(record)
    return json.dumps(record)


def refusal(name: str, change: Callable[[Any], None]) -> str:
    with pytest.raises(RecordUnreadable) as told:
        load(name, changed(name, change), full(Script))
    return str(told.value)


def test_an_unknown_key_is_refused_and_named() -> None:
    told = refusal("client", lambda record: record["data"]["session"].update(surprise=1))
    assert told.startswith("client does not fit its shape: unknown surprise @ $.session")
    assert "restore a backup" in told


def test_a_missing_key_is_refused_and_named() -> None:
    assert "missing zone @ $" in refusal("person", lambda record: record["data"].pop("zone"))


def test_an_unknown_kind_is_refused_and_named() -> None:
    told = refusal("effects-say", lambda record: record["data"][0].update(kind="shout"))
    assert "kind 'shout' is none of clear_buttons, digest" in told and "@ $[0]" in told


def test_a_step_kind_of_another_union_is_refused() -> None:
    assert "kind 'say' is none of" in refusal("event-woke", lambda record: record["data"].update(kind="say"))


@pytest.mark.parametrize(
    ("name", "key", "value"),
    [
        ("person", "name", None),
        ("person", "name", 5),
        ("person", "user_id", "11"),
        ("person", "user_id", True),
        ("person", "reachable", 1),
        ("person", "clients", "c1"),
        ("event-woke", "at", "2026-11-23T09:00:00"),
        ("event-woke", "at", 1795424400),
        ("event-woke", "seed", 1.0),
        ("observation-bout", "practised_s", "60"),
        ("observation-bout", "quality", "perfect"),
        ("observation-session_ended", "day", "yesterday"),
    ],
)
def test_a_value_of_another_type_is_refused_and_its_place_is_named(name: str, key: str, value: object) -> None:
    assert f"@ $.{key}" in refusal(name, lambda record: record["data"].update({key: value}))


def test_a_newer_record_is_refused_with_what_to_do() -> None:
    told = refusal("person", lambda record: record.update(v=VERSION + 1))
    assert told.startswith(f"person is of version {VERSION + 1}; this program knows versions up to {VERSION}.")
    assert "newer companion" in told and "restore a backup" in told


@pytest.mark.parametrize("text", ["", "{}", "[]", "null", "7", '{"v":1}', '{"v":0,"data":{}}', '{"v":"1","data":{}}'])
def test_what_is_no_record_is_refused(text: str) -> None:
    with pytest.raises(RecordUnreadable, match=r"^the record of person p1 (is not a record|is of version)"):
        RECORDS.person(text, "the record of person p1")


def test_a_client_whose_script_is_gone_is_refused() -> None:
    with pytest.raises(RecordUnreadable, match=r"the script 'text' is not there @ \$\.session\.script"):
        RECORDS.client(written("client"), None, "the record of client c1")


def test_a_number_that_json_does_not_know_is_not_written() -> None:
    with pytest.raises(ValueError, match="JSON"):
        RECORDS.dump((float("nan"),))
