"""The therapist records a voice cue, a photo or a clip by sending it to the chat: shown back, then passed on to the care."""

from dataclasses import replace
from datetime import timedelta

import pytest

from companion.core.care import Client, Cover
from companion.core.dialogues import Recording, Setting
from companion.core.effects import Pass, Say, Subject
from companion.core.events import Control, HandedOver, MediaGiven, MediaRemoved, Opened, Press, Pressed
from companion.core.media import Medium, OwnMedia, Recorded
from companion.core.person import Part, Person, own
from tests.core.people import People
from tests.core.practice import CARER, CLIENT, CONTACT, MONDAY, STRANGER, THERAPIST, ZONE, client, plan, planned

DEE = "t2"
KEPT = OwnMedia("m1", "tandem", Recorded(Medium.PHOTO, "old"), False, THERAPIST, MONDAY, kept_at=MONDAY)
WAITS = OwnMedia("m2", "tandem", Recorded(Medium.VOICE, "new"), True, DEE, MONDAY, ask_at=MONDAY, asked=True)


def visit(**more: object) -> People:
    """The therapist, a colleague, and the client's home. The plan has 2 exercises."""
    persons = [
        Person(THERAPIST, Part.THERAPIST, "Cleo", ZONE, ("c1",), user_id=1),
        Person(DEE, Part.THERAPIST, "Dee", ZONE, ("c1",), user_id=2),
        Person(CLIENT, Part.CLIENT, "Ann", ZONE, ("c1",), user_id=3),
        Person(CARER, Part.CARER, "Ben", ZONE, ("c1",), user_id=4),
        Person(CONTACT, Part.CONTACT, "Dov", ZONE, ("c1",), user_id=5),
    ]
    return People(persons, [client(plan(planned("press"), planned("tandem")), **more)])


def asked(it: People, by: str = THERAPIST) -> People:
    """The button of the client's page."""
    it.do(Subject("client", "c1"), Pressed(it.now, by, Press("c1", "page", "page", "media")))
    return it


def of(it: People, by: str = THERAPIST) -> Recording:
    dialogue = it.persons[by].dialogue
    assert isinstance(dialogue, Recording)
    return dialogue


def lines(it: People, by: str = THERAPIST) -> list[str]:
    return [line.key for line in it.phone(by).cards["desk"].words]


def choices(it: People, by: str = THERAPIST) -> list[str]:
    return [button.press.choice for button in it.phone(by).cards["desk"].buttons]


def choose(it: People, choice: str, by: str = THERAPIST) -> People:
    """Press that choice of the dialogue's card."""
    it.send(by, next(one.press for one in it.phone(by).cards["desk"].buttons if one.press.choice == choice))
    return it


def sent(it: People, form: str = "photo", file_id: str = "file", by: str = THERAPIST) -> People:
    it.write(by, "", form, 7, file_id)
    return it


def care(it: People) -> Client:
    return it.clients["c1"]


def test_the_dialogue_opens_from_the_page_with_the_exercises_of_the_plan_and_a_caution() -> None:
    it = asked(visit())
    assert lines(it) == ["media-which", "media-caution"] and choices(it) == ["n0", "n1", "cancel"]
    names = [dict(button.label.params)["exercise"] for button in it.phone(THERAPIST).cards["desk"].buttons[:2]]
    assert [getattr(name, "key", name) for name in names] == ["ex-press", "ex-tandem"]


@pytest.mark.parametrize(
    ("form", "medium"),
    [("voice", Medium.VOICE), ("photo", Medium.PHOTO), ("video", Medium.VIDEO)],
)
@pytest.mark.parametrize("way", ["instead", "beside"])
def test_a_file_is_shown_back_as_it_will_reach_the_client_and_then_passed_on(form: str, medium: Medium, way: str) -> None:
    it = sent(choose(asked(visit()), "n1"), form)
    shown = [say for say in it.all(Say) if say.media is not None]
    assert [(say.to, say.media) for say in shown] == [(THERAPIST, Recorded(medium, "file"))]
    assert [line.key for line in shown[0].words] == ["set-up-title"] and not shown[0].buttons
    assert choices(it) == ["instead", "beside", "send", "cancel"] and care(it).own_media == ()
    choose(it, way)
    given = [one.event for one in it.all(Pass) if isinstance(one.event, MediaGiven)]
    assert given == [MediaGiven(it.now, THERAPIST, "tandem", Recorded(medium, "file"), way == "beside")]
    assert it.persons[THERAPIST].dialogue is None and care(it).own_media[0].beside == (way == "beside")
    assert lines(it) == ["media-given", "media-when-now"]


