"""Looking at pictures: what was drawn, by name, and where."""

from collections.abc import Iterator

import numpy as np
import numpy.typing as npt
from matplotlib.artist import Artist
from matplotlib.lines import Line2D
from matplotlib.patches import Circle, Polygon
from matplotlib.text import Text

from companion.content import library
from companion.content.folders import content_dir
from companion.content.library import Library
from companion.content.texts import Texts
from companion.core.media import FormPicture, Scene
from companion.core.programme import Hand, Side
from companion.media.pictures import feet_view, gallery, side_view
from companion.media.pictures.canvas import Canvas
from companion.media.pictures.placement import Placement, place

LIBRARY: Library = library.load(content_dir())
TEXTS = Texts(content_dir() / "texts")
PLACE = Scene(weaker="left", support="worktop", support_side="stronger", chair=True, carer=True)
LETTERS = {Side.WEAKER: "W", Side.STRONGER: "S"}
POINTS = 100 / 72
"""Pixels in one point."""

Spots = npt.NDArray[np.float64]


def form(name: str, hand: Hand = Hand.ONE_HAND, side: Side | None = None, scene: Scene = PLACE) -> FormPicture:
    """The picture of "exercise.form"."""
    exercise, _, which = name.partition(".")
    return FormPicture(exercise, which, hand, side, scene)


def all_forms() -> Iterator[FormPicture]:
    """Every form in every hand, on every side, for either weaker side."""
    for named in gallery.forms(LIBRARY.without_number.exercises.values()):
        assert isinstance(named.picture, FormPicture)
        yield named.picture


def placed(picture: FormPicture) -> Placement:
    """What stands where in it."""
    exercise = LIBRARY.without_number.exercises[picture.exercise]
    return place(picture, exercise, LIBRARY.pictures[picture.exercise, picture.form])


def drawn(placement: Placement) -> Canvas:
    """It, drawn, before it becomes a file."""
    canvas = Canvas()
    side_view.draw(canvas, placement)
    feet_view.draw(canvas, placement, LETTERS)
    return canvas


def names(canvas: Canvas) -> set[str]:
    """The names of all that is drawn."""
    return {str(artist.get_gid()) for artist in canvas.axes.get_children() if artist.get_gid()}


def named(canvas: Canvas, name: str) -> Artist:
    """The one thing of that name."""
    (found,) = [artist for artist in canvas.axes.get_children() if artist.get_gid() == name]
    return found


def spots(artist: Artist) -> Spots:
    """Where it is, in pixels: its corners or the points of its line."""
    if isinstance(artist, Line2D):
        return np.asarray(artist.get_xydata(), dtype=float)
    if isinstance(artist, Polygon):
        return np.asarray(artist.get_xy(), dtype=float)
    if isinstance(artist, Circle):
        return np.asarray([artist.center], dtype=float)
    assert isinstance(artist, Text), artist
    return np.asarray([artist.get_position()], dtype=float)


def lowest(canvas: Canvas, name: str) -> float:
    """The lowest pixel of a stroke, its width and edge counted."""
    stroke = named(canvas, name)
    assert isinstance(stroke, Line2D)
    return float(spots(stroke)[:, 1].min() - stroke.get_linewidth() * POINTS / 2)
