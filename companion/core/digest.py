"""The therapist's weekly digest: one message for all their clients, at the therapist's own time; then the charts.

    due -> the list is looked up -> one message: who needs a look first and why, with a picture of all weeks
        -> the chart of each client who has something to see (of every client, if the therapist prefers); the rest on a tap

After a long outage one digest, of the newest week, stands for all that were due.
"""

from datetime import datetime, time

from companion.core.caseload import DISCHARGED
from companion.core.desk import line
from companion.core.effects import ClearButtons, Digest, LookUp, words
from companion.core.events import ChartDue, Found, Pressed
from companion.core.person_turn import PersonTurn
from companion.core.phone import Part, Person
from companion.core.programme import ReportTime
from companion.core.schedule import next_report, reported_week

USUAL_DAY, USUAL_TIME = 0, time(8)
MOST_LISTED = 15
CARD = "digest"


def due(person: Person) -> datetime | None:
    """When the next digest is due; None for who gets none."""
    if person.role is not Part.THERAPIST or person.digest is None or person.digested_at is None:
        return None
    return next_report(person.digest, person.digested_at)


def joined(turn: PersonTurn) -> None:
    """A therapist who has no time of their own yet gets the usual one: Monday morning."""
    person = turn.person
    if person.role is not Part.THERAPIST:
        return
    if person.digest is None:
        turn.set(digest=ReportTime(USUAL_DAY, USUAL_TIME, person.zone))
    if person.digested_at is None:
        turn.set(digested_at=turn.at)


def woke(turn: PersonTurn) -> None:
    """The digest may be due."""
    moment = due(turn.person)
    if moment is not None and moment <= turn.at:
        turn.set(digested_at=turn.at)
        turn.effects.append(LookUp("digest"))


def pressed(turn: PersonTurn, event: Pressed) -> None:
    """The charts that did not come by themselves are wanted, of the week of the newest digest."""
    turn.reply(words("digest-coming"))
    turn.effects.append(ClearButtons(turn.person.id, CARD, "report"))
    turn.effects.append(LookUp("others"))


def found(turn: PersonTurn, event: Found) -> None:
    """All clients of the digest, who needs a look first."""
    person = turn.person
    clients = [entry for entry in event.entries if DISCHARGED not in (key.partition(":")[0] for key in entry.reasons)]
    if person.digest is None or person.digested_at is None or not clients:
        return
    first, last = reported_week(person.digested_at, person.digest.zone)
    looked_at, others = [one for one in clients if one.reasons], [one for one in clients if not one.reasons]
    if event.what == "others":
        wanted = others
    else:
        wanted = clients if person.all_charts else looked_at
        rest = [] if person.all_charts else others
        lines = [words("digest-title", first=str(first), last=str(last), total=len(clients))]
        lines += [words("digest-look", look=len(looked_at))] if looked_at else []
        lines += [line(place, entry) for place, entry in enumerate(looked_at[:MOST_LISTED], start=1)]
        if len(looked_at) > MOST_LISTED:
            lines.append(words("digest-more", count=len(looked_at) - MOST_LISTED))
        if not looked_at:
            lines.append(words("digest-none"))
        elif others:
            lines.append(words("digest-others", count=len(others)))
        buttons = (turn.button(words("b-digest-others", count=len(rest)), "desk", "charts", "others"),) if rest else ()
        turn.effects.append(Digest(first, last, tuple(lines), buttons))
    for entry in wanted:
        turn.tell(entry.id, ChartDue(turn.at, person.id, first, last))
