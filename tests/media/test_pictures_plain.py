"""What somebody who had not seen the pictures before could not tell apart: now they can."""

from itertools import product

import numpy as np
import pytest
from matplotlib.collections import LineCollection
from matplotlib.colors import same_color
from matplotlib.patches import Polygon

from companion.core.media import Scene
from companion.core.programme import Hand, Side
from companion.media.pictures import motions
from companion.media.pictures.canvas import BLUE, INK, WIDTH, Canvas
from companion.media.pictures.placement import other
from companion.media.pictures.view import DEPTH, GROUND, SCALE
from tests.media.looking import PLACE, all_forms, drawn, form, named, names, placed, spots

KINDS = ("worktop", "sink", "rail", "heavy_table", "sturdy_chair")


def striped(canvas: Canvas, name: str) -> bool:
    """Whether the stroke or shape of that name is drawn with stripes: they come right before or after it."""
    level = named(canvas, name).get_zorder()
    return any(abs(one.get_zorder() - level) <= 2 for one in canvas.axes.collections if isinstance(one, LineCollection))


def heads(canvas: Canvas, name: str) -> int:
    """How many heads the arrow of that name has."""
    return sum(isinstance(one, Polygon) and one.get_gid() == name for one in canvas.axes.patches)


@pytest.mark.parametrize("name", ["step_forward.tap", "step_forward.step", "step_side.tap", "step_side.long_step"])
def test_a_weaker_leg_that_moves_is_striped_and_there_once_only(name: str) -> None:
    for side in Side:
        canvas = drawn(placed(form(name, Hand.ONE_HAND, side)))
        assert striped(canvas, "moved-leg") is striped(canvas, "plan-moved") is (side is Side.WEAKER)
        assert f"leg:{side}" not in names(canvas) and f"leg:{other(side)}" in names(canvas)


def test_a_weaker_leg_that_moves_lies_before_the_other_leg() -> None:
    for name, side in (("step_forward.tap", Side.WEAKER), ("marching.low", None), ("weight_shift.heel_light", None)):
        canvas = drawn(placed(form(name, Hand.ONE_HAND, side)))
        assert named(canvas, "moved-leg").get_zorder() > named(canvas, "leg:stronger").get_zorder()
        assert same_color(named(canvas, "moved-leg").get_color(), BLUE)  # type: ignore[attr-defined]


def test_no_foot_is_drawn_below_the_floor() -> None:
    for picture in all_forms():
        placement = placed(picture)
        canvas, moved = drawn(placement), motions.moved(placement)
        for side, foot in placement.feet.items():
            goes = moved is not None and moved.side is side
            depth = moved.foot.z if goes and moved is not None else foot.z
            sole = spots(named(canvas, "moved-foot" if goes else f"side-foot:{side}"))[:, 1].min()
            assert sole >= GROUND + DEPTH * depth * SCALE - 0.01, (picture, side)


def test_a_heel_that_goes_up_bends_the_knee_less_than_marching_and_has_an_arrow_of_its_own_from_above() -> None:
    def bend(canvas: Canvas) -> float:
        hip, knee, ankle = spots(named(canvas, "moved-leg"))
        one, two = knee - hip, ankle - knee
        return float(np.degrees(np.arccos(one @ two / np.linalg.norm(one) / np.linalg.norm(two))))

    heel, march = (drawn(placed(form(name, Hand.ONE_HAND))) for name in ("weight_shift.heel_light", "marching.low"))
    assert bend(heel) < 20 < 50 < bend(march)
    assert "plan-hips" in names(heel) and "plan-hips" not in names(march)


@pytest.mark.parametrize(("name", "side"), list(product(("step_forward", "step_side"), Side)))
def test_a_tap_goes_there_and_back_and_a_step_only_there(name: str, side: Side) -> None:
    tap, step = (drawn(placed(form(f"{name}.{one}", Hand.ONE_HAND, side))) for one in ("tap", "step"))
    assert (heads(tap, "plan-arrow"), heads(step, "plan-arrow")) == (2, 1)
    if name == "step_forward":
        assert (heads(tap, "arrow"), heads(step, "arrow")) == (2, 1)
    else:  # flat on the floor, in one piece: the same at both ends, or not
        wide = [np.unique(spots(named(canvas, "arrow"))[:, 1].round(3)).size for canvas in (tap, step)]
        assert wide == [4, 3]


