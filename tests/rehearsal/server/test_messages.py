"""What the bot sends is on the phone, as the platform would have it, or is refused as the platform would."""

import pytest

from companion.rehearsal.server import Entry, Phone
from tests.rehearsal.server.hands import CLIP, START, VOICE, Bot, HandClock, buttons, keyboard, picture


async def test_a_text_with_buttons_is_on_the_phone(bot: Bot, phone: Phone) -> None:
    sent = await bot.do("sendMessage", chat_id=1001, text=" Time. ", reply_markup=buttons("Ready"), disable_notification=True)
    message = phone.messages[-1]
    assert (message.message_id, message.text, message.silent) == (sent["message_id"], "Time.", True)
    assert (message.labels, message.buttons[0][0].data) == ((("Ready",),), "ready")
    assert (sent["date"], sent["chat"]["id"], sent["from"]["is_bot"]) == (int(START.timestamp()), 1001, True)
    assert sent["reply_markup"] == buttons("Ready")


async def test_lengths_are_kept(bot: Bot, phone: Phone) -> None:
    await bot.do("sendMessage", chat_id=1001, text="x" * 4096)
    assert await bot.refused("sendMessage", chat_id=1001, text="x" * 4097) == "400 Bad Request: message is too long"
    photo = (await bot.do("sendPhoto", chat_id=1001, photo=await a_photo(bot), caption="c" * 1024))["message_id"]
    too_long = await bot.refused("editMessageCaption", chat_id=1001, message_id=photo, caption="c" * 1025)
    assert too_long == "400 Bad Request: message caption is too long"


@pytest.mark.parametrize("text", ["", "  \n "])
async def test_an_empty_text_is_refused(bot: Bot, phone: Phone, text: str) -> None:
    assert await bot.refused("sendMessage", chat_id=1001, text=text) == "400 Bad Request: message text is empty"


async def test_a_buttons_data_is_at_most_64_bytes(bot: Bot, phone: Phone) -> None:
    def with_data(data: str) -> object:
        return {"inline_keyboard": [[{"text": "Go", "callback_data": data}]]}

    await bot.do("sendMessage", chat_id=1001, text="hi", reply_markup=with_data("é" * 32))
    refused = await bot.refused("sendMessage", chat_id=1001, text="hi", reply_markup=with_data("é" * 32 + "x"))
    assert refused == "400 Bad Request: BUTTON_DATA_INVALID"


async def test_marks_are_refused_rather_than_shown_as_words(bot: Bot, phone: Phone) -> None:
    refused = await bot.refused("sendMessage", chat_id=1001, text="<b>hi</b>", parse_mode="HTML")
    assert refused.startswith("400 Bad Request: unsupported parse_mode")


async def test_an_unknown_chat_is_not_found(bot: Bot, phone: Phone) -> None:
    assert await bot.refused("sendMessage", chat_id=4, text="hi") == "400 Bad Request: chat not found"
    assert await bot.refused("sendMessage", chat_id="@ada", text="hi") == "400 Bad Request: chat_id is empty"


async def test_a_bot_can_not_begin_a_conversation(bot: Bot) -> None:
    ben = bot.server.add_phone(1002, "Ben")
    refused = await bot.refused("sendMessage", chat_id=1002, text="hi")
    assert refused == "403 Forbidden: bot can't initiate conversation with a user"
    ben.start()
    await bot.do("sendMessage", chat_id=1002, text="hi")


async def test_who_blocked_the_bot_gets_nothing_until_they_start_again(bot: Bot, phone: Phone) -> None:
    sent = await bot.do("sendMessage", chat_id=1001, text="hi")
    phone.block()
    blocked = "403 Forbidden: bot was blocked by the user"
    assert await bot.refused("sendMessage", chat_id=1001, text="hi") == blocked
    assert await bot.refused("editMessageText", chat_id=1001, message_id=sent["message_id"], text="yo") == blocked
    phone.start()
    await bot.do("sendMessage", chat_id=1001, text="hi again")
    statuses = [
        update["my_chat_member"]["new_chat_member"]["status"]
        for update in await bot.do("getUpdates")
        if "my_chat_member" in update
    ]
    assert statuses == ["kicked", "member"]


async def test_an_edit_changes_the_message_in_place(bot: Bot, phone: Phone, clock: HandClock) -> None:
    sent = await bot.do("sendMessage", chat_id=1001, text="30", reply_markup=buttons("Stop"))
    clock.move_on(15)
    edited = await bot.do("editMessageText", chat_id=1001, message_id=sent["message_id"], text="15")
    message = phone.message(sent["message_id"])
    assert (message.text, message.buttons, message.at, message.edited_at) == ("15", (), START, clock.at)
    assert (edited["date"], edited["edit_date"]) == (sent["date"], sent["date"] + 15)


