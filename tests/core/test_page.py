"""A client's page: what a therapist reads at one look, one tap to everything, and nobody else sees it."""

from dataclasses import replace
from datetime import date, timedelta
from functools import cache
from typing import Any

import pytest

from companion.content.folders import content_dir
from companion.content.texts import Texts
from companion.core.baseline import Baseline
from companion.core.care import Client, Cover, Hold, Past, Pause, facts
from companion.core.effects import Invite, Pass, Put, Report, Say
from companion.core.events import Opened, Opens, Press
from companion.core.observations import Ending, FallKind, Reporter
from companion.core.person import Part, Person, own
from companion.core.programme import Challenge, Direction, Level
from companion.core.recent import Blank, Proposal, Said, Slip
from tests.core.people import People
from tests.core.practice import CARER, CLIENT, CONTACT, MONDAY, STRANGER, THERAPIST, ZONE, alone, client, plan, planned

OTHER = "t2"
DAY = timedelta(days=1)


def desk(**more: Any) -> People:
    """The therapists' phones beside one client, who practises half a minute in the half-step."""
    of = more.pop("of", plan(planned("press"), planned("tandem", form="half", target=30)))
    persons = [Person(who, Part.THERAPIST, who, ZONE, ("c1",), user_id=n) for n, who in enumerate((THERAPIST, OTHER), 1)]
    return People(persons, [client(of, **more)])


def tap(it: People, choice: str, by: str = THERAPIST, step: str = "page") -> People:
    it.send(by, Press("c1", "page", step, choice))
    return it


def shown(it: People, by: str = THERAPIST) -> Say:
    return it.phone(by).cards["desk"]


def choices(it: People, by: str = THERAPIST) -> list[str]:
    return [button.press.choice for button in shown(it, by).buttons]


@cache
def texts() -> Texts:
    return Texts(content_dir() / "texts")


def read(say: Say) -> str:
    """The message as it is read, its buttons included; fails if a word is missing."""
    lines = [*say.words, *(button.label for button in say.buttons)]
    return "\n".join(texts().text(line, "en") for line in lines)


FULL: dict[str, Any] = {
    "hold": Hold("f1", "fall", Level.URGENT, ("fall",), CLIENT, MONDAY),
    "slips": (Slip(date(2026, 10, 30), "f0", FallKind.NEAR_FALL), Slip(MONDAY.date(), "f1", FallKind.FALL)),
    "past": (
        Past(date(2026, 10, 29), Ending.DONE, 7, 7),
        Past(date(2026, 10, 30), Ending.PARTLY, 3, 7),
        Past(date(2026, 11, 2), Ending.STOPPED, 1, 7),
    ),
    "blanks": (Blank(date(2026, 10, 28), Ending.NO_ANSWER),),
    "said": (Said(MONDAY, Reporter.CLIENT, "my knee hurts"), Said(MONDAY + DAY, Reporter.CARER, "", "voice")),
    "goal": "to walk to the gate",
    "baseline": Baseline("left", "right", "ankle_blocked", "yes", "one", "voice"),
    "pause": Pause("holiday", MONDAY, date(2026, 11, 9)),
    "shared_phone": True,
    "since": MONDAY - 7 * DAY,
}


def test_the_page_says_at_one_look_what_a_therapist_asks_first() -> None:
    text = read(shown(tap(desk(**FULL), "open")))
    for part in (
        "Look: RED FLAG of 2026-11-02, not acknowledged; fall reported 2026-11-02; near-fall reported 2026-10-30",
        "Plan 1: 2 exercises",
        "Mon, Tue, Wed, Thu, Fri · 09:00 (Europe/London) · about 20 min",
        "Carer beside: always · Eyes closed: not permitted",
        "Sessions reported: 2 of 4 due (50 %), last 14 days",
        "Days with no answer: 1, last 14 days (unknown)",
        "2026-11-02: stopped by a red flag, 1 of 7 bouts reported",
        "RED FLAG (urgent) of 2026-11-02 08:00 (Europe/London), not acknowledged",
        "Reported, newest first: fall 2026-11-02; near-fall 2026-10-30",
        "Carer Ben: in the chat; briefed",
        "One shared phone: the carer's presence is not verified",
        'Goal, own words: "to walk to the gate"',
        "Weaker side: left; Can tap a phone: right hand only; Orthosis: worn, blocks the ankle",
    ):
        assert part in text, f"{part!r} is not in:\n{text}"


