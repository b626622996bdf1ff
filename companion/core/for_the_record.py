"""Documents of a client's records, asked for from the client's page: a week or a review as PDF, the data as CSV."""

from datetime import timedelta

from companion.core.effects import Button, Paper, PersonId, Report, Sheet, Words, words
from companion.core.events import Pressed
from companion.core.schedule import local_day
from companion.core.turn import Turn

STEP = "record"
SHEETS = {
    "week_a4": (Sheet.PDF_WEEK, Paper.A4),
    "week_letter": (Sheet.PDF_WEEK, Paper.LETTER),
    "review_a4": (Sheet.PDF_REVIEW, Paper.A4),
    "review_letter": (Sheet.PDF_REVIEW, Paper.LETTER),
    "data": (Sheet.DATA, Paper.A4),
}


def screen(turn: Turn) -> tuple[tuple[Words, ...], tuple[Button, ...]]:
    """What can be asked for."""
    choices = tuple(turn.button(f"b-record-{choice.replace('_', '-')}", "page", STEP, choice) for choice in SHEETS)
    return (words("record-which"),), (*choices, turn.button("b-page-open", "page", "page", "open"))


def pressed(turn: Turn, event: Pressed) -> None:
    """Somebody who sees to the client asks for one. A week is the last whole one, Monday to Sunday."""
    asked = SHEETS.get(event.press.choice)
    if asked is None:
        turn.reply(words("press-stale"))
    elif turn.client.plan is None:
        turn.reply(words("page-no-chart"))
    else:
        turn.reply(words("record-comes"))
        sheet, paper = asked
        ask(turn, event.by, sheet, paper)


def ask(turn: Turn, to: PersonId, sheet: Sheet, paper: Paper) -> None:
    """Have a document made and sent."""
    monday = turn.today - timedelta(days=turn.today.weekday())
    if sheet is Sheet.PDF_WEEK:
        turn.effects.append(Report(to, monday - timedelta(days=7), monday - timedelta(days=1), sheet, paper))
        return
    since = turn.client.since
    first = local_day(since, turn.client.zone) if since is not None else turn.today
    turn.effects.append(Report(to, min(first, turn.today), turn.today, sheet, paper))
