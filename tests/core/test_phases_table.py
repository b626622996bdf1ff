"""The phases of a client in DEVELOPERS.md are those of the machine."""

from pathlib import Path

from tests.core.phases_table import phases_table, table_in

PAGE = Path(__file__).parents[2] / "DEVELOPERS.md"


def test_the_table_of_phases_is_the_one_that_the_machine_makes() -> None:
    made = phases_table()
    assert table_in(PAGE) == made, f"put this between the marks in DEVELOPERS.md:\n\n{made}\n"


def test_every_phase_but_one_can_be_left_by_a_person_or_by_time() -> None:
    """A stop is lifted by nobody but the therapist: silence leaves it as it is."""
    header, _, *rows = [[cell.strip() for cell in line.strip("|").split("|")] for line in phases_table().splitlines()]
    for at, name in enumerate(header[1:], start=1):
        column = {row[0]: row[at] for row in rows}
        assert set(column.values()) - {"", "\N{MIDDLE DOT}"}, f"nothing leads out of {name!r}"
        if name.startswith("held"):
            moves = {what for what, then in column.items() if then and then != "\N{MIDDLE DOT}" and not then.startswith("held")}
            assert moves == {"the therapist lifts the stop"}
