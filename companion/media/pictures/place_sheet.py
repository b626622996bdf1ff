"""The picture of a client's own place, ready: support, chair, helper, the spot to stand on, a clear floor, footwear."""

from collections.abc import Mapping

from companion.content.picture_shape import Feet, PictureDetails, SupportAt
from companion.core.media import PlacePicture, Scene
from companion.core.programme import Side
from companion.media.pictures import feet_view, side_view
from companion.media.pictures.canvas import BLUE, GREY, INK, LIGHT, PALE, PAPER, Canvas, Look, smooth
from companion.media.pictures.placement import Foot, Held, Placement

ICONS = 74.0


def draw(canvas: Canvas, picture: PlacePicture, letters: Mapping[Side, str]) -> None:
    """Draw it; `letters` stand on the feet."""
    placed = placement(picture.scene)
    side_view.draw(canvas, placed)
    feet_view.draw(canvas, placed, letters, room=(176.0, 392.0))
    _footwear(canvas, 270, ICONS, picture.footwear)
    _floor_clear(canvas, 530, ICONS)


def placement(scene: Scene) -> Placement:
    """Somebody who stands there, feet apart, stronger hand on the support."""
    return Placement(
        feet={Side.STRONGER: Foot(-10, 11), Side.WEAKER: Foot(-10, -11)},
        hands={Side.STRONGER: Held.ON, Side.WEAKER: Held.SIDE},
        details=PictureDetails(Feet.APART),
        front=None,
        mover=None,
        loaded=None,
        seated=False,
        on_seat=False,
        eyes_closed=False,
        support=scene.support,
        support_at=SupportAt.FRONT if scene.support_side == "front" else SupportAt.SIDE,
        chair=scene.chair,
        carer=scene.carer,
        weaker=scene.weaker,
    )


def _footwear(canvas: Canvas, x: float, y: float, kind: str) -> None:
    """A shoe, a shoe with a splint up the calf, or a bare foot; from the side."""
    if kind == "barefoot":
        foot = [(-66, -30), (-62, 10), (-58, 52), (-24, 52), (-16, 12), (30, -6), (66, -16), (70, -30)]
        canvas.shape([(x + fx, y + fy) for fx, fy in foot], Look(PAPER, INK, 6), "footwear")
        canvas.line([(x + 52, y - 20), (x + 54, y - 12)], 4)
        return
    if kind == "shoes_orthosis":
        canvas.shape([(x - 58, y + 60), (x - 44, y + 60), (x - 40, y), (x - 58, y)], Look(BLUE, INK, 5), "splint")
        canvas.line([(x - 58, y + 46), (x - 18, y + 46)], 9, BLUE)
    shoe = smooth([(x - 66, y - 22), (x - 64, y + 20), (x - 30, y + 22), (x - 6, y + 8), (x + 40, y - 2), (x + 68, y - 22)])
    canvas.shape(shoe, Look(LIGHT, INK, 6), "footwear")
    canvas.line([(x - 66, y - 30), (x + 68, y - 30)], 12)
    for step in (-14, 2, 18):
        canvas.line([(x + step, y + 14 - step / 4), (x + step + 12, y + 2 - step / 4)], 5)


def _floor_clear(canvas: Canvas, x: float, y: float) -> None:
    """A rug with a turned-up corner and a ball, crossed out."""
    canvas.shape([(x - 70, y - 34), (x + 30, y - 34), (x + 62, y + 6), (x - 38, y + 6)], Look(PALE, GREY, 5))
    canvas.circle((x + 4, y + 22), 22, Look(LIGHT, GREY, 5))
    for start, end in (((-62, 50), (62, -50)), ((-62, -50), (62, 50))):
        canvas.line([(x + start[0], y + start[1]), (x + end[0], y + end[1])], 13, INK, name="floor-clear")
