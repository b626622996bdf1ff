"""The file: Ogg Opus whose header says what is heard."""

import io
import zlib

import numpy as np
import pytest
import soundfile

from companion.media.sound import ogg, tones
from tests.media.listening import check, clock, heard

BEEP = tones.joined([tones.silence(0.3), tones.tone(740.0, 0.5), tones.silence(0.3)], 0)


def test_what_is_heard_is_told_in_words() -> None:
    assert ogg.comments(clock(60, 20).data) == {
        "DESCRIPTION": (
            "20 seconds to get into place. A long tone: start. At 15 seconds: 1 short tone. At 30 seconds: 2 short tones. "
            "At 45 seconds: 3 short tones. At 60 seconds: a long falling tone: the end."
        ),
        "LANGUAGE": "en",
        "MARKS": "20.000 35.000 50.000 65.000 80.000",
    }


def test_parts_of_a_second_are_told() -> None:
    assert (
        "At 2.5 seconds: 1 short tone. At 5 seconds: 2 short tones. At 7.5 seconds"
        in ogg.comments(clock(10).data)["DESCRIPTION"]
    )


def test_a_check_tells_how_many_tones_are_to_be_counted() -> None:
    told = ogg.comments(check(3).data)["DESCRIPTION"]
    assert told == "10 seconds to get into place. Then 3 short tones to count."


def test_it_is_mono_opus_in_ogg() -> None:
    info = soundfile.info(io.BytesIO(clock(10).data))
    assert (info.format, info.subtype, info.channels) == ("OGG", "OPUS", 1)


def test_it_is_as_long_as_its_layout() -> None:
    note = clock(30, 10)
    end = note.tones[-1]
    assert len(note.samples) / note.rate == pytest.approx(end.end + 0.4, abs=0.05)


def test_writing_the_header_anew_changes_no_sound() -> None:
    raw = io.BytesIO()
    with soundfile.SoundFile(
        raw, "w", samplerate=tones.RATE, channels=1, format="OGG", subtype="OPUS", compression_level=ogg.COMPRESSION
    ) as file:
        file.write(BEEP)
    as_encoded, _ = soundfile.read(io.BytesIO(raw.getvalue()))
    assert np.array_equal(as_encoded, heard(ogg.encoded(BEEP, {"DESCRIPTION": "a beep"})).samples)


def test_equal_sounds_are_equal_bytes_whatever_stream_number_the_encoder_drew() -> None:
    assert ogg.encoded(BEEP, {"A": "b"}) == ogg.encoded(BEEP, {"A": "b"})


@pytest.mark.parametrize("size", [0, 1, 200, 254, 255, 256, 600, 20_000])
def test_comments_of_any_length_and_script_are_kept(size: int) -> None:
    comments = {"DESCRIPTION": "ü" * size, "LANGUAGE": "de", "EMPTY": "", "EQUAL": "a=b=c"}
    data = ogg.encoded(BEEP, comments)
    assert ogg.comments(data) == comments
    assert np.abs(heard(data).samples).max() > 0.1


def test_comments_that_fill_exactly_a_row_of_segments_end_with_an_empty_one() -> None:
    bare = len(ogg.encoded(BEEP, {"A": ""}))
    for size in range(215, 230):
        data = ogg.encoded(BEEP, {"A": "x" * size})
        assert ogg.comments(data) == {"A": "x" * size}
        assert len(data) - bare in (size, size + 1)


def test_comments_longer_than_a_page_are_refused() -> None:
    with pytest.raises(ValueError, match="do not fit"):
        ogg.encoded(BEEP, {"DESCRIPTION": "x" * 70_000})


@pytest.mark.parametrize("data", [b"RIFF" + bytes(60), b"OggS" + bytes(60)])
def test_what_is_no_ogg_opus_has_no_comments(data: bytes) -> None:
    with pytest.raises(ValueError):
        ogg.comments(data)


def test_the_checksum_is_that_of_ogg() -> None:
    # The same polynomial as zlib's, which reflects its bits and inverts at both ends: undo that bit by bit.
    data = b"a page of a stream"
    reflected = bytes(int(f"{byte:08b}"[::-1], 2) for byte in data)
    inverted = zlib.crc32(reflected, 0xFFFFFFFF) ^ 0xFFFFFFFF
    assert ogg.crc(data) == int(f"{inverted:032b}"[::-1], 2)
