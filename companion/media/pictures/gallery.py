"""Every picture that there can be, as files to look at, and pages of them side by side: large, small, smallest, and in grey."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from io import BytesIO
from itertools import product
from pathlib import Path

from PIL import Image
from rich.progress import track

from companion.content.library import Library
from companion.content.texts import Texts
from companion.core.media import FormPicture, PlacePicture, Scene, SignsPicture
from companion.core.programme import Exercise, Form, Hand, Side, Sides
from companion.media.pictures import door
from companion.media.pictures.canvas import HEIGHT, WIDTH

SUPPORTS = ("worktop", "sink", "rail", "heavy_table", "sturdy_chair")
FOOTWEAR = ("barefoot", "shoes", "shoes_orthosis")
BODY_SIDES = ("left", "right")
SIZES = {800: (4, 3), 320: (8, 5), 160: (12, 8)}
"""Pages of the contact sheet: the width of a picture in pixels, and how many are in a row and in a column."""
BETWEEN = 8

Picture = FormPicture | SignsPicture | PlacePicture


@dataclass(frozen=True, slots=True)
class Named:
    """A picture with the name of its file."""

    name: str
    picture: Picture


def every(library: Library) -> Iterator[Named]:
    """All there are: the forms, the signs, the places."""
    yield from forms(library.without_number.exercises.values())
    yield Named("signs", SignsPicture(library.without_number.signs))
    yield from places()


def forms(exercises: Iterable[Exercise]) -> Iterator[Named]:
    """Every form of those in every hand, on every side, for a weaker left and right side."""
    for exercise in exercises:
        for form in exercise.forms:
            for hand, side, weaker in product(form.hands, sides(exercise), BODY_SIDES):
                yield of_form(exercise, form, (hand, side), Scene(weaker=weaker, carer=form.needs_carer))


def chosen(library: Library) -> Iterator[Named]:
    """One picture of each form, the hands, sides, supports and places taking turns; the signs; some places."""
    at = 0
    for exercise in library.without_number.exercises.values():
        for form in exercise.forms:
            hand = form.hands[at % len(form.hands)]
            side = sides(exercise)[at % len(sides(exercise))]
            support = SUPPORTS[at // 2 % len(SUPPORTS)]
            scene = Scene(
                BODY_SIDES[at // 3 % 2], support, "front" if at % 5 == 4 else "stronger", at % 7 != 6, form.needs_carer
            )
            yield of_form(exercise, form, (hand, side), scene)
            at += 1
    yield Named("signs", SignsPicture(library.without_number.signs))
    yield from list(places())[::7]


def of_form(exercise: Exercise, form: Form, how: tuple[Hand, Side | None], scene: Scene) -> Named:
    """The picture of a form, done with that hand and on that side."""
    hand, side = how
    parts = [exercise.id, form.id, hand, *([side] if side else []), f"weaker-{scene.weaker}"]
    return Named(".".join(parts), FormPicture(exercise.id, form.id, hand, side, scene))


def places() -> Iterator[Named]:
    """Every kind of place, with every kind of footwear."""
    for at, (support, front, footwear) in enumerate(product(SUPPORTS, ("stronger", "front"), FOOTWEAR)):
        scene = Scene(BODY_SIDES[at % 2], support, front, at % 4 != 3, at % 3 != 2)
        yield Named(f"place.{support}.{front}.{footwear}", PlacePicture(scene, footwear))


def sides(exercise: Exercise) -> tuple[Side | None, ...]:
    """The sides that a bout of it can have."""
    return (None,) if exercise.sides is Sides.NONE else tuple(Side)


def write(folder: Path, pictures: Sequence[Named], language: str, library: Library, texts: Texts) -> None:
    """Write them into that folder. OSError: it can not be written."""
    folder.mkdir(parents=True, exist_ok=True)
    for named in track(pictures, "Pictures"):
        (folder / f"{named.name}.png").write_bytes(door.png(named.picture, language, library, texts))


def write_contact_sheet(folder: Path, language: str, library: Library, texts: Texts) -> None:
    """Write its pages into that folder. OSError: they can not be written."""
    files = [door.png(named.picture, language, library, texts) for named in chosen(library)]
    drawn = [Image.open(BytesIO(file)).convert("RGB") for file in files]
    for name, page in track(list(contact_sheets(drawn)), "Contact sheet"):
        page.save(folder / name)


def contact_sheets(drawn: Sequence[Image.Image]) -> Iterator[tuple[str, Image.Image]]:
    """Pages of those pictures in three sizes, in colour and in grey, each with its file's name."""
    for width, (across, down) in SIZES.items():
        height = width * HEIGHT // WIDTH
        small = [one if one.width == width else one.resize((width, height), Image.Resampling.LANCZOS) for one in drawn]
        for start in range(0, len(small), across * down):
            page = Image.new("RGB", (across * (width + BETWEEN), down * (height + BETWEEN)), "#b0b0b0")
            for place, one in enumerate(small[start : start + across * down]):
                page.paste(one, (place % across * (width + BETWEEN), place // across * (height + BETWEEN)))
            number = start // (across * down) + 1
            yield f"contact_sheet_{width}_{number}.png", page
            yield f"contact_sheet_{width}_{number}_grey.png", page.convert("L")
