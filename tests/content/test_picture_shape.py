"""What a form says of its picture is read, filled up from its stance, and refused with its line where it contradicts."""

from pathlib import Path

import pytest

from companion.content import library
from companion.content.library import Library
from companion.content.picture_shape import Feet, Motion, PictureShape, Seat, SupportAt
from companion.core.programme import Stance
from companion.errors import FoundWrong


def test_every_form_has_what_its_picture_shows(shipped: Library) -> None:
    forms = {(one.id, form.id) for one in shipped.without_number.exercises.values() for form in one.forms}
    assert set(shipped.pictures) == forms


@pytest.mark.parametrize("stance", list(Stance))
def test_a_form_without_the_block_is_drawn_from_its_stance(stance: Stance) -> None:
    details = PictureShape().details(stance)
    assert (details.seat is Seat.BACK) is (stance is Stance.SEATED)
    assert (details.support is SupportAt.FRONT) is (stance in (Stance.ONE_LEG_TOES, Stance.TWO_LEG_TOES))
    assert (details.motion is Motion.WALK) is (stance is Stance.WALKING)
    assert (details.feet is Feet.ONE_UP) is (stance in (Stance.ONE_LEG, Stance.ONE_LEG_TOES))


@pytest.mark.parametrize(
    ("file", "old", "new", "what", "do"),
    [
        ("half_step", "{feet: wide_half_step}", "{feet: touching}", "feet_apart has no feet touching", "Use apart, wide"),
        ("half_step", "{feet: wide_half_step}", "{feets: apart}", 'the key "feets" is not known here', 'Write "feet"'),
        ("half_step", "{feet: wide_half_step}", "{motion: hop}", '"motion" must be one of those known', "Use 'press'"),
        ("half_step", "{feet: wide_half_step}", "{motion: press}", "press can not be done standing", "Use another motion"),
        ("half_step", "{feet: wide_half_step}", "{motion: walk}", "this stance does not walk", "stance: walking"),
        ("half_step", "{feet: wide_half_step}", "{motion: step_side}", "the exercise has no legs", "Write sides: leg"),
        ("half_step", "{feet: wide_half_step}", "{seat: edge}", "nobody sits in this form", "Take seat out"),
        ("reach", "{motion: reach_near}", "{motion: clap}", "clap can not be done seated", "Use another motion"),
    ],
)  # fmt: skip
def test_a_block_that_contradicts_its_form_is_told_with_its_line(
    copy: Path, file: str, old: str, new: str, what: str, do: str
) -> None:
    path = copy / "exercises" / f"{file}.yaml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace(old, new), encoding="utf-8")
    with pytest.raises(FoundWrong) as found:
        library.load(copy)
    (fault,) = [one for one in found.value.faults if one.where.endswith(f"{file}.yaml")]
    assert what in fault.what and do in fault.do
    assert fault.line == text[: text.index(old)].count("\n") + 1
