"""Every method that the server offers: its name, what it is charged for, what answers it."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from . import asking, editing, polling, sending
from .limits import Cost
from .parameters import Parameters
from .platform import Platform

Answer = Callable[[Platform, Parameters], Any]


@dataclass(frozen=True)
class Method:
    """`name` as the manual spells it; any case is understood."""

    name: str
    cost: Cost
    answer: Answer

    def call(self, platform: Platform, parameters: Parameters) -> Any:
        """Charges and does it; raises Refusal.

        A request that is refused for another reason than its rate has been charged.
        """
        platform.rates.charge(platform.limits, self.cost, parameters.chat_id or 0)
        return self.answer(platform, parameters)


METHODS = {
    method.name.lower(): method
    for method in (
        Method("getMe", "free", asking.get_me),
        Method("setWebhook", "free", polling.set_webhook),
        Method("deleteWebhook", "free", polling.delete_webhook),
        Method("getWebhookInfo", "free", polling.get_webhook_info),
        Method("sendMessage", "send", sending.send_message),
        Method("sendPhoto", "send", sending.send_photo),
        Method("sendVoice", "send", sending.send_voice),
        Method("sendVideo", "send", sending.send_video),
        Method("sendAnimation", "send", sending.send_animation),
        Method("sendDocument", "send", sending.send_document),
        Method("copyMessage", "send", sending.copy_message),
        Method("sendChatAction", "plain", sending.send_chat_action),
        Method("editMessageText", "edit", editing.edit_message_text),
        Method("editMessageCaption", "edit", editing.edit_message_caption),
        Method("editMessageReplyMarkup", "edit", editing.edit_message_reply_markup),
        Method("editMessageMedia", "edit", editing.edit_message_media),
        Method("deleteMessage", "plain", editing.delete_message),
        Method("answerCallbackQuery", "free", asking.answer_callback_query),
        Method("getFile", "free", asking.get_file),
        Method("getChat", "free", asking.get_chat),
        Method("leaveChat", "free", asking.leave_chat),
        Method("setMyCommands", "free", asking.set_my_commands),
        Method("getMyCommands", "free", asking.get_my_commands),
    )
}

OFFERED = ("getUpdates", *(method.name for method in METHODS.values()))
"""The names of all; getUpdates is held open and therefore answered apart."""
