"""A raw update is read strictly: what counts becomes one Inbound, what does not is None, what is broken is told."""

from datetime import UTC, datetime
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.chat.buttons import encode
from companion.chat.inbound import BadUpdate, Came, Group, number_of, read
from companion.core.events import Press
from companion.runtime.transport import Inbound, InGone, InOther, InPress, InStart, InText

PERSON = {"id": 1001, "is_bot": False, "first_name": "Ada"}
CHAT = {"id": 1001, "type": "private", "first_name": "Ada"}
GROUP = {"id": -55, "type": "group", "title": "A group"}
DATE = 1_772_442_000
WHEN = datetime.fromtimestamp(DATE, UTC)
PRESS = Press("c1", "s1", "q1", "a")


def message(**parts: Any) -> dict[str, Any]:
    said = {"message_id": 7, "from": PERSON, "chat": CHAT, "date": DATE, **parts}
    return {"update_id": 5, "message": said}


def press(**parts: Any) -> dict[str, Any]:
    under = {"message_id": 7, "chat": CHAT, "date": DATE}
    query = {"id": "99", "from": PERSON, "message": under, "chat_instance": "1", "data": encode(PRESS)}
    return {"update_id": 5, "callback_query": {**query, **parts}}


def member(status: str, chat: dict[str, Any]) -> dict[str, Any]:
    now = {"user": {"id": 1, "is_bot": True, "first_name": "Bot"}, "status": status}
    return {"update_id": 5, "my_chat_member": {"chat": chat, "from": PERSON, "date": DATE, "new_chat_member": now}}


def inbound(raw: dict[str, Any]) -> Inbound:
    came = read(raw)
    assert isinstance(came, Came)
    return came.inbound


def test_words_keep_who_said_them_where_and_when() -> None:
    expected = Inbound("tg:5:1001:7", 1001, 1001, InText("I fell"), 7, WHEN)
    assert read(message(text="I fell")) == Came(expected)


def test_a_press_keeps_its_meaning_and_the_name_its_answer_goes_to() -> None:
    expected = Inbound("tg:5:1001:7", 1001, 1001, InPress(PRESS), 7, None)
    assert read(press()) == Came(expected, callback="99")


def test_a_press_under_a_message_that_is_gone_still_counts() -> None:
    gone = {"message_id": 7, "chat": CHAT, "date": 0}
    assert inbound(press(message=gone)).what == InPress(PRESS)


@pytest.mark.parametrize("data", [None, "", "1|a", 5, "x" * 64])
def test_a_button_that_is_not_ours_is_told_apart(data: object) -> None:
    came = read(press(data=data))
    assert isinstance(came, Came)
    assert came.callback == "99"
    assert came.inbound.what == InOther("button")


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("/start", InStart("")),
        ("/start abc_-123", InStart("abc_-123")),
        ("/start@some_bot abc", InStart("abc")),
        ("/stop", InText("/stop")),
        ("/help@some_bot", InText("/help")),
        ("/starting", InText("/starting")),
        ("Enough", InText("Enough")),
        ("half a pair \ud83d and a zero \x00.", InText("half a pair ? and a zero .")),
    ],
)
def test_commands_lose_what_only_the_platform_needs(text: str, what: object) -> None:
    assert inbound(message(text=text)).what == what


@pytest.mark.parametrize("form", ["photo", "voice", "sticker", "video_note", "location", "document"])
def test_what_is_no_text_is_other(form: str) -> None:
    assert inbound(message(**{form: {}}, caption="I fell")).what == InOther(form)


PHOTO = [
    {"file_id": "AgAC-small", "width": 90, "height": 67},
    {"file_id": "AgAC-large", "width": 1280, "height": 960},
    {"file_id": "AgAC-middle", "width": 320, "height": 240},
]


@pytest.mark.parametrize(
    ("form", "content", "file_id"),
    [
        ("photo", PHOTO, "AgAC-large"),
        ("voice", {"file_id": "AwAC_1", "duration": 3}, "AwAC_1"),
        ("video", {"file_id": "BAAC"}, "BAAC"),
        ("video_note", {"file_id": "DQAC"}, "DQAC"),
        ("animation", {"file_id": "CgAC"}, "CgAC"),
    ],
)
def test_a_file_is_known_by_the_platforms_id_of_its_largest_size(form: str, content: object, file_id: str) -> None:
    assert inbound(message(**{form: content})).what == InOther(form, file_id)


