"""Every screen about what a therapist records, on the therapist's phone and on the client's, comes out whole and fits."""

from collections.abc import Iterator

from companion.chat.buttons import decode, encode
from companion.content.folders import content_dir
from companion.content.plain_words import LETTERS_ON_A_BUTTON, broken_rules
from companion.content.texts import Texts
from companion.core.dialogues import Recording
from companion.core.effects import Say, Subject, Words
from companion.core.events import Control, Lost, MediaGiven, MediaRemoved, Press, Pressed, Why
from companion.core.media import Medium, OwnMedia, Recorded
from companion.core.person import Part, Person
from tests.core.home import Home, home
from tests.core.people import People
from tests.core.practice import CLIENT, MONDAY, THERAPIST, ZONE, client, full_plan

TEXTS = Texts(content_dir() / "texts")
LETTERS_UNDER_A_PICTURE = 1024
THERE = (
    OwnMedia("m91", "tandem", Recorded(Medium.PHOTO, "a"), False, THERAPIST, MONDAY, kept_at=MONDAY),
    OwnMedia("m92", "tandem", Recorded(Medium.VOICE, "b"), True, THERAPIST, MONDAY, ask_at=MONDAY, asked=True),
    OwnMedia("m93", "dark", Recorded(Medium.VIDEO, "c"), True, THERAPIST, MONDAY, ask_at=MONDAY),
    OwnMedia("m94", "gone", Recorded(Medium.VIDEO, "d"), True, THERAPIST, MONDAY, kept_at=MONDAY),
)


def said(line: Words) -> str:
    """The text. The exercises of the tests are invented, so content has no words for them."""
    if line.key.startswith("ex-"):
        return line.key
    params = tuple((name, value if isinstance(value, str) else said(value)) for name, value in line.params)
    return TEXTS.text(Words(line.key, params), "en")


def whole(say: Say) -> str:
    text = "\n".join(said(line) for line in say.words)
    assert 0 < len(text) <= LETTERS_UNDER_A_PICTURE
    for button in say.buttons:
        assert 0 < len(said(button.label)) <= LETTERS_ON_A_BUTTON, said(button.label)
        assert decode(encode(button.press)) == button.press
    return text


def walks() -> Iterator[Say]:
    """All screens of the dialogue: each button of each screen is pressed, or a file or words are sent, up to three deep."""
    paths: list[tuple[str, ...]] = [()]
    while paths:
        path = paths.pop()
        it = People(
            [Person(THERAPIST, Part.THERAPIST, "Cleo", ZONE, ("c1",), user_id=1)], [client(full_plan(), own_media=THERE)]
        )
        it.do(Subject("client", "c1"), Pressed(MONDAY, THERAPIST, Press("c1", "page", "page", "media")))
        for choice in path:
            if choice in ("photo", "sticker"):
                it.write(THERAPIST, "", choice, 7, "file")
                continue
            card = it.phone(THERAPIST).cards["desk"]
            it.send(THERAPIST, next(button.press for button in card.buttons if button.press.choice == choice))
        yield from it.phone(THERAPIST).said
        if isinstance(it.persons[THERAPIST].dialogue, Recording) and len(path) < 3:
            card = it.phone(THERAPIST).cards["desk"]
            paths += [(*path, choice) for choice in (*(button.press.choice for button in card.buttons), "photo", "sticker")]


def test_every_screen_of_the_dialogue_is_whole_and_fits_the_words_under_a_picture() -> None:
    seen = {line.key for say in walks() for line in say.words if whole(say)}
    asked = {"media-which", "media-there", "media-keep-there", "media-unplanned", "media-send", "media-how", "set-up-title"}
    told = {"media-not-taken", "media-first-which", "media-cancelled", "media-given", "media-removed", "media-passed-on"}
    assert asked | told <= seen


def everything_at_home() -> Home:
    """Each thing that can come of a recording, on the client's phone and on the therapist's."""
    it = home(full_plan(), own_media=(THERE[3],))
    for medium in Medium:
        give(it, medium, "tandem")
        it.press(CLIENT, "use")
        give(it, medium, "tandem")
        it.press(CLIENT, "leave_out")
        give(it, medium, "dark")
        it.do(Lost(it.now, it.client.own_media[-1].id, Why.UNDELIVERABLE))
        give(it, medium, "dark")
        it.row(CLIENT, Control.MORE)
        for choice in ("else", "week", "own", "n1"):
            it.press(CLIENT, choice)
        it.press(CLIENT, "leave_out")
        it.send(CLIENT, Press("c1", "menu", "own", "n9"))
        it.send(CLIENT, Press("c1", "menu", it.client.own_media[-1].id, "show"))
        it.do(MediaRemoved(it.now, THERAPIST, it.client.own_media[-1].id))
    it.do(MediaRemoved(it.now, THERAPIST, "m999"))
    give(it, Medium.PHOTO, "unheard of")
    return it


def give(it: Home, medium: Medium, exercise: str) -> None:
    it.do(MediaGiven(it.now, THERAPIST, exercise, Recorded(medium, f"{exercise} {len(it.records)}"), beside=True))


def test_every_message_about_a_recording_is_whole_and_the_clients_are_in_plain_words() -> None:
    it = everything_at_home()
    says = [(who, say) for who, phone in it.phones.items() for say in phone.said]
    keys = {line.key for _, say in says for line in say.words}
    for who, say in says:
        text = whole(say)
        if who == CLIENT:
            assert [what for what, _ in broken_rules(text, button=False)] == [], text
            assert len(say.buttons) <= 3
    client_s = {"own-made", "own-ask", "own-used", "own-left-out", "own-item", "own-item-kept", "own-item-waiting"}
    assert client_s | {"media-agreed", "media-declined-by-client", "media-removed-by-client", "media-gone"} <= keys
    assert {"media-undelivered", "media-not-in-plan"} <= keys
