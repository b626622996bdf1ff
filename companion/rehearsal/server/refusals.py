"""What the platform says when it will not do what was asked.

Every refusal is an error code, a sentence, and for a flood the seconds to wait. The sentences are the
platform's own where they are publicly known, because client libraries choose their error class by reading
them.
"""

from typing import Any


class Refusal(Exception):
    """A request that is answered with `ok: false`."""

    def __init__(self, code: int, description: str, retry_after: int | None = None) -> None:
        super().__init__(description)
        self.code = code
        self.description = description
        self.retry_after = retry_after

    def envelope(self) -> dict[str, Any]:
        """The JSON object that the client gets."""
        answer: dict[str, Any] = {"ok": False, "error_code": self.code, "description": self.description}
        if self.retry_after is not None:
            answer["parameters"] = {"retry_after": self.retry_after}
        return answer


def bad_request(what: str) -> Refusal:
    return Refusal(400, f"Bad Request: {what}")


def forbidden(what: str) -> Refusal:
    return Refusal(403, f"Forbidden: {what}")


def conflict(what: str) -> Refusal:
    return Refusal(409, f"Conflict: {what}")


def too_many_requests(retry_after: int) -> Refusal:
    """`retry_after` in whole seconds, at least 1."""
    return Refusal(429, f"Too Many Requests: retry after {retry_after}", retry_after)


def not_found() -> Refusal:
    return Refusal(404, "Not Found")


def unauthorized() -> Refusal:
    return Refusal(401, "Unauthorized")


def not_modified() -> Refusal:
    return bad_request(
        "message is not modified: specified new message content and reply markup are exactly the same"
        " as a current content and reply markup of the message"
    )
