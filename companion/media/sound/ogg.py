"""Ogg Opus as a file: samples into bytes, and what is written in its header (RFC 3533, RFC 7845).

The encoder's library numbers every stream by chance and can not write every comment, so the pages are written anew here: equal
sounds are equal bytes, and what is heard can be read without hearing it.
"""

import io
import struct
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

import soundfile

from companion.media.sound.tones import RATE, Samples

COMPRESSION = 0.9
"""Where the tones of a note are still clean and a note of 60 s with much speech stays under 150 kB."""

_PAGE = struct.Struct("<4sBBqIIIB")
_SEGMENT = 255
_TAGS = b"OpusTags"
_STREAM = 1


@dataclass(frozen=True, slots=True)
class _Page:
    kind: int
    position: int
    number: int
    lacing: bytes
    body: bytes


def encoded(samples: Samples, comments: Mapping[str, str]) -> bytes:
    """The sound as Ogg Opus with these comments and no others."""
    raw = io.BytesIO()
    with soundfile.SoundFile(
        raw, "w", samplerate=RATE, channels=1, format="OGG", subtype="OPUS", compression_level=COMPRESSION
    ) as file:
        file.write(samples)
    head, tags, *sound = _pages(raw.getvalue())
    return b"".join(_written(page) for page in (head, _commented(tags, comments), *sound))


def comments(data: bytes) -> dict[str, str]:
    """The comments of an Ogg Opus file by name. Raises ValueError: it is none, or the comments are longer than a page."""
    _, tags = list(_pages(data))[:2]
    found = {}
    at = _after_vendor(tags.body)
    (count,) = struct.unpack_from("<I", tags.body, at)
    at += 4
    for _ in range(count):
        (size,) = struct.unpack_from("<I", tags.body, at)
        name, _, value = tags.body[at + 4 : at + 4 + size].decode().partition("=")
        found[name] = value
        at += 4 + size
    return found


def crc(data: bytes) -> int:
    """The checksum of an Ogg page: polynomial 0x04c11db7, nothing reflected, from 0."""
    value = 0
    for byte in data:
        value = (value << 8) & 0xFFFFFFFF ^ _CRC[value >> 24 ^ byte]
    return value


def _table() -> Iterator[int]:
    for value in range(256):
        value <<= 24
        for _ in range(8):
            value = value << 1 ^ (0x104C11DB7 if value & 0x80000000 else 0)
        yield value


_CRC = tuple(_table())


def _pages(data: bytes) -> Iterator[_Page]:
    at = 0
    while at < len(data):
        capture, _, kind, position, _, number, _, count = _PAGE.unpack_from(data, at)
        if capture != b"OggS":
            raise ValueError("this is not Ogg")
        at += _PAGE.size
        lacing = data[at : at + count]
        at += count
        yield _Page(kind, position, number, lacing, data[at : at + sum(lacing)])
        at += sum(lacing)


def _written(page: _Page) -> bytes:
    rest = bytes((len(page.lacing),)) + page.lacing + page.body
    fields = (b"OggS", 0, page.kind, page.position, _STREAM, page.number)
    unsigned = struct.pack("<4sBBqIII", *fields, 0) + rest
    return struct.pack("<4sBBqIII", *fields, crc(unsigned)) + rest


def _commented(tags: _Page, comments: Mapping[str, str]) -> _Page:
    vendor = tags.body[: _after_vendor(tags.body)]
    written = [f"{name}={value}".encode() for name, value in comments.items()]
    body = vendor + struct.pack("<I", len(written)) + b"".join(struct.pack("<I", len(one)) + one for one in written)
    if len(body) >= _SEGMENT * _SEGMENT:
        raise ValueError("the comments do not fit on a page")
    lacing = bytes([_SEGMENT] * (len(body) // _SEGMENT) + [len(body) % _SEGMENT])
    return replace(tags, lacing=lacing, body=body)


def _after_vendor(body: bytes) -> int:
    if not body.startswith(_TAGS):
        raise ValueError("this is not Opus")
    (size,) = struct.unpack_from("<I", body, len(_TAGS))
    return len(_TAGS) + 4 + int(size)
