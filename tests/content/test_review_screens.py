"""Every screen of a review, whatever was entered, comes out whole in the therapist's words and fits."""

from collections.abc import Callable, Iterator

from companion.chat.buttons import decode, encode
from companion.content.folders import content_dir
from companion.content.plain_words import LETTERS_ON_A_BUTTON
from companion.content.texts import Texts
from companion.core.dialogues import Reviewing
from companion.core.effects import Say
from tests.core.people import People
from tests.core.practice import MONDAY, THERAPIST
from tests.core.reviewer import GOAL, asked, choose, enter, page, stages, visit, whole

TEXTS = Texts(content_dir() / "texts")
LETTERS_OF_A_MESSAGE = 4096
STARTS: dict[str, Callable[[], People]] = {
    "nothing": asked,
    "all": lambda: choose(whole(asked()), "b-review-menu"),
    "no baseline": lambda: asked(visit(baseline=None, goal="")),
    "over": lambda: stages(asked(), "held", "held", "held", "held"),
    "begun": lambda: asked(enter(asked(), "review-berg", "41")),
    "a long goal": lambda: asked(visit(goal="g" * 300)),
}


def read(say: Say) -> str:
    """The message as it is read; fails if a word is missing, or if it does not fit."""
    text = "\n".join(TEXTS.text(line, "en") for line in say.words)
    assert 0 < len(text) <= LETTERS_OF_A_MESSAGE
    for button in say.buttons:
        assert 0 < len(TEXTS.text(button.label, "en")) <= LETTERS_ON_A_BUTTON, TEXTS.text(button.label, "en")
        assert decode(encode(button.press)) == button.press
    return text


def walks(start: str) -> Iterator[Say]:
    """Each button of each screen is pressed, or something is typed, up to two deep."""
    paths: list[tuple[int | str, ...]] = [()]
    while paths:
        path = paths.pop()
        it = STARTS[start]()
        for step in path:
            buttons = it.phone(THERAPIST).cards["desk"].buttons
            it.write(THERAPIST, step) if isinstance(step, str) else it.send(THERAPIST, buttons[step].press)
        yield from it.phone(THERAPIST).said
        if isinstance(it.persons[THERAPIST].dialogue, Reviewing) and len(path) < 2:
            there = len(it.phone(THERAPIST).cards["desk"].buttons)
            paths += [(*path, step) for step in (*range(there), "9.5", "x")]


def test_every_screen_of_a_review_is_whole_and_fits() -> None:
    seen = {line.key for start in STARTS for say in walks(start) for line in say.words if read(say)}
    here = {key for key, source in TEXTS.keys("en").items() if source.path.name == "review.ftl"}
    lines = {key for key in here if key.startswith("review-") and "." not in key}
    within = {  # said within another line
        key
        for key in lines
        if key.startswith(("review-s", "review-point", "review-takes", "review-level", "review-age-", "review-goal"))
    }
    from_the_care = {"review-discharged", "review-none", "review-comes"}
    names = {f"review-{name}" for name in ("four-stage", "half-step", "heel-to-toe", "one-leg", "berg", "decade")}
    names |= {"review-one-leg-weaker", "review-one-leg-stronger", "review-not-entered", "review-begun"}
    assert lines - within - from_the_care - names <= seen


def test_the_preview_reads_as_what_was_measured() -> None:
    text = read(whole(asked()).phone(THERAPIST).cards["desk"])
    assert text.splitlines() == [
        "Ann: review, to be kept as measured on 2026-11-02",
        "4-stage test",
        "Feet side by side: 10 s",
        "Half-step: 10 s",
        "Heel to toe: 7.2 s",
        "Under 10 s: the test ends here.",
        "Heel to toe not held for 10 s: fall risk flag (CDC STEADI). Not a diagnosis.",
        "5 sit to stands: 14.2 s",
        "One leg, weaker side (left): 4.5 s",
        "One leg, stronger side (right): 12 s",
        "Berg total: 41 of 56",
        f'Goal 1 ("{GOAL}", own words): +1, more than expected; weight 3',
        "Goal 2: -1, less than expected; weight 1",
        "Age 70-79",
    ]


def test_a_wrong_number_is_one_line_with_field_value_and_what_is_taken() -> None:
    text = read(enter(asked(), "review-sit-to-stand-5", "14:2").phone(THERAPIST).cards["desk"])
    assert text.splitlines()[0] == (
        '5 sit to stands: "14:2" was not taken. Taken: 1 to 600 s, up to 2 decimals. Nothing was changed.'
    )


def test_what_the_care_says_is_whole() -> None:
    it = choose(whole(asked()), "b-review-save")
    assert "review of 2026-11-02 kept" in read(it.phone(THERAPIST).cards["desk"])
    page(it, "open")
    assert "Last review entered: 2026-11-02" in read(it.phone(THERAPIST).cards["desk"])
    for choice, client in (("reviews", visit()), ("reviews", it), ("review", visit(discharged_at=MONDAY))):
        reply = page(client, choice).replies[-1]
        assert reply is not None and TEXTS.text(reply, "en")
