"""The table of phases in DEVELOPERS.md, made by running the machine: in what a client is, what happens, what follows."""

from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

from companion.core import client as care
from companion.core.events import Consented, Control, Prescribed, Press, Pressed, Woke
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, NINE, THERAPIST, full_plan

BEGIN, END = "<!-- phases -->", "<!-- /phases -->"
UNCHANGED, NO_BUTTON = "·", ""
DAYS = 3
"""How long silence is followed: after so many days without a change of phase there will be none."""


class NoButton(Exception):
    """What is to be pressed never stood on that phone."""


def phase(it: Home) -> str:
    return ", ".join(care.phases(it.client))


def reminded() -> Home:
    it = home(full_plan())
    it.until(NINE)
    return it


def after(it: Home, *happenings: Callable[[Home], object]) -> Home:
    for happening in happenings:
        happening(it)
    return it


def offered(choice: str) -> Callable[[Home], object]:
    """That button of the newest reminder."""
    return lambda it: _newest(it, CLIENT, "offer", choice)


def alerted(choice: str) -> Callable[[Home], object]:
    """That button of the newest alert."""
    return lambda it: _newest(it, THERAPIST, "alert", choice)


def _newest(it: Home, by: str, step: str, choice: str) -> None:
    there = [press for who, press in it.ever if (who, press.step, press.choice) == (by, step, choice)]
    if not there:
        raise NoButton
    it.send(by, there[-1])


def wrong(it: Home) -> object:
    return it.row(CLIENT, Control.SOMETHING_WRONG)


def lifted(it: Home) -> None:
    alerted("lift")(it)
    if it.held:
        it.press(THERAPIST, "spoke")


def silence(it: Home) -> None:
    """Alarms on time, until the phase changes."""
    was, end = phase(it), it.now + timedelta(days=DAYS)
    while phase(it) == was and (wake := it.next_wake) is not None and wake <= end:
        it.now = max(it.now, wake)
        it.do(Woke(it.now))


def answered(it: Home) -> None:
    if it.over:
        raise NoButton
    it.go_on()


def menu(choice: str, screen: str = "more") -> Callable[[Home], object]:
    """A choice of the menu, which stands on the phone of the client for ever."""
    return lambda it: it.do(Pressed(it.now, CLIENT, Press(it.client.id, "menu", screen, choice)))


def agrees(it: Home) -> None:
    it.do(Consented(it.now, CLIENT, it.rules.consent.version))


def discharged(it: Home) -> None:
    """The therapist ends practice with the companion; what refuses it refuses it here too."""
    it.do(Pressed(it.now, THERAPIST, Press(it.client.id, "page", "discharge", "sure")))


PHASES: tuple[Callable[[], Home], ...] = (
    lambda: home(None),
    lambda: home(full_plan()),
    lambda: after(home(full_plan()), lambda it: it.away(4 * 3600)),
    reminded,
    lambda: after(reminded(), offered("not_today")),
    lambda: reminded().start().check().reach(".set"),
    lambda: reminded().start().check().reach(".how"),
    lambda: reminded().start().check().finish(),
    lambda: after(home(full_plan()), wrong),
    lambda: after(home(full_plan()), wrong, alerted("seen")),
    lambda: home(full_plan(), consent=None),
    lambda: after(home(full_plan()), menu("open", "holiday")),
    lambda: after(home(full_plan()), discharged),
)

HAPPENINGS: tuple[tuple[str, Callable[[Home], object]], ...] = (
    ("silence", silence),
    ("a first or new plan", lambda it: it.do(Prescribed(it.now, full_plan()))),
    ("Start", offered("start")),
    ("Later", offered("later")),
    ("Not today", offered("not_today")),
    ("Practise now", menu("practise")),
    ("the question is answered, the clock ends", answered),
    ("Enough", lambda it: it.row(CLIENT, Control.ENOUGH)),
    ("the carer had to leave", lambda it: it.row(CARER, Control.HAD_TO_LEAVE)),
    ("Something is wrong", wrong),
    ("I fell", menu("fell")),
    ("the client agrees", agrees),
    ("Pause, until I come back", menu("open", "holiday")),
    ("I am back", menu("back", "pause")),
    ("Leave now", menu("leave", "leave")),
    ("the therapist has seen the alert", alerted("seen")),
    ("the therapist lifts the stop", lifted),
    ("the therapist discharges", discharged),
)


def phases_table() -> str:
    """The table, in Markdown: a row for each thing that happens, a column for each phase."""
    names = [phase(make()) for make in PHASES]
    assert len(set(names)) == len(names), f"a phase stands there twice: {names}"
    rows = [["what happens", *names], ["---"] * (len(names) + 1)]
    for title, happening in HAPPENINGS:
        rows.append([title, *(_then(make, happening) for make in PHASES)])
    return "\n".join(f"| {' | '.join(row)} |" for row in rows)


def _then(make: Callable[[], Home], happening: Callable[[Home], object]) -> str:
    it = make()
    was = phase(it)
    try:
        happening(it)
    except NoButton:
        return NO_BUTTON
    now = phase(it)
    return UNCHANGED if now == was else now


def table_in(page: Path) -> str:
    """What stands between the marks on that page. ValueError if there are no marks."""
    text = page.read_text(encoding="utf-8")
    return text[text.index(BEGIN) + len(BEGIN) : text.index(END)].strip()
