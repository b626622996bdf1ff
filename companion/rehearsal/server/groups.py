"""What happens in a group: the bot is added or removed, somebody writes."""

from typing import Literal

from .chats import GroupChat, PhoneMessage
from .phones import Phone, member_wire
from .platform import Platform
from .wire import message_wire, seconds

GroupEvent = Literal["bot added", "bot removed", "message"]


def group_event(platform: Platform, group: GroupChat, by: Phone, event: GroupEvent, text: str) -> int:
    """Lets `event` happen in `group` through `by`; the number of the update."""
    life = platform.limits.message_life
    sender = by.user()
    if event == "message":
        message = PhoneMessage(platform.next_message_id(), platform.now(), False, text=text, sender=sender)
        platform.arrived(group, message)
        return platform.updates.add("message", message_wire(platform, group, message), life)
    old, new = ("left", "member") if event == "bot added" else ("member", "left")
    group.bot_is_in = event == "bot added"
    body = {
        "chat": group.wire(),
        "from": sender,
        "date": seconds(platform.now()),
        "old_chat_member": member_wire(platform, old),
        "new_chat_member": member_wire(platform, new),
    }
    return platform.updates.add("my_chat_member", body, life)
