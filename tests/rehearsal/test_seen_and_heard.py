"""What a picture shows and a voice note says is read out of the file, whoever wrote it."""

import io

import numpy
import pytest
import soundfile
from PIL import Image
from PIL.PngImagePlugin import PngInfo
from pypdf import PdfWriter

from companion.rehearsal import invented
from companion.rehearsal.seen_and_heard import look_at
from tests.rehearsal.server.hands import CLIP, VOICE, picture


def png(chunk: str, text: str, international: bool) -> bytes:
    words, file = PngInfo(), io.BytesIO()
    words.add_itxt(chunk, text) if international else words.add_text(chunk, text)
    Image.new("RGB", (4, 4)).save(file, "PNG", pnginfo=words)
    return file.getvalue()


def opus(seconds: float, comment: str) -> bytes:
    """A real one, of another maker."""
    file = io.BytesIO()
    with soundfile.SoundFile(file, "w", 48_000, 1, format="OGG", subtype="OPUS") as sound:
        sound.comment = comment
        sound.write(numpy.zeros(int(48_000 * seconds)))
    return file.getvalue()


@pytest.mark.parametrize("international", [True, False])
def test_a_picture_says_what_it_shows(international: bool) -> None:
    assert look_at(png("Description", "Two feet,\nfrom above", international)).told == "picture: Two feet, from above"


def test_a_picture_without_a_description_is_only_a_picture() -> None:
    assert look_at(picture()).told == look_at(png("Title", "Feet", False)).told == "picture"


def test_a_voice_note_says_how_long_it_is_and_what_is_in_it() -> None:
    note = invented.voice_note("Long neck. " * 60, 92)
    assert (look_at(note).kind, look_at(note).seconds) == ("voice note", 92)
    assert look_at(note).told == "voice note 1:32: " + "Long neck. " * 59 + "Long neck."


@pytest.mark.parametrize("seconds", [0.5, 7.25, 61])
def test_the_length_of_another_makers_voice_note_is_read_right(seconds: float) -> None:
    assert look_at(opus(seconds, "not the description")).seconds == pytest.approx(seconds, abs=0.001)


def test_an_invented_voice_note_is_a_valid_one_of_that_length() -> None:
    sound, rate = soundfile.read(io.BytesIO(invented.voice_note("Breathe.", 6)))
    assert len(sound) / rate == 6
    assert abs(sound).max() < 1e-6


def test_what_people_photograph_and_film_says_what_it_is_of() -> None:
    assert look_at(invented.picture("My chair")).told == "picture: My chair"
    assert look_at(invented.clip("My steps")).told == "clip: My steps"


def test_what_says_nothing_is_named_by_its_kind() -> None:
    told = [look_at(content).told for content in (VOICE, CLIP, b"%PDF-1.7", invented.voice_note("", 3), invented.clip(""))]
    assert told == ["voice note 0:00", "clip", "document", "voice note 0:03", "clip"]


def test_a_document_is_told_by_its_title_and_its_pages() -> None:
    writer = PdfWriter()
    writer.add_blank_page(width=100, height=100)
    writer.add_metadata({"/Title": "A week"})
    out = io.BytesIO()
    writer.write(out)
    assert look_at(out.getvalue()).told == "document: A week, 1 page"
