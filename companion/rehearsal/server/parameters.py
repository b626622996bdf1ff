"""A request's parameters, whichever of the four ways they came: query, form, multipart or JSON."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import parse_qsl

from starlette.datastructures import UploadFile
from starlette.requests import Request

from .refusals import bad_request


@dataclass(frozen=True)
class Upload:
    """A file of a multipart body."""

    name: str
    content: bytes = field(repr=False)


@dataclass(frozen=True)
class Parameters:
    """Named values; numbers, booleans and objects may also stand as their JSON text."""

    values: Mapping[str, Any]
    files: Mapping[str, Upload] = field(default_factory=dict)

    def text(self, name: str) -> str:
        """The value as text without blanks around it; "" if absent."""
        value = self.values.get(name)
        if value is None:
            return ""
        return value.strip() if isinstance(value, str) else json.dumps(value)

    def integer(self, name: str, default: int = 0) -> int:
        """A whole number; `default` if absent or none."""
        try:
            return int(self.text(name))
        except ValueError:
            return default

    def flag(self, name: str) -> bool:
        return self.text(name).lower() in ("true", "yes", "1")

    def has(self, name: str) -> bool:
        return self.values.get(name) is not None

    def structure(self, name: str) -> Any:
        """An object or a list; None if absent; refused if it is not JSON."""
        value = self.values.get(name)
        if not isinstance(value, str):
            return value
        if not value.strip():
            return None
        try:
            return json.loads(value)
        except ValueError as broken:
            raise bad_request(f"can't parse {name.replace('_', ' ')} JSON object") from broken

    @property
    def chat_id(self) -> int | None:
        """The chat that is meant, if it is named by a number."""
        return self.integer("chat_id") or None


async def read(request: Request) -> Parameters:
    """All that a request says. A body that can not be read is refused."""
    values: dict[str, Any] = dict(request.query_params)
    files: dict[str, Upload] = {}
    kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if request.method == "POST" and kind == "application/json":
        values.update(_json_object(await request.body()))
    elif request.method == "POST" and kind == "application/x-www-form-urlencoded":
        values.update(parse_qsl((await request.body()).decode(errors="replace"), keep_blank_values=True))
    elif request.method == "POST" and kind == "multipart/form-data":
        async with request.form() as form:
            for name, value in form.multi_items():
                if isinstance(value, UploadFile):
                    files[name] = Upload(value.filename or "", await value.read())
                else:
                    values[name] = value
    return Parameters(values, files)


def _json_object(body: bytes) -> dict[str, Any]:
    try:
        found = json.loads(body or b"{}")
    except ValueError as broken:
        raise bad_request("can't parse JSON object in the request body") from broken
    if not isinstance(found, dict):
        raise bad_request("object expected as the request body")
    return found