@pytest.mark.parametrize("more", [{"of": None}, {"consent": None, **alone()}, {"joined": ()}, FULL, {}])
def test_every_screen_of_the_page_is_in_words_that_exist(more: dict[str, Any]) -> None:
    for by in (THERAPIST, OTHER):
        it = desk(**{"cover": Cover(OTHER, MONDAY, MONDAY + DAY), **more})
        for choice in ("open", "words", "history", "more", "links"):
            assert read(shown(tap(it, choice, by), by)) and it.replies[-1] is None
            assert shown(it, by).put is Put.IN_PLACE
        for reply in ("chart", "n0"):
            tap(it, reply, by, "link" if reply == "n0" else "page")
            assert it.replies[-1] is not None and texts().text(it.replies[-1], "en")


def test_what_nobody_told_is_said_to_be_unknown_or_not_yet_there() -> None:
    text = read(shown(tap(desk(of=None, consent=None, **alone()), "open")))
    for part in ("Plan: none yet", "Sessions: none yet", "none was due", "Consent: not given", "Carer: none named"):
        assert part in text
    assert "Baseline: not taken yet" in text and "%" not in text


def test_from_the_page_everything_is_at_most_two_taps_away() -> None:
    it = tap(desk(), "open")
    assert choices(it) == ["plan", "chart", "words", "history", "more", "n0"]
    assert shown(it).buttons[-1].press == Press(own(THERAPIST), "desk", "list", "n0")
    it.press(THERAPIST, "b-page-more")
    expected = [
        "baseline",
        "review",
        "media",
        "record",
        "links",
        "hand_over",
        "cover",
        "shared",
        "remove_carer",
        "discharge",
        "open",
    ]
    assert choices(it) == expected
    it.press(THERAPIST, "b-page-open")
    assert "page-plan" in [line.key for line in shown(it).words]


def test_a_decision_that_waits_is_one_tap_away_with_its_buttons() -> None:
    proposal = Proposal("p7", "tandem", Direction.UP, Challenge.LONGER_HOLD, 1, MONDAY, (THERAPIST,))
    it = tap(desk(proposal=proposal), "open")
    it.press(THERAPIST, "b-page-proposal")
    assert it.labels(THERAPIST) == [f"b-proposal-{choice}" for choice in ("next", "stay", "back", "week")]
    assert "proposal" not in choices(tap(desk(proposal=replace(proposal, later_at=MONDAY + DAY)), "open"))
    flag = tap(desk(hold=FULL["hold"]), "open")
    flag.press(THERAPIST, "b-page-alert")
    assert "b-alert-seen" in flag.labels(THERAPIST)
    tap(it, "alert")  # none is open
    assert it.replies[-1] is not None and it.replies[-1].key == "press-stale"


def test_who_covers_can_ask_for_the_proposal_and_answer_it() -> None:
    proposal = Proposal("p7", "tandem", Direction.UP, Challenge.LONGER_HOLD, 1, MONDAY, (THERAPIST,))
    it = desk(proposal=proposal, cover=Cover(OTHER, MONDAY, MONDAY + DAY, begun=True))
    tap(it, "proposal", OTHER)
    it.press(OTHER, "b-proposal-stay")
    assert it.clients["c1"].proposal is None
    assert it.phone(THERAPIST).said[-1].card == "proposal-c1"  # the own therapist hears of it too


def test_pressing_twice_shows_the_page_again_and_changes_nothing() -> None:
    it = desk(**FULL)
    was = it.clients["c1"]
    for choice in ("open", "open", "words", "words", "history", "more", "more"):
        tap(it, choice)
        assert it.clients["c1"] == was
    assert len(it.phone(THERAPIST).cards) == 1


