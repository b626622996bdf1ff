"""What is drawn is what was placed: read off the shapes of the picture, not off the code that draws them."""

from dataclasses import replace

import numpy as np
import pytest
from matplotlib.text import Text

from companion.core.media import Scene
from companion.core.programme import Hand, Side
from companion.media.pictures.canvas import WIDTH
from companion.media.pictures.placement import other
from tests.media.looking import PLACE, Spots, all_forms, drawn, form, lowest, named, names, placed, spots


def higher(name: str, hand: Hand, side: Side, scene: Scene = PLACE) -> Side:
    """Which foot is drawn further up on the floor."""
    canvas = drawn(placed(form(name, hand, side, scene)))
    tips = {one: spots(named(canvas, f"foot:{one}"))[:, 1].max() for one in Side}
    return max(tips, key=lambda one: tips[one])


@pytest.mark.parametrize("side", list(Side))
@pytest.mark.parametrize("weaker", ["left", "right", "unknown"])
@pytest.mark.parametrize("name", ["heel_to_toe.touching", "heel_to_toe.small_gap", "half_step.close", "half_step.wide"])
def test_the_foot_in_front_is_drawn_in_front(name: str, weaker: str, side: Side) -> None:
    assert higher(name, Hand.HOVERING, side, replace(PLACE, weaker=weaker)) is side


@pytest.mark.parametrize("side", list(Side))
def test_the_leg_that_is_stood_on_is_on_the_floor_and_the_other_is_not_in_both_views(side: Side) -> None:
    canvas = drawn(placed(form("one_leg.foot_up", Hand.FINGERTIPS, side)))
    soles = {one: spots(named(canvas, f"side-foot:{one}"))[:, 1].min() for one in Side}
    assert soles[other(side)] > soles[side] + 20
    dashed = {one: named(canvas, f"foot:{one}").get_linestyle() != "solid" for one in Side}  # type: ignore[attr-defined]
    assert dashed == {side: False, other(side): True}


@pytest.mark.parametrize(("weaker", "w_is"), [("left", "left"), ("right", "right"), ("unknown", "left")])
def test_the_letter_w_is_on_the_weaker_foot_and_on_its_side(weaker: str, w_is: str) -> None:
    canvas = drawn(placed(form("feet_together.apart", scene=replace(PLACE, weaker=weaker))))
    letters = {one: named(canvas, f"letter:{one}") for one in Side}
    assert [one.get_text() for one in letters.values() if isinstance(one, Text)] == ["S", "W"]
    at = {one: spots(letter)[0, 0] for one, letter in letters.items()}
    assert bool(at[Side.WEAKER] < at[Side.STRONGER]) is (w_is == "left")
    for one in Side:
        foot = spots(named(canvas, f"foot:{one}"))
        assert foot[:, 0].min() < at[one] < foot[:, 0].max()


@pytest.mark.parametrize(("weaker", "bar_is"), [("left", "right"), ("right", "left")])
def test_the_support_is_drawn_on_the_stronger_side_from_above(weaker: str, bar_is: str) -> None:
    canvas = drawn(placed(form("heel_to_toe.touching", side=Side.WEAKER, scene=replace(PLACE, weaker=weaker))))
    bar = spots(named(canvas, "plan-support"))[:, 0].mean()
    assert bool(bar > WIDTH / 2) is (bar_is == "right")
    helper = spots(named(canvas, "plan-helper"))[:, 0].mean()
    assert bool(helper < WIDTH / 2) is (bar_is == "right")


def test_a_support_in_front_is_drawn_before_both_feet() -> None:
    canvas = drawn(placed(form("heel_to_toe.small_gap", side=Side.STRONGER, scene=replace(PLACE, support_side="front"))))
    toes = max(spots(named(canvas, f"foot:{one}"))[:, 1].max() for one in Side)
    assert spots(named(canvas, "plan-support"))[:, 1].min() > toes + 20


