"""Pictures in a session: one with each set-up, of this client's own place and sides, and what a therapist recorded instead."""

from dataclasses import replace

import pytest

from companion.core.baseline import Baseline
from companion.core.effects import HaveMade, Say
from companion.core.events import Prescribed
from companion.core.media import FormPicture, Medium, OwnMedia, PlacePicture, Recorded, Scene, SignsPicture
from companion.core.programme import CheckStyle, Clock, Hand, Place, Plan, Side, Supervision
from companion.core.scenes import to_be_made
from companion.core.steps import Ask, Counted, Label
from tests.core.everywhere import full
from tests.core.home import Home, home
from tests.core.practice import CLIENT, MONDAY, NINE, SIGNS, THERAPIST, alone, full_plan, plan, planned, sound_plan

LEFT = Baseline("left", "right", "none", "no", "none", "yes")


def card(it: Home) -> Say:
    return it.phone(CLIENT).cards["session"]


def made(it: Home) -> list[HaveMade]:
    return [effect for effect in it.last if isinstance(effect, HaveMade)]


def recorded(medium: Medium, *, beside: bool = False) -> OwnMedia:
    return OwnMedia("m1", "tandem", Recorded(medium, "file-1"), beside, THERAPIST, MONDAY, kept_at=MONDAY)


def test_the_check_shows_the_signs_and_the_place_shows_this_clients_own() -> None:
    it = home(plan(planned("press"), planned("together"), place=Place("rail", "barefoot", False, "front")), baseline=LEFT)
    it.start()
    assert card(it).media == SignsPicture(SIGNS)
    it.press(CLIENT, "same")
    assert card(it).media == PlacePicture(Scene("left", "rail", "front", chair=False, carer=True), "barefoot")


def test_sign_by_sign_the_sheet_comes_with_the_first_and_stays_under_the_others() -> None:
    it = home(plan(planned("press"), check=CheckStyle.SIGN_BY_SIGN)).start()
    assert card(it).media == SignsPicture(SIGNS)
    it.press(CLIENT, "same")
    assert card(it).media is None and it.at == "check.face"


def test_each_set_up_shows_its_form_hand_and_side() -> None:
    it = home(plan(planned("tandem", hand_hardest=Hand.NONE)), baseline=LEFT).start().check()
    scene = Scene("left", "worktop", "stronger", chair=True, carer=True)
    assert card(it).media == FormPicture("tandem", "touching", Hand.HOVERING, Side.WEAKER, scene)
    it.press(CLIENT, "harder")
    assert card(it).media == FormPicture("tandem", "touching", Hand.NONE, Side.WEAKER, scene)
    it.press(CLIENT, "easier")
    it.press(CLIENT, "easier")
    assert card(it).media == FormPicture("tandem", "touching", Hand.FINGERTIPS, Side.WEAKER, scene)
    it.reach("b2.4.set")
    assert card(it).media == FormPicture("tandem", "touching", Hand.HOVERING, Side.STRONGER, scene)


def test_every_set_up_of_a_session_has_a_picture_and_the_clock_keeps_it() -> None:
    script = full()["helper"].session.script
    for step in script.steps:
        if isinstance(step, Ask) and step.id.endswith((".set", "check", "place")):
            assert step.media is not None, step.id
        elif isinstance(step, Counted):
            asked_before = any(isinstance(one, Label) and one.name == step.id.replace(".count", ".go") for one in script.steps)
            assert asked_before or step.media is not None, step.id
        elif isinstance(step, Ask):
            assert step.media is None or isinstance(step.media, SignsPicture), step.id


@pytest.mark.parametrize("supervision", list(Supervision))
def test_a_carer_stands_in_the_picture_only_where_one_is_beside(supervision: Supervision) -> None:
    here = home(plan(planned("together"), supervision=supervision)).start().check()
    picture = card(here).media
    assert isinstance(picture, FormPicture) and picture.scene.carer is (supervision is Supervision.ALWAYS)
    with_nobody = home(plan(planned("press"), supervision=supervision), **alone()).start().check()
    picture = card(with_nobody).media
    assert isinstance(picture, FormPicture) and not picture.scene.carer


def test_asked_again_the_question_keeps_its_picture() -> None:
    it = home(plan(planned("together"))).start().check()
    picture = card(it).media
    it.write(CLIENT, "hello")
    assert card(it).media == picture is not None


