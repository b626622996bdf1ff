"""Requests in every form that the manual allows, and the refusals of those that make no sense."""

import json

import httpx
import pytest

from companion.rehearsal.server import Limits, Phone, RehearsalServer
from tests.rehearsal.server.hands import VOICE, Bot, HandClock, buttons, picture


async def test_a_method_takes_query_form_multipart_and_json(bot: Bot, phone: Phone) -> None:
    parameters = {"chat_id": "1001", "text": "hi", "reply_markup": json.dumps(buttons("Ready"))}
    url = bot.url("sendMessage")
    answers = [
        await bot.http.get(url, params=parameters),
        await bot.http.post(url, params=parameters),
        await bot.http.post(url, data=parameters),
        await bot.http.post(url, files={name: (None, value) for name, value in parameters.items()}),
        await bot.http.post(url, json=parameters),
        await bot.http.post(url, json={"chat_id": 1001, "text": "hi", "reply_markup": buttons("Ready")}),
    ]
    assert [answer.status_code for answer in answers] == [200] * 6
    shown = [(message.text, message.labels) for message in phone.messages if message.from_bot]
    assert shown == [("hi", (("Ready",),))] * 6


async def test_a_methods_name_may_be_spelled_in_any_case(bot: Bot) -> None:
    assert await bot.do("GETME") == await bot.do("getme")


async def test_getme_tells_who_the_token_is(bot: Bot) -> None:
    me = await bot.do("getMe")
    assert (me["id"], me["is_bot"], me["username"]) == (1000001, True, "rehearsal_bot")


async def test_a_wrong_token_is_unauthorized(bot: Bot) -> None:
    answer = await bot.http.get(f"{bot.server.base_url}/bot1000001:other/getMe")
    assert (answer.status_code, answer.json()) == (
        401,
        {"ok": False, "error_code": 401, "description": "Unauthorized"},
    )


@pytest.mark.parametrize("path", ["bot123/getMe", "bot1000001:rehearsal-token/dance", "bot12:a b/getMe"])
async def test_a_malformed_token_and_an_unknown_method_are_not_found(bot: Bot, path: str) -> None:
    answer = await bot.http.get(f"{bot.server.base_url}/{path}")
    assert answer.json() == {"ok": False, "error_code": 404, "description": "Not Found"}


@pytest.mark.parametrize("body", [b"{not json", b"[1]", b"\xff\xfe"])
async def test_a_body_that_can_not_be_read_is_refused(bot: Bot, body: bytes) -> None:
    answer = await bot.http.post(bot.url("getMe"), content=body, headers={"content-type": "application/json"})
    assert (answer.status_code, answer.json()["error_code"]) == (400, 400)


async def test_a_broken_multipart_body_is_refused(bot: Bot) -> None:
    answer = await bot.http.post(bot.url("getMe"), content=b"nothing", headers={"content-type": "multipart/form-data"})
    assert answer.status_code == 400


async def test_an_upload_is_stored_shown_and_sent_again_by_its_id(bot: Bot, phone: Phone) -> None:
    answer = await bot.http.post(
        bot.url("sendPhoto"),
        data={"chat_id": 1001, "caption": "Feet"},
        files={"photo": ("f.png", picture(60, 20))},
    )
    (size,) = answer.json()["result"]["photo"]
    assert (size["width"], size["height"], size["file_size"]) == (60, 20, len(picture(60, 20)))
    again = await bot.do("sendPhoto", chat_id=1001, photo=size["file_id"])
    assert again["photo"] == [size]
    assert [message.photo for message in phone.messages if message.from_bot] == [picture(60, 20)] * 2


async def test_an_upload_may_be_named_by_attach(bot: Bot, phone: Phone) -> None:
    media = json.dumps({"type": "document", "media": "attach://part", "caption": "Report"})
    sent = await bot.do("sendMessage", chat_id=1001, text="soon")
    answer = await bot.http.post(
        bot.url("editMessageMedia"),
        data={"chat_id": 1001, "message_id": sent["message_id"], "media": media},
        files={"part": ("week.pdf", b"%PDF-1.7")},
    )
    document = answer.json()["result"]["document"]
    assert (document["file_name"], document["mime_type"]) == ("week.pdf", "application/pdf")
    assert (phone.messages[-1].file, phone.messages[-1].caption) == (b"%PDF-1.7", "Report")


