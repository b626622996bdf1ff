"""What a therapist reads of a client at one look: dense, with units, as reported; "unknown" where nobody told."""

from companion.core import carers
from companion.core.care import Client, Cover
from companion.core.caseload import adherence, look
from companion.core.described import listed
from companion.core.effects import Words, words
from companion.core.how import key
from companion.core.observations import Ending
from companion.core.plan_words import date_name, days_name, eyes_key, times_name
from companion.core.schedule import clock_text, local_day
from companion.core.turn import Turn
from companion.core.visit import notable

LAST = 3
HISTORY = 10


def status(turn: Turn) -> tuple[Words, ...]:
    """The whole page, but for its title."""
    client = turn.client
    return (
        why_to_look(turn),
        *_plan_lines(client),
        *_practice_lines(turn),
        *_safety_lines(client),
        *_people_lines(turn),
        *((words("page-goal", goal=client.goal),) if client.goal else ()),
        _baseline_line(client),
    )


def why_to_look(turn: Turn) -> Words:
    """The reasons for a look, gravest first, in one line."""
    found = look(turn.client, turn.at, turn.rules).reasons
    return words("page-look", reasons=listed([reason(one) for one in found])) if found else words("page-look-none")


def reason(one: str) -> Words:
    """A reason of the caseload in words."""
    name, _, value = one.partition(":")
    return words(f"look-{key(name)}", value=value or "unknown")


def past_lines(client: Client, most: int) -> tuple[Words, ...]:
    """The last sessions, newest first."""
    newest = client.past[-most:][::-1]
    if not newest:
        return (words("page-past-none"),)
    return tuple(
        words("alert-past", day=str(past.day), ending=words(f"ending-{key(past.ending)}"), done=past.done, planned=past.planned)
        for past in newest
    )


def said_lines(client: Client) -> tuple[Words, ...]:
    """The last own words of client and carer, newest first."""
    if not client.said:
        return (words("page-said-none"),)
    return tuple(
        words(
            "page-said" if said.text else "page-sent",
            at=clock_text(said.at, client.zone),
            who=words(f"report-by-{said.by}"),
            what=said.text or said.form or "unknown",
        )
        for said in reversed(client.said)
    )


def _plan_lines(client: Client) -> tuple[Words, ...]:
    plan = client.plan
    if plan is None:
        return (words("page-plan-none"),)
    reviewed = (words("page-reviewed", day=str(client.last_review)),) if client.last_review is not None else ()
    supervision = words(f"plan-supervision-{key(plan.supervision)}")
    days, times = days_name(plan.practice), times_name(plan.practice)
    return (
        words("page-plan", version=plan.version, exercises=len(plan.exercises)),
        words("plan-practice", days=days, times=times, zone=client.zone, minutes=plan.minutes),
        words("page-care", supervision=supervision, eyes=words(eyes_key(plan))),
        words("plan-dates", review=date_name(plan, "review_on"), end=date_name(plan, "ends_on")),
        *reviewed,
    )


def _practice_lines(turn: Turn) -> tuple[Words, ...]:
    client, days = turn.client, turn.rules.listing.window_days
    done, due = adherence(client, turn.today, turn.rules.listing)
    percent = words("page-adherence", done=done, due=due, days=days, percent=round(100 * done / due)) if due else None
    silent = sum(1 for one in client.blanks if one.ending is Ending.NO_ANSWER and (turn.today - one.day).days < days)
    return (
        percent or words("page-adherence-none", days=days),
        *((words("page-no-answer", count=silent, days=days),) if silent else ()),
        *past_lines(client, LAST),
    )


def _safety_lines(client: Client) -> tuple[Words, ...]:
    hold, zone = client.hold, client.zone
    lines = [words("page-flag-none")]
    if hold is not None:
        state = words("page-flag-unseen" if hold.acknowledged_at is None else "page-flag-seen")
        lines = [words("page-flag", level=hold.level, at=clock_text(hold.raised_at, zone), zone=zone, state=state)]
    falls = [words("page-slip", day=str(slip.day), fall=words(f"report-fall-{key(slip.fall)}")) for slip in client.slips[::-1]]
    return (*lines, words("page-falls", falls=listed(falls)) if falls else words("page-falls-none"))


def _people_lines(turn: Turn) -> tuple[Words, ...]:
    client, people = turn.client, turn.client.people
    cover = client.cover
    covered = (_cover_line(client, cover),) if cover is not None else ()
    joined = words("page-in-chat" if people.client in client.joined else "page-not-in-chat")
    if client.consent is not None:
        day = str(local_day(client.consent.at, client.zone))
        consent = words("page-consent", version=client.consent.version, day=day, joined=joined)
    else:
        consent = words("page-consent-none", joined=joined)
    shared = (words("page-shared"),) if client.shared_phone else ()
    if people.carer is None:
        return *covered, consent, words("page-carer-none"), *shared
    there = words("page-in-chat" if people.carer in client.joined else "page-not-in-chat")
    known = carers.is_briefed(client, turn.rules)
    briefed = words("page-briefed", version=turn.rules.briefing.version) if known else words("page-not-briefed")
    return *covered, consent, words("page-carer", name=people.name(people.carer), joined=there, briefed=briefed), *shared


def _cover_line(client: Client, cover: Cover) -> Words:
    who, zone = client.people.name(cover.by), client.zone
    start, end = clock_text(cover.start, zone), clock_text(cover.end, zone)
    return words("page-cover", who=who, start=start, end=end, zone=zone)


def _baseline_line(client: Client) -> Words:
    found = client.baseline
    if found is None:
        return words("page-baseline-none")
    return words("page-baseline", found=listed(list(notable(found))))
