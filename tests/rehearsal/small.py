"""A small scenario, one client and one seated exercise, to be changed by each test as it needs."""

from functools import cache
from pathlib import Path

from companion.app import Content
from companion.rehearsal.scenario import Scenario
from companion.rehearsal.scenario_file import Readers, load

SMALL = """\
title: A small one
about: Nobody in it is real; all is invented.
zone: Europe/London
starts: 2026-07-06 09:58
ends: 2026-07-06 10:30
people:
  people:
    ines: {role: therapist, name: Ines, zone: Europe/London}
    olga: {role: client, name: Olga, zone: Europe/London}
  clients:
    olga:
      therapist: ines
      plan:
        practice: {days: [mon], times: ["10:00"]}
        report: {day: sun, time: "09:00"}
        place: {support: rail, footwear: shoes, chair_behind: yes}
        baseline: {one_good_hand: yes, ankle_blocked: no, blood_thinner: no, can_call_for_help: yes}
        supervision: when_form_needs
        eyes_closed: no
        exercises:
          - exercise: seated_press
"""

HABITS = """\
habits:
  olga:
    rules:
      - {sees: I understand. Go on, taps: I understand. Go on, after: 2}
      - {sees: I agree, taps: I agree, after: 2}
      - {sees: Time to practise., taps: Start, after: 10}
      - {sees: Same as usual, taps: Same as usual, after: 3}
      - {sees: All ready, taps: All ready}
      - {sees: Fewer, taps: "10"}
      - {sees: Hard, taps: Easy}
      - {sees: Shaky, taps: Sure}
"""


@cache
def content() -> Content:
    """What came with the program, read once."""
    return Content.read()


def written(folder: Path, *parts: str, name: str = "small") -> Path:
    """A scenario file of SMALL and further parts."""
    path = folder / f"{name}.yaml"
    path.write_text("".join((SMALL, *parts)), encoding="utf-8")
    return path


def readers(folder: Path) -> Readers:
    """What scenarios in that folder are read with."""
    return Readers(folder, content().library, content().texts)


def scenario(folder: Path, *parts: str) -> Scenario:
    """SMALL and further parts, read."""
    return load(written(folder, *parts), readers(folder))
