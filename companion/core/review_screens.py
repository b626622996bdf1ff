"""The screens of a review that is being entered: what was measured, a screen each, all of it can be left out.

An option says beforehand what becomes of the dialogue; `reads` makes it of a typed number, or says why the number is not taken.
"""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from functools import partial
from typing import Any

from companion.core.described import listed
from companion.core.dialogues import Reviewing
from companion.core.effects import Words, words
from companion.core.how import key
from companion.core.review_entries import (
    DECADES,
    NUMBERS,
    RANGES,
    Act,
    Option,
    Screen,
    Then,
    goal_name,
    level_sign,
    level_words,
    measured,
    name_of,
    not_taken,
    number,
    or_none,
    read,
    value_of,
)
from companion.core.review_values import NOTHING, STAGE_S, FourStage, GoalLevel, four_stage
from companion.core.schedule import local_day

MOST_GOALS = 3
LEVELS = range(2, -3, -1)
WEIGHTS = range(1, 6)
HEEL_TO_TOE = tuple(FourStage).index(FourStage.HEEL_TO_TOE)


def screen(dialogue: Reviewing, today: date) -> Screen:
    """The screen that stands. `today` is the client's local date."""
    at = dialogue.at
    if at in NUMBERS:
        return _number(dialogue, at)
    if at == "preview":
        return _preview(dialogue, today)
    return SCREENS.get(at, _menu)(dialogue)


def _with(dialogue: Reviewing, at: str = "menu", **entered: Any) -> Reviewing:
    """That screen next, with these values entered."""
    return replace(dialogue, at=at, values=replace(dialogue.values, **entered), level=None)


def _back(dialogue: Reviewing) -> Option:
    return Option(words("b-review-menu"), replace(dialogue, at="menu", level=None))


# --- all that can be measured ---------------------------------------------------------------------------------


def _menu(dialogue: Reviewing) -> Screen:
    """The measures, with what is entered beside each."""
    values = dialogue.values
    options = [Option(_row(dialogue, at), replace(dialogue, at=at)) for at in RANGES]
    for place, goal in enumerate(values.goals):
        label = words("b-review-goal", number=place + 1, level=level_sign(goal.level), weight=goal.weight)
        options.append(Option(label, replace(dialogue, at="goal", place=place)))
    if len(values.goals) < MOST_GOALS:
        label = words("b-review-goal-own" if _new_goal(dialogue) is not None else "b-review-goal-more")
        options.append(Option(label, replace(dialogue, at="goal", place=len(values.goals))))
    options.append(Option(_row(dialogue, "decade"), replace(dialogue, at="decade")))
    if measured(values):
        options.append(Option(words("b-review-preview"), replace(dialogue, at="preview")))
    leave: Then = Act.DROP if values == NOTHING else replace(dialogue, at="cancel")
    options.append(Option(words("b-answer-cancel"), leave))
    return Screen((words("review-title", name=dialogue.facts.name), words("review-menu")), tuple(options))


def _row(dialogue: Reviewing, at: str) -> Words:
    name, value = name_of(dialogue, at), value_of(dialogue, at)
    if value is None:
        return words("b-review-open", measure=name)
    return words("b-review-entered", measure=name, value=value)


# --- numbers --------------------------------------------------------------------------------------------------


def _number(dialogue: Reviewing, at: str) -> Screen:
    """A measure of one number, typed."""
    name, now = name_of(dialogue, at), value_of(dialogue, at)
    without: dict[str, Any] = {at: None}

    def reads(text: str) -> Reviewing | Words:
        value = read(at, text)
        if value is None:
            return not_taken(name, at, text)
        found: dict[str, Any] = {at: int(value) if at == "berg" else value}
        return _with(dialogue, **found)

    out = (Option(words("b-review-leave-out"), _with(dialogue, **without)),) if now is not None else ()
    lines = (
        words("review-ask", measure=name, how=words(f"review-{key(at)}.how")),
        words("answer-now", answer=or_none(now)),
    )
    return Screen(lines, (*out, _back(dialogue)), reads)


# --- the 4-stage balance test ---------------------------------------------------------------------------------


def _four_stage(dialogue: Reviewing) -> Screen:
    """Stage by stage, up to the first that is not held."""
    held = dialogue.values.four_stage
    result = four_stage(held)
    lines = [words("review-ask", measure=words("review-four-stage"), how=words("review-four-stage.how")), *_stages(held)]
    options = []
    if result.next is not None:
        lines.append(words("review-stage-now", stage=words(f"review-{key(result.next)}")))
        options.append(Option(words("b-review-held"), _with(dialogue, "four_stage", four_stage=(*held, STAGE_S))))
    reads = partial(_read_stage, dialogue, result.next) if result.next is not None else None
    if held:
        last = words(f"review-{key(tuple(FourStage)[len(held) - 1])}")
        taken_back = _with(dialogue, "four_stage", four_stage=held[:-1])
        options.append(Option(words("b-review-take-back", stage=last), taken_back))
    return Screen(tuple(lines), (*options, _back(dialogue)), reads)


def _read_stage(dialogue: Reviewing, stage: FourStage, text: str) -> Reviewing | Words:
    """The seconds of that stage, typed."""
    value = read("four_stage", text)
    if value is None:
        return not_taken(words(f"review-{key(stage)}"), "four_stage", text)
    return _with(dialogue, "four_stage", four_stage=(*dialogue.values.four_stage, value))


