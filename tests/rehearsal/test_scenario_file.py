"""Scenario files: what they mean, and every fault with its line."""

from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from companion.content.folders import scenarios_dir
from companion.errors import FoundWrong, UsedWrong
from companion.rehearsal.scenario import Copies, Counts, Does, Ignores, Network, Power, Seen, Sends, Shuts, Taps, Types
from companion.rehearsal.scenario_file import Readers, load, names, path_of
from tests.rehearsal.small import HABITS, SMALL, content, readers, scenario, written

LINES = SMALL.count("\n")


def test_local_times_become_instants_of_the_scenarios_zone(tmp_path: Path) -> None:
    small = scenario(tmp_path)
    assert small.starts == datetime(2026, 7, 6, 8, 58, tzinfo=UTC)
    assert (small.name, small.zone) == ("small", "Europe/London")
    assert [person.id for person in small.enrolment.people] == ["ines", "olga"]


def test_rules_are_read_with_what_they_see_and_do(tmp_path: Path) -> None:
    rules = """\
habits:
  olga:
    twice: yes
    rules:
      - {sees: [One, Two], taps: Ready, after: 7, once: yes, on: 2026-07-06, in_mind: Three, keeps_in_mind: yes}
      - {sees: One, types: hello, since: 2026-07-07}
      - {sees: One, ignores: yes, until: 2026-07-08}
      - {sees: One, mistakes: client}
      - {sees: One, counts: tones}
      - {sees: One, miscounts: tones}
      - {sees: One, sends: {form: voice, of: Long neck, seconds: 6}}
"""
    habits = scenario(tmp_path, rules).habits["olga"]
    first, second, third, fourth, *of_sounds = habits.rules
    assert habits.twice
    assert (first.sees, first.act, first.after) == (("One", "Two"), Taps("Ready"), timedelta(seconds=7))
    assert (first.once, first.keeps, first.in_mind, first.own) == (True, True, ("Three",), True)
    assert first.days == (date(2026, 7, 6), date(2026, 7, 6))
    assert (second.act, second.days) == (Types("hello"), (date(2026, 7, 7), date.max))
    assert (third.act, third.days) == (Ignores(), (date.min, date(2026, 7, 8)))
    assert fourth.act == Copies(wrong=True)
    assert [rule.act for rule in of_sounds] == [Counts(wrong=False), Counts(wrong=True), Sends("voice", "Long neck", 6)]
    assert first.where.endswith(f"small.yaml:{LINES + 5}")


def test_shared_habits_come_after_ones_own(tmp_path: Path) -> None:
    (tmp_path / "habits").mkdir()
    (tmp_path / "habits" / "quick.yaml").write_text("about: Quick.\nrules:\n  - {sees: Ready, taps: Ready, after: 1}\n")
    habits = "habits:\n  olga:\n    like: quick\n    rules:\n      - {sees: Start, taps: Start}\n"
    rules = scenario(tmp_path, habits).habits["olga"].rules
    assert [(rule.act, rule.own) for rule in rules] == [(Taps("Start"), True), (Taps("Ready"), False)]


def test_what_happens_is_read_in_order(tmp_path: Path) -> None:
    happens = """\
happens:
  - {at: 2026-07-06 10:00:30, who: olga, taps: More}
  - {at: +90 s, who: olga, types: hello}
  - {when: {phone: olga, sees: Ready, on: 2026-07-06}, after: 5, power: cut}
  - {at: +2 min, power: back}
  - {at: +1 h, network: down}
  - {at: +1 day, who: olga, blocks: no}
  - {at: +1 s, who: olga, sends: photo}
"""
    happenings = scenario(tmp_path, happens).happenings
    assert happenings[0].at == datetime(2026, 7, 6, 9, 0, 30, tzinfo=UTC)
    assert happenings[2].at == Seen("olga", ("Ready",), date(2026, 7, 6))
    spans = [happening.after.total_seconds() for happening in happenings]
    assert spans == [0, 90, 5, 120, 3600, 86400, 1]
    assert [happening.what for happening in happenings] == [
        Does("olga", Taps("More")),
        Does("olga", Types("hello")),
        Power(on=False),
        Power(on=True),
        Network(up=False),
        Shuts("olga", back=True),
        Does("olga", Sends("photo")),
    ]


def test_what_must_come_true_has_the_whole_scenario_where_no_time_is_given(tmp_path: Path) -> None:
    expects = "expects:\n  - {phone: ines, text: Olga, never: yes}\n"
    small = scenario(tmp_path, expects)
    assert [(one.since, one.by, one.never) for one in small.expectations] == [(small.starts, small.ends, True)]