@pytest.mark.parametrize(
    ("content", "refusal"),
    [
        (b"", "file must be non-empty"),
        (b"no picture", "IMAGE_PROCESS_FAILED"),
        (picture(1, 21), "PHOTO_INVALID_DIMENSIONS"),
        (picture(9999, 600), "PHOTO_INVALID_DIMENSIONS"),
        (picture() + bytes(10 * 1024 * 1024), "file of size 10 MB or more is too big for a photo"),
    ],
)
async def test_a_photo_that_is_no_fit_picture_is_refused(bot: Bot, phone: Phone, content: bytes, refusal: str) -> None:
    answer = await bot.http.post(bot.url("sendPhoto"), data={"chat_id": 1001}, files={"photo": ("f.png", content)})
    assert answer.json()["description"] == f"Bad Request: {refusal}"


async def test_a_file_has_a_most_size(bot: Bot, phone: Phone) -> None:
    bot.server.limits = Limits(file_bytes=10)
    sizes = {9: True, 10: True, 11: False}
    for size, taken in sizes.items():
        answer = await bot.http.post(
            bot.url("sendDocument"), data={"chat_id": 1001}, files={"document": ("a.bin", bytes(size))}
        )
        assert answer.json()["ok"] is taken


async def test_a_sound_that_can_be_no_voice_note_becomes_a_document(bot: Bot, phone: Phone) -> None:
    answer = await bot.http.post(bot.url("sendVoice"), data={"chat_id": 1001}, files={"voice": ("a.wav", b"RIFF1234WAVE")})
    assert "document" in answer.json()["result"]
    assert phone.messages[-1].kind == "document"


async def test_a_file_is_sent_again_only_as_what_it_is(bot: Bot, phone: Phone) -> None:
    phone.send_voice(VOICE)
    voice = (await bot.do("getUpdates"))[-1]["message"]["voice"]["file_id"]
    refused = await bot.refused("sendPhoto", chat_id=1001, photo=voice)
    assert refused == "400 Bad Request: can't use file of type Voice as Photo"
    refused = await bot.refused("sendPhoto", chat_id=1001, photo="https://example.org/a.png")
    assert refused == "400 Bad Request: wrong file identifier/HTTP URL specified"
    refused = await bot.refused("sendPhoto", chat_id=1001)
    assert refused == "400 Bad Request: there is no photo in the request"


async def test_an_unknown_file_is_not_found(bot: Bot) -> None:
    assert await bot.refused("getFile", file_id="x") == "400 Bad Request: invalid file_id"
    answer = await bot.http.get(f"{bot.server.base_url}/file/bot{bot.server.token}/photos/file_9.jpg")
    assert answer.status_code == 404


async def test_commands_are_kept_by_scope_and_language(bot: Bot) -> None:
    commands = [{"command": "start", "description": "Begin"}]
    await bot.do("setMyCommands", commands=commands, language_code="en")
    assert await bot.do("getMyCommands", language_code="en") == commands
    assert await bot.do("getMyCommands") == []
    refused = await bot.refused("setMyCommands", commands=[{"command": "Ü", "description": "x"}])
    assert refused == "400 Bad Request: BOT_COMMAND_INVALID"
    refused = await bot.refused("setMyCommands", commands=[{"command": "go", "description": ""}])
    assert refused == "400 Bad Request: BOT_COMMAND_DESCRIPTION_INVALID"


async def test_an_unknown_chat_action_is_refused(bot: Bot, phone: Phone) -> None:
    refused = await bot.refused("sendChatAction", chat_id=1001, action="dancing")
    assert refused == "400 Bad Request: wrong parameter action in request"


async def test_a_fault_of_the_servers_own_is_told_when_it_stops(clock: HandClock) -> None:
    def broken() -> object:
        raise ZeroDivisionError

    server = RehearsalServer(now=broken)  # type: ignore[arg-type]
    server.add_phone(1001, "Ada")
    await server.start()
    async with httpx.AsyncClient(verify=False) as http:
        answer = await http.get(Bot(server, http).url("sendMessage"), params={"chat_id": 1001, "text": "hi"})
    assert answer.status_code == 500
    with pytest.raises(RuntimeError, match="1 requests broke the server"):
        await server.stop()


async def test_two_servers_live_side_by_side_and_a_taken_port_is_an_error(clock: HandClock) -> None:
    one, two = RehearsalServer(now=clock), RehearsalServer(now=clock)
    await one.start()
    await two.start()
    port = int(one.base_url.rpartition(":")[2])
    with pytest.raises(OSError):
        await RehearsalServer(now=clock).start(port)
    await one.stop()
    await two.stop()
    again = RehearsalServer(now=clock)
    await again.start(port)
    await again.stop()
    with pytest.raises(RuntimeError):
        _ = again.base_url
