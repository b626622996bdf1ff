"""messages.jsonl: its fields, what the phones are called, and which session a line belongs to."""

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path

from companion.chat.buttons import encode
from companion.core.care import Client, People
from companion.core.cursor import Session
from companion.core.events import Press
from companion.core.steps import Script
from companion.rehearsal.messages import Note, Sessions, Shown, json_lines, phone_names
from companion.rehearsal.server import Entry
from companion.runtime.handler import Change
from tests.rehearsal.small import scenario

START = datetime(2026, 7, 6, 9, 0, tzinfo=UTC)


def entry(text: str = "Hello", at: datetime = START, data: str | None = None) -> Entry:
    return Entry(at, 1, "out", "text", text, (("One",), ("Two", "Three")), False, 7, data)


def test_a_line_has_exactly_the_fields_that_are_promised() -> None:
    line = json.loads(json_lines([Shown(entry(), "olga", "s1", "picture: two feet")], {"olga": "client"}))
    assert line == {
        "at": "2026-07-06T09:00:00+00:00",
        "phone": "client",
        "way": "out",
        "kind": "text",
        "text": "Hello",
        "buttons": ["One", "Two", "Three"],
        "silent": False,
        "session": "s1",
        "file": "picture: two feet",
    }


def test_what_is_no_message_is_left_out() -> None:
    toast = Entry(START, 1, "out", "toast", "Noted.", silent=True)
    assert json_lines([Shown(toast, "olga"), Note(START, "the power is cut")], {"olga": "client"}) == ""


def test_phones_are_called_by_their_part_where_there_is_one_client(tmp_path: Path) -> None:
    assert phone_names(scenario(tmp_path).enrolment) == {"ines": "therapist", "olga": "client"}


def change(session: str | None) -> Change:
    people = People("olga", "ines")
    running = None
    if session is not None:
        running = Session(session, "olga", "olga", None, Script(session, "olga", (), ()), began=START, since=START)
    client = Client("olga", "Olga", "Europe/London", people, START, START, session=running)
    return Change(None, client, said=False, asked_report=False)


def test_a_line_belongs_to_the_session_under_way() -> None:
    sessions = Sessions(lambda: START)
    assert sessions.of(entry(), ("olga",)) is None
    sessions.changed(change("s3"))
    assert sessions.of(entry(), ("olga",)) == "s3"
    assert sessions.of(entry(), ("other",)) is None


def test_the_last_words_still_belong_to_the_session_that_ended() -> None:
    sessions = Sessions(lambda: START)
    sessions.changed(change("s3"))
    sessions.changed(change(None))
    assert sessions.of(entry(at=START + timedelta(seconds=2)), ("olga",)) == "s3"
    assert sessions.of(entry(at=START + timedelta(minutes=5)), ("olga",)) is None


def test_a_press_belongs_to_the_session_that_it_names() -> None:
    sessions = Sessions(lambda: START)
    sessions.changed(change("s3"))
    old = encode(Press("olga", "s2", "4", "ready"))
    assert sessions.of(entry(data=old), ("olga",)) == "s2"