@pytest.mark.parametrize("form", ["", "document", "audio", "video_note", "sticker", "edited"])
def test_anything_else_is_answered_with_one_line_of_what_can_be_sent_and_asked_again(form: str) -> None:
    it = choose(asked(visit()), "n1")
    was = of(it)
    sent(it, form, "file" if form else "")
    assert lines(it) == ["media-not-taken", "media-send"] and of(it) == was
    assert not [say for say in it.all(Say) if say.media is not None]


def test_a_photo_without_a_file_to_name_is_not_taken() -> None:
    it = sent(choose(asked(visit()), "n1"), "photo", "")
    assert lines(it) == ["media-not-taken", "media-send"]


def test_words_typed_when_it_is_asked_how_it_shall_come_ask_again_and_keep_the_file() -> None:
    it = sent(choose(asked(visit()), "n1"))
    it.write(THERAPIST, "beside it, please")
    assert lines(it) == ["media-not-taken", "media-how"] and of(it).media == Recorded(Medium.PHOTO, "file")


def test_another_file_takes_the_place_of_the_one_that_was_shown_back() -> None:
    it = sent(sent(choose(asked(visit()), "n1")), "voice", "second")
    assert of(it).media == Recorded(Medium.VOICE, "second")
    it = sent(choose(it, "send"), "video", "third")
    choose(it, "instead")
    assert [own.media for own in care(it).own_media] == [Recorded(Medium.VIDEO, "third")]


@pytest.mark.parametrize("form", ["", "photo"])
def test_what_is_sent_before_an_exercise_is_chosen_is_not_taken(form: str) -> None:
    it = sent(asked(visit()), form)
    assert lines(it)[0] == "media-first-which" and of(it).at == "which" and of(it).media is None
    it = sent(choose(asked(visit(own_media=(KEPT,))), "n1"), form)
    assert lines(it)[0] == "media-first-which" and care(it).own_media == (KEPT,)


def test_back_leads_to_where_it_came_from() -> None:
    it = choose(choose(asked(visit()), "n0"), "back")
    assert of(it).at == "which" and of(it).exercise == ""
    it = choose(choose(choose(asked(visit(own_media=(KEPT,))), "n1"), "replace"), "back")
    assert of(it).at == "there"
    assert of(choose(it, "back")).at == "which"


@pytest.mark.parametrize("way", [(), ("n1",), ("n1", "photo")])
def test_cancel_changes_nothing_at_any_screen(way: tuple[str, ...]) -> None:
    it = asked(visit())
    for step in way:
        sent(it) if step == "photo" else choose(it, step)
    choose(it, "cancel")
    assert it.persons[THERAPIST].dialogue is None and lines(it) == ["media-cancelled"] and care(it).own_media == ()


@pytest.mark.parametrize("way", [("n1",), ("n1", "photo", "instead"), ("n1", "photo", "send"), ("cancel",), ("n1", "back")])
def test_a_second_press_of_any_button_changes_nothing_and_gets_one_line(way: tuple[str, ...]) -> None:
    it = asked(visit())
    for step in way[:-1]:
        sent(it) if step == "photo" else choose(it, step)
    last = next(one.press for one in it.phone(THERAPIST).cards["desk"].buttons if one.press.choice == way[-1])
    it.send(THERAPIST, last)
    was, kept = it.persons[THERAPIST], care(it)
    it.send(THERAPIST, last)
    assert (it.persons[THERAPIST], care(it)) == (was, kept) and not it.all(Say)
    assert it.replies[-1] is not None and it.replies[-1].key in ("press-stale", "press-over")


@pytest.mark.parametrize("choice", ["n9", "n", "m1", "instead", "beside", "replace", "back", "\N{SNOWMAN}", ""])
def test_a_forged_press_changes_nothing(choice: str) -> None:
    for at in ((), ("n1",)):
        it = asked(visit())
        for step in at:
            choose(it, step)
        was = of(it)
        it.send(THERAPIST, Press(own(THERAPIST), was.id, was.at, choice))
        assert care(it).own_media == () and (of(it) == was or choice == "back")