def _stages(held: tuple[float, ...]) -> list[Words]:
    """The stages that were tried, then what they say."""
    result = four_stage(held)
    lines = [
        words("review-stage", stage=words(f"review-{key(stage)}"), value=number(seconds))
        for stage, seconds in zip(FourStage, held, strict=False)
    ]
    if held and result.next is None:
        lines.append(words("review-stages-stopped" if held[-1] < STAGE_S else "review-stages-all"))
    if result.at_risk is not None:
        reached = len(held) > HEEL_TO_TOE
        lines.append(words(f"review-stages-{('risk' if reached else 'not-reached') if result.at_risk else 'no-risk'}"))
    return lines


# --- goals, age -----------------------------------------------------------------------------------------------


def _new_goal(dialogue: Reviewing) -> str | None:
    """The client's own goal, where it has no level yet; None: there is none, or it has."""
    goal = dialogue.facts.goal
    return goal if goal and goal not in [one.words for one in dialogue.values.goals] else None


def _goal_words(dialogue: Reviewing) -> str | None:
    goals = dialogue.values.goals
    return goals[dialogue.place].words if dialogue.place < len(goals) else _new_goal(dialogue)


def _goal(dialogue: Reviewing) -> Screen:
    """How far a goal was attained."""
    goals, place = dialogue.values.goals, dialogue.place
    options = [Option(level_words(level), replace(dialogue, at="weight", level=level)) for level in LEVELS]
    if place < len(goals):
        kept = (*goals[:place], *goals[place + 1 :])
        options.append(Option(words("b-review-leave-out"), _with(dialogue, goals=kept)))
    line = words("review-goal-ask", goal=goal_name(place, _goal_words(dialogue)))
    return Screen((line,), (*options, _back(dialogue)))


def _weight(dialogue: Reviewing) -> Screen:
    """How much this goal weighs among the goals."""
    goals, place, level = dialogue.values.goals, dialogue.place, dialogue.level
    if level is None:
        return _goal(dialogue)
    said = _goal_words(dialogue)
    options = []
    for weight in WEIGHTS:
        new = (*goals[:place], GoalLevel(said, level, weight), *goals[place + 1 :])
        options.append(Option(words("b-review-weight", weight=weight), _with(dialogue, goals=new)))
    back = Option(words("b-answer-back"), replace(dialogue, at="goal", level=None))
    line = words("review-weight-ask", goal=goal_name(place, said), level=level_words(level))
    return Screen((line,), (*options, back))


def _decade(dialogue: Reviewing) -> Screen:
    """The decade of age, for published values only."""
    options = [Option(words(f"review-age-{one}"), _with(dialogue, decade=one)) for one in DECADES]
    options.append(Option(words("review-age-none"), _with(dialogue, decade=None)))
    now = words("answer-now", answer=or_none(value_of(dialogue, "decade")))
    return Screen((words("review-age-ask", name=dialogue.facts.name), now), (*options, _back(dialogue)))


# --- saved, left, begun before --------------------------------------------------------------------------------


def _preview(dialogue: Reviewing, today: date) -> Screen:
    """All of it, once more, as it will be kept."""
    if not measured(dialogue.values):
        return _menu(dialogue)
    facts, values = dialogue.facts, dialogue.values
    lines = [words("review-preview", name=facts.name, day=str(today))]
    begun = local_day(dialogue.begun, facts.zone)
    if begun != today:
        lines.append(words("review-begun", day=str(begun)))
    if values.four_stage:
        lines += [words("review-four-stage"), *_stages(values.four_stage)]
        lines += [words("review-stages-open")] if four_stage(values.four_stage).next is not None else []
    shown = [at for at in NUMBERS if value_of(dialogue, at) is not None]
    lines += [words("review-line", measure=name_of(dialogue, at), value=or_none(value_of(dialogue, at))) for at in shown]
    for place, goal in enumerate(values.goals):
        name = goal_name(place, goal.words)
        lines.append(words("review-goal-line", goal=name, level=level_words(goal.level), weight=goal.weight))
    left_out = [name_of(dialogue, at) for at in RANGES if value_of(dialogue, at) is None]
    left_out += [words("review-goals")] if not values.goals else []
    if left_out:
        lines.append(words("review-left-out", measures=listed(left_out)))
    age = value_of(dialogue, "decade")
    lines.append(words("review-age-line", age=age) if age is not None else words("review-age-unknown"))
    save = Option(words("b-review-save", name=facts.name), Act.SAVE)
    return Screen(tuple(lines), (save, _back(dialogue)))


def _cancel(dialogue: Reviewing) -> Screen:
    """Asked once, where something is entered."""
    keep = Option(words("b-answer-keep"), replace(dialogue, at="menu"))
    return Screen((words("review-cancel", name=dialogue.facts.name),), (keep, Option(words("b-review-drop"), Act.DROP)))


def _resume(dialogue: Reviewing) -> Screen:
    """One was begun before and not saved."""
    day = local_day(dialogue.begun, dialogue.facts.zone)
    keep = Option(words("b-answer-keep"), replace(dialogue, at="menu"))
    line = words("review-resume", name=dialogue.facts.name, day=str(day))
    return Screen((line,), (keep, Option(words("b-review-anew"), Act.ANEW)))


SCREENS: dict[str, Callable[[Reviewing], Screen]] = {
    "menu": _menu, "four_stage": _four_stage, "goal": _goal, "weight": _weight, "decade": _decade,
    "cancel": _cancel, "resume": _resume,
}  # fmt: skip