def test_whoever_has_to_turn_to_the_support_has_it_in_front_wherever_it_stands() -> None:
    assert placed(form("one_leg_toes.toes_clap", Hand.TWO_HANDS, Side.STRONGER)).support_at == "front"
    assert placed(form("heel_to_toe_walk.touching", scene=replace(PLACE, support_side="front"))).support_at == "side"


def test_the_helper_is_behind_the_client_and_touches_nothing() -> None:
    for weaker, way in (("left", -1), ("right", 1)):
        canvas = drawn(placed(form("heel_to_toe.touching", side=Side.WEAKER, scene=replace(PLACE, weaker=weaker))))
        body = [spots(named(canvas, name))[:, 0] * way for name in ("body", "helper")]
        assert body[1].max() < body[0].min() - 100
        hand = (spots(named(canvas, "helper-arm"))[:, 0] * way).max() + 16
        back = min((spots(named(canvas, name))[:, 0] * way).min() for name in ("body", "arm:weaker", "arm:stronger")) - 38
        assert hand < back


@pytest.mark.parametrize(
    "scene", [PLACE, Scene("right", "rail", "front"), Scene("left", "heavy_table"), Scene("right", "sturdy_chair")]
)
def test_the_stages_of_the_hand_can_be_told_apart_by_the_gap_under_it(scene: Scene) -> None:
    gaps = {}
    for hand in (Hand.ONE_HAND, Hand.FINGERTIPS, Hand.HOVERING):
        canvas = drawn(placed(form("heel_to_toe.touching", hand, Side.WEAKER, scene)))
        bar = spots(named(canvas, "support"))[:, 1]
        # a rail is a stroke that may slant: the hand is at its middle, half of its width above
        top = bar.mean() + 9 if scene.support == "rail" else bar.max()
        gaps[hand] = lowest(canvas, "hand:stronger") - top
        assert ("hand:stronger:gap" in names(canvas)) is (hand is Hand.HOVERING)
        assert ("hand:stronger:finger" in names(canvas)) is (hand is Hand.FINGERTIPS)
    assert abs(gaps[Hand.ONE_HAND]) < 7
    assert gaps[Hand.FINGERTIPS] > 15
    assert gaps[Hand.HOVERING] > 20


def test_fingertips_reach_down_to_the_support() -> None:
    canvas = drawn(placed(form("heel_to_toe.touching", Hand.FINGERTIPS, Side.WEAKER)))
    top = spots(named(canvas, "support"))[:, 1].max()
    fingers = [one for one in canvas.axes.lines if one.get_gid() == "hand:stronger:finger"]
    assert len(fingers) == 3
    for finger in fingers:
        assert abs(np.asarray(finger.get_ydata()).min() - finger.get_linewidth() * 100 / 72 / 2 - top) < 6


def test_a_hand_that_holds_nothing_hangs_beside_the_body_and_no_ring_shows_it() -> None:
    canvas = drawn(placed(form("heel_to_toe.touching", Hand.NONE, Side.WEAKER)))
    assert spots(named(canvas, "hand:stronger"))[:, 1].max() < spots(named(canvas, "support"))[:, 1].min()
    assert "ring" not in names(canvas)


def test_two_hands_are_both_on_the_support() -> None:
    canvas = drawn(placed(form("heel_to_toe.touching", Hand.TWO_HANDS, Side.WEAKER)))
    top = spots(named(canvas, "support"))[:, 1].max()
    assert all(abs(lowest(canvas, f"hand:{side}") - top) < 7 for side in Side)
    assert {"ring-hand:weaker", "ring-hand:stronger"} <= names(canvas)


def test_the_ring_shows_the_hand_that_the_body_has() -> None:
    for hand, part in ((Hand.FINGERTIPS, "finger"), (Hand.HOVERING, "gap")):
        found = names(drawn(placed(form("one_leg.foot_up", hand, Side.STRONGER))))
        assert f"ring-hand:stronger:{part}" in found and "ring-hand:weaker" not in found


