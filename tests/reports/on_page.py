"""What lies on a page: its texts and its shapes, by what it was drawn with."""

from matplotlib.figure import Figure
from matplotlib.patches import Patch
from matplotlib.text import Text


def texts_on(figure: Figure) -> list[Text]:
    """All of them, in the order in which they were written."""
    return [one for one in figure.artists if isinstance(one, Text)]


def shapes_on(figure: Figure) -> list[Patch]:
    """All of them, in the order in which they were put there."""
    return [one for one in figure.artists if isinstance(one, Patch)]
