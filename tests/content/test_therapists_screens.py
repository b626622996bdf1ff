"""Every screen of alerts, settings, hand-over and discharge comes out whole and fits a message, whatever was pressed."""

from collections.abc import Iterator

from companion.chat.buttons import decode, encode
from companion.content.folders import content_dir
from companion.content.plain_words import LETTERS_IN_A_MESSAGE, LETTERS_ON_A_BUTTON
from companion.content.texts import Texts
from companion.core.dialogues import HandingOver, Setting
from companion.core.duty import Duty, Hours
from companion.core.effects import Say, Subject, Words
from companion.core.events import Control, CoverAgreed, DutySet, Entry, HandedOver, Lost, Press, Pressed, Typed, Why
from companion.core.person import Part, Person
from tests.core.home import Home, home
from tests.core.people import People
from tests.core.practice import CARER, CLIENT, CONTACT, MONDAY, THERAPIST, ZONE, client, full_plan

TEXTS = Texts(content_dir() / "texts")
INVENTED = ("ex-", "form-")
"""The exercises of the tests are invented, so content has no words for them."""


def said(line: Words) -> str:
    if line.key.startswith(INVENTED):
        return line.key
    params = []
    for name, value in line.params:
        params.append((name, value if isinstance(value, str) else said(value)))
    return TEXTS.text(Words(line.key, tuple(params)), "en")


def whole(say: Say) -> None:
    text = "\n".join(said(line) for line in say.words)
    assert 0 < len(text) <= LETTERS_IN_A_MESSAGE
    for button in say.buttons:
        assert 0 < len(said(button.label)) <= LETTERS_ON_A_BUTTON
        assert decode(encode(button.press)) == button.press


def everything_of_a_flag() -> Home:
    """Everybody presses everything that an alert and its cards offer, in the hold, out of hours, under a cover."""
    it = home(full_plan(blood_thinner=True)).start().check().reach(".hold")
    it.do(DutySet(it.now, Duty(THERAPIST, ZONE, Hours((5,), it.now.time(), it.now.time()), "t2"), "Dee"))
    it.row(CARER, Control.SOMETHING_WRONG)
    it.press(CARER, "fell")
    it.wait(700)
    it.press(CONTACT, "seen")
    for choice in ("with_them", "reached", "not_reached"):
        it.press(CONTACT, choice)
    for number in range(30):
        it.do(Typed(it.now, CONTACT, f"{number} " + "w" * 5000))
        it.row(CLIENT, Control.SOMETHING_WRONG)
    it.press("t2", "seen")
    it.press("t2", "not_reached")
    it.do(CoverAgreed(it.now, THERAPIST, "t3", "Eva", it.now, it.now.replace(year=2027)))
    it.do(Lost(it.now, f"{it.hold.id}:{THERAPIST}", Why.UNDELIVERABLE))
    it.do(HandedOver(it.now, THERAPIST, "t4", "Ivo"))
    it.row(CARER, Control.MORE)
    it.press(CARER, "fell")
    it.press(CARER, "saved")
    it.press("t3", "seen")
    it.press("t3", "not_reached")
    it.press("t4", "lift")
    it.press("t4", "keep")
    it.press("t4", "lift")
    it.press("t4", "spoke")
    it.do(CoverAgreed(it.now, "t4", "t4", "Ivo", it.now, it.now))
    for choice in ("discharge", "keep", "sure", "sure"):
        it.send("t4", Press("c1", "page", "discharge", choice))
    it.send(CLIENT, Press("c1", "menu", "more", "practise"))
    return it


def test_every_message_about_a_flag_and_its_people_is_whole_and_fits() -> None:
    it = everything_of_a_flag()
    assert not it.held and it.client.discharged_at is not None
    says = [say for phone in it.phones.values() for say in phone.said]
    keys = {line.key for say in says for line in say.words}
    for say in says:
        whole(say)
    parts = {"alert-during-hold", "alert-as-deputy", "alert-own-words", "handed-over-to", "lifted", "discharged-title"}
    assert parts <= keys


def clinic() -> People:
    it = People([Person(THERAPIST, Part.THERAPIST, "Cleo", ZONE, ("c1",), user_id=1)], [client(full_plan())])
    it.colleagues = [Entry(f"u{number}", f"Uma {number}") for number in range(9)]
    return it


def walks(kind: type[HandingOver | Setting], begin: Pressed | Control) -> Iterator[Say]:
    """All screens of a dialogue: each button of each screen is pressed, from the beginning, up to three deep."""
    paths: list[tuple[str, ...]] = [()]
    while paths:
        path, it = paths.pop(), clinic()
        if isinstance(begin, Pressed):
            it.do(Subject("client", "c1"), begin)
        else:
            it.row(THERAPIST, begin)
        for choice in path:
            card = it.phone(THERAPIST).cards["desk"]
            it.send(THERAPIST, next(button.press for button in card.buttons if button.press.choice == choice))
        card = it.phone(THERAPIST).cards["desk"]
        yield card
        if isinstance(it.persons[THERAPIST].dialogue, kind) and len(path) < 3:
            paths += [(*path, button.press.choice) for button in card.buttons]


def test_every_screen_of_the_settings_is_whole_and_fits() -> None:
    shown = list(walks(Setting, Control.SETTINGS))
    assert len(shown) > 100
    for say in shown:
        whole(say)


def test_every_screen_of_a_hand_over_and_of_a_cover_is_whole_and_fits() -> None:
    for what in ("hand_over", "cover"):
        shown = list(walks(HandingOver, Pressed(MONDAY, THERAPIST, Press("c1", "page", "page", what))))
        assert {say.words[0].key for say in shown} >= {"hand-cancelled", f"hand-sure-{what.removeprefix('hand_')}"}
        for say in shown:
            whole(say)
