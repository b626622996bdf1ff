"""Golden records: what was written by each version of the records, kept for ever.

python -m tests.store.golden_records         writes what is new since; a record that is there is never touched
python -m tests.store.golden_records again   writes this version's anew: only as long as it was not released
"""

from pathlib import Path
from typing import Any

from companion.core.care import Client
from companion.core.effects import Effect
from companion.core.events import Event
from companion.core.observations import Observation
from companion.core.person import Person
from companion.core.steps import Script
from companion.store.records import VERSION, Buttons, Records
from tests.store.values import full, members

GOLDEN = Path(__file__).parent / "golden"

SHAPES: dict[str, Any] = {
    "client": Client,
    "person": Person,
    "script": Script,
    "buttons": Buttons,
    "labels": tuple[str, ...],
    **{f"event-{full(member).kind}": member for member in members(Event)},
    **{f"effects-{full(member).kind}": tuple[member, ...] for member in members(Effect)},  # type: ignore[valid-type]
    **{f"observation-{full(member).kind}": member for member in members(Observation)},
}
"""What is written, by the name of its golden record."""


def written(name: str) -> str:
    """The record of a value of that shape with nothing left out, as this program writes it."""
    records, value = Records(), full(SHAPES[name])
    return records.dump_client(value) if isinstance(value, Client) else records.dump(value)


def write(again: bool) -> None:
    """Write this version's golden records."""
    folder = GOLDEN / f"v{VERSION}"
    folder.mkdir(parents=True, exist_ok=True)
    for name in SHAPES:
        path = folder / f"{name}.json"
        if again or not path.exists():
            path.write_text(written(name) + "\n", encoding="utf-8")
