"""The core over the real library of content/: every form of every exercise is practised to its closing, in words that exist."""

from functools import cache

import pytest

from companion.content import library
from companion.content.folders import content_dir
from companion.content.texts import Texts
from companion.core.effects import Say, Words
from companion.core.events import Control, Press
from companion.core.media import Media, SoundCheck, SoundClock
from companion.core.observations import CarerSeen, Ending
from companion.core.programme import HAND_STAGES, Clock, Exercise, Eyes, Form, Measure, Place, Plan, Planned, Rules
from companion.core.red_flags import screen
from tests.core.everywhere import everywhere
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, THERAPIST, alone, plan


@cache
def rules() -> Rules:
    return library.load(content_dir()).rules("112")


@cache
def texts() -> Texts:
    return Texts(content_dir() / "texts")


def clocks(exercise: Exercise, form: Form) -> tuple[Clock, ...]:
    """The clocks on which that form can be planned: with closed eyes one that is heard."""
    if form.measure is Measure.COUNTED:
        return (Clock.NONE,)
    usable = (Clock.CARER, Clock.SOUND) if form.eyes is Eyes.CLOSED else (Clock.SCREEN, Clock.CARER, Clock.SOUND)
    return tuple(clock for clock in usable if clock in exercise.clocks)


def cases() -> list[tuple[str, str, Clock]]:
    found = rules().exercises.values()
    return [(one.id, form.id, clock) for one in found for form in one.forms for clock in clocks(one, form)]


def practised(exercise: Exercise, form: Form, clock: Clock) -> Plan:
    """A plan of that form alone, opened as far as the exercise goes, for a body that rules nothing out."""
    hands = [hand for hand in HAND_STAGES if hand in form.hands]
    item = Planned(exercise.id, form.id, form.target, hands[0], clock, exercise.forms[-1].id, hands[-1])
    return plan(item, place=Place("worktop", "shoes"), eyes_closed=True, one_good_hand=False)


def assert_words_exist(it: Home) -> None:
    """Everything that was said, and every button, has its words: Fluent leaves no hole in them."""
    for who in (CLIENT, CARER, THERAPIST):
        for say in it.phone(who).said:
            for words in _all(say):
                assert texts().text(words, "en")


def _all(say: Say) -> list[Words]:
    return [*say.words, *(button.label for button in say.buttons), *say.fixed_row, *_spoken(say.media)]


def _spoken(media: Media | None) -> tuple[Words, ...]:
    match media:
        case SoundClock():
            return (*media.before, media.breathe, *media.after)
        case SoundCheck():
            return media.before
        case _:
            return ()


def test_the_library_has_exercises_of_every_kind() -> None:
    forms = [form for exercise in rules().exercises.values() for form in exercise.forms]
    assert len(rules().exercises) >= 14 and {form.measure for form in forms} == set(Measure)
    assert len(cases()) > 40


@pytest.mark.parametrize(("exercise", "form", "clock"), cases())
def test_each_form_of_the_library_is_practised_to_its_end_in_words_that_exist(exercise: str, form: str, clock: Clock) -> None:
    known = rules().exercises[exercise]
    it = home(practised(known, known.form(form), clock), rules(), sessions=0).start().check()
    broke = it.copy()
    it.finish()
    broke.finish(prefer=("not_quite", "fewer", "n0", "q3", "unknown"))
    for one in (it, broke):
        assert one.ended[0].ending is Ending.DONE and {bout.form for bout in one.bouts} == {form}
        assert_words_exist(one)


@pytest.mark.parametrize(("exercise", "form", "clock"), cases())
def test_each_form_is_practised_on_a_shared_phone_in_words_that_exist(exercise: str, form: str, clock: Clock) -> None:
    known = rules().exercises[exercise]
    it = home(
        practised(known, known.form(form), clock),
        rules(),
        **alone(shared_phone=True, briefed=((CLIENT, rules().briefing.version),)),
    )
    it.start().finish(("beside",))
    assert it.ended[0].ending is Ending.DONE and it.ended[0].carer is CarerSeen.NOT_VERIFIED
    assert_words_exist(it)


def test_all_that_the_carer_finds_behind_more_is_said_in_words_that_exist() -> None:
    known = rules().exercises["heel_to_toe"]
    for path in (
        ("report", "near_fall", "not_hurt"),
        ("report", "worry", "can_wait"),
        ("beside", "how_it_goes"),
        ("beside", "help"),
    ):
        it = home(practised(known, known.form(known.usual), Clock.SCREEN), rules(), carer_sees=("sessions", "flags", "words"))
        it.row(CARER, Control.MORE)
        for choice in path:
            it.press(CARER, choice)
        it.write(CARER, "So tired.")
        for step, choice in (("shared", "on"), ("shared", "off"), ("page", "remove_carer"), ("remove_carer", "remove_carer")):
            it.send(THERAPIST, Press("c1", "page", step, choice))
        assert_words_exist(it)


@pytest.mark.parametrize("exercise", rules().exercises)
def test_whatever_can_happen_in_an_exercise_of_the_library_is_said_in_words_that_exist(exercise: str) -> None:
    known = rules().exercises[exercise]
    form = known.form(known.usual)
    places = everywhere(home(practised(known, form, clocks(known, form)[-1]), rules()).start())
    assert len(places) > 5
    for it in places.values():
        it.row(CARER, Control.SOMETHING_WRONG)
        it.lift()
        assert_words_exist(it)


def test_every_fact_that_can_be_pressed_trips_a_rule_of_the_library() -> None:
    facts = [f"sign.{sign}" for sign in rules().signs]
    facts += ["fall", "still_down", "head_knock", "head_unsure", "pressed_wrong", "felt_unwell", "carer_different"]
    assert [fact for fact in facts if screen((fact,), rules()) is None] == []


@pytest.mark.parametrize("choice", ["up", "down", "saved"])
def test_a_fall_and_what_follows_is_said_in_words_that_exist(choice: str) -> None:
    known = rules().exercises["heel_to_toe"]
    it = home(practised(known, known.form(known.usual), Clock.SCREEN), rules())
    it.row(CARER, Control.MORE)
    it.press(CARER, "fell")
    it.wait(700)
    it.press(CLIENT, choice)
    if choice == "up":
        it.press(CLIENT, "hit")
    it.lift()
    assert_words_exist(it)
