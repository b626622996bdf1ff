"""The screens of a plan that is being written: where to begin, days and times, the whole plan, the preview, the reason.

    start --> days --> time --> plan <--> change <--> one setting, or an exercise (see `exercise_screens.py`)
                                 |
                                 +--> preview --> (reason, if it changes a plan) --> prescribed

A screen is made anew from the draft each time, so a restart or a change of content loses nothing.
"""

from collections.abc import Callable
from dataclasses import replace
from datetime import time

from companion.core.effects import words
from companion.core.exercise_screens import add, exercise
from companion.core.how import key
from companion.core.plan_drafts import bare, continued, from_plan, from_template, instead, mended
from companion.core.plan_news import REASONS, name_of
from companion.core.plan_options import BACK, CANCEL, Act, Option, Screen, Writing
from companion.core.plan_rules import Objection, judge, refused
from companion.core.plan_settings import (
    after,
    check,
    choose,
    days,
    ends,
    eyes,
    minutes,
    rest,
    review,
    supervision,
    times,
)
from companion.core.plan_words import form_name, objected, preview, quiet_notes, summary
from companion.core.programme import Plan, Practice

MOST_MENDS = 4
PER_PREVIEW = 4
LONGEST_REASON = 200


def screen(writing: Writing) -> Screen:
    """The screen that stands. A place that is no more is the whole plan."""
    at = writing.dialogue.at
    made = SCREENS.get(at)
    if made is not None:
        return made(writing)
    if at.startswith("x"):
        return exercise(writing) or plan(writing)
    if at.startswith("preview"):
        return _preview(writing, at.removeprefix("preview"))
    return plan(writing)


def start(writing: Writing) -> Screen:
    """Where to begin: a template, another plan, or nothing."""
    facts, rules = writing.dialogue.facts, writing.rules
    blank = bare(facts, writing.draft.report.zone, rules) or writing.draft
    options = []
    for template in rules.templates:
        draft = from_template(blank, template)
        faults = len(refused(judge(replace(draft, practice=_some_day(draft)), rules, writing.carer)))
        name = words(f"template-{key(template.id)}")
        label = (
            words("b-plan-template-faults", template=name, count=faults) if faults else words("b-plan-template", template=name)
        )
        options.append(Option(label, after(draft), draft))
    if facts.plan is not None:
        now = continued(facts.plan, writing.today)
        options.append(Option(words("b-plan-as-now", version=facts.plan.version), "plan", now))
    if facts.previous is not None:
        earlier = from_plan(blank, facts.previous, whole=True)
        options.append(Option(words("b-plan-as-before", version=facts.previous.version), "plan", earlier))
    options += [
        Option(words("b-plan-copy"), act=Act.LOOK_UP, value="0"),
        Option(words("b-plan-empty"), after(blank), blank),
        CANCEL,
    ]
    return Screen((words("plan-start", name=facts.name),), tuple(options))


def _some_day(draft: Plan) -> Practice:
    """Days that are not chosen yet are no fault of a template."""
    return draft.practice if draft.practice.weekdays and draft.practice.times else Practice((0,), (time(9),))


def copy(writing: Writing) -> Screen:
    """The therapist's other clients, to copy from."""
    dialogue = writing.dialogue
    others = [entry for entry in dialogue.entries if entry.id != dialogue.facts.client]
    options = [Option(words("plan-client", name=entry.name), act=Act.COPY, value=entry.id) for entry in others]
    seen = dialogue.first + len(dialogue.entries)
    if seen < dialogue.total:
        options.append(Option(words("b-plan-next-page"), act=Act.LOOK_UP, value=str(seen)))
    line = words("plan-copy-from" if others else "plan-copy-nobody", name=dialogue.facts.name)
    return Screen((line,), (*options, BACK, CANCEL))


# --- the whole plan -------------------------------------------------------------------------------------------


def plan(writing: Writing) -> Screen:
    """The whole plan, what is objected to, and one tap for each objection that has one answer."""
    draft, rules = writing.draft, writing.rules
    objections = judge(draft, rules, writing.carer, writing.today)
    facts = writing.dialogue.facts
    lines = [*summary(draft, facts, rules), *quiet_notes(draft, facts)]
    lines += [objected(one, draft, rules.exercises) for one in objections]
    options: list[Option] = []
    for objection in refused(objections)[:MOST_MENDS]:
        option = _mend(objection, writing)
        if option is not None and option.draft not in [other.draft for other in options]:
            options.append(option)
    if not refused(objections):
        options.append(Option(words("b-plan-preview"), "preview0"))
    options += [Option(words("b-plan-change"), "change"), Option(words("b-plan-other-start"), "start"), BACK, CANCEL]
    return Screen(tuple(lines), tuple(options))


