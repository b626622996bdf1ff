"""The sheet of the signs of "new, or worse than usual": a drawing and its short word each, two in a row."""

import math
from collections.abc import Callable, Mapping

from companion.media.pictures.canvas import BLUE, HEIGHT, INK, PALE, PAPER, WIDTH, Canvas, Look, Point

Draw = Callable[[Canvas, float, float], None]
"""Draws a sign around its middle, in a box of 150 pixels."""

FACE = Look(PAPER, INK, 8)
SOFT = Look(PALE, INK, 8)
SIZE = 36


def draw(canvas: Canvas, shorts: Mapping[str, str]) -> None:
    """All of them, in their order; `shorts` are the words under them."""
    rows = max(math.ceil(len(shorts) / 2), 3)
    high = (HEIGHT - 20) / rows
    for place, (sign, short) in enumerate(shorts.items()):
        row, column = divmod(place, 2)
        alone = place == len(shorts) - 1 and column == 0
        x = WIDTH / 2 if alone else WIDTH * (0.27 + 0.46 * column)
        top = HEIGHT - 10 - row * high
        DRAWN.get(sign, _unknown)(canvas, x, top - (high - 44) / 2 - 2)
        canvas.write((x, top - high + 22), short, SIZE, name=f"sign:{sign}")


def _arc(centre: Point, radius: float, start: float, end: float, flat: float = 1.0) -> list[Point]:
    """Part of a circle, degrees; `flat` squeezes it."""
    turns = [math.radians(start + (end - start) * n / 24) for n in range(25)]
    return [(centre[0] + radius * math.cos(a), centre[1] + flat * radius * math.sin(a)) for a in turns]


def _balance(canvas: Canvas, x: float, y: float) -> None:
    canvas.line([(x - 60, y - 66), (x + 60, y - 66)], 8)
    canvas.limb([(x - 8, y - 58), (x + 4, y - 14), (x + 20, y + 22)], 16, SOFT)
    canvas.limb([(x + 14, y - 58), (x + 4, y - 14)], 14, SOFT)
    canvas.limb([(x - 32, y + 24), (x + 18, y + 14), (x + 52, y - 14)], 11, SOFT)
    canvas.circle((x + 32, y + 50), 20, FACE)
    canvas.arrow(_arc((x, y - 60), 104, 52, 22), 8)
    canvas.arrow(_arc((x, y - 60), 104, 128, 158), 8)


def _eye(canvas: Canvas, x: float, y: float, look: Look) -> None:
    lid = _arc((x, y - 42), 90, 34, 146)
    canvas.shape([*lid, *_arc((x, y + 59), 90, 214, 326)], look)
    canvas.circle((x, y + 8), 27, Look(BLUE, INK, 7))
    canvas.circle((x, y + 8), 10, Look(INK, INK, 0))


def _eyes(canvas: Canvas, x: float, y: float) -> None:
    _eye(canvas, x + 14, y + 26, Look(PAPER, "#9a9a9a", 7))
    _eye(canvas, x - 6, y - 18, FACE)


def _face(canvas: Canvas, x: float, y: float) -> None:
    canvas.circle((x, y), 68, FACE)
    canvas.circle((x - 24, y + 20), 8, Look(INK, INK, 0))
    canvas.line([(x + 14, y + 16), (x + 36, y + 8)], 9)
    canvas.line([(x - 34, y - 18), (x - 22, y - 28), (x, y - 28), (x + 22, y - 34), (x + 32, y - 50)], 9)
    canvas.arrow([(x + 86, y + 20), (x + 86, y - 44)], 9)


def _arm(canvas: Canvas, x: float, y: float) -> None:
    canvas.limb([(x - 12, y - 12), (x - 18, y - 62)], 15, SOFT)
    canvas.limb([(x + 12, y - 12), (x + 18, y - 62)], 15, Look(PAPER, INK, 8, hatched=True))
    canvas.limb([(x - 14, y + 22), (x - 66, y + 24)], 12, SOFT)
    canvas.limb([(x + 14, y + 20), (x + 44, y - 24)], 12, Look(PAPER, INK, 8, hatched=True))
    canvas.limb([(x, y + 14), (x, y - 12)], 34, SOFT)
    canvas.circle((x, y + 54), 21, FACE)
    canvas.arrow([(x + 64, y + 26), (x + 64, y - 32)], 8)


