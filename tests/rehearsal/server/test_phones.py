"""People can do on their phones what is there to be done, and nothing else."""

import pytest

from companion.rehearsal.server import NotOnThePhone, Phone, RehearsalServer
from tests.rehearsal.server.hands import CLIP, VOICE, Bot, HandClock, buttons, keyboard, picture


async def test_start_carries_the_links_payload(bot: Bot) -> None:
    number = bot.server.add_phone(1002, "Ben", language_code="de").start("code_-7")
    (update,) = await bot.do("getUpdates")
    message = update["message"]
    assert (update["update_id"], message["text"]) == (number, "/start code_-7")
    assert message["entities"] == [{"type": "bot_command", "offset": 0, "length": 6}]
    assert message["from"] == {"id": 1002, "is_bot": False, "first_name": "Ben", "language_code": "de"}
    assert message["chat"] == {"id": 1002, "type": "private", "first_name": "Ben"}


@pytest.mark.parametrize("payload", ["x" * 65, "two words", "é", "a=b"])
async def test_a_start_link_carries_64_plain_characters(server: RehearsalServer, payload: str) -> None:
    ben = server.add_phone(1002, "Ben")
    with pytest.raises(ValueError):
        ben.start(payload)
    assert not ben.started


async def test_before_start_nothing_can_be_typed(server: RehearsalServer) -> None:
    with pytest.raises(NotOnThePhone, match="has not pressed Start"):
        server.add_phone(1002, "Ben").type("hello")


async def test_a_press_sends_the_data_and_the_message(bot: Bot, phone: Phone) -> None:
    sent = await bot.do("sendMessage", chat_id=1001, text="Ready?", reply_markup=buttons("Ready"))
    phone.press("Ready")
    press = (await bot.do("getUpdates"))[-1]["callback_query"]
    assert (press["data"], press["message"], press["from"]["id"]) == ("ready", sent, 1001)


async def test_a_press_goes_to_the_newest_message_that_says_so(bot: Bot, phone: Phone) -> None:
    first = await bot.do("sendMessage", chat_id=1001, text="1", reply_markup=buttons("Ready", "Easier"))
    second = await bot.do("sendMessage", chat_id=1001, text="2", reply_markup=buttons("Ready"))
    phone.press("Ready")
    phone.press("Easier")
    phone.press("Ready", message_id=first["message_id"])
    pressed = [u["callback_query"]["message"]["message_id"] for u in await bot.do("getUpdates")]
    assert pressed == [second["message_id"], first["message_id"], first["message_id"]]


async def test_a_key_of_the_fixed_row_sends_its_words(bot: Bot, phone: Phone) -> None:
    await bot.do("sendMessage", chat_id=1001, text="Hello", reply_markup=keyboard("Enough", "More"))
    phone.press("Enough")
    assert (await bot.do("getUpdates"))[-1]["message"]["text"] == "Enough"
    assert phone.fixed_row == (("Enough", "More"),)


async def test_a_row_for_one_press_goes_after_it(bot: Bot, phone: Phone) -> None:
    once = {**keyboard("Enough", "More"), "one_time_keyboard": True}
    await bot.do("sendMessage", chat_id=1001, text="Hello", reply_markup=once)
    phone.press("More")
    assert phone.fixed_row == ()


async def test_a_button_under_a_message_comes_before_the_fixed_row(bot: Bot, phone: Phone) -> None:
    await bot.do("sendMessage", chat_id=1001, text="Hello", reply_markup=keyboard("Enough"))
    await bot.do("sendMessage", chat_id=1001, text="Go on?", reply_markup=buttons("Enough"))
    phone.press("Enough")
    phone.press_fixed("Enough")
    updates = await bot.do("getUpdates")
    assert ["callback_query" in updates[0], updates[1]["message"]["text"]] == [True, "Enough"]


async def test_what_is_not_on_the_phone_can_not_be_pressed(bot: Bot, phone: Phone) -> None:
    sent = await bot.do("sendMessage", chat_id=1001, text="Ready?", reply_markup=buttons("Ready"))
    await bot.do("sendMessage", chat_id=1001, text="Hello", reply_markup=keyboard("More"))
    with pytest.raises(NotOnThePhone, match=rf"'Go'.*{sent['message_id']}: Ready\. Fixed row: More"):
        phone.press("Go")
    await bot.do("editMessageText", chat_id=1001, message_id=sent["message_id"], text="Go")
    with pytest.raises(NotOnThePhone, match="nothing says 'Ready'"):
        phone.press("Ready")
    with pytest.raises(NotOnThePhone, match="not in the fixed row"):
        phone.press_fixed("Ready")
    assert await bot.do("getUpdates") == []


async def test_a_press_under_a_named_message_looks_nowhere_else(bot: Bot, phone: Phone) -> None:
    sent = await bot.do("sendMessage", chat_id=1001, text="Hello", reply_markup=keyboard("More"))
    with pytest.raises(NotOnThePhone):
        phone.press("More", message_id=sent["message_id"])


