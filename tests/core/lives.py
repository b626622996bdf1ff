"""Random lives: any plan, any home, and anything that can happen to it, fitting or not.

Everything is chosen by a `Choose`, so that Hypothesis and a seeded loop lead the same lives.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import time, timedelta
from typing import Any, TypeVar

from companion.core import prescribed
from companion.core.baseline import About, Baseline
from companion.core.care import Consent, People
from companion.core.duty import Duty, Hours
from companion.core.events import (
    Arrived,
    BaselineTaken,
    Briefed,
    Consented,
    Control,
    CoverAgreed,
    Declined,
    DutySet,
    Event,
    HandedOver,
    Joined,
    Left,
    Lost,
    MediaGiven,
    MediaRemoved,
    Prescribed,
    Press,
    Pressed,
    ReviewDone,
    Typed,
    Why,
    Woke,
)
from companion.core.events import Controlled as Row
from companion.core.media import Medium, Recorded
from companion.core.programme import (
    HAND_STAGES,
    CheckStyle,
    Clock,
    Plan,
    Planned,
    Practice,
    Quiet,
    ReportTime,
    Side,
    Sides,
    Supervision,
)
from companion.core.review_values import ReviewValues
from companion.core.schedule import local_day
from tests.core.home import Home
from tests.core.practice import (
    AGREED,
    BRIEFING,
    CARER,
    CLIENT,
    CONTACT,
    EXERCISES,
    MONDAY,
    NAMES,
    RULES,
    STRANGER,
    THERAPIST,
    client,
    plan,
    planned,
)

T = TypeVar("T")
THERAPISTS = (THERAPIST, "t2", "t3")
EVERYBODY = (CLIENT, CLIENT, CARER, CARER, THERAPIST, CONTACT, STRANGER)
SCOPES = ("", "s1", "s2", "f1", "f2", "o1", "menu", "page", "p4", "media")
STEPS = (
    "",
    "1",
    "7",
    "after",
    "offer",
    "alert",
    "lift",
    "what",
    "fall",
    "head",
    "more",
    "else",
    "pause",
    "look",
    "0",
    "2",
    "unwell",
    "leave",
    "sees",
    "page",
    "proposal",
    "link",
    "own",
    "m5",
)
CHOICES = (
    "",
    "spoke",
    "mistake",
    "fell",
    "up",
    "start",
    "ready",
    "clean",
    "n47",
    "n",
    "nine",
    "n1",
    "next",
    "stay",
    "back",
    "open",
    "chart",
    "more",
    "happened",
    "tap",
    "\N{SNOWMAN}",
    "else",
    "week",
    "tell",
    "goal",
    "pause",
    "holiday",
    "unwell",
    "same",
    "different",
    "3_days",
    "open",
    "back",
    "leave",
    "sees_none",
    "own",
    "use",
    "leave_out",
    "show",
    "media",
    "review",
    "reviews",
    "unheard",
    "t2",
    "t3",
    "nothing",
    "without",
    "heard",
)
ENDING = {"different", "unwell", "not_today", "later"}
ZONES = ("Europe/London", "America/New_York", "Asia/Kathmandu", "Pacific/Auckland", "Africa/Cairo")

Happening = Callable[[Home, "Choose"], Event | None]


@dataclass(frozen=True)
class Choose:
    """How chance comes in: one of several."""

    one: Callable[[Sequence[Any]], Any]

    def of(self, options: Sequence[T]) -> T:
        chosen: T = self.one(options)
        return chosen

    def flag(self) -> bool:
        return self.of((False, True))


def any_planned(choose: Choose, exercise: str) -> Planned:
    """One exercise in any form, opened as far as any other, on any of its clocks."""
    known = EXERCISES[exercise]
    forms = [form.id for form in known.forms]
    sides = ((), (Side.WEAKER,), (Side.WEAKER, Side.STRONGER)) if known.sides is not Sides.NONE else ((),)
    return planned(
        exercise,
        form=choose.of(forms),
        hardest=choose.of(forms),
        hand=choose.of(HAND_STAGES),
        hand_hardest=choose.of(HAND_STAGES),
        clock=choose.of([*known.clocks, Clock.NONE]),
        target=choose.of((1, 3, 10, 60)),
        sides=choose.of(sides),
    )


def any_plan(choose: Choose) -> Plan:
    """Any plan, sensible or not: without a warm-up, of one exercise or none, of any rest and supervision."""
    names = [name for name in EXERCISES if choose.flag()]
    days = choose.of(((0, 1, 2, 3, 4, 5, 6), (0,), (), (1, 4)))
    times = choose.of(((time(9),), (time(9), time(16)), (time(23, 50),), (time(2, 30),)))
    return plan(
        *(any_planned(choose, name) for name in names),
        practice=Practice(days, times),
        report=ReportTime(choose.of(range(7)), choose.of((time(18), time(0), time(2, 30))), choose.of(ZONES)),
        supervision=choose.of(list(Supervision)),
        check=choose.of(list(CheckStyle)),
        eyes_closed=choose.flag(),
        into_place_s=choose.of((10, 20, 30)),
        rest_s=choose.of((0, 60, 3600)),
        one_good_hand=choose.flag(),
        ankle_blocked=choose.flag(),
        blood_thinner=choose.flag(),
        can_call_for_help=choose.flag(),
    )


BRIEFED = ((CARER, BRIEFING.version),)


def any_home(choose: Choose, judged: bool = True) -> Home:
    """A client in any zone, with or without a carer, contacts and quiet hours; with a plan or not yet."""
    people = People(CLIENT, THERAPIST, choose.of((CARER, CARER, None)), choose.of(((CONTACT,), (), (CONTACT, CARER))), NAMES)
    made = client(
        any_plan(choose) if choose.of(range(5)) else None,
        people=people,
        zone=choose.of(ZONES),
        quiet=choose.of((None, Quiet(time(21), time(7)), Quiet(time(12), time(13)))),
        sessions=choose.of((0, 3)),
        shared_phone=choose.of((False, False, True)),
        short_words=choose.flag(),
        briefed=choose.of((BRIEFED, BRIEFED, ((CLIENT, BRIEFING.version),), ((CARER, "older"),), ())),
        consent=choose.of((AGREED, AGREED, AGREED, Consent("first", MONDAY), None)),
        sound_heard_at=choose.of((None, None, MONDAY)),
        joined=choose.of(((CLIENT, CARER, THERAPIST, CONTACT), (CLIENT, CARER, THERAPIST, CONTACT), (CLIENT,), ())),
    )
    it = Home(made, judged=judged)
    it.receipts = choose.flag()
    return it


def presses(it: Home) -> list[tuple[str, Press]]:
    """What stands on all phones now."""
    return [(who, button.press) for who, phone in it.phones.items() for button in phone.buttons()]


def a_press(it: Home, choose: Choose) -> Event | None:
    """A button that stands somewhere, pressed by whose phone it is."""
    there = presses(it)
    if not there:
        return None
    by, press = choose.of(there)
    return Pressed(it.now, by, press, choose.of(range(1, 90)))


def an_answer(it: Home, choose: Choose) -> Event | None:
    """What the session asks is answered; seldom with what ends it."""
    session = it.client.session
    mine = [one for one in presses(it) if session is not None and one[1].scope == session.id]
    going_on = [one for one in mine if one[1].choice not in ENDING]
    as_usual = choose.of((True,) * 11 + (False,))
    asked = going_on if going_on and as_usual else mine
    if not asked:
        return None
    by, press = choose.of(asked)
    return Pressed(it.now, by, press, choose.of(range(1, 90)))


def an_old_press(it: Home, choose: Choose) -> Event | None:
    """A button that stood somewhere at some time, pressed by anybody."""
    if not it.ever:
        return None
    by, press = choose.of(it.ever[-60:])
    return Pressed(it.now, choose.of((by, *EVERYBODY)), press, choose.of(range(1, 90)))


def a_forged_press(it: Home, choose: Choose) -> Event:
    """A press that no button makes."""
    session = it.client.session
    here = (session.id, str(session.turn)) if session is not None else ("s1", "1")
    scope, at = choose.of((here[0], *SCOPES)), choose.of((here[1], *STEPS))
    return Pressed(it.now, choose.of(EVERYBODY), Press(choose.of(("c1", "c1", "c2")), scope, at, choose.of(CHOICES)))


def a_word_on_the_carer(it: Home, choose: Choose) -> Event:
    """The therapist allows a shared phone, or no longer, and seldom removes the carer; a carer has read the briefing, or an
    older one."""
    if choose.of(range(3)):
        decided = choose.of((("shared", "on"), ("shared", "off"), ("page", "remove_carer"), ("remove_carer", "remove_carer")))
        return Pressed(it.now, choose.of((THERAPIST, THERAPIST, CARER)), Press("c1", "page", *decided), choose.of(range(1, 90)))
    return Briefed(it.now, choose.of((CARER, CLIENT, STRANGER)), choose.of((BRIEFING.version, BRIEFING.version, "older")))


def a_row_press(it: Home, choose: Choose) -> Event:
    return Row(it.now, choose.of(EVERYBODY), choose.of(list(Control)), None, choose.of(range(9)))


def typed_words(it: Home, choose: Choose) -> Event:
    if not choose.of(range(4)):
        return Typed(it.now, choose.of(EVERYBODY), "", choose.of(("voice", "photo", "sticker", "edited")), 7)
    return Typed(it.now, choose.of(EVERYBODY), choose.of(("", "  ", "I feel fine", "x" * 5000, "\N{SNOWMAN}")))


def a_word_on_the_consent(it: Home, choose: Choose) -> Event:
    """The client agrees to the words as they are, or to older ones, or declines; or somebody else claims to."""
    by, version = choose.of((CLIENT, CLIENT, CLIENT, STRANGER)), choose.of((RULES.consent.version, "first"))
    if choose.of(range(4)):
        return Consented(it.now, by, version, choose.of(((), ("sessions", "flags", "words"))))
    return Declined(it.now, by, version)


def a_receipt(it: Home, choose: Choose) -> Event:
    """A receipt, of the newest tagged message or of none."""
    return Arrived(it.now, choose.of((*it.tags[-1:], *it.tags[-3:-1], "s1.1", "")))


def a_loss(it: Home, choose: Choose) -> Event:
    return Lost(it.now, choose.of((*it.tags[-1:], *it.tags[-3:-1], "s1.1", "")), choose.of(list(Why)))


def changing_hands(it: Home, choose: Choose) -> Event:
    """A hand-over, a cover of any length (also none), hours and a deputy, told by any therapist; a press about discharge."""
    by, to = choose.of((THERAPIST, it.client.people.therapist, *THERAPISTS, CONTACT, STRANGER)), choose.of(THERAPISTS)
    start = it.now + timedelta(hours=choose.of((-1, 0, 5)))
    hours = choose.of((None, Hours((0, 1, 2, 3, 4), time(9), time(17)), Hours((5, 6), time(22), time(6))))
    choices: tuple[Event, ...] = (
        HandedOver(it.now, by, to, "Dee"),
        CoverAgreed(it.now, by, to, "Dee", start, start + timedelta(hours=choose.of((0, 1, 48)))),
        DutySet(it.now, Duty(by, choose.of(ZONES), hours, choose.of((None, *THERAPISTS))), "Eva"),
        Pressed(it.now, by, Press("c1", "page", "discharge", choose.of(("discharge", "keep", "sure")))),
    )
    return choose.of(choices)


def coming_and_going(it: Home, choose: Choose) -> Event:
    who = choose.of(EVERYBODY)
    return Joined(it.now, who, choose.flag()) if choose.flag() else Left(it.now, who, choose.flag())


def a_new_plan(it: Home, choose: Choose) -> Event:
    """From a file, from a therapist's phone (the next version, or an outdated one), or from somebody who may not; some end."""
    today = local_day(it.now, it.client.zone)
    ends_on = choose.of((None, None, today, today + timedelta(days=3)))
    version = choose.of((prescribed.next_version(it.client), prescribed.next_version(it.client), 1))
    new = replace(any_plan(choose), version=version, ends_on=ends_on)
    return Prescribed(it.now, new, choose.of((None, THERAPIST, STRANGER)), choose.of(("", "steadier", "as we said")))


