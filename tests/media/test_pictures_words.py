"""What a picture says in words is what is drawn on it, and the file carries it."""

import io
from collections.abc import Iterable
from dataclasses import replace

import numpy as np
import pytest
from PIL import Image

from companion.content.picture_shape import Feet, PictureDetails, Seat, SupportAt
from companion.core.media import FormPicture, PlacePicture, Scene, SignsPicture
from companion.core.programme import Hand, Side, Sides
from companion.core.words import Words
from companion.media import maker
from companion.media.pictures import describing, gallery, place_sheet, signs_sheet
from companion.media.pictures.canvas import HEIGHT, WIDTH, Canvas
from companion.media.pictures.placement import FOOT, Sole, other, place
from tests.media.looking import LETTERS, LIBRARY, PLACE, TEXTS, all_forms, drawn, form, named, names, placed, spots

HEAVIEST = 80_000
SIGNS = SignsPicture(LIBRARY.without_number.signs)


def file(picture: FormPicture | SignsPicture | PlacePicture) -> bytes:
    """The file, as the child process makes it."""
    return maker.make(picture, "en", LIBRARY, TEXTS)


def told(words: Iterable[Words]) -> dict[str, str]:
    """The keys of a description, each with its side."""
    return {one.key: str(dict(one.params).get("side", "")) for one in words}


def test_every_form_in_every_hand_on_every_side_can_be_placed_and_told() -> None:
    pictures = list(all_forms())
    assert len(pictures) > 500
    for picture in pictures:
        said = [TEXTS.text(one, "en") for one in describing.form(placed(picture))]
        assert len(said) >= 5 and all(said), picture


def test_which_foot_is_in_front_is_told_as_it_is_placed() -> None:
    for picture in all_forms():
        placement = placed(picture)
        said = told(describing.form(placement))
        heels = {side: foot.heel for side, foot in placement.feet.items()}
        if heels[Side.WEAKER] == heels[Side.STRONGER]:
            assert placement.front is None, picture
        else:
            first = max(heels, key=lambda side: heels[side])
            assert said[f"picture-feet-{placement.details.feet.replace('_', '-')}"] == first, picture


def test_which_foot_is_off_the_floor_is_told_as_it_is_placed() -> None:
    for picture in all_forms():
        placement = placed(picture)
        up = [side for side, foot in placement.feet.items() if foot.sole is Sole.UP]
        assert up == (
            [other for other in Side if other is not placement.front] if placement.details.feet is Feet.ONE_UP else []
        )


def test_feet_that_are_told_to_touch_do_and_those_with_a_gap_do_not() -> None:
    for name, gap in (("heel_to_toe.touching", 0), ("heel_to_toe.small_gap", 12)):
        heels = sorted(foot.heel for foot in placed(form(name, side=Side.WEAKER)).feet.values())
        assert heels[1] - (heels[0] + FOOT) == gap


@pytest.mark.parametrize(
    "scene", [PLACE, replace(PLACE, chair=False), replace(PLACE, carer=False), Scene("right", "rail", "front")]
)
def test_chair_helper_support_and_eyes_are_told_if_and_only_if_they_are_drawn(scene: Scene) -> None:
    for name in ("heel_to_toe.touching", "feet_together_eyes_closed.together_closed", "reach.near", "sit_to_stand.hand_push"):
        placement = placed(form(name, Hand.ONE_HAND, scene=scene))
        said, seen = told(describing.form(placement)), names(drawn(placement))
        assert ("picture-chair" in said) is ("chair" in seen and not placement.seated)
        assert ("picture-helper" in said) is ("helper" in seen) is ("plan-helper" in seen)
        assert ("picture-eyes-closed" in said) is ("eyes:closed" in seen) is ("closed-eye" in seen)
        supports = [key for key in said if key.startswith("place-support")]
        assert bool(supports) is ("support" in seen) is ("plan-support" in seen)
        if supports:
            in_front = placement.support_at is SupportAt.FRONT
            bar = spots(named(drawn(placement), "plan-support"))
            assert (said[supports[0]] == "front") is in_front is bool(np.ptp(bar[:, 0]) > np.ptp(bar[:, 1]))


