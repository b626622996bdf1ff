"""The platform's file store: what was uploaded, by file id and by download path."""

import hashlib
import io
import mimetypes
from dataclasses import dataclass, field
from typing import Any, Literal

from PIL import Image, UnidentifiedImageError

from .limits import Limits
from .refusals import bad_request

FileKind = Literal["photo", "voice", "video", "animation", "document"]

LONGEST_SIDES = 10_000
MOST_OBLONG = 20
FOLDER = {"photo": "photos", "voice": "voice", "video": "videos", "animation": "animations", "document": "documents"}
PREFIX = {
    "photo": "AgACAgQAAxk",
    "voice": "AwACAgQAAxk",
    "video": "BAACAgQAAxk",
    "animation": "CgACAgQAAxk",
    "document": "BQACAgQAAxk",
}
SUFFIX = {"photo": ".jpg", "voice": ".oga", "video": ".mp4", "animation": ".mp4"}
MIME = {"voice": "audio/ogg", "video": "video/mp4", "animation": "video/mp4"}
VOICE_BEGINNINGS = (b"OggS", b"ID3", b"\xff\xfb", b"\xff\xf3", b"\xff\xf2")


@dataclass(frozen=True)
class StoredFile:
    """One stored file. `width` and `height` in pixels for a photo (0 for a clip, which nobody measures), `seconds` for what
    is played.
    """

    file_id: str
    unique_id: str
    path: str
    kind: FileKind
    content: bytes = field(repr=False)
    name: str
    mime_type: str
    width: int = 0
    height: int = 0
    seconds: int = 0

    def wire(self) -> Any:
        """The object that stands in a message: a list of sizes for a photo, else one object."""
        about = self._about()
        if self.kind == "photo":
            return [{**about, "width": self.width, "height": self.height}]
        if self.kind == "voice":
            return {**about, "duration": self.seconds, "mime_type": self.mime_type}
        if self.kind in ("video", "animation"):
            return {**about, "width": 0, "height": 0, "duration": self.seconds, "mime_type": self.mime_type}
        return self.wire_as_document()

    def wire_as_document(self) -> dict[str, Any]:
        """The Document object."""
        return {**self._about(), "file_name": self.name, "mime_type": self.mime_type}

    def _about(self) -> dict[str, Any]:
        return {"file_id": self.file_id, "file_unique_id": self.unique_id, "file_size": len(self.content)}


class FileStore:
    """Keeps contents once however often they are uploaded."""

    def __init__(self) -> None:
        self._by_id: dict[str, StoredFile] = {}
        self._stored = 0
        self._by_path: dict[str, StoredFile] = {}
        self._contents: dict[str, bytes] = {}

    def store(self, kind: FileKind, content: bytes, limits: Limits, name: str = "", seconds: int = 0) -> StoredFile:
        """Takes an upload in; refuses an empty or too large one and a photo that is no picture.

        What is sent as a voice note or a clip and can be none becomes a document, as the manual says.
        """
        if not content:
            raise bad_request("file must be non-empty")
        if limits.file_bytes is not None and len(content) > limits.file_bytes:
            raise bad_request("file is too big")
        width, height = measured(content, limits) if kind == "photo" else (0, 0)
        if not _can_be(kind, content):
            kind = "document"
        self._stored += 1
        number = self._stored
        digest = hashlib.sha256(content).hexdigest()
        name = name or f"file_{number}"
        suffix = SUFFIX.get(kind) or "".join(name.partition(".")[1:])
        stored = StoredFile(
            file_id=f"{PREFIX[kind]}{number:012d}{digest[:36]}",
            unique_id=f"AQAD{digest[:12]}",
            path=f"{FOLDER[kind]}/file_{number}{suffix}",
            kind=kind,
            content=self._contents.setdefault(digest, content),
            name=name,
            mime_type=MIME.get(kind) or mimetypes.guess_type(name)[0] or "application/octet-stream",
            width=width,
            height=height,
            seconds=seconds,
        )
        self._by_id[stored.file_id] = self._by_path[stored.path] = stored
        return stored

    def by_id(self, file_id: str) -> StoredFile | None:
        return self._by_id.get(file_id)

    def by_path(self, path: str) -> StoredFile | None:
        return self._by_path.get(path)

    def forget_ids(self) -> None:
        """No id given so far is known any longer, as under another bot's token. What stands on phones stays there."""
        self._by_id.clear()

    def again(self, file_id: str, kind: FileKind) -> StoredFile:
        """A file sent again by its id; refused if unknown or of another kind."""
        stored = self._by_id.get(file_id)
        if stored is None:
            raise bad_request("wrong file identifier/HTTP URL specified")
        if stored.kind != kind:
            raise bad_request(f"can't use file of type {stored.kind.title()} as {kind.title()}")
        return stored


def _can_be(kind: FileKind, content: bytes) -> bool:
    """Whether what begins like this can be sent as that."""
    is_mp4 = content[4:8] == b"ftyp"
    match kind:
        case "voice":
            return is_mp4 or content.startswith(VOICE_BEGINNINGS)
        case "video":
            return is_mp4
        case "animation":
            return is_mp4 or content.startswith(b"GIF8")
        case _:
            return True


def measured(content: bytes, limits: Limits) -> tuple[int, int]:
    """Width and height of a picture in pixels; refused if it is none, too heavy, too large or too oblong."""
    if limits.photo_bytes is not None and len(content) > limits.photo_bytes:
        raise bad_request("file of size 10 MB or more is too big for a photo")
    try:
        with Image.open(io.BytesIO(content)) as picture:
            width, height = picture.size
    except (UnidentifiedImageError, OSError, ValueError) as broken:
        raise bad_request("IMAGE_PROCESS_FAILED") from broken
    if width + height > LONGEST_SIDES or max(width, height) > MOST_OBLONG * min(width, height):
        raise bad_request("PHOTO_INVALID_DIMENSIONS")
    return width, height