@pytest.mark.parametrize(
    ("name", "hand", "side"),
    [
        ("heel_to_toe.touching", Hand.HOVERING, Side.WEAKER),
        ("one_leg_toes.shut_clap", Hand.FINGERTIPS, Side.STRONGER),
        ("step_side.long_step", Hand.TWO_HANDS, Side.WEAKER),
        ("sit_to_stand.raised_seat", Hand.ONE_HAND, None),
        ("reach.across", Hand.NONE, None),
        ("one_leg_toes.both_pat", Hand.FINGERTIPS, Side.WEAKER),
    ],
)
def test_the_picture_of_a_weaker_right_side_is_the_mirror_of_that_of_a_left(name: str, hand: Hand, side: Side | None) -> None:
    left, right = (drawn(placed(form(name, hand, side, replace(PLACE, weaker=weaker)))) for weaker in ("left", "right"))
    shapes = [[one for one in canvas.axes.get_children() if one.get_gid()] for canvas in (left, right)]
    assert [one.get_gid() for one in shapes[0]] == [one.get_gid() for one in shapes[1]]
    for one, two in zip(*shapes, strict=True):
        mirrored = spots(one) * (-1, 1) + (WIDTH, 0)
        # a box starts at another corner when it is mirrored
        assert _set(mirrored) == _set(spots(two)), one.get_gid()


def _set(points: Spots) -> set[tuple[float, ...]]:
    return {tuple(point) for point in points.round(6).tolist()}


@pytest.mark.parametrize(("name", "side"), [("step_forward.step", Side.WEAKER), ("step_side.step", Side.STRONGER)])
def test_the_foot_that_steps_is_drawn_where_it_goes(name: str, side: Side) -> None:
    canvas = drawn(placed(form(name, Hand.ONE_HAND, side)))
    moved, foot, still = (
        spots(named(canvas, which)).mean(0) for which in ("plan-moved", f"foot:{side}", f"foot:{other(side)}")
    )
    if name.startswith("step_forward"):
        assert abs(moved[0] - foot[0]) < 3 and moved[1] > foot[1] + 100
    else:
        assert abs(moved[1] - foot[1]) < 3 and abs(moved[0] - still[0]) > abs(foot[0] - still[0]) + 60


def test_a_longer_step_is_drawn_longer() -> None:
    def way(name: str) -> float:
        placement = placed(form(name, Hand.ONE_HAND, Side.WEAKER))
        canvas = drawn(placement)
        foot = spots(named(canvas, "foot:weaker"))
        size = foot[:, 1].max() - foot[:, 1].min()
        return float((spots(named(canvas, "plan-moved"))[:, 1].max() - foot[:, 1].max()) / size)

    assert way("step_forward.long_step") > way("step_forward.step") * 1.4


def test_everything_that_moves_shows_it_by_an_arrow_or_a_second_outline() -> None:
    shows = {"arrow", "plan-arrow", "moved-leg", "moved-arm", "moved-hand", "plan-moved"}
    moving = {placement.details.motion: placement for placement in map(placed, all_forms())}
    assert len(moving) > 20
    for motion, placement in moving.items():
        assert bool(names(drawn(placement)) & shows) is (motion is not None), motion


def test_nothing_but_the_floor_is_at_the_very_left_or_right() -> None:
    for picture in list(all_forms())[::19]:
        canvas = drawn(placed(picture))
        for artist in canvas.axes.get_children():
            if artist.get_gid() and "floor" not in str(artist.get_gid()):
                across = spots(artist)[:, 0]
                assert across.min() > 56 and across.max() < WIDTH - 56, (picture, artist.get_gid())


def test_there_are_no_words_in_the_picture_of_a_form_but_two_letters() -> None:
    for picture in list(all_forms())[::40]:
        assert sorted(one.get_text() for one in drawn(placed(picture)).axes.texts) == ["S", "W"]
