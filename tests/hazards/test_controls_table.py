"""The table of controls in DEVELOPERS.md is that of the hazard file and of the switches."""

import os

from tests.hazards.controls_table import controls, controls_table, renew, table_in_page
from tests.hazards.switching import switches

AGAIN = "CONTROLS"
HOW = f"renew it: {AGAIN}=again .venv/bin/pytest -q tests/hazards/test_controls_table.py"


def test_every_control_has_a_switch_and_every_switch_a_control() -> None:
    assert sorted(switches()) == sorted(controls())


def test_the_table_of_controls_is_made_of_the_hazard_file_and_the_switches() -> None:
    if os.environ.get(AGAIN) == "again":
        renew()
    assert table_in_page() == controls_table(), HOW
