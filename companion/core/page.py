"""A client's page on the therapist's phone: status in dense words, and one tap to everything that can be done.

Only who sees to the client at that moment sees it; a former therapist's button gets one polite line. Handing on and ending the
care are for the client's own therapist. The page stands in the card of the desk and changes in place.
"""

from datetime import timedelta
from typing import Any

from companion.core import alerts, carer_page, discharge, for_the_record, own_media, proposals, review, summary
from companion.core.care import facts, seeing
from companion.core.effects import Button, Invite, Pass, PersonId, Put, Report, Sheet, Subject, Urgency, Words, words
from companion.core.events import Opened, Opens, Press, Pressed
from companion.core.person_turn import own
from companion.core.turn import Turn

SCOPE = "page"
CARD: dict[str, Any] = {"card": "desk", "put": Put.IN_PLACE, "urgency": Urgency.ANSWER, "topic": "desk"}
OPENS = {"plan": Opens.PLAN, "baseline": Opens.BASELINE, "hand_over": Opens.HAND_OVER, "cover": Opens.COVER}
REVIEWS = {"review": review.opened, "reviews": review.asked}
CHARTS = {"chart": Sheet.WEEK, "four_weeks": Sheet.FOUR_WEEKS, "course": Sheet.COURSE}
FOR_THE_OWN = ("hand_over", "cover", "shared", "on", "off", "remove_carer", "discharge")
"""What only the client's own therapist does, not who covers for a time."""


def pressed(turn: Turn, event: Pressed) -> None:
    """A button of the page."""
    choice, by = event.press.choice, event.by
    if by not in seeing(turn.client, turn.at) or (choice in FOR_THE_OWN and by != turn.client.people.therapist):
        turn.reply(words("press-not-yours"))
        return
    if choice in OPENS:
        turn.reply()
        turn.effects.append(Pass(Subject("person", by), Opened(turn.at, OPENS[choice], facts(turn.client))))
    elif choice == "media":
        own_media.opened(turn, by)
    elif choice in REVIEWS:
        REVIEWS[choice](turn, by)
    elif choice in carer_page.CHOICES:
        turn.reply()
        lines, buttons = carer_page.pressed(turn, event)
        turn.say(by, words("page-title", name=turn.client.name), *lines, buttons=buttons, **CARD)
    elif choice in CHARTS:
        _chart(turn, by, CHARTS[choice])
    elif choice in _decisions(turn):
        turn.reply()
        (alerts.waiting if choice == "alert" else proposals.waiting)(turn, by)
    elif event.press.step == discharge.STEP or choice == "discharge":
        discharge.pressed(turn, event)
    elif event.press.step == for_the_record.STEP:
        for_the_record.pressed(turn, event)
    elif event.press.step == "link":
        _invite(turn, by, choice)
    else:
        _show(turn, by, choice)


def _show(turn: Turn, by: PersonId, choice: str) -> None:
    shown = {"open": _status, "words": _words, "history": _history, "more": _more, "links": _links, "record": _record}.get(
        choice
    )
    if shown is None:
        turn.reply(words("press-stale"))
        return
    turn.reply()
    lines, buttons = shown(turn, by)
    turn.say(by, words("page-title", name=turn.client.name), *lines, buttons=buttons, **CARD)


Screen = tuple[tuple[Words, ...], tuple[Button, ...]]


def _status(turn: Turn, by: PersonId) -> Screen:
    buttons = _buttons(turn, *_decisions(turn), "plan", "chart", "words", "history", "more")
    to_list = Button(words("b-page-list"), Press(own(by), "desk", "list", "n0"))
    return summary.status(turn), (*buttons, to_list)


def _decisions(turn: Turn) -> tuple[str, ...]:
    """What waits for the therapist's word: it is said again with its buttons, in a message of its own."""
    client = turn.client
    waits = client.proposal is not None and client.proposal.later_at is None
    return (*(("alert",) if client.hold is not None else ()), *(("proposal",) if waits else ()))


def _words(turn: Turn, by: PersonId) -> Screen:
    return summary.said_lines(turn.client), _buttons(turn, "open")


def _history(turn: Turn, by: PersonId) -> Screen:
    plan = turn.client.plan
    plans = (words("page-history-plan", version=plan.version),) if plan is not None else ()
    return (*plans, *summary.past_lines(turn.client, summary.HISTORY)), _buttons(
        turn, "four_weeks", "course", "reviews", "open"
    )


def _more(turn: Turn, by: PersonId) -> Screen:
    client = turn.client
    choices = ["baseline", "review", "media", "record", "links"]
    if by == client.people.therapist:
        choices += ["hand_over", "cover"]
        choices += ["shared"] + (["remove_carer"] if client.people.carer is not None else [])
        choices += ["discharge"] if client.discharged_at is None else []
    return (words("page-more"),), _buttons(turn, *choices, "open")


def _record(turn: Turn, by: PersonId) -> Screen:
    return for_the_record.screen(turn)


def _buttons(turn: Turn, *choices: str) -> tuple[Button, ...]:
    return tuple(turn.button(f"b-page-{choice.replace('_', '-')}", SCOPE, "page", choice) for choice in choices)


# --- links and charts -----------------------------------------------------------------------------------------


def _persons(turn: Turn) -> tuple[PersonId, ...]:
    people = turn.client.people
    return (*people.at_home(), *people.contacts)


def _links(turn: Turn, by: PersonId) -> Screen:
    client = turn.client
    buttons = []
    for place, person in enumerate(_persons(turn)):
        joined = words("page-in-chat" if person in client.joined else "page-not-in-chat")
        label = words("b-page-link", name=client.people.name(person), joined=joined)
        buttons.append(Button(label, Press(client.id, SCOPE, "link", f"n{place}")))
    return (words("page-links"),), (*buttons, *_buttons(turn, "open"))


def _invite(turn: Turn, by: PersonId, choice: str) -> None:
    persons = {f"n{place}": person for place, person in enumerate(_persons(turn))}
    if choice not in persons:
        turn.reply(words("press-stale"))
        return
    turn.reply(words("page-link-comes"))
    client, whom = turn.client, persons[choice]
    part = "client" if whom == client.people.client else "carer" if whom == client.people.carer else "contact"
    turn.effects.append(Invite(by, whom, words(f"enrol-link-{part}", name=client.people.name(whom), client=client.name)))


def _chart(turn: Turn, by: PersonId, sheet: Sheet) -> None:
    """The running week, Monday to Sunday, or what leads up to it: what is still to come stays empty."""
    if turn.client.plan is None:
        turn.reply(words("page-no-chart"))
        return
    turn.reply(words("page-chart-comes"))
    monday = turn.today - timedelta(days=turn.today.weekday())
    turn.effects.append(Report(by, monday, monday + timedelta(days=6), sheet))
