"""The demo scenarios, each played at most once in a run, and two options for those who run these tests alone.

pytest tests/scenarios/test_transcripts.py --renew             write the transcripts that must be produced from now on
pytest tests/scenarios/test_same_again.py --fortnights 20 -s   play the whole fortnight so often, under random latency
"""

import pytest

from tests.scenarios.playing import Rehearsals


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--renew", action="store_true", help="write the scenarios' transcripts instead of comparing them")
    parser.addoption("--fortnights", type=int, default=0, help="how often to play the fortnight under random latency")


@pytest.fixture(scope="session")
def rehearsals(tmp_path_factory: pytest.TempPathFactory) -> Rehearsals:
    return Rehearsals(tmp_path_factory.mktemp("rehearsals"))


@pytest.fixture(scope="session")
def renew(pytestconfig: pytest.Config) -> bool:
    """Whether transcripts are written and not compared. Without the option where the whole suite is run."""
    return bool(pytestconfig.getoption("--renew", False))


@pytest.fixture(scope="session")
def fortnights(pytestconfig: pytest.Config) -> int:
    """How often the fortnight is played."""
    return int(pytestconfig.getoption("--fortnights", 0))
