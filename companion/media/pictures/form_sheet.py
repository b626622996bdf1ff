"""The picture of a form: the client from the side above, the feet from above below, and one line between."""

from companion.media.pictures import feet_view, side_view
from companion.media.pictures.canvas import Canvas
from companion.media.pictures.placement import Placement


def draw(canvas: Canvas, placement: Placement) -> None:
    """Draw it."""
    side_view.draw(canvas, placement)
    feet_view.draw(canvas, placement)
