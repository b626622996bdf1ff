"""What a picture shows and what a voice note says, read out of the file itself.

A PNG tells it in the standard text chunk `Description`, an Ogg Opus file in its comment `DESCRIPTION=`, a PDF by its title.
A clip that was invented here (`invented.py`) tells it in a box that players skip.
"""

import io
import struct
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from PIL import Image
from PIL.PngImagePlugin import PngImageFile
from pypdf import PdfReader
from pypdf.errors import PyPdfError

PNG, OGG, CLIP, PDF = b"\x89PNG", b"OggS", b"ftyp", b"%PDF"
OPUS_RATE = 48_000
COMMENT = "DESCRIPTION="
OGG_HEADER = struct.Struct("<4sBBqIIIB")
UNKNOWN_POSITION = -1


@dataclass(frozen=True, slots=True)
class File:
    """What a file is to whoever sees or hears it. `seconds`: how long a voice note plays, 0 for the others."""

    kind: str
    description: str = ""
    seconds: float = 0.0

    @property
    def told(self) -> str:
        """In words: "picture: two feet, seen from above", or "voice note 1:32: three tones"."""
        whole = round(self.seconds)
        kind = f"{self.kind} {whole // 60}:{whole % 60:02d}" if self.kind == "voice note" else self.kind
        return f"{kind}: {self.description}" if self.description else kind


@lru_cache(maxsize=1024)
def look_at(content: bytes) -> File:
    """What that is; one that says nothing is only named by its kind."""
    if content.startswith(PNG):
        return File("picture", _of_png(content))
    if content.startswith(OGG):
        return _of_ogg(content)
    if content[4:8] == CLIP:
        return File("clip", _of_clip(content))
    if content.startswith(PDF):
        return File("document", _of_pdf(content))
    return File("file")


def _of_pdf(content: bytes) -> str:
    """Its title, and how many pages it has; nothing of one that can not be read."""
    try:
        read = PdfReader(io.BytesIO(content))
    except PyPdfError:
        return ""
    title = read.metadata.title if read.metadata is not None else None
    pages = len(read.pages)
    return _one_line(f"{title or 'no title'}, {pages} {'page' if pages == 1 else 'pages'}")


def _of_png(content: bytes) -> str:
    with Image.open(io.BytesIO(content)) as picture:
        assert isinstance(picture, PngImageFile)
        return _one_line(picture.text.get("Description", ""))


def _of_clip(content: bytes) -> str:
    """The text in the box after the first one."""
    first = struct.unpack(">I", content[:4])[0]
    box = content[first:]
    return _one_line(box[8:].decode(errors="replace")) if box[4:8] == b"free" else ""


def _of_ogg(content: bytes) -> File:
    """Length and comment of an Ogg Opus file: its first packet is the head, its second the comments."""
    packets, unfinished, position = list[bytes](), b"", 0
    for at, lacing, body in _pages(content):
        position = position if at == UNKNOWN_POSITION else at
        for length in lacing:
            if len(packets) == 2:
                break
            unfinished, body = unfinished + body[:length], body[length:]
            if length < 255:
                packets.append(unfinished)
                unfinished = b""
    if len(packets) < 2 or not packets[0].startswith(b"OpusHead") or not packets[1].startswith(b"OpusTags"):
        return File("voice note")
    skipped = int(struct.unpack("<H", packets[0][10:12])[0])
    return File("voice note", _description(packets[1]), (position - skipped) / OPUS_RATE)


def _pages(content: bytes) -> Iterator[tuple[int, bytes, bytes]]:
    """Each page: the position at its end, in samples, the lengths of its segments, and its body."""
    place = 0
    while content[place : place + 4] == OGG and len(content) >= place + OGG_HEADER.size:
        *_, segments = header = OGG_HEADER.unpack_from(content, place)
        lacing = content[place + OGG_HEADER.size :][:segments]
        begins = place + OGG_HEADER.size + segments
        place = begins + sum(lacing)
        yield header[3], lacing, content[begins:place]


def _description(tags: bytes) -> str:
    """The comment of that name in an OpusTags packet: the maker's name, then so many comments, each after its length."""
    place = 8
    vendor = struct.unpack_from("<I", tags, place)[0]
    place += 4 + vendor
    count = struct.unpack_from("<I", tags, place)[0]
    place += 4
    for _ in range(count):
        length = struct.unpack_from("<I", tags, place)[0]
        comment = tags[place + 4 :][:length].decode()
        if comment.upper().startswith(COMMENT):
            return _one_line(comment[len(COMMENT) :])
        place += 4 + length
    return ""


def _one_line(text: str) -> str:
    return " ".join(text.split())
