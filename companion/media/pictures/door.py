"""From a picture's description as data to the file. What it says in words is in the file."""

from collections.abc import Iterable
from typing import assert_never

from companion.content.library import Library
from companion.content.texts import Texts
from companion.core.media import FormPicture, PlacePicture, SignsPicture
from companion.core.programme import Side
from companion.core.words import Words
from companion.media.pictures import describing, feet_view, place_sheet, side_view, signs_sheet
from companion.media.pictures.canvas import Canvas
from companion.media.pictures.placement import place


def png(picture: FormPicture | SignsPicture | PlacePicture, language: str, library: Library, texts: Texts) -> bytes:
    """The file. KeyError: the library has no such exercise or form. FoundWrong: there is no text for something drawn."""
    canvas = Canvas()
    letters = {side: texts.text(describing.letter(side), language) for side in Side}
    told: Iterable[Words]
    match picture:
        case FormPicture():
            exercise = library.without_number.exercises[picture.exercise]
            placed = place(picture, exercise, library.pictures[picture.exercise, picture.form])
            side_view.draw(canvas, placed)
            feet_view.draw(canvas, placed, letters)
            told = describing.form(placed)
        case SignsPicture():
            shorts = {sign: texts.text(describing.short(sign), language) for sign in picture.signs}
            signs_sheet.draw(canvas, shorts)
            told = describing.signs(picture)
        case PlacePicture():
            place_sheet.draw(canvas, picture, letters)
            told = describing.place(picture)
        case _:
            assert_never(picture)
    return canvas.png(" ".join(texts.text(line, language) for line in told))
