"""Every demo scenario comes to pass as written, and leaves its transcript word for word."""

import difflib
from itertools import zip_longest

import pytest

from companion.app import Content
from companion.content.folders import scenarios_dir
from companion.rehearsal.player import read_scenarios
from tests.scenarios.playing import ALL, Rehearsals, expected

RENEW = "If the change is meant: pytest tests/scenarios/test_transcripts.py --renew, and read the difference"


@pytest.mark.parametrize("name", ALL)
def test_a_scenario_comes_to_pass_and_leaves_its_transcript_word_for_word(
    name: str, rehearsals: Rehearsals, renew: bool
) -> None:
    played = rehearsals.of(name)
    assert played.faults == ()
    text = played.files.transcript.read_text(encoding="utf-8")
    if renew:
        expected(name).write_text(text, encoding="utf-8")
    wanted = expected(name).read_text(encoding="utf-8")
    difference = list(difflib.unified_diff(wanted.splitlines(), text.splitlines(), "expected", "played", lineterm="", n=2))
    assert text == wanted, "\n".join([RENEW, *difference[:60]])


def columns(text: str) -> str:
    """All that phones show in a transcript, phone by phone, without line ends and marks."""
    cells = [[cell[2:] for cell in line.split(" | ")[1:]] for line in text.splitlines()]
    return " ".join(" ".join(" ".join(column).split()) for column in zip_longest(*cells, fillvalue=""))


def test_what_must_never_show_can_show_somewhere() -> None:
    shown = " ".join(columns(expected(name).read_text(encoding="utf-8")) for name in ALL)
    scenarios = read_scenarios(ALL, Content.read())
    never = [one for scenario in scenarios for one in scenario.expectations if one.never]
    assert len(never) > 15
    assert [(one.where, part) for one in never for part in one.text if " ".join(part.split()) not in shown] == []


def test_every_transcript_belongs_to_a_scenario() -> None:
    assert {path.name.removesuffix(".transcript.md") for path in scenarios_dir().glob("*.transcript.md")} == set(ALL)


def test_every_scenario_says_that_it_is_invented() -> None:
    assert all("All people and places in it are invented." in " ".join(expected(name).read_text().split()) for name in ALL)


def test_the_fortnight_leaves_a_picture_of_all_weeks_and_a_chart_each_week(rehearsals: Rehearsals) -> None:
    charts = rehearsals.of("fortnight").files.charts
    assert [chart.name for chart in charts] == [f"chart-2026-11-{day}.png" for day in ("09", "09-2", "16", "16-2")]
    assert all(chart.read_bytes().startswith(b"\x89PNG") for chart in charts)
