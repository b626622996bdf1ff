"""A client's weekly chart: asked for by the therapist's digest, drawn from what was observed."""

from companion.core import alerts, proposals
from companion.core.care import seeing
from companion.core.effects import Report
from companion.core.events import ChartDue
from companion.core.schedule import local_day
from companion.core.turn import Turn


def chart_due(turn: Turn, event: ChartDue) -> None:
    """A chart of this week goes to who asked, if they see to this client; with it the decision that waits: a flag, a proposal.

    A week before the first plan has no chart.
    """
    client = turn.client
    if event.by not in seeing(client, turn.at) or client.plan is None:
        return
    turn.set(reported_at=turn.at)
    if client.since is None or event.last >= local_day(client.since, client.plan.report.zone):
        turn.effects.append(Report(event.by, event.first, event.last))
    if client.hold is not None:
        alerts.waiting(turn, event.by)
    else:
        proposals.waiting(turn, event.by)