def a_baseline(it: Home, choose: Choose) -> Event:
    """A visit: the baseline is taken anew, by the therapist or by somebody who may not; seldom with other names and hours."""
    found = Baseline(
        choose.of(("left", "right")),
        choose.of(("left", "either", "neither")),
        choose.of(("none", "ankle_free", "ankle_blocked")),
        choose.of(("yes", "no", "unknown")),
        choose.of(("none", "several", "unknown")),
        choose.of(("voice", "alarm", "phone_tap", "cannot")),
        deficits=choose.of(((), ("face",), ("balance", "face"))),
        reading=choose.of(("usual", "short_words")),
        shared_phone=choose.flag(),
        into_place_s=choose.of((10, 20, 30)),
        supervision=choose.of(("always", "when_form_needs", "none")),
    )
    quiet = choose.of((None, Quiet(time(21), time(8))))
    about = choose.of((None, None, About("Anna", choose.of(ZONES), quiet, None, ((CONTACT, "Dov"),)), About("Ann", ZONES[0])))
    return BaselineTaken(it.now, choose.of((THERAPIST, THERAPIST, CARER, STRANGER)), found, about)


def something_recorded(it: Home, choose: Choose) -> Event:
    """A therapist, or somebody who may not, gives a file for an exercise or takes one out; or the client answers."""
    card = it.phone(CLIENT).cards.get("own")
    if card is not None and card.buttons and choose.flag():
        return Pressed(it.now, CLIENT, choose.of(card.buttons).press, choose.of(range(1, 90)))
    by = choose.of((*(it.client.people.therapist,) * 6, *THERAPISTS, STRANGER))
    if choose.of((True,) + (False,) * 5):
        return MediaRemoved(it.now, by, choose.of([own.id for own in it.client.own_media] or ["m1"]))
    planned = [one.exercise for one in it.client.plan.exercises] if it.client.plan is not None else []
    # each file is another one, so that it can be told whose it is
    media = Recorded(choose.of(list(Medium)), it.now.isoformat())
    return MediaGiven(it.now, by, choose.of((*planned, "unheard of")), media, choose.flag())


