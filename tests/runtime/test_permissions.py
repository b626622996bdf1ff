"""Who may see and change what of a client's care: everybody tries everything, and the guide's table says what came of it."""

import asyncio
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from companion.chat.buttons import encode
from companion.chat.inbound import Came as Heard
from companion.chat.inbound import Group, read
from companion.runtime.transport import InOther, InPress, InStart, InText
from tests.runtime.permissions import ACTIONS, OUTSIDE, ROLES, Came, Trial, What

GUIDE = Path(__file__).parents[2] / "DEVELOPERS.md"
BEGIN, END = "<!-- permissions -->\n", "<!-- /permissions -->\n"
GROUP = Group(-500)


@dataclass(frozen=True, slots=True)
class Tried:
    """What came of every action by every role, and of the same action in a group, by whoever."""

    alone: dict[tuple[str, str], Came]
    in_group: dict[str, list[Heard | Group | None]]

    def table(self) -> str:
        """As the guide has it."""
        lines = ["| what | " + " | ".join(ROLES) + " | in a group |", "| --- |" + " --- |" * (len(ROLES) + 1)]
        for action in ACTIONS:
            cells = [self.alone[action.name, role].cell() for role in ROLES]
            group = "nothing" if set(self.in_group[action.name]) == {GROUP} else "heard"
            lines.append(f"| {action.name} | " + " | ".join([*cells, group]) + " |")
        return "\n".join(lines) + "\n"


async def everything(folder: Path) -> Tried:
    """Everybody tries everything."""
    trial = await Trial.make(folder)
    try:
        alone = {(action.name, role): await trial.tries(role, action) for action in ACTIONS for role in ROLES}
        groups = {}
        for action in ACTIONS:
            trial.begin(action.world)
            groups[action.name] = [read(in_a_group(action.what(trial), user)) for user in ROLES.values()]
        return Tried(alone, groups)
    finally:
        await trial.store.close()


def in_a_group(what: What, user: int) -> dict[str, Any]:
    """The same thing done in a group, as the platform tells of it."""
    sender = {"id": user, "is_bot": False, "first_name": "Somebody"}
    chat = {"id": GROUP.chat_id, "type": "group", "title": "Invented group"}
    message: dict[str, Any] = {"message_id": 7, "date": 1_772_442_000, "chat": chat}
    match what:
        case InPress(press):
            query = {"id": "1", "from": sender, "message": message, "chat_instance": "1", "data": encode(press)}
            return {"update_id": 5, "callback_query": query}
        case InText(text):
            return {"update_id": 5, "message": {**message, "from": sender, "text": text}}
        case InStart(payload):
            return {"update_id": 5, "message": {**message, "from": sender, "text": f"/start {payload}"}}
        case InOther(form):
            return {"update_id": 5, "message": {**message, "from": sender, form: {"file_id": "x"}}}


@pytest.fixture(scope="module")
def tried(tmp_path_factory: pytest.TempPathFactory) -> Tried:
    return asyncio.run(everything(tmp_path_factory.mktemp("permissions")))


def test_the_guide_s_table_of_permissions_is_what_happens(tried: Tried) -> None:
    guide = GUIDE.read_text(encoding="utf-8")
    assert tried.table() == guide[guide.index(BEGIN) + len(BEGIN) : guide.index(END)]


@pytest.mark.parametrize("role", OUTSIDE)
def test_who_has_no_part_in_a_care_sees_nothing_of_it_and_changes_nothing(tried: Tried, role: str) -> None:
    for action in ACTIONS:
        came = tried.alone[action.name, role]
        assert not came.changes_the_care(), action.name
        assert not came.shows_the_care(), action.name
        assert came.texts(), f"{action.name}: nobody is left without a word"


@pytest.mark.parametrize("role", ["stranger", "former carer"])
def test_who_is_nobody_here_gets_one_polite_line_whatever_they_try(tried: Tried, role: str) -> None:
    for action in ACTIONS:
        came = tried.alone[action.name, role]
        joins = action.name == "the link of somebody new"
        assert came.cell() == ("own" if joins else "one line"), action.name
        assert joins or len(came.texts()) == 1


def test_only_a_therapist_who_sees_to_the_client_changes_the_care_from_its_page(tried: Tried) -> None:
    may = {"therapist", "therapist who covers"}
    for name in (
        "changes the plan",
        "records for the client",
        "enters a review",
        "the client's reviews",
        "lifts the stop, under an alert",
        "next step, under a proposal",
        "makes a link for the client",
    ):
        assert {role for role in ROLES if tried.alone[name, role].cell() in ("acts", "sees")} == may
    for name in ("hands the client over", "takes the carer out", "ends the care"):
        assert {role for role in ROLES if tried.alone[name, role].cell() in ("acts", "sees")} == {"therapist"}


def test_everything_can_be_done_by_somebody(tried: Tried) -> None:
    """So that a cell that says no does not say so because nobody can."""
    for action in ACTIONS:
        assert {tried.alone[action.name, role].cell() for role in ROLES} & {"acts", "sees", "own"}, action.name


def test_whatever_is_done_in_a_group_the_bot_hears_nothing_of_it(tried: Tried) -> None:
    for name, heard in tried.in_group.items():
        assert set(heard) == {GROUP}, name