async def test_an_edit_that_changes_nothing_is_refused(bot: Bot, phone: Phone) -> None:
    sent = await bot.do("sendMessage", chat_id=1001, text="30", reply_markup=buttons("Stop"))
    where = {"chat_id": 1001, "message_id": sent["message_id"]}
    unchanged = await bot.refused("editMessageText", **where, text="30", reply_markup=buttons("Stop"))
    assert unchanged.startswith("400 Bad Request: message is not modified")
    unchanged = await bot.refused("editMessageReplyMarkup", **where, reply_markup=buttons("Stop"))
    assert unchanged.startswith("400 Bad Request: message is not modified")
    await bot.do("editMessageText", **where, text="30")
    assert (await bot.refused("editMessageReplyMarkup", **where)).startswith("400 Bad Request: message is not mod")


async def test_what_is_not_there_can_be_neither_edited_nor_deleted(bot: Bot, phone: Phone) -> None:
    sent = await bot.do("sendMessage", chat_id=1001, text="hi")
    where = {"chat_id": 1001, "message_id": sent["message_id"]}
    await bot.do("deleteMessage", **where)
    assert await bot.refused("deleteMessage", **where) == "400 Bad Request: message to delete not found"
    assert await bot.refused("editMessageText", **where, text="x") == "400 Bad Request: message to edit not found"


async def test_a_persons_message_can_be_deleted_but_not_edited(bot: Bot, phone: Phone) -> None:
    phone.type("hello")
    where = {"chat_id": 1001, "message_id": phone.messages[-1].message_id}
    assert await bot.refused("editMessageText", **where, text="x") == "400 Bad Request: message can't be edited"
    await bot.do("deleteMessage", **where)
    assert "hello" not in [message.text for message in phone.messages]


async def test_nothing_older_than_48_hours_can_be_deleted(bot: Bot, phone: Phone, clock: HandClock) -> None:
    sent = await bot.do("sendMessage", chat_id=1001, text="hi")
    clock.move_on(48 * 3600 + 1)
    refused = await bot.refused("deleteMessage", chat_id=1001, message_id=sent["message_id"])
    assert refused == "400 Bad Request: message can't be deleted for everyone"


async def test_a_text_becomes_a_photo_and_never_a_text_again(bot: Bot, phone: Phone) -> None:
    sent = await bot.do("sendMessage", chat_id=1001, text="Look")
    where = {"chat_id": 1001, "message_id": sent["message_id"]}
    media = {"type": "photo", "media": await a_photo(bot), "caption": "Feet"}
    edited = await bot.do("editMessageMedia", **where, media=media)
    message = phone.message(sent["message_id"])
    assert (message.kind, message.text, message.caption, message.photo) == ("photo", "", "Feet", picture())
    assert edited["photo"][0]["width"] == 40
    refused = await bot.refused("editMessageText", **where, text="Look")
    assert refused == "400 Bad Request: there is no text in the message to edit"
    assert (await bot.refused("editMessageMedia", **where, media=media)).startswith("400 Bad Request: message is not")
    await bot.do("editMessageCaption", **where, caption="Hand on", reply_markup=buttons("Ready"))
    assert (message.caption, message.labels) == ("Hand on", (("Ready",),))


async def test_a_voice_note_keeps_its_sound_but_not_its_caption(bot: Bot, phone: Phone) -> None:
    phone.send_voice(VOICE, seconds=60)
    file_id = (await bot.do("getUpdates"))[-1]["message"]["voice"]["file_id"]
    sent = await bot.do("sendVoice", chat_id=1001, voice=file_id, caption="60 s", reply_markup=buttons("Clean"))
    assert (sent["voice"]["duration"], sent["voice"]["mime_type"]) == (60, "audio/ogg")
    where = {"chat_id": 1001, "message_id": sent["message_id"]}
    media = {"type": "photo", "media": await a_photo(bot)}
    assert await bot.refused("editMessageMedia", **where, media=media) == "400 Bad Request: message can't be edited"
    assert (await bot.refused("editMessageText", **where, text="x")).endswith("no text in the message to edit")
    await bot.do("editMessageCaption", **where, caption="Done")
    assert (phone.messages[-1].caption, phone.messages[-1].buttons) == ("Done", ())


async def test_a_picture_becomes_another_and_keeps_its_place(bot: Bot, phone: Phone) -> None:
    sent = await bot.do("sendPhoto", chat_id=1001, photo=await a_photo(bot), caption="Feet", reply_markup=buttons("Ready"))
    phone.send_photo(picture(60, 40))
    other = (await bot.do("getUpdates"))[-1]["message"]["photo"][-1]["file_id"]
    media = {"type": "photo", "media": other, "caption": "Place"}
    edited = await bot.do("editMessageMedia", chat_id=1001, message_id=sent["message_id"], media=media)
    assert (edited["photo"][0]["file_id"], edited["photo"][0]["width"]) == (other, 60)
    message = phone.message(sent["message_id"])
    assert (message.caption, message.photo, message.labels) == ("Place", picture(60, 40), ())