@pytest.mark.parametrize(
    ("hand", "standing", "seated"),
    [
        (Hand.TWO_HANDS, "picture-hand-both-on", "picture-seat-both-on"),
        (Hand.ONE_HAND, "picture-hand-on", "picture-seat-on"),
        (Hand.FINGERTIPS, "picture-hand-fingertips", "picture-seat-fingertips"),
        (Hand.HOVERING, "picture-hand-hovers", "picture-seat-hovers"),
        (Hand.NONE, "picture-hand-side", "picture-seat-lap"),
    ],
)
def test_the_hand_is_told_by_what_it_is_on(hand: Hand, standing: str, seated: str) -> None:
    assert standing in told(describing.form(placed(form("heel_to_toe.touching", hand, Side.WEAKER))))
    assert seated in told(describing.form(placed(form("sit_to_stand.hand_push", hand))))


def test_a_form_for_two_hands_has_the_fingertips_of_both_on_the_support() -> None:
    said = told(describing.form(placed(form("one_leg_toes.toes_clap", Hand.FINGERTIPS, Side.STRONGER))))
    assert "picture-hand-both-fingertips" in said


def test_with_both_feet_down_the_leg_with_more_weight_is_ringed_and_told() -> None:
    for side in Side:
        placement = placed(form("one_leg_toes.both_pat", Hand.ONE_HAND, side))
        canvas = drawn(placement)
        ring, foot = spots(named(canvas, "plan-weight")), spots(named(canvas, f"foot:{side}"))
        assert told(describing.form(placement))["picture-weight"] == side
        assert (ring.min(0) < foot.min(0)).all() and (ring.max(0) > foot.max(0)).all()
    assert "plan-weight" not in names(drawn(placed(form("step_side.tap", side=Side.WEAKER))))


def test_the_side_of_a_step_is_the_leg_that_moves() -> None:
    placement = placed(form("step_forward.long_step", side=Side.WEAKER))
    assert placement.mover is Side.WEAKER and placement.front is None
    assert told(describing.form(placement))["picture-motion-long-step-forward"] == "weaker"


def test_an_exercise_of_a_service_is_drawn_sensibly_whatever_its_sides() -> None:
    own = LIBRARY.without_number.exercises["marching"]
    for side in Side:
        lifted = place(form("marching.low", side=side), replace(own, sides=Sides.LEG), LIBRARY.pictures["marching", "low"])
        assert lifted.mover is other(side) and lifted.loaded is None
        assert f"the {other(side)} foot goes up" in " ".join(TEXTS.text(one, "en") for one in describing.form(lifted))
        ahead = place(form("marching.low", side=side), replace(own, sides=Sides.FRONT_FOOT), PictureDetails(Feet.APART))
        assert ahead.front is side and ahead.feet[side].heel > ahead.feet[other(side)].heel
        stood = place(form("marching.low", side=side), replace(own, sides=Sides.LEG), PictureDetails(Feet.APART))
        assert stood.loaded is side and stood.mover is None


def test_a_picture_reads_like_this() -> None:
    picture = form("heel_to_toe.touching", Hand.HOVERING, Side.WEAKER, Scene("right", "rail", "stronger", True, True))
    assert Image.open(io.BytesIO(file(picture))).text["Description"] == (  # type: ignore[attr-defined]
        "You stand. Weaker foot in front. Feet in one line. Heel touches toes. Fixed rail on your stronger side. "
        "Stronger hand just above it, with a gap. Chair behind you. Helper on your weaker side, a little behind. "
        "Weaker foot striped, with W. Stronger foot white, with S. Weaker side: right."
    )


def test_a_file_is_a_small_portrait_and_the_same_each_time() -> None:
    for picture in (
        form("one_leg_toes.shut_clap", Hand.FINGERTIPS, Side.STRONGER),
        SIGNS,
        PlacePicture(PLACE, "shoes_orthosis"),
    ):
        content = file(picture)
        assert content == file(picture)
        assert len(content) < HEAVIEST
        with Image.open(io.BytesIO(content)) as image:
            assert (image.format, image.size) == ("PNG", (WIDTH, HEIGHT))


def test_the_sheet_of_signs_has_each_with_its_word_and_nothing_overlaps() -> None:
    canvas = Canvas()
    shorts = {sign: TEXTS.text(describing.short(sign), "en") for sign in SIGNS.signs}
    signs_sheet.draw(canvas, shorts)
    canvas.png("")
    boxes = [text.get_window_extent() for text in canvas.axes.texts]
    assert [text.get_text() for text in canvas.axes.texts] == list(shorts.values())
    for at, box in enumerate(boxes):
        assert box.x0 > 60 and box.x1 < WIDTH - 60 and box.y0 > 4
        assert not any(box.overlaps(another) for another in boxes[:at])
    for patch in canvas.axes.patches:
        assert not any(patch.get_window_extent().overlaps(box) for box in boxes)
    said = Image.open(io.BytesIO(file(SIGNS))).text["Description"]  # type: ignore[attr-defined]
    assert all(short in said for short in shorts.values())


