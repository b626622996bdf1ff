"""The settings of a plan that is being written, a screen each: days and times, supervision, eyes, check, length, dates."""

from dataclasses import replace
from datetime import date, time, timedelta

from companion.core.effects import Words, words
from companion.core.how import key
from companion.core.plan_options import BACK, CANCEL, Option, Screen, Writing
from companion.core.plan_words import date_name, days_name, times_name
from companion.core.programme import CheckStyle, Plan, Supervision

WEEKS = {"mon_wed_fri": (0, 2, 4), "mon_to_fri": (0, 1, 2, 3, 4), "every_day": tuple(range(7))}
TIMES = (time(9), time(10), time(11), time(14), time(16))
MOST_TIMES = 4
MINUTES = (10, 15, 20, 25, 30, 40)
RESTS = (30, 45, 60, 90, 120)
REVIEW_WEEKS, END_WEEKS = (1, 2, 4, 6), (4, 6, 8, 12)


def after(draft: Plan) -> str:
    """Where to go on: to what every plan must have, else to the whole plan."""
    if not draft.practice.weekdays:
        return "days"
    return "plan" if draft.practice.times else "time"


def days(writing: Writing) -> Screen:
    """The days of practice: a usual week, or day by day."""
    draft = writing.draft
    options = []
    for name, weekdays in WEEKS.items():
        chosen = replace(draft, practice=replace(draft.practice, weekdays=weekdays))
        options.append(Option(words(f"b-plan-{key(name)}"), after(chosen), chosen))
    options.append(Option(words("b-plan-choose-days"), "choose"))
    return Screen((words("plan-days-ask", now=days_name(draft.practice)),), (*options, BACK, CANCEL))


def choose(writing: Writing) -> Screen:
    """Day by day, each set or taken off."""
    draft = writing.draft
    chosen = set(draft.practice.weekdays)
    options = []
    for day in range(7):
        label = words("b-plan-day-off" if day in chosen else "b-plan-day-on", day=words(f"plan-short-day-{day}"))
        weekdays = tuple(sorted(chosen ^ {day}))
        options.append(Option(label, "choose", replace(draft, practice=replace(draft.practice, weekdays=weekdays))))
    done = (Option(words("b-answer-done"), after(draft)),) if chosen else ()
    return Screen((words("plan-days-ask", now=days_name(draft.practice)),), (*options, *done, BACK, CANCEL))


def times(writing: Writing) -> Screen:
    """The time of day at the client's home; typed, up to 4."""
    draft = writing.draft

    def at(chosen: tuple[time, ...]) -> Option:
        new = replace(draft, practice=replace(draft.practice, times=chosen))
        return Option(words("plan-time", time=chosen[0].strftime("%H:%M")), after(new), new)

    def reads(text: str) -> Option | None:
        read = read_times(text)
        return at(read) if read else None

    line = words("plan-times-ask", now=times_name(draft.practice), zone=writing.dialogue.facts.zone)
    return Screen((line,), (*(at((one,)) for one in TIMES), BACK, CANCEL), reads)


def read_times(text: str) -> tuple[time, ...]:
    """Times of day from typed words ("9:30", "09:00 16:00"), in order; empty if they are none, or too many."""
    read = set()
    for part in text.replace(",", " ").split():
        hours, colon, minutes = part.replace(".", ":").partition(":")
        if not (hours.isdecimal() and minutes.isdecimal() and colon and len(minutes) == 2 and len(hours) <= 2):
            return ()
        if int(hours) > 23 or int(minutes) > 59:
            return ()
        read.add(time(int(hours), int(minutes)))
    return tuple(sorted(read)) if len(read) <= MOST_TIMES else ()


def _one_of(title: str, now: Words, options: list[tuple[Words, Plan]]) -> Screen:
    """One setting: what it is now, and what it can be."""
    return Screen(
        (words(title), words("answer-now", answer=now)), (*(Option(label, "plan", new) for label, new in options), BACK)
    )


def supervision(writing: Writing) -> Screen:
    draft = writing.draft
    ways = [(words(f"plan-supervision-{key(way)}"), replace(draft, supervision=way)) for way in Supervision]
    return _one_of("plan-supervision-ask", words(f"plan-supervision-{key(draft.supervision)}"), ways)


def eyes(writing: Writing) -> Screen:
    draft = writing.draft
    ways = [(words(name), replace(draft, eyes_closed=closed)) for name, closed in EYES.items()]
    return _one_of("plan-eyes-ask", words("plan-eyes-permitted" if draft.eyes_closed else "plan-eyes-open"), ways)


EYES = {"plan-eyes-open": False, "plan-eyes-permitted": True}


def check(writing: Writing) -> Screen:
    draft = writing.draft
    ways = [(words(f"plan-check-{key(way)}"), replace(draft, check=way)) for way in CheckStyle]
    return _one_of("plan-check-ask", words(f"plan-check-{key(draft.check)}"), ways)


def minutes(writing: Writing) -> Screen:
    draft = writing.draft
    ways = [(words("plan-minutes-about", minutes=one), replace(draft, minutes=one)) for one in MINUTES]
    return _one_of("plan-minutes-ask", words("plan-minutes-about", minutes=draft.minutes), ways)


def rest(writing: Writing) -> Screen:
    draft = writing.draft
    ways = [(words("dose-seconds", dose=one), replace(draft, rest_s=one)) for one in RESTS]
    return _one_of("plan-rest-ask", words("dose-seconds", dose=draft.rest_s), ways)


def _date(writing: Writing, which: str, weeks: tuple[int, ...]) -> Screen:
    """A date of the plan: in so many weeks, none, or typed."""
    draft, today = writing.draft, writing.today

    def on(day: date | None, label: Words) -> Option:
        new = replace(draft, review_on=day) if which == "review_on" else replace(draft, ends_on=day)
        return Option(label, "plan", new)

    def reads(text: str) -> Option | None:
        try:
            day = date.fromisoformat(text.strip())
        except ValueError:
            return None
        return on(day, words("plan-date", day=day.isoformat())) if day > today else None

    options = [on(today + timedelta(weeks=one), words("plan-in-weeks", weeks=one)) for one in weeks]
    lines = (words(f"plan-{key(which)}-ask"), words("answer-now", answer=date_name(draft, which)))
    return Screen(lines, (*options, on(None, words("plan-no-date")), BACK), reads)


def review(writing: Writing) -> Screen:
    return _date(writing, "review_on", REVIEW_WEEKS)


def ends(writing: Writing) -> Screen:
    return _date(writing, "ends_on", END_WEEKS)