@pytest.mark.parametrize("kind", ["video", "animation"])
async def test_a_text_becomes_a_clip_and_the_clip_a_picture(bot: Bot, phone: Phone, kind: str) -> None:
    uploaded = await bot.upload("send" + kind.capitalize(), {kind: CLIP}, chat_id=1001, duration=8)
    assert uploaded[kind]["duration"] == 8
    sent = await bot.do("sendMessage", chat_id=1001, text="Look")
    where = {"chat_id": 1001, "message_id": sent["message_id"]}
    edited = await bot.do("editMessageMedia", **where, media={"type": kind, "media": uploaded[kind]["file_id"]})
    message = phone.message(sent["message_id"])
    assert (edited[kind]["file_id"], message.kind, message.file) == (uploaded[kind]["file_id"], kind, CLIP)
    await bot.do("editMessageMedia", **where, media={"type": "photo", "media": await a_photo(bot)})
    assert (message.kind, message.photo) == ("photo", picture())


async def test_nothing_becomes_a_voice_note(bot: Bot, phone: Phone) -> None:
    phone.send_voice(VOICE)
    file_id = (await bot.do("getUpdates"))[-1]["message"]["voice"]["file_id"]
    sent = await bot.do("sendMessage", chat_id=1001, text="Look")
    media = {"type": "voice", "media": file_id}
    refused = await bot.refused("editMessageMedia", chat_id=1001, message_id=sent["message_id"], media=media)
    assert refused.startswith("400 Bad Request: can't parse InputMedia")
    assert phone.message(sent["message_id"]).text == "Look"


async def test_what_is_no_clip_becomes_a_document(bot: Bot, phone: Phone) -> None:
    await bot.upload("sendVideo", {"video": b"no clip"}, chat_id=1001)
    assert phone.messages[-1].kind == "document"


async def test_a_file_that_the_platform_does_not_know_is_refused_in_its_words(bot: Bot, phone: Phone) -> None:
    known, wrong = await a_photo(bot), "400 Bad Request: wrong file identifier/HTTP URL specified"
    sent = await bot.do("sendPhoto", chat_id=1001, photo=known)
    assert await bot.refused("sendPhoto", chat_id=1001, photo="AgACinvented") == wrong
    bot.server.forget_file_ids()
    assert await bot.refused("sendPhoto", chat_id=1001, photo=known) == wrong
    where = {"chat_id": 1001, "message_id": sent["message_id"]}
    assert await bot.refused("editMessageMedia", **where, media={"type": "photo", "media": known}) == wrong
    await bot.do("editMessageCaption", **where, caption="It is still there")
    assert phone.message(sent["message_id"]).photo == picture()


async def test_a_file_is_sent_again_only_as_what_it_is(bot: Bot, phone: Phone) -> None:
    refused = await bot.refused("sendVoice", chat_id=1001, voice=await a_photo(bot))
    assert refused == "400 Bad Request: can't use file of type Photo as Voice"


async def test_a_text_has_no_caption(bot: Bot, phone: Phone) -> None:
    sent = await bot.do("sendMessage", chat_id=1001, text="hi")
    refused = await bot.refused("editMessageCaption", chat_id=1001, message_id=sent["message_id"], caption="x")
    assert refused == "400 Bad Request: there is no caption in the message to edit"


async def test_a_fixed_row_is_laid_stays_and_goes(bot: Bot, phone: Phone) -> None:
    sent = await bot.do("sendMessage", chat_id=1001, text="Welcome", reply_markup=keyboard("Enough", "More"))
    assert "reply_markup" not in sent
    assert (phone.fixed_row, phone.fixed_row_stays) == ((("Enough", "More"),), True)
    refused = await bot.refused("editMessageText", chat_id=1001, message_id=sent["message_id"], text="x")
    assert refused == "400 Bad Request: message can't be edited"
    await bot.do("sendMessage", chat_id=1001, text="Bye", reply_markup={"remove_keyboard": True})
    assert phone.fixed_row == ()


async def test_a_fixed_row_goes_with_the_message_that_laid_it(bot: Bot, phone: Phone) -> None:
    sent = await bot.do("sendMessage", chat_id=1001, text="Welcome", reply_markup=keyboard("Enough"))
    await bot.do("deleteMessage", chat_id=1001, message_id=sent["message_id"])
    assert phone.fixed_row == ()


