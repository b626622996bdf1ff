"""Every exercise in every form is rehearsed to its closing, on real phones, as somebody would be who does it well."""

import asyncio
from collections.abc import Iterator
from pathlib import Path

import pytest

from companion.app import Content
from companion.content.folders import scenarios_dir
from companion.core.observations import Bout, Quality
from companion.core.programme import Exercise, Eyes, Form, Hand, Measure, Posture, Role, Sides
from companion.rehearsal.player import Rehearsed, rehearse
from companion.rehearsal.scenario_file import Readers, load
from tests.scenarios.playing import observed

CONTENT = Content.read()
EXERCISES = CONTENT.library.without_number.exercises
PAGE = 8
"""So many exercises in one session, beside the warm-up."""

HEAD = """\
title: Forms
about: All invented.
zone: Europe/London
starts: 2026-11-02 09:45
ends: 2026-11-02 12:00
people:
  people:
    ines: {role: therapist, name: Ines, zone: Europe/London}
    edda: {role: client, name: Edda, zone: Europe/London}
    milo: {role: carer, name: Milo, zone: Europe/London}
  clients:
    edda:
      therapist: ines
      carer: milo
      plan:
        practice: {days: [mon], times: ["10:00"]}
        report: {day: sun, time: "09:00"}
        place: {support: rail, footwear: shoes, chair_behind: yes}
        baseline: {one_good_hand: no, ankle_blocked: no, blood_thinner: no, can_call_for_help: yes}
        supervision: always
        eyes_closed: yes
        into_place_s: 10
        rest_s: 10
        minutes: 60
        exercises:
"""

HABITS = """\
habits:
  edda: {like: client}
  milo: {like: carer}
"""


def rounds() -> Iterator[tuple[str, list[tuple[Exercise, Form]]]]:
    """The first form of each exercise, then the second of each that has one, and so on, a session's worth at a time."""
    most = max(len(exercise.forms) for exercise in EXERCISES.values())
    for place in range(most):
        forms = [(exercise, exercise.forms[place]) for exercise in EXERCISES.values() if place < len(exercise.forms)]
        for page, start in enumerate(range(0, len(forms), PAGE)):
            yield f"form {place + 1}, session {page + 1}", forms[start : start + PAGE]


def planned(exercise: Exercise, form: Form) -> str:
    """One line of the plan: the shortest dose, the least hand support there is."""
    parts = [f"exercise: {exercise.id}", f"form: {form.id}"]
    if form.measure is Measure.TIMED:
        parts += [f"target: {max(form.least, 10)}", f"clock: {'carer' if form.eyes is Eyes.CLOSED else exercise.clocks[0]}"]
    if form.posture is Posture.STANDING:
        parts.append(f"hand: {[hand for hand in form.hands if hand is not Hand.TWO_HANDS][-1]}")
    return f"          - {{{', '.join(parts)}}}\n"


def played(forms: list[tuple[Exercise, Form]], folder: Path) -> Rehearsed:
    forms = sorted(forms, key=lambda one: one[0].role is not Role.WARM_UP)
    plan = "".join(planned(exercise, form) for exercise, form in forms)
    warm_up = "" if forms[0][0].role is Role.WARM_UP else "          - {exercise: seated_press}\n"
    path = folder / "forms.yaml"
    path.write_text(HEAD + warm_up + plan + HABITS, encoding="utf-8")
    scenario = load(path, Readers(scenarios_dir(), CONTENT.library, CONTENT.texts))
    return asyncio.run(rehearse([scenario], folder, CONTENT, lambda scenario, played: None))[0]


@pytest.mark.parametrize("forms", [forms for _, forms in rounds()], ids=[name for name, _ in rounds()])
def test_every_form_is_rehearsed_to_its_closing(forms: list[tuple[Exercise, Form]], tmp_path: Path) -> None:
    rehearsed = played(forms, tmp_path)
    assert rehearsed.faults == ()
    bouts = [one for one in observed(rehearsed) if isinstance(one, Bout)]
    for exercise, form in forms:
        of_form = [bout for bout in bouts if (bout.exercise, bout.form) == (exercise.id, form.id)]
        assert len(of_form) == (1 if exercise.sides is Sides.NONE else 2), f"{exercise.id}, {form.id}"
        assert {(bout.quality, bout.eased) for bout in of_form} == {(Quality.CLEAN, 0)}, f"{exercise.id}, {form.id}"
    assert "You did all " in rehearsed.files.transcript.read_text(encoding="utf-8")
