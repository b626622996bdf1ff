"""What a person reads when something is wrong."""

import pytest

from companion.errors import CompanionError, Fault, FoundWrong, UsedWrong


def test_a_fault_tells_where_what_and_what_to_do() -> None:
    fault = Fault("plan.yaml", 7, "The exercise 'hop' is not in the library", "Write one of the library's names")
    assert str(fault) == ("plan.yaml:7: The exercise 'hop' is not in the library. Write one of the library's names.")


def test_a_fault_without_a_line_names_only_the_place() -> None:
    assert str(Fault("COMPANION_DATABASE", None, "It is empty", "Name a file")) == (
        "COMPANION_DATABASE: It is empty. Name a file."
    )


def test_all_faults_are_told_at_once_one_a_line() -> None:
    faults = [Fault("a.yaml", 1, "This", "Do this"), Fault("b.yaml", 2, "That", "Do that")]
    found = FoundWrong(iter(faults))
    assert found.faults == tuple(faults)
    assert str(found).splitlines() == [str(fault) for fault in faults]


def test_nothing_found_is_no_error() -> None:
    with pytest.raises(ValueError, match="at least one"):
        FoundWrong([])


def test_found_wrong_ends_with_1_and_used_wrong_with_2() -> None:
    found = FoundWrong([Fault("a.yaml", 1, "This", "Do this")])
    assert (CompanionError("x").exit_code, found.exit_code, UsedWrong("x").exit_code) == (1, 1, 2)
