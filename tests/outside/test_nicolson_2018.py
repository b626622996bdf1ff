"""Nicolson 2018: diaries overstate (220 reported, 176 measured, ratio 1.25): every self-reported figure says "reported"."""

import re

from companion.reports.caption import caption
from companion.reports.wording import Wording
from tests.outside.practice_at_home import TEXTS, fallen, said
from tests.reports import samples


def test_every_line_of_the_caption_with_a_figure_of_practice_says_that_it_was_reported() -> None:
    week = samples.usual()
    text = caption(week, Wording(TEXTS, "en", week.zone))
    assert "reported" in text.lower()
    lines = text.splitlines()
    told = [line for line in lines if re.search(r"\d+ of \d+", line)]
    heads = [at for at, line in enumerate(lines) if "reported" in line.lower()]
    assert told and heads
    # a line of figures either says it, or stands under the heading that says it
    for line in told:
        assert min(heads) <= lines.index(line), line


def test_an_alert_says_who_reported_and_that_the_sessions_are_reports() -> None:
    home = fallen()
    alert = said(home, "t1")[-1]
    assert "Reported by Ann" in alert
    assert "reported" in TEXTS.readings("alert-past", "en")[0]
