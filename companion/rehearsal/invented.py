"""What people of a rehearsal photograph, speak and film: small valid files that say in words what they are of.

A picture is one white point, a voice note is silence of its length, a clip is nothing but its words.
"""

import io
import struct

from PIL import Image
from PIL.PngImagePlugin import PngInfo

SILENT_PACKET = b"\xf8\xff\xfe"
"""20 ms of silence, in Opus."""

PACKETS_A_SECOND = 50
SAMPLES_A_PACKET = 960
FIRST, LAST = 2, 4
OGG_POLYNOMIAL = 0x04C11DB7


def picture(shows: str) -> bytes:
    """A PNG of one white point."""
    words = PngInfo()
    words.add_itxt("Description", shows)
    file = io.BytesIO()
    Image.new("L", (1, 1), 255).save(file, "PNG", pnginfo=words)
    return file.getvalue()


def voice_note(says: str, seconds: int) -> bytes:
    """An Ogg Opus file of that much silence."""
    head = b"OpusHead" + struct.pack("<BBHIhB", 1, 1, 0, 48_000, 0, 0)
    tags = b"OpusTags" + b"".join(struct.pack("<I", len(part)) + part for part in (b"rehearsal",))
    comment = f"DESCRIPTION={says}".encode()
    tags += struct.pack("<II", 1, len(comment)) + comment
    pages = [_page(0, FIRST, 0, [head]), _page(1, 0, 0, [tags])]
    for second in range(1, seconds + 1):
        flags = LAST if second == seconds else 0
        samples = second * PACKETS_A_SECOND * SAMPLES_A_PACKET
        pages.append(_page(second + 1, flags, samples, [SILENT_PACKET] * PACKETS_A_SECOND))
    return b"".join(pages)


def clip(shows: str) -> bytes:
    """The beginning of an MP4 file, and the words in a box that players skip."""
    words = shows.encode()
    return struct.pack(">I4s4sI4s", 20, b"ftyp", b"mp42", 0, b"mp42") + struct.pack(">I4s", 8 + len(words), b"free") + words


def _page(number: int, flags: int, samples: int, packets: list[bytes]) -> bytes:
    """One Ogg page of whole packets."""
    lacing = b"".join(b"\xff" * (len(packet) // 255) + bytes([len(packet) % 255]) for packet in packets)
    header = struct.pack("<4sBBqIII", b"OggS", 0, flags, samples, 1, number, 0)
    page = bytearray(header + bytes([len(lacing)]) + lacing + b"".join(packets))
    page[22:26] = struct.pack("<I", _checksum(bytes(page)))
    return bytes(page)


def _checksum(page: bytes) -> int:
    """The Ogg checksum: a CRC of 32 bits, the highest first, begun with 0."""
    remainder = 0
    for byte in page:
        remainder ^= byte << 24
        for _ in range(8):
            remainder = (remainder << 1) ^ (OGG_POLYNOMIAL if remainder & 0x8000_0000 else 0)
        remainder &= 0xFFFF_FFFF
    return remainder
