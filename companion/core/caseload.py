"""Who needs a look first, and why, read off a client's state. What a therapist's list of clients is sorted by.

A reason is a short key, with a date or a number after a colon where its words want one: "silent:2026-11-20", "adherence:6/10".
Dates and not "for n days", so that a line written down yesterday is still true today.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from enum import StrEnum

from companion.core.care import Client
from companion.core.observations import Ending, FallKind
from companion.core.programme import Listing, Progression, Rules
from companion.core.schedule import end_of_day, local_day


class Reason(StrEnum):
    """Why a client needs a look, gravest first."""

    FLAG_UNSEEN = "flag_unseen"
    FLAG_OPEN = "flag_open"
    FALL = "fall"
    NEAR_FALL = "near_fall"
    LOWER = "lower"
    NO_WORD = "no_word"
    SILENT = "silent"
    ADHERENCE = "adherence"
    PROPOSAL = "proposal"
    REVIEW = "review"
    ENDED = "ended"
    LEFT = "left"
    NEVER_JOINED = "never_joined"
    REFUSED = "refused"
    NO_CONSENT = "no_consent"
    NO_PLAN = "no_plan"
    CARER_AWAY = "carer_away"
    PAUSED = "paused"


GRAVITY = {reason: 1 << place for place, reason in enumerate(reversed(Reason))}
DISCHARGED = "discharged"
REPORTED = (Ending.DONE, Ending.PARTLY)
NOT_COUNTED = (Ending.HELD, Ending.PAUSED)


@dataclass(frozen=True, slots=True)
class Look:
    """How much a client needs a look (a higher `rank` comes first, 0 needs none) and why: reasons, gravest first."""

    rank: int = 0
    reasons: tuple[str, ...] = ()


def look(client: Client, at: datetime, rules: Rules) -> Look:
    """What a therapist's list says of this client at `at`. Ranks sort by the gravest reason, then by the next."""
    if client.discharged_at is not None and client.hold is None:
        return Look(0, (f"{DISCHARGED}:{local_day(client.discharged_at, client.zone)}",))
    listing, rule = rules.listing, rules.progression
    found = dict(_reasons(client, local_day(at, client.zone), listing, rule))
    ordered = [reason for reason in Reason if reason in found]
    return Look(
        sum(GRAVITY[reason] for reason in ordered),
        tuple(f"{reason}:{found[reason]}" if found[reason] else reason.value for reason in ordered),
    )


def changes_at(client: Client, listing: Listing) -> datetime | None:
    """When the list says something else although nothing happens: a day is reached. None: nothing ahead."""
    days = [slip.day + timedelta(days=listing.fall_days) for slip in client.slips]
    if client.plan is not None:
        days += [client.plan.review_on] if client.plan.review_on is not None else []
        days += [client.plan.ends_on + timedelta(days=1)] if client.plan.ends_on is not None else []
    answered = _answered(client)
    if answered is not None and _unanswered(client, answered):
        days.append(answered + timedelta(days=listing.silent_days))
    after = client.listed_at or client.looked_at
    moments = (end_of_day(day - timedelta(days=1), client.zone) for day in days)
    return min((moment for moment in moments if moment > after), default=None)


def adherence(client: Client, today: date, listing: Listing) -> tuple[int, int]:
    """Sessions reported (done or partly) and sessions due, up to today, in the window. As the weekly chart counts them: days
    held or paused are not due; days on which nobody answered are; what is beyond what a day asked for is in neither. What was
    due is known by the plan that held then."""
    if client.plan is None:
        return 0, 0
    first = today - timedelta(days=listing.window_days - 1)
    days: dict[date, list[tuple[Ending, int]]] = {}
    told = [(past.day, past.ending, past.asked) for past in client.past]
    for day, ending, asked in (*told, *((blank.day, blank.ending, blank.asked) for blank in client.blanks)):
        if first <= day <= today:
            days.setdefault(day, []).append((ending, asked))
    done = due = 0
    for seen in days.values():
        if not {ending for ending, _ in seen} <= set(NOT_COUNTED):
            asked = max(asked for _, asked in seen)
            due += asked
            done += min(sum(ending in REPORTED for ending, _ in seen), asked)
    return done, due


def _reasons(client: Client, today: date, listing: Listing, rule: Progression) -> Iterator[tuple[Reason, str]]:
    if client.hold is not None:
        day = str(local_day(client.hold.raised_at, client.zone))
        yield (Reason.FLAG_UNSEEN if client.hold.acknowledged_at is None else Reason.FLAG_OPEN), day
    for slip in client.slips:
        if today < slip.day + timedelta(days=listing.fall_days):
            yield (Reason.NEAR_FALL if slip.fall is FallKind.NEAR_FALL else Reason.FALL), str(slip.day)
    if client.lower_since is not None:
        yield Reason.LOWER, str(local_day(client.lower_since, client.zone))
    if client.past and client.past[-1].ending is Ending.NO_WORD:
        yield Reason.NO_WORD, str(client.past[-1].day)
    answered = _answered(client)
    if answered is not None and _unanswered(client, answered) and today >= answered + timedelta(days=listing.silent_days):
        yield Reason.SILENT, str(answered)
    done, due = adherence(client, today, listing)
    if rule.is_adherent(done, due) is False:
        yield Reason.ADHERENCE, f"{done}/{due}"
    if client.proposal is not None and client.proposal.later_at is None:
        yield Reason.PROPOSAL, ""
    yield from _of_the_plan(client, today)
    yield from _of_the_people(client)


def _of_the_plan(client: Client, today: date) -> Iterator[tuple[Reason, str]]:
    plan = client.plan
    if plan is None:
        yield Reason.NO_PLAN, ""
        return
    reviewed = plan.review_on is not None and client.last_review is not None and client.last_review >= plan.review_on
    if plan.review_on is not None and today >= plan.review_on and not reviewed:
        yield Reason.REVIEW, str(plan.review_on)
    if plan.ends_on is not None and today > plan.ends_on:
        yield Reason.ENDED, str(plan.ends_on)


def _of_the_people(client: Client) -> Iterator[tuple[Reason, str]]:
    people = client.people
    if client.refused_at is not None:
        yield Reason.REFUSED, str(local_day(client.refused_at, client.zone))
    elif people.client not in client.joined:
        yield (Reason.LEFT if client.consent is not None else Reason.NEVER_JOINED), ""
    elif client.consent is None:
        yield Reason.NO_CONSENT, ""
    if people.carer is not None and people.carer not in client.joined:
        yield Reason.CARER_AWAY, ""
    if client.pause is not None:
        yield Reason.PAUSED, str(client.pause.until or "")


def _answered(client: Client) -> date | None:
    """The newest day on which somebody at home told anything of practice, or the day the first plan began."""
    days = [past.day for past in client.past if past.ending is not Ending.NO_ANSWER]
    days += [one.day for one in client.blanks if one.ending is Ending.DECLINED]
    days += [local_day(said.at, client.zone) for said in client.said]
    begun = [local_day(client.since, client.zone)] if client.since is not None else []
    return max(days + begun, default=None)


def _unanswered(client: Client, answered: date) -> bool:
    """Whether practice was due after that day and nobody answered."""
    return any(one.ending is Ending.NO_ANSWER and one.day > answered for one in client.blanks)