async def test_an_edit_can_not_lay_a_fixed_row(bot: Bot, phone: Phone) -> None:
    sent = await bot.do("sendMessage", chat_id=1001, text="hi")
    where = {"chat_id": 1001, "message_id": sent["message_id"]}
    refused = await bot.refused("editMessageText", **where, text="x", reply_markup=keyboard("Enough"))
    assert refused == "400 Bad Request: inline keyboard expected"


@pytest.mark.parametrize(
    "markup",
    [
        {"inline_keyboard": [["Ready"]]},
        {"inline_keyboard": [[{"text": "Ready"}]]},
        {"inline_keyboard": "Ready"},
        {"inline_keyboard": [[{"text": " ", "callback_data": "x"}]]},
        {"keyboard": []},
        {"neither": 1},
        "{not json",
        [1],
    ],
)
async def test_a_malformed_markup_is_refused(bot: Bot, phone: Phone, markup: object) -> None:
    refused = await bot.refused("sendMessage", chat_id=1001, text="hi", reply_markup=markup)
    assert refused.startswith("400 Bad Request")
    assert len(phone.messages) == 1


async def test_a_message_has_at_most_100_buttons(bot: Bot, phone: Phone) -> None:
    def many(count: int) -> dict[str, object]:
        return {"inline_keyboard": [[{"text": str(n), "callback_data": str(n)}] for n in range(count)]}

    await bot.do("sendMessage", chat_id=1001, text="hi", reply_markup=many(100))
    refused = await bot.refused("sendMessage", chat_id=1001, text="hi", reply_markup=many(101))
    assert refused == "400 Bad Request: REPLY_MARKUP_TOO_LONG"


async def test_an_answered_press_shows_its_words_once(bot: Bot, phone: Phone) -> None:
    await bot.do("sendMessage", chat_id=1001, text="Ready?", reply_markup=buttons("Ready"))
    phone.press("Ready")
    press = (await bot.do("getUpdates"))[-1]["callback_query"]
    answer = {"callback_query_id": press["id"], "text": "Noted", "show_alert": True}
    await bot.do("answerCallbackQuery", **answer)
    assert phone.toasts == [(START, "Noted", True)]
    assert "query is too old" in await bot.refused("answerCallbackQuery", **answer)


async def test_a_press_can_be_answered_for_15_seconds(bot: Bot, phone: Phone, clock: HandClock) -> None:
    await bot.do("sendMessage", chat_id=1001, text="Ready?", reply_markup=buttons("Ready"))
    phone.press("Ready")
    phone.press("Ready")
    first, second = (update["callback_query"]["id"] for update in await bot.do("getUpdates"))
    clock.move_on(15)
    await bot.do("answerCallbackQuery", callback_query_id=first)
    clock.move_on(0.001)
    assert "400 Bad Request: query is too old" in await bot.refused("answerCallbackQuery", callback_query_id=second)
    assert phone.toasts == []


async def test_a_toast_is_at_most_200_characters(bot: Bot, phone: Phone) -> None:
    await bot.do("sendMessage", chat_id=1001, text="Ready?", reply_markup=buttons("Ready"))
    phone.press("Ready")
    press = (await bot.do("getUpdates"))[-1]["callback_query"]["id"]
    refused = await bot.refused("answerCallbackQuery", callback_query_id=press, text="x" * 201)
    assert refused == "400 Bad Request: MESSAGE_TOO_LONG"


async def test_everything_is_recorded_in_order(bot: Bot, phone: Phone, clock: HandClock) -> None:
    sent = await bot.do("sendMessage", chat_id=1001, text="Ready?", reply_markup=buttons("Ready"))
    clock.move_on(2)
    phone.press("Ready")
    press = (await bot.do("getUpdates"))[-1]["callback_query"]["id"]
    await bot.do("answerCallbackQuery", callback_query_id=press, text="Noted")
    where = {"chat_id": 1001, "message_id": sent["message_id"]}
    await bot.do("editMessageText", **where, text="Go")
    await bot.do("deleteMessage", **where)
    number, later = sent["message_id"], clock.at
    assert bot.server.entries[1:] == [
        Entry(START, 1001, "out", "text", "Ready?", (("Ready",),), message_id=number),
        Entry(later, 1001, "in", "press", "Ready", message_id=number, data="ready"),
        Entry(later, 1001, "out", "toast", "Noted", silent=True),
        Entry(later, 1001, "out", "edit", "Go", silent=True, message_id=number),
        Entry(later, 1001, "out", "delete", "Go", silent=True, message_id=number),
    ]


async def a_photo(bot: Bot) -> str:
    """The id of a photo that the platform already has: Ben sent it."""
    ben = bot.server.phones.get(1002) or bot.server.add_phone(1002, "Ben")
    ben.start()
    ben.send_photo(picture())
    photo = (await bot.do("getUpdates"))[-1]["message"]["photo"]
    return str(photo[-1]["file_id"])