def test_a_step_aside_is_seen_from_the_side_too() -> None:
    for side, way in ((Side.WEAKER, -1), (Side.STRONGER, 1)):
        canvas = drawn(placed(form("step_side.step", Hand.ONE_HAND, side)))
        feet = [spots(named(canvas, name))[:, 1].min() for name in ("moved-foot", f"side-foot:{other(side)}")]
        assert (feet[0] - feet[1]) * way > 20


@pytest.mark.parametrize("at", ["stronger", "front"])
def test_a_rail_is_narrow_from_above_and_a_heavy_table_broad(at: str) -> None:
    broad = {}
    for kind in KINDS:
        canvas = drawn(placed(form("heel_to_toe.touching", Hand.ONE_HAND, Side.WEAKER, Scene("left", kind, at))))
        broad[kind] = float(np.ptp(spots(named(canvas, "plan-support")), axis=0).min())
    assert broad["rail"] * 2 < broad["worktop"] and broad["worktop"] * 2 < broad["heavy_table"]


@pytest.mark.parametrize("name", ["heel_to_toe.touching", "sit_to_stand.hand_push"])
def test_the_weaker_hand_is_striped_where_it_hangs_or_lies_too(name: str) -> None:
    canvas = drawn(placed(form(name, Hand.ONE_HAND, Side.WEAKER if name.startswith("heel") else None)))
    assert striped(canvas, "hand:weaker") and not striped(canvas, "hand:stronger")


def test_the_gap_under_a_hand_is_no_arrow() -> None:
    canvas = drawn(placed(form("heel_to_toe.touching", Hand.HOVERING, Side.WEAKER)))
    assert heads(canvas, "hand:stronger:gap") == 0
    assert not same_color(named(canvas, "hand:stronger:gap").get_color(), BLUE)  # type: ignore[attr-defined]


@pytest.mark.parametrize("weaker", ["left", "right"])
def test_the_helper_does_not_hide_the_back_of_the_chair(weaker: str) -> None:
    way = -1 if weaker == "left" else 1
    for name in ("heel_to_toe.touching", "step_side.long_step", "reach.far"):
        side = None if name.startswith("reach") else Side.WEAKER
        canvas = drawn(placed(form(name, Hand.ONE_HAND, side, Scene(weaker, "worktop", "stronger", True, True))))
        body = (spots(named(canvas, "helper"))[:, 0] * way).max() + 25 * SCALE / 2 + 4
        assert body < (spots(named(canvas, "chair-back"))[:, 0] * way).min()


@pytest.mark.parametrize("name", ["heel_to_toe.touching", "one_leg_toes.toes_clap"])
def test_the_line_from_the_ring_ends_on_a_hand(name: str) -> None:
    canvas = drawn(placed(form(name, Hand.TWO_HANDS, Side.WEAKER, PLACE)))
    end, hand = spots(named(canvas, "ring-line"))[-1], spots(named(canvas, "hand:weaker"))
    assert (hand.min(0) - 12 <= end).all() and (end <= hand.max(0) + 12).all()
    assert same_color(named(canvas, "hand:weaker").get_color(), INK)  # type: ignore[attr-defined]


def test_of_hands_that_clap_the_weaker_is_striped() -> None:
    canvas = drawn(placed(form("one_leg_toes.toes_clap", Hand.TWO_HANDS, Side.STRONGER)))
    arms = [one for one in canvas.axes.lines if one.get_gid() == "moved-arm"]
    stripes = {one.get_zorder() for one in canvas.axes.collections if same_color(one.get_edgecolor(), BLUE)}  # type: ignore[arg-type]
    assert [bool({arm.get_zorder() + 2, arm.get_zorder() + 3} & stripes) for arm in arms] == [False, True]


@pytest.mark.parametrize("name", ["sit_to_stand.no_push", "heel_to_toe.small_gap", "step_forward.long_step"])
def test_there_is_room_for_a_support_in_front_and_a_helper_behind_the_chair(name: str) -> None:
    side = None if name.startswith("sit") else Side.WEAKER
    canvas = drawn(placed(form(name, Hand.ONE_HAND, side, Scene("left", "heavy_table", "front", True, True))))
    for seen in names(canvas) - {"floor", "side-floor"}:
        across = [spots(one)[:, 0] for one in canvas.axes.get_children() if one.get_gid() == seen]
        assert min(one.min() for one in across) > 56 and max(one.max() for one in across) < WIDTH - 56, seen