def test_all_that_a_session_shows_is_made_when_it_starts_what_is_surely_shown_first() -> None:
    it = home(sound_plan())
    it.until(NINE)
    it.press(CLIENT, "start")
    (ahead,) = made(it)
    shown = [step.media for step in it.session.script.steps if isinstance(step, Ask | Counted) and step.media is not None]
    assert set(shown) <= set(ahead.media) and len(set(ahead.media)) == len(ahead.media)
    assert ahead.media == to_be_made(it.session.script) and ahead.to == CLIENT
    assert isinstance(ahead.media[0], SignsPicture) and PlacePicture in {type(one) for one in ahead.media[:4]}


def test_a_new_plan_has_its_first_pictures_made() -> None:
    it = home(full_plan())
    of = it.client.plan
    assert of is not None
    it.do(Prescribed(it.now, replace(of, version=2, place=Place("sink", "shoes"))))
    (ahead,) = made(it)
    kinds = [type(one) for one in ahead.media]
    assert kinds.count(SignsPicture) == kinds.count(PlacePicture) == 1 and kinds.count(FormPicture) == 9
    it.do(Prescribed(it.now, replace(of, exercises=(replace(of.exercises[0], exercise="gone"),), version=3)))
    assert not made(it), "of what content does not know nothing is drawn"


def test_a_plan_that_stays_as_it_is_has_nothing_made() -> None:
    it = home(full_plan())
    it.write(CLIENT, "hello")
    assert not made(it)


# --- what the therapist recorded ----------------------------------------------------------------------------------


def with_own(own: OwnMedia, of: Plan | None = None) -> Home:
    return home(of or plan(planned("tandem"), planned("together")), own_media=(own,)).start().check()


@pytest.mark.parametrize("medium", [Medium.PHOTO, Medium.VIDEO])
def test_a_photo_or_clip_comes_instead_of_the_picture_of_the_planned_form_and_of_no_other(medium: Medium) -> None:
    own = recorded(medium)
    it = with_own(own)
    assert card(it).media == own.media
    easier = it.copy()
    easier.press(CLIENT, "easier")
    easier.press(CLIENT, "easier")
    easier.press(CLIENT, "easier")
    easier.press(CLIENT, "easier")
    assert isinstance(card(easier).media, FormPicture), "an easier form looks another way"
    it.reach("b2.4.set")
    assert card(it).media == own.media
    it.reach("b3.3.set")
    assert isinstance(card(it).media, FormPicture), "another exercise has its own picture"


@pytest.mark.parametrize("medium", list(Medium))
def test_what_is_beside_comes_once_before_the_set_up_which_keeps_its_picture(medium: Medium) -> None:
    own = recorded(medium, beside=True)
    it = with_own(own)
    said = [say for say in it.last if isinstance(say, Say) and say.to == CLIENT]
    assert [say.media for say in said if say.media is not None][-2:] == [own.media, card(it).media]
    assert isinstance(card(it).media, FormPicture)
    it.finish()
    assert [say.media for say in it.phone(CLIENT).said].count(own.media) == 1


def test_a_voice_cue_instead_comes_before_the_set_up_and_takes_the_pictures_place() -> None:
    own = recorded(Medium.VOICE)
    it = with_own(own)
    assert card(it).media is None and card(it).buttons
    assert [say.media for say in it.phone(CLIENT).said].count(own.media) == 1


def test_what_the_client_did_not_agree_to_is_never_used() -> None:
    own = replace(recorded(Medium.PHOTO), kept_at=None)
    it = with_own(own).finish()
    assert own.media not in [say.media for say in it.phone(CLIENT).said if say.topic == "session"]


# --- the short style ----------------------------------------------------------------------------------------------


def test_in_the_short_style_a_set_up_is_a_picture_the_hand_and_one_line() -> None:
    it = home(plan(planned("tandem")), short_words=True).start().check()
    assert [line.key for line in card(it).words] == [
        "set-up-title",
        "phone-in-view",
        "hand-hovering",
        "form-tandem-touching.short",
        "hand-hovering.then",
    ]
    assert isinstance(card(it).media, FormPicture)


def test_in_the_short_style_when_to_stop_is_said_at_the_place() -> None:
    for short in (True, False):
        it = home(plan(planned("tandem"), planned("together", clock=Clock.SOUND)), short_words=short).start()
        it.press(CLIENT, "same")
        assert ("place-stop" in [line.key for line in card(it).words]) is short