@pytest.mark.parametrize(
    ("choice", "opens"),
    [("plan", Opens.PLAN), ("baseline", Opens.BASELINE), ("hand_over", Opens.HAND_OVER), ("cover", Opens.COVER)],
)
def test_a_dialogue_opens_on_the_phone_that_asked_with_what_the_care_knows(choice: str, opens: Opens) -> None:
    it = desk(**FULL)
    tap(it, choice)
    passed = it.all(Pass)[0]
    opened = passed.event
    assert isinstance(opened, Opened) and opened.what is opens and passed.to.id == THERAPIST
    assert opened.facts == facts(it.clients["c1"])
    assert opened.facts.carer == "Ben" and opened.facts.about is not None
    assert opened.facts.about.contacts == ((CONTACT, "Dov"),)


def test_the_chart_of_the_running_week_comes_on_a_tap() -> None:
    it = tap(desk(), "chart")
    assert it.all(Report) == [Report(THERAPIST, date(2026, 11, 2), date(2026, 11, 8))]
    assert tap(desk(of=None), "chart").all(Report) == []


def test_own_words_are_read_newest_first_as_they_were_said() -> None:
    text = read(shown(tap(desk(**FULL), "words")))
    assert text.index("carer: sent without words (voice)") < text.index('the client: "my knee hurts"')


def test_the_history_has_the_last_ten_sessions_newest_first() -> None:
    past = tuple(Past(date(2026, 10, day), Ending.DONE, 1, 1) for day in range(1, 15))
    days = [dict(line.params)["day"] for line in shown(tap(desk(past=past), "history")).words if line.key == "alert-past"]
    assert days == [f"2026-10-{day:02}" for day in range(14, 4, -1)]


def test_a_new_link_is_made_for_whoever_needs_one() -> None:
    it = tap(desk(), "links")
    assert choices(it) == ["n0", "n1", "n2", "open"]
    tap(it, "n1", step="link")
    assert [(one.to, one.whom, one.words.key) for one in it.all(Invite)] == [(THERAPIST, CARER, "enrol-link-carer")]
    tap(it, "n9", step="link")
    assert it.all(Invite) == []


# --- who sees it ----------------------------------------------------------------------------------------------

EVERY = (
    "open", "plan", "chart", "words", "history", "more", "baseline", "links", "hand_over", "cover", "shared", "on", "off",
    "remove_carer", "discharge", "sure", "keep",
)  # fmt: skip


@pytest.mark.parametrize("by", [CLIENT, CARER, CONTACT, STRANGER, OTHER])
def test_who_does_not_see_to_the_client_gets_one_polite_line(by: str) -> None:
    it = desk(**FULL)
    was = it.clients["c1"]
    for choice in EVERY:
        for step in ("page", "discharge", "remove_carer", "link"):
            tap(it, choice, by, step)
            assert it.clients["c1"] == was and it.replies[-1] is not None
            assert it.replies[-1].key == "press-not-yours" and it.keys(by) == []


def test_a_cover_sees_the_page_while_it_lasts_and_nothing_after() -> None:
    it = desk(cover=Cover(OTHER, MONDAY + DAY, MONDAY + 2 * DAY, begun=True))
    for at, seen in ((MONDAY, False), (MONDAY + DAY, True), (MONDAY + 2 * DAY, False)):
        it.now = at
        tap(it, "open", OTHER)
        assert bool(it.keys(OTHER)) is seen


@pytest.mark.parametrize("choice", ["hand_over", "cover", "shared", "on", "off", "remove_carer", "discharge"])
def test_who_covers_neither_hands_on_nor_ends_the_care(choice: str) -> None:
    it = desk(cover=Cover(OTHER, MONDAY, MONDAY + DAY, begun=True))
    tap(it, "more", OTHER)
    assert choice not in choices(it, OTHER)
    was = it.clients["c1"]
    tap(it, choice, OTHER)
    assert it.clients["c1"] == was and it.replies[-1] is not None and it.replies[-1].key == "press-not-yours"


def test_after_a_hand_over_the_former_therapist_sees_nothing_more() -> None:
    it = desk()
    tap(it, "open")
    care: Client = it.clients["c1"]
    it.clients["c1"] = replace(care, people=replace(care.people, therapist=OTHER))
    tap(it, "words")
    assert it.keys(THERAPIST) == [] and it.replies[-1] is not None and it.replies[-1].key == "press-not-yours"


def test_a_press_that_means_nothing_gets_one_line() -> None:
    it = tap(desk(), "sideways")
    assert it.replies[-1] is not None and it.replies[-1].key == "press-stale"
