"""Nicolson 2018: diaries overstate (220 reported, 176 measured, ratio 1.25): every self-reported figure says "reported"."""

import re

from companion.reports.caption import caption
from companion.reports.week import Week
from companion.reports.wording import Wording
from tests.outside.practice_at_home import TEXTS, fallen, said
from tests.reports import samples


def lines_of_a_week(week: Week | None = None) -> list[str]:
    week = week or samples.usual()
    return caption(week, Wording(TEXTS, "en", week.zone)).splitlines()


def test_the_hand_was_set_up_and_is_not_called_reported() -> None:
    (hand,) = [line for line in lines_of_a_week() if line.startswith("Hand")]
    assert hand.startswith("Hand as set up") and "reported" not in hand


def test_the_figures_outside_the_stances_say_in_their_line_that_they_were_reported() -> None:
    weeks = (samples.usual(), samples.first(), samples.one_side())
    lines = [line for week in weeks for line in lines_of_a_week(week)]
    kinds = ("Reported", "Sessions", "Effort", "Steps", "Made easier")
    told = [line for line in lines if line.startswith(kinds)]
    assert {next(kind for kind in kinds if line.startswith(kind)) for line in told} == set(kinds)
    assert all(re.search(r"\breported\b.*\d", line, re.IGNORECASE) for line in told), told


def test_the_figures_of_the_stances_stand_under_a_line_that_says_that_they_were_reported() -> None:
    lines = lines_of_a_week()
    figures = [at for at, line in enumerate(lines) if re.search(r"\b\d+ of \d+ \(", line)]
    assert figures == list(range(figures[0], figures[0] + len(figures))) and len(figures) >= 3
    assert "as reported" in lines[figures[0] - 1]


def test_an_alert_says_who_reported_and_that_the_sessions_are_reports() -> None:
    home = fallen()
    alert = said(home, "t1")[-1]
    assert "reported by Ann" in alert
    assert "reported" in TEXTS.readings("alert-past", "en")[0]