def _mend(objection: Objection, writing: Writing) -> Option | None:
    """The one tap that meets an objection."""
    draft, rules = writing.draft, writing.rules
    if objection.code == "no_days":
        return Option(words("b-plan-choose-days"), after(draft))
    new = mended(objection, draft, rules, writing.carer)
    if new is None:
        return None
    place = objection.place
    named = (
        name_of(draft.exercises[place].exercise) if place is not None and place < len(draft.exercises) else words("plan-none")
    )
    form = instead(objection, draft, rules.exercises)
    if len(new.exercises) < len(draft.exercises):
        label = words("b-plan-take-out", exercise=named)
    elif form is not None and place is not None:
        label = words("b-plan-instead", exercise=named, form=form_name(draft.exercises[place].exercise, form.id))
    else:
        label = words(f"b-plan-mend-{key(objection.key)}", exercise=named, minutes=new.minutes)
    return Option(label, "plan", new)


def change(writing: Writing) -> Screen:
    """What can be changed."""
    draft = writing.draft
    items = [
        Option(words("b-plan-item", number=place + 1, exercise=name_of(one.exercise)), f"x{place}")
        for place, one in enumerate(draft.exercises)
        if one.exercise in writing.rules.exercises
    ]
    settings = ("add", "days", "time", "supervision", "eyes", "check", "minutes", "rest", "review", "ends")
    more = [Option(words(f"b-plan-{setting}"), setting) for setting in settings]
    return Screen((words("plan-change-ask"),), (*items, *more, Option(words("b-answer-done"), "plan"), BACK))


# --- to its end -----------------------------------------------------------------------------------------------


def _preview(writing: Writing, page: str) -> Screen:
    """What the client will see, some exercises at a time; from here the plan is prescribed."""
    draft, facts = writing.draft, writing.dialogue.facts
    if refused(judge(draft, writing.rules, writing.carer, writing.today)):
        return plan(writing)
    screens = preview(draft, facts, writing.rules)
    first = int(page) * PER_PREVIEW if page.isdecimal() else 0
    shown = screens[first : first + PER_PREVIEW]
    lines = [words("plan-preview", name=facts.name, first=first + 1, last=first + len(shown), all=len(screens))]
    for one in shown:
        lines += [words("plan-between"), *one]
    more = (
        (Option(words("b-plan-preview-more"), f"preview{first // PER_PREVIEW + 1}"),)
        if first + PER_PREVIEW < len(screens)
        else ()
    )
    label = words("b-plan-prescribe", name=facts.name)
    last = Option(label, "reason") if facts.plan is not None else Option(label, act=Act.PRESCRIBE)
    return Screen(tuple(lines), (*more, last, Option(words("b-plan-change"), "change"), BACK, CANCEL))


def reason(writing: Writing) -> Screen:
    """Why the plan changes: the client is told."""
    own, name = writing.dialogue.reason, writing.dialogue.facts.name
    options = [Option(words(f"plan-reason-{one}"), act=Act.PRESCRIBE, value=one) for one in REASONS]
    lines = [words("plan-reason-ask", name=name)]
    if own:
        lines.append(words("plan-reason-typed", text=own))
        options = [Option(words("b-plan-reason-typed"), act=Act.PRESCRIBE, value=own)]

    def reads(text: str) -> Option | None:
        told = " ".join(text.split())
        return Option(words("plan-reason-typed", text=told), "reason", value=told) if 0 < len(told) <= LONGEST_REASON else None

    return Screen(tuple(lines), (*options, BACK, CANCEL), reads)


def cancel(writing: Writing) -> Screen:
    """Asked once."""
    drop, keep = Option(words("b-answer-drop"), act=Act.DROP), Option(words("b-answer-keep"), act=Act.BACK)
    return Screen((words("plan-cancel", name=writing.dialogue.facts.name),), (drop, keep))


def resume(writing: Writing) -> Screen:
    """A draft was begun before."""
    facts = writing.dialogue.facts
    anew = bare(facts, writing.draft.report.zone, writing.rules) or writing.draft
    now = continued(facts.plan, writing.today) if facts.plan is not None else None
    fresh = Option(words("b-plan-anew"), "plan" if now else "start", now or anew)
    return Screen((words("plan-resume", name=facts.name),), (Option(words("b-answer-keep"), act=Act.BACK), fresh, CANCEL))


def meanwhile(writing: Writing) -> Screen:
    """The plan is another one by now, or the draft can not be any more: the plan as it is, and the draft kept beside it."""
    facts = writing.dialogue.facts
    if facts.plan is None:
        return plan(writing)
    title = words("plan-meanwhile", name=facts.name, version=facts.plan.version)
    as_it_is = summary(facts.plan, facts, writing.rules)[1:]
    now = continued(facts.plan, writing.today)
    options = (Option(words("b-plan-from-now"), "plan", now), Option(words("b-plan-my-draft"), "plan"), CANCEL)
    return Screen((title, *as_it_is), options)


SCREENS: dict[str, Callable[[Writing], Screen]] = {
    "start": start, "copy": copy, "days": days, "choose": choose, "time": times, "plan": plan, "change": change, "add": add,
    "supervision": supervision, "eyes": eyes, "check": check, "minutes": minutes, "rest": rest, "review": review, "ends": ends,
    "reason": reason, "cancel": cancel, "resume": resume, "meanwhile": meanwhile,
}  # fmt: skip