def test_what_is_there_is_named_with_what_the_client_said_and_can_be_taken_out() -> None:
    it = asked(visit(own_media=(KEPT, WAITS)))
    there = [dict(line.params) for line in it.phone(THERAPIST).cards["desk"].words if line.key == "media-there"]
    assert [(one["medium"], one["way"], one["state"]) for one in there] == [
        ("photo", "instead", "agreed"),
        ("voice", "beside", "asked"),
    ]
    choose(it, "n1")
    assert choices(it) == ["replace", "m1", "m2", "back", "cancel"]
    choose(it, "m1")
    removed = [one.event for one in it.all(Pass) if isinstance(one.event, MediaRemoved)]
    assert removed == [MediaRemoved(it.now, THERAPIST, "m1")]
    assert care(it).own_media == (WAITS,) and lines(it) == ["media-removed"]


def test_what_is_there_of_an_exercise_that_left_the_plan_can_be_taken_out_and_not_replaced() -> None:
    it = asked(visit(own_media=(replace(KEPT, exercise="toes"),)))
    assert choices(it) == ["n0", "n1", "n2", "cancel"]
    choose(it, "n2")
    assert choices(it) == ["m1", "back", "cancel"] and "media-unplanned" in lines(it)
    it.send(THERAPIST, Press(own(THERAPIST), of(it).id, "there", "replace"))
    assert of(it).at == "there"
    choose(it, "m1")
    assert care(it).own_media == ()


def test_the_dialogue_never_holds_the_files_that_are_there() -> None:
    it = asked(visit(own_media=(KEPT, WAITS)))
    assert {one.media.file_id for one in of(it).facts.own_media} == {""}
    opened = [one.event for one in it.all(Pass) if isinstance(one.event, Opened)]
    assert {one.media.file_id for one in opened[0].facts.own_media} == {""}


@pytest.mark.parametrize(
    ("more", "line"),
    [
        ({"consent": None}, "media-no-consent"),
        ({"plan": None}, "media-no-plan"),
        ({"discharged_at": MONDAY}, "media-discharged"),
    ],
)
def test_where_nothing_can_be_recorded_the_page_says_why(more: dict[str, object], line: str) -> None:
    it = visit()
    it.clients["c1"] = replace(care(it), **more)  # type: ignore[arg-type]
    asked(it)
    assert it.replies[-1] is not None and it.replies[-1].key == line and it.persons[THERAPIST].dialogue is None


@pytest.mark.parametrize("by", [CLIENT, CARER, CONTACT, STRANGER, DEE])
def test_nobody_else_opens_it(by: str) -> None:
    it = asked(visit(), by)
    assert it.replies[-1] is not None and it.replies[-1].key == "press-not-yours" and not it.all(Pass)


def test_who_covers_records_as_the_therapist_does() -> None:
    it = asked(visit(cover=Cover(DEE, MONDAY, MONDAY + timedelta(days=1), begun=True)), DEE)
    choose(sent(choose(it, "n1", DEE), by=DEE), "beside", DEE)
    assert [own.by for own in care(it).own_media] == [DEE] and lines(it, DEE)[0] == "media-given"


def test_a_client_handed_over_in_the_middle_closes_the_dialogue_and_nothing_is_kept() -> None:
    it = sent(choose(asked(visit()), "n1"))
    last = next(one.press for one in it.phone(THERAPIST).cards["desk"].buttons if one.press.choice == "instead")
    it.colleagues = []
    it.do(Subject("client", "c1"), HandedOver(it.now, THERAPIST, DEE, "Dee"))
    assert it.persons[THERAPIST].dialogue is None
    it.send(THERAPIST, last)
    assert care(it).own_media == ()


def test_the_dialogue_goes_on_where_it_was_after_a_restart_and_makes_way_for_another() -> None:
    it = sent(choose(asked(visit()), "n1"))
    kept = it.persons[THERAPIST]
    again = visit()
    again.persons[THERAPIST], again.phones = kept, it.phones
    choose(again, "instead")
    assert len(care(again).own_media) == 1
    it.row(THERAPIST, Control.SETTINGS)
    assert isinstance(it.persons[THERAPIST].dialogue, Setting) and it.persons[THERAPIST].drafts == ()