async def test_an_old_button_can_still_arrive(bot: Bot, phone: Phone) -> None:
    sent = await bot.do("sendMessage", chat_id=1001, text="Ready?", reply_markup=buttons("Ready"))
    await bot.do("deleteMessage", chat_id=1001, message_id=sent["message_id"])
    phone.stale_press(sent["message_id"], "ready")
    press = (await bot.do("getUpdates"))[-1]["callback_query"]
    assert (press["data"], press["message"]["date"]) == ("ready", 0)


async def test_a_person_edits_their_own_text(bot: Bot, phone: Phone, clock: HandClock) -> None:
    phone.type("helo")
    own = phone.messages[-1].message_id
    clock.move_on(5)
    phone.edit(own, "hello")
    edited = (await bot.do("getUpdates"))[-1]["edited_message"]
    assert (edited["text"], edited["edit_date"] - edited["date"]) == ("hello", 5)
    sent = await bot.do("sendMessage", chat_id=1001, text="hi")
    with pytest.raises(NotOnThePhone, match="no text of their own"):
        phone.edit(sent["message_id"], "x")


async def test_a_person_takes_a_message_off_their_phone(bot: Bot, phone: Phone) -> None:
    sent = await bot.do("sendMessage", chat_id=1001, text="hi")
    held = phone.message(sent["message_id"])
    phone.delete(sent["message_id"])
    refused = await bot.refused("editMessageText", chat_id=1001, message_id=sent["message_id"], text="x")
    assert (held.deleted, refused) == (True, "400 Bad Request: message to edit not found")
    with pytest.raises(NotOnThePhone):
        phone.message(sent["message_id"])


async def test_pictures_voice_notes_and_clips_arrive_and_can_be_fetched(bot: Bot, phone: Phone) -> None:
    phone.send_photo(picture(), caption="my chair")
    phone.send_voice(VOICE, seconds=4)
    phone.send_video(CLIP, seconds=9, caption="my steps")
    photo, voice, clip = (update["message"] for update in await bot.do("getUpdates"))
    assert (clip["caption"], clip["video"]["duration"]) == ("my steps", 9)
    assert (photo["caption"], voice["voice"]["duration"]) == ("my chair", 4)
    path = (await bot.do("getFile", file_id=photo["photo"][-1]["file_id"]))["file_path"]
    fetched = await bot.http.get(f"{bot.server.base_url}/file/bot{bot.server.token}/{path}")
    assert fetched.content == picture()
    sent = [await bot.do("sendVideo", chat_id=1001, video=clip["video"]["file_id"])]
    sent.append(await bot.do("sendVoice", chat_id=1001, voice=voice["voice"]["file_id"]))
    assert [message.file for message in phone.messages[-2:]] == [CLIP, VOICE]
    assert [message["message_id"] for message in sent] == [message.message_id for message in phone.messages[-2:]]


async def test_who_blocked_the_bot_can_not_type(phone: Phone) -> None:
    phone.block()
    with pytest.raises(NotOnThePhone, match="has blocked the bot"):
        phone.type("hello")
    phone.unblock()
    phone.type("hello")


async def test_a_button_with_a_link_tells_the_bot_nothing(bot: Bot, phone: Phone) -> None:
    link = {"inline_keyboard": [[{"text": "Read", "url": "https://example.org"}]]}
    await bot.do("sendMessage", chat_id=1001, text="More", reply_markup=link)
    with pytest.raises(NotOnThePhone, match="opens a link"):
        phone.press("Read")


async def test_two_people_can_not_have_one_id(server: RehearsalServer, phone: Phone) -> None:
    with pytest.raises(ValueError):
        server.add_phone(1001, "Ben")
    with pytest.raises(ValueError):
        server.add_phone(-4, "Ben")


async def test_a_group_is_joined_spoken_in_and_left(bot: Bot, phone: Phone) -> None:
    server = bot.server
    server.add_group_event(-500, phone, "bot added", title="Invented group")
    server.add_group_event(-500, phone, "message", text="hello all")
    added, said = await bot.do("getUpdates")
    assert added["my_chat_member"]["new_chat_member"]["status"] == "member"
    assert (said["message"]["chat"]["type"], said["message"]["from"]["id"]) == ("group", 1001)
    await bot.do("sendMessage", chat_id=-500, text="Only private chats.")
    await bot.do("leaveChat", chat_id=-500)
    assert not server.bot_is_in(-500)
    assert await bot.refused("sendMessage", chat_id=-500, text="hi") == ("403 Forbidden: bot is not a member of the group chat")
    assert [entry.text for entry in server.entries] == ["/start"]


async def test_a_private_chat_can_not_be_left(bot: Bot, phone: Phone) -> None:
    assert (await bot.refused("leaveChat", chat_id=1001)).endswith("in private chats")
