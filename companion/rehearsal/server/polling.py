"""How the bot gets its updates: what a getUpdates asks for, and the webhook that rules it out.

The webhook's address is kept and told, and nothing is ever sent to it: the rehearsed bot polls.
"""

from typing import Any

from .parameters import Parameters
from .platform import Platform
from .refusals import bad_request, conflict
from .updates import LONGEST_POLL, Ask


def ask_of(platform: Platform, parameters: Parameters) -> Ask:
    """The getUpdates that `parameters` describe, limits clamped as the platform does; refused while there is
    a webhook.
    """
    if platform.webhook:
        raise conflict("can't use getUpdates method while webhook is active; use deleteWebhook to delete the webhook first")
    _allow(platform, parameters)
    return Ask(
        offset=parameters.integer("offset"),
        limit=min(100, max(1, parameters.integer("limit", 100))),
        timeout=min(LONGEST_POLL, max(0, parameters.integer("timeout"))),
    )


def set_webhook(platform: Platform, parameters: Parameters) -> bool:
    """setWebhook; an empty url is deleteWebhook."""
    url = parameters.text("url")
    if url and not url.startswith("https://"):
        raise bad_request("bad webhook: An HTTPS URL must be provided for webhook")
    _allow(platform, parameters)
    if url:
        platform.updates.end_poll(conflict("terminated by setWebhook request"))
    return _set(platform, parameters, url)


def delete_webhook(platform: Platform, parameters: Parameters) -> bool:
    """deleteWebhook."""
    return _set(platform, parameters, "")


def get_webhook_info(platform: Platform, parameters: Parameters) -> dict[str, Any]:
    """getWebhookInfo."""
    info: dict[str, Any] = {
        "url": platform.webhook,
        "has_custom_certificate": False,
        "pending_update_count": len(platform.updates.unconfirmed),
    }
    if platform.webhook:
        info["max_connections"] = 40
    if platform.updates.allowed is not None:
        info["allowed_updates"] = platform.updates.allowed
    return info


def _allow(platform: Platform, parameters: Parameters) -> None:
    kinds = parameters.structure("allowed_updates")
    if isinstance(kinds, list):
        platform.updates.allow([str(kind) for kind in kinds])


def _set(platform: Platform, parameters: Parameters, url: str) -> bool:
    platform.webhook = url
    if parameters.flag("drop_pending_updates"):
        platform.updates.forget_all()
    return True