def a_review(it: Home, choose: Choose) -> Event:
    """A therapist, or somebody who may not, has measured something; or the reviews are asked for on the page."""
    by = choose.of((it.client.people.therapist, it.client.people.therapist, *THERAPISTS, CLIENT, STRANGER))
    if choose.flag():
        return Pressed(it.now, by, Press("c1", "page", "page", choose.of(("review", "reviews"))), choose.of(range(1, 90)))
    return ReviewDone(it.now, by, choose.of((ReviewValues(berg=41), ReviewValues((10.0, 4.5), decade=70))))


def an_alarm(it: Home, choose: Choose) -> Event:
    """The alarm on time, or too early for anything."""
    return Woke(it.now)


def time_passes(it: Home, choose: Choose) -> None:
    """To the next alarm or past it: seldom by more than a little, and seldom through the hours that a question waits."""
    wake = it.next_wake
    if wake is None:
        return
    if not it.over and (wake - it.now).total_seconds() > 900 and choose.of((True,) * 14 + (False,)):
        it.now += timedelta(seconds=choose.of((1, 30, 200)))
        return
    late = choose.of((0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 2, 3, 5, 10, 20, 60, 700, 5000, 90000))
    it.now = max(it.now, wake) + timedelta(seconds=late)


SHARES: tuple[tuple[Happening, int], ...] = (
    (an_answer, 800),
    (an_alarm, 600),
    (a_press, 150),
    (an_old_press, 150),
    (a_forged_press, 100),
    (a_receipt, 200),
    (a_loss, 40),
    (typed_words, 40),
    (coming_and_going, 40),
    (a_row_press, 30),
    (a_new_plan, 10),
    (a_baseline, 10),
    (changing_hands, 15),
    (a_word_on_the_consent, 10),
    (something_recorded, 20),
    (a_review, 10),
)
"""Everything that can happen to a home, and how often of 1,000 or so."""