FAULTS = {
    "unknown key": ("habit: {}\n", 1, 'the key "habit" is not known here. Write "habits"'),
    "unknown person": ("habits:\n  olag: {}\n", 2, 'there is nobody called "olag"'),
    "unknown habits": ("habits:\n  olga:\n    like: gone\n", 3, 'there are no habits "gone"'),
    "nothing to do": ("habits:\n  olga:\n    rules:\n      - {sees: One}\n", 4, "it says nothing to do, or two things"),
    "two things to do": (
        "habits:\n  olga:\n    rules:\n      - {sees: One, taps: A, types: b}\n",
        4,
        "it says nothing to do, or two things",
    ),
    "a day twice": (
        "habits:\n  olga:\n    rules:\n      - {sees: One, taps: A, on: 2026-07-06, until: 2026-07-07}\n",
        4,
        '"on" beside "since" or "until"',
    ),
    "no such day": ("habits:\n  olga:\n    rules:\n      - {sees: A, taps: A, on: 2026-02-30}\n", 4, "is not a day"),
    "no moment": ("happens:\n  - {who: olga, taps: More}\n", 2, 'it has no moment, or two: "at" or "when"'),
    "a bad span": ("happens:\n  - {at: +90 years, who: olga, taps: More}\n", 2, "is not a span of time"),
    "nobody acts": ("happens:\n  - {at: +9 s, taps: More}\n", 2, '"who" goes with what a person does'),
    "power has no person": ("happens:\n  - {at: +9 s, who: olga, power: cut}\n", 2, '"who" goes with'),
    "nothing happens": ("happens:\n  - {at: +9 s, who: olga}\n", 2, "nothing happens here, or two things"),
    "after without when": ("happens:\n  - {at: +9 s, after: 3, who: olga, taps: More}\n", 2, '"after" goes with "when"'),
    "before it starts": ("happens:\n  - {at: 2026-07-06 09:00, who: olga, taps: More}\n", 2, "before the scenario starts"),
    "after it ends": ("expects:\n  - {phone: olga, text: A, by: 2026-07-07 09:00}\n", 2, "or after it ends"),
    "a file of no kind": ("happens:\n  - {at: +9 s, who: olga, sends: smell}\n", 2, "smell"),
    "a phone of nobody": ("expects:\n  - {phone: oscar, text: A}\n", 2, 'there is nobody called "oscar"'),
}


@pytest.mark.parametrize(("added", "line", "told"), FAULTS.values(), ids=FAULTS)
def test_a_fault_is_told_with_file_and_line(tmp_path: Path, added: str, line: int, told: str) -> None:
    with pytest.raises(FoundWrong) as wrong:
        scenario(tmp_path, added)
    assert f"small.yaml:{LINES + line}: " in str(wrong.value)
    assert told in str(wrong.value)


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("all is invented", "all is real", "it is not said that people and places are invented"),
        ("ends: 2026-07-06 10:30", "ends: 2026-07-06 09:00", "it ends before it starts"),
        ("starts: 2026-07-06 09:58", "starts: yesterday", "is not a day and time"),
        ("zone: Europe/London\nstarts", "zone: Europe/Nowhere\nstarts", 'there is no time zone "Europe/Nowhere"'),
        ("exercise: seated_press", "exercise: seated_pres", "seated_pres"),
        ("title: A small one\n", "title: A small one\nlanguage: de\n", 'is spoken to in "en" and the scenario is in "de"'),
    ],
)
def test_a_fault_in_the_head_or_the_people_is_told(tmp_path: Path, old: str, new: str, told: str) -> None:
    path = written(tmp_path)
    path.write_text(path.read_text().replace(old, new))
    with pytest.raises(FoundWrong, match=r"small\.yaml:\d+: ") as wrong:
        load(path, readers(tmp_path))
    assert told in str(wrong.value)


def test_an_enrolment_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    path = tmp_path / "small.yaml"
    head, _, _ = SMALL.partition("people:")
    path.write_text(f"{head}people: homes/gone.yaml\n")
    with pytest.raises(FoundWrong, match=r"small\.yaml:6: there is no enrolment file 'homes/gone\.yaml'"):
        load(path, readers(tmp_path))


def test_a_scenario_that_is_not_there_is_told_with_those_that_are(tmp_path: Path) -> None:
    written(tmp_path, HABITS)
    with pytest.raises(UsedWrong, match=r'no scenario "other"\. There are: small\.'):
        path_of("other", tmp_path)


def test_every_scenario_that_comes_along_is_without_fault() -> None:
    folder = scenarios_dir()
    found = [load(path_of(name, folder), Readers(folder, content().library, content().texts)) for name in names(folder)]
    assert len(found) >= 4
    assert {"fortnight", "red_flag", "fall_and_silence", "power_cut"} <= {one.name for one in found}
