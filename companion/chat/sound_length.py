"""How long a voice note is: the platform shows what it is told."""

RATE = 48_000
"""Opus counts samples at this rate a second, whatever it was made from."""

PAGE, HEAD = b"OggS", b"OpusHead"
POSITION = slice(6, 14)
PRE_SKIP = slice(10, 12)


def seconds_of(sound: bytes) -> int:
    """Whole seconds of an Ogg Opus file, rounded up; 0 if it is none.

    The last page says how many samples there are by its end, and the head how many of these are skipped (RFC 7845).
    """
    last, head = sound.rfind(PAGE), sound.find(HEAD)
    if last < 0 or head < 0:
        return 0
    samples = int.from_bytes(sound[last:][POSITION], "little") - int.from_bytes(sound[head:][PRE_SKIP], "little")
    return max(0, -(-samples // RATE))