def _speech(canvas: Canvas, x: float, y: float) -> None:
    bubble = [*_arc((x, y + 16), 76, 0, 232, 0.7), (x - 60, y - 60), *_arc((x, y + 16), 76, 262, 360, 0.7)]
    canvas.shape(bubble, FACE)
    wave = [(x - 46 + n * 4, y + 16 + (4 + n * 0.9) * math.sin(n * 1.05)) for n in range(24)]
    canvas.line(wave, 8, BLUE)


def _chest(canvas: Canvas, x: float, y: float) -> None:
    canvas.circle((x, y + 50), 22, FACE)
    body = [(x - 58, y - 68), (x - 58, y - 6), (x - 36, y + 22), (x + 36, y + 22), (x + 58, y - 6), (x + 58, y - 68)]
    canvas.shape(body, SOFT)
    star = [(r * math.cos(a), r * math.sin(a)) for n in range(16) for a in [n * math.pi / 8] for r in [36 if n % 2 else 17]]
    canvas.shape([(x + 8 + sx, y - 26 + sy) for sx, sy in star], Look(BLUE, INK, 5))


def _breath(canvas: Canvas, x: float, y: float) -> None:
    for way in (-1, 1):
        lobe = [(12, 24), (30, 34), (50, 6), (62, -34), (58, -58), (36, -52), (14, -34)]
        canvas.shape([(x + way * lx, y + ly) for lx, ly in lobe], SOFT)
        canvas.line([(x, y + 22), (x + way * 26, y - 8)], 9)
    canvas.line([(x, y + 64), (x, y + 22)], 12)
    for way in (-1, 1):
        canvas.arrow([(x + way * 26, y + 54), (x + way * 86, y + 54)], 8, both=True)


def _dizzy(canvas: Canvas, x: float, y: float) -> None:
    canvas.circle((x, y - 12), 54, FACE)
    for way in (-1, 1):
        canvas.line([(x + way * 20 - 9, y - 11), (x + way * 20 + 9, y + 7)], 7)
        canvas.line([(x + way * 20 - 9, y + 7), (x + way * 20 + 9, y - 11)], 7)
    canvas.line(_arc((x, y - 46), 14, 20, 160), 7)
    canvas.arrow(_arc((x, y + 34), 78, 200, 530, 0.36), 8)


def _calf(canvas: Canvas, x: float, y: float) -> None:
    leg = [(x - 22, y + 66), (x + 24, y + 66), (x + 22, y + 38), (x + 50, y + 8), (x + 38, y - 20), (x + 16, y - 40)]
    foot = [(x + 18, y - 60), (x - 56, y - 60), (x - 52, y - 46), (x - 18, y - 36), (x - 14, y - 6), (x - 20, y + 30)]
    canvas.shape([*leg, *foot], SOFT)
    for turn in (-28, 0, 28):
        near, far = _arc((x + 18, y + 8), 46, turn, turn)[0], _arc((x + 18, y + 8), 70, turn, turn)[0]
        canvas.line([near, far], 9, BLUE)


def _unknown(canvas: Canvas, x: float, y: float) -> None:
    canvas.shape([(x, y + 66), (x - 72, y - 58), (x + 72, y - 58)], SOFT)
    canvas.line([(x, y + 24), (x, y - 16)], 14)
    canvas.circle((x, y - 38), 8, Look(INK, INK, 0))


DRAWN: Mapping[str, Draw] = {
    "balance": _balance,
    "eyes": _eyes,
    "face": _face,
    "arm": _arm,
    "speech": _speech,
    "chest": _chest,
    "breath": _breath,
    "dizzy": _dizzy,
    "calf": _calf,
}
"""A sign that a service adds is drawn as a warning triangle."""
