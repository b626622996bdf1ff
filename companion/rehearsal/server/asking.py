"""The methods that are neither sending nor editing: about the bot, its chats, files, commands, and the answer
to a press.
"""

import json
import re
from datetime import timedelta
from typing import Any

from .chats import Chat, GroupChat, PrivateChat
from .parameters import Parameters
from .platform import Platform
from .refusals import bad_request, forbidden

COMMAND = re.compile(r"[a-z0-9_]{1,32}")
GIFTS = ("unlimited_gifts", "limited_gifts", "unique_gifts", "premium_subscription", "gifts_from_channels")


def get_me(platform: Platform, parameters: Parameters) -> dict[str, Any]:
    """getMe."""
    return {
        **platform.bot,
        "can_join_groups": True,
        "can_read_all_group_messages": False,
        "supports_inline_queries": False,
        "can_connect_to_business": False,
        "has_main_web_app": False,
    }


def get_chat(platform: Platform, parameters: Parameters) -> dict[str, Any]:
    """getChat: the ChatFullInfo object with what it must have."""
    chat: Chat = platform.known(parameters.chat_id)
    if isinstance(chat, PrivateChat) and not chat.started:
        raise bad_request("chat not found")
    if isinstance(chat, GroupChat) and not chat.bot_is_in:
        raise forbidden("bot is not a member of the group chat")
    gifts = dict.fromkeys(GIFTS, False)
    return {**chat.wire(), "accent_color_id": 0, "max_reaction_count": 11, "accepted_gift_types": gifts}


def leave_chat(platform: Platform, parameters: Parameters) -> bool:
    """leaveChat, for groups."""
    chat = platform.known(parameters.chat_id)
    if not isinstance(chat, GroupChat):
        raise bad_request("chat member status can't be changed in private chats")
    if not chat.bot_is_in:
        raise forbidden("bot is not a member of the group chat")
    chat.bot_is_in = False
    platform.changes.ring()
    return True


def get_file(platform: Platform, parameters: Parameters) -> dict[str, Any]:
    """getFile."""
    stored = platform.files.by_id(parameters.text("file_id"))
    if stored is None:
        raise bad_request("invalid file_id")
    return {
        "file_id": stored.file_id,
        "file_unique_id": stored.unique_id,
        "file_size": len(stored.content),
        "file_path": stored.path,
    }


def answer_callback_query(platform: Platform, parameters: Parameters) -> bool:
    """answerCallbackQuery: once, and only while the press is fresh."""
    press_id, text = parameters.text("callback_query_id"), parameters.text("text")
    press, life, longest = (
        platform.presses.get(press_id),
        platform.limits.callback_life,
        platform.limits.toast,
    )
    late = press is not None and life is not None and platform.now() - press.at > timedelta(seconds=life)
    if press is None or late:
        raise bad_request("query is too old and response timeout expired or query ID is invalid")
    if longest is not None and len(text) > longest:
        raise bad_request("MESSAGE_TOO_LONG")
    del platform.presses[press_id]
    chat = platform.chats[press.user_id]
    if text and isinstance(chat, PrivateChat):
        platform.toast(chat, text, parameters.flag("show_alert"))
    return True


def set_my_commands(platform: Platform, parameters: Parameters) -> bool:
    """setMyCommands, kept by scope and language."""
    commands = parameters.structure("commands")
    if not isinstance(commands, list) or len(commands) > 100:
        raise bad_request("can't parse commands: an Array of at most 100 is expected")
    kept = []
    for raw in commands:
        command = str(raw.get("command", "")).removeprefix("/") if isinstance(raw, dict) else ""
        description = str(raw.get("description", "")).strip() if isinstance(raw, dict) else ""
        if not COMMAND.fullmatch(command):
            raise bad_request("BOT_COMMAND_INVALID")
        if not 1 <= len(description) <= 256:
            raise bad_request("BOT_COMMAND_DESCRIPTION_INVALID")
        kept.append({"command": command, "description": description})
    platform.commands[_scope(parameters)] = kept
    return True


def get_my_commands(platform: Platform, parameters: Parameters) -> list[dict[str, str]]:
    """getMyCommands of exactly this scope and language."""
    return platform.commands.get(_scope(parameters), [])


def _scope(parameters: Parameters) -> str:
    scope = parameters.structure("scope") or {"type": "default"}
    return json.dumps([scope, parameters.text("language_code")], sort_keys=True)