@pytest.mark.parametrize(
    "content",
    [[], [None], [{"width": 3}], "x", None, 7, {"file_id": 7}, {"file_id": ""}, {"file_id": "a b"}, {"file_id": "x" * 257}],
)
def test_a_file_without_an_id_that_can_be_used_is_still_a_file(content: object) -> None:
    assert inbound(message(photo=content)).what == InOther("photo")


def test_a_size_without_measures_is_the_smallest() -> None:
    sizes = [{"file_id": "unmeasured", "width": "9", "height": None}, {"file_id": "measured", "width": 2, "height": 2}]
    assert inbound(message(photo=sizes)).what == InOther("photo", "measured")


def test_an_edited_message_is_other_and_dated_by_its_edit() -> None:
    raw = message(text="anew", edit_date=DATE + 60)
    read_back = inbound({"update_id": 5, "edited_message": raw["message"]})
    assert read_back.what == InOther("edited")
    assert read_back.sent == datetime.fromtimestamp(DATE + 60, UTC)


def test_a_notice_about_the_chat_needs_no_answer() -> None:
    assert read(message(pinned_message={})) is None


@pytest.mark.parametrize(("status", "what"), [("kicked", InGone()), ("member", InGone(back=True))])
def test_shutting_the_bot_out_and_in_again_is_told(status: str, what: InGone) -> None:
    assert inbound(member(status, CHAT)).what == what


@pytest.mark.parametrize("kind", ["group", "supergroup", "channel", None, 5])
def test_only_private_chats_count(kind: object) -> None:
    chat = {**GROUP, "type": kind}
    assert read(message(chat=chat, text="hello")) == Group(-55)
    assert read(member("member", chat)) == Group(-55)
    assert read(member("left", chat)) is None
    assert read(press(message={"message_id": 7, "chat": chat, "date": DATE})) == Group(-55)


@pytest.mark.parametrize("date", [None, "now", -(10**30), 10**30, 1e400, True, [], 253_402_300_800])
def test_a_date_that_no_calendar_has_does_not_lose_the_words(date: object) -> None:
    read_back = inbound(message(text="I fell", date=date))
    assert read_back.what == InText("I fell")
    assert read_back.sent is None


@pytest.mark.parametrize("wrong", [None, "5", 5.0, True, 0, -1, 2**31, 2**64, 10**400, []])
def test_an_id_that_can_not_be_confirmed_is_none(wrong: object) -> None:
    raw = {**message(text="hello"), "update_id": wrong}
    assert number_of(raw) is None
    with pytest.raises(BadUpdate):
        read(raw)


@pytest.mark.parametrize("wrong", [None, "1001", True, 2**64, -(10**30), 1.5])
def test_a_person_or_chat_without_a_usable_id_is_refused(wrong: object) -> None:
    with pytest.raises(BadUpdate):
        read(message(text="hello", **{"from": {"id": wrong}}))
    with pytest.raises(BadUpdate):
        read(message(text="hello", chat={"id": wrong, "type": "private"}))
    with pytest.raises(BadUpdate):
        read(message(text="hello", message_id=wrong))


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=6,
)
PARTS = ["update_id", "message", "edited_message", "callback_query", "my_chat_member", "from", "chat", "id"]
PARTS += ["type", "text", "data", "date", "message_id", "new_chat_member", "status", "photo"]


@given(st.one_of(JSON, st.dictionaries(st.sampled_from(PARTS), JSON)))
def test_nonsense_is_refused_in_one_way_only(raw: object) -> None:
    try:
        read(raw)
    except BadUpdate:
        assert True  # any other exception fails the test


@given(st.data())
def test_one_broken_field_is_refused_or_read_past_and_nothing_else(data: st.DataObject) -> None:
    raw: Any = data.draw(st.sampled_from([message(text="hi"), press(), member("member", CHAT), message(photo=[])]))
    place = raw
    while True:
        key = data.draw(st.sampled_from(sorted(place)))
        if isinstance(place[key], dict) and place[key] and data.draw(st.booleans()):
            place[key] = place = dict(place[key])
            continue
        place[key] = data.draw(JSON)
        break
    try:
        came = read(raw)
    except BadUpdate:
        return
    assert came is None or isinstance(came, Came | Group)
