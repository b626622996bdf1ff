"""Rehearses one exercise: each of its forms once, behind a warm-up, by an invented client with a carer, to the closing."""

import asyncio
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from companion.app import Content
from companion.content.folders import scenarios_dir
from companion.core.observations import Bout, Ending, Observation, Quality, SessionEnded
from companion.core.programme import Clock, Exercise, Eyes, Form, Hand, Measure, Posture, Role, Sides
from companion.rehearsal.player import Rehearsed, rehearse
from companion.rehearsal.scenario import Scenario
from companion.rehearsal.scenario_file import Readers, load
from companion.store import Store

ALWAYS = (datetime(2000, 1, 1, tzinfo=UTC), datetime(2100, 1, 1, tzinfo=UTC))
SHORT_HOLD_S = 10
CLIENT = "edda"
SCENARIO = """\
title: {title}
about: All people in it are invented.
zone: Europe/London
starts: 2026-11-02 09:45
ends: 2026-11-02 12:00
people:
  people:
    ines: {{role: therapist, name: Ines, zone: Europe/London}}
    edda: {{role: client, name: Edda, zone: Europe/London}}
    milo: {{role: carer, name: Milo, zone: Europe/London}}
  clients:
    edda:
      therapist: ines
      carer: milo
      plan:
        practice: {{days: [mon], times: ["10:00"]}}
        report: {{day: sun, time: "09:00"}}
        place: {{support: rail, footwear: shoes, chair_behind: yes}}
        baseline: {{one_good_hand: no, ankle_blocked: no, blood_thinner: no, can_call_for_help: yes}}
        supervision: always
        eyes_closed: yes
        into_place_s: 10
        rest_s: 10
        minutes: 60
        exercises:
{exercises}
habits:
  edda: {{like: client}}
  milo: {{like: carer}}
"""


@dataclass(frozen=True, slots=True)
class FormPlayed:
    """One form, as it was rehearsed. `wrong`: what did not come to pass, "" if all went well."""

    form: Form
    rehearsed: Rehearsed
    wrong: str


def scenario(exercise: Exercise, form: Form, content: Content, folder: Path) -> Scenario:
    """The scenario of that form, written into the folder. FoundWrong if its plan contradicts the exercise."""
    planned = [_planned(exercise, form)]
    if exercise.role is not Role.WARM_UP:
        planned.insert(0, {"exercise": _warm_up(content.library.without_number.exercises)})
    lines = [", ".join(f"{key}: {value}" for key, value in one.items()) for one in planned]
    exercises = "\n".join(f"          - {{{line}}}" for line in lines)
    path = folder / f"{form.id}.yaml"
    path.write_text(SCENARIO.format(title=f"{exercise.id}, {form.id}", exercises=exercises), encoding="utf-8")
    return load(path, Readers(scenarios_dir(), content.library, content.texts))


def play(exercise: Exercise, form: Form, content: Content, folder: Path) -> FormPlayed:
    """Play that form to the closing, with everything that it leaves in the folder. FoundWrong as above."""
    return asyncio.run(_play(exercise, form, content, folder))


def clock(exercise: Exercise, form: Form) -> Clock:
    """The clock that a form is rehearsed with: sound where there is one, since most goes with it."""
    if Clock.SOUND in exercise.clocks:
        return Clock.SOUND
    return Clock.CARER if form.eyes is Eyes.CLOSED and form.measure is Measure.TIMED else exercise.clocks[0]


def _planned(exercise: Exercise, form: Form) -> dict[str, str]:
    """The shortest dose, the least hand support there is."""
    planned = {"exercise": exercise.id, "form": form.id}
    if form.measure is Measure.TIMED:
        planned |= {"target": str(min(max(form.least, SHORT_HOLD_S), form.most)), "clock": clock(exercise, form)}
    if form.posture is Posture.STANDING:
        hands: list[Hand] = [hand for hand in form.hands if hand is not Hand.TWO_HANDS]
        planned["hand"] = hands[-1] if hands else Hand.TWO_HANDS
    return planned


def _warm_up(exercises: Mapping[str, Exercise]) -> str:
    """An exercise to warm up with, a seated one if there is one."""
    warm_ups = [one for one in exercises.values() if one.role is Role.WARM_UP]
    return min(warm_ups, key=lambda one: (one.form(one.usual).posture is not Posture.SEATED, one.id)).id


async def _play(exercise: Exercise, form: Form, content: Content, folder: Path) -> FormPlayed:
    (rehearsed,) = await rehearse([scenario(exercise, form, content, folder)], folder, content, _nobody)
    store = await Store.open(rehearsed.files.transcript.with_name("companion.db"), active=False)
    try:
        async with store.reading() as reading:
            left = [observation for _, observation in await reading.observations(CLIENT, *ALWAYS)]
    finally:
        await store.close()
    return FormPlayed(form, rehearsed, _wrong(exercise, form, rehearsed, left))


def _wrong(exercise: Exercise, form: Form, rehearsed: Rehearsed, left: list[Observation]) -> str:
    if rehearsed.faults:
        return rehearsed.faults[0]
    bouts = [one for one in left if isinstance(one, Bout) and (one.exercise, one.form) == (exercise.id, form.id)]
    clean = [bout for bout in bouts if (bout.quality, bout.eased) == (Quality.CLEAN, 0)]
    wanted = 1 if exercise.sides is Sides.NONE else 2
    if len(clean) != wanted:
        return f"{wanted} clean bouts were to come, and {len(clean)} came"
    ended = [one.ending for one in left if isinstance(one, SessionEnded)]
    return "" if ended == [Ending.DONE] else f"the session did not come to its closing: {', '.join(ended) or 'no end'}"


def _nobody(scenario: Scenario, played: timedelta) -> None:
    """Who watches it is told nothing on the way."""