def test_every_sign_that_is_asked_has_a_drawing_of_its_own_and_a_new_one_a_triangle() -> None:
    assert set(SIGNS.signs) <= set(signs_sheet.DRAWN)
    assert len(set(signs_sheet.DRAWN.values())) == len(signs_sheet.DRAWN)
    canvas = Canvas()
    signs_sheet.draw(canvas, {"something_new": "Something new"})
    assert len(canvas.axes.patches) == 2


@pytest.mark.parametrize("footwear", gallery.FOOTWEAR)
def test_the_place_shows_support_chair_helper_a_clear_floor_and_the_feet(footwear: str) -> None:
    canvas = Canvas()
    picture = PlacePicture(Scene("right", "sink", "stronger", True, True), footwear)
    place_sheet.draw(canvas, picture, LETTERS)
    seen, said = names(canvas), told(describing.place(picture))
    assert {"support", "plan-support", "chair", "plan-chair", "helper", "floor-clear", "footwear", "foot:weaker"} <= seen
    assert ("splint" in seen) is (footwear == "shoes_orthosis")
    keys = {"place-support-sink", "picture-chair", "picture-helper", "picture-place-floor", "picture-hand-on"}
    assert {*keys, f"place-footwear-{footwear.replace('_', '-')}"} <= set(said)


def test_an_exercise_of_a_service_without_a_picture_block_is_drawn_from_its_stance() -> None:
    bare = [(exercise, one) for exercise, one in LIBRARY.pictures if one in ("together", "close", "touching", "foot_up")]
    assert bare
    assert LIBRARY.pictures["heel_to_toe", "touching"].feet is Feet.TOUCHING
    assert LIBRARY.pictures["head_turns", "seated"].seat is Seat.BACK


def test_in_grey_a_foot_can_be_told_from_the_floor_and_the_weaker_from_the_stronger() -> None:
    canvas = drawn(placed(form("heel_to_toe.small_gap", Hand.ONE_HAND, Side.WEAKER)))
    grey = np.asarray(Image.open(io.BytesIO(canvas.png(""))).convert("L"), dtype=float)
    small = np.asarray(
        Image.open(io.BytesIO(canvas.png(""))).convert("L").resize((160, 200), Image.Resampling.LANCZOS), dtype=float
    )
    floor = grey[HEIGHT - 40, 80]
    means = {}
    for side in Side:
        box = spots(named(canvas, f"foot:{side}"))
        (left, low), (right, high) = box.min(0), box.max(0)
        edge = grey[int(HEIGHT - (low + high) / 2), int(left) - 4 : int(left) + 6].min()
        assert contrast(floor, edge) > 10
        # the front of the foot, above the letter, as small as on a phone's list of chats
        x, top, bottom = (left + right) / 2 / 5, (HEIGHT - high + 14) / 5, (HEIGHT - high + 34) / 5
        means[side] = small[int(top) : int(bottom) + 1, int(x) - 2 : int(x) + 3].mean()
    assert means[Side.STRONGER] - means[Side.WEAKER] > 40


def contrast(one: float, two: float) -> float:
    """The contrast of two greys (0 to 255) as the web's guidelines for accessibility (WCAG 2.2) work it out."""
    light, dark = (
        (value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4)
        for value in (max(one, two) / 255, min(one, two) / 255)
    )
    return (light + 0.05) / (dark + 0.05)


def test_pages_of_pictures_come_in_three_sizes_and_in_grey() -> None:
    picture = Image.new("RGB", (WIDTH, HEIGHT), "#1257a8")
    pages = dict(gallery.contact_sheets([picture] * 13))
    assert set(pages) == {
        f"contact_sheet_{name}{grey}.png" for name in ("800_1", "800_2", "320_1", "160_1") for grey in ("", "_grey")
    }
    assert pages["contact_sheet_160_1_grey.png"].mode == "L"
    assert pages["contact_sheet_160_1.png"].getpixel((80, 100)) == (0x12, 0x57, 0xA8)


def test_the_contact_sheet_has_every_form_once_and_all_hands() -> None:
    chosen = [one.picture for one in gallery.chosen(LIBRARY) if isinstance(one.picture, FormPicture)]
    assert [(one.exercise, one.form) for one in chosen] == list(LIBRARY.pictures)
    assert {one.hand for one in chosen} == set(Hand) and {one.scene.weaker for one in chosen} == {"left", "right"}
    assert {one.scene.support for one in chosen} == set(gallery.SUPPORTS)
