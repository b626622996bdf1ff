"""Who may import whom: the contracts in pyproject.toml are kept, and each would notice if it were broken."""

import re
import shutil
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

import pytest
from importlinter import cli
from importlinter.api import read_configuration

from tests.architecture.sources import CODE, ROOT, imports_of, name_of

CONFIGURATION = str(ROOT / "pyproject.toml")
CONTRACTS = {contract["id"]: contract for contract in read_configuration(CONFIGURATION)["contracts_options"]}
PURE = sys.stdlib_module_names - set(CONTRACTS["pure-core"]["forbidden_modules"])

# For each contract a module that breaks it.
PLANTED = {
    "layers": {"core/planted_up.py": "import companion.chat"},
    "no-cycles": {
        "store/planted_one.py": "import companion.store.planted_two",
        "store/planted_two.py": "import companion.store.planted_one",
    },
    "pure-core": {"core/planted_clock.py": "import time"},
    "sql": {"runtime/planted_sql.py": "import sqlite3"},
    "telegram": {"runtime/planted_bot.py": "import telegram"},
    "drawing": {"content/planted_numbers.py": "import numpy"},
    "light-process": {
        "chat/planted_chart.py": "import companion.reports.planted_chart",
        "reports/planted_chart.py": "import matplotlib",
    },
    "witness": {"rehearsal/server/planted_kin.py": "import companion.errors"},
}


@pytest.mark.parametrize("contract", CONTRACTS)
def test_the_contract_is_kept(contract: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    # it would switch off every logger that is there, for all the tests that follow
    monkeypatch.setattr(cli, "_configure_logging", lambda verbose: None)
    assert cli.lint_imports(CONFIGURATION, limit_to_contracts=(contract,), no_cache=True, no_logo=True) == 0


def test_every_contract_notices_when_it_is_broken(tmp_path: Path) -> None:
    shutil.copytree(ROOT / "companion", tmp_path / "companion", ignore=shutil.ignore_patterns("__pycache__"))
    for modules in PLANTED.values():
        for name, text in modules.items():
            (tmp_path / "companion" / name).write_text(text + "\n", encoding="utf-8")

    linter = str(Path(sys.executable).with_name("lint-imports"))
    told = subprocess.run(
        [linter, CONFIGURATION, "--no-cache", "--no-logo"],
        cwd=tmp_path,
        env={"COLUMNS": "200"},
        capture_output=True,
        text=True,
    )
    verdicts = dict(re.findall(r"^(.+?) (KEPT|BROKEN)(?: .*)?$", told.stdout, re.MULTILINE))
    assert PLANTED.keys() == CONTRACTS.keys()
    assert verdicts == {contract["name"]: "BROKEN" for contract in CONTRACTS.values()}, told.stdout + told.stderr


def test_the_core_imports_only_itself_and_the_pure_part_of_the_standard_library() -> None:
    core = [path for path in CODE if name_of(path).startswith("companion/core/")]
    foreign = [
        f"{name_of(path)}:{line}: {name}"
        for path in core
        for line, name in imports_of(path)
        if name.split(".")[0] not in PURE and not name.startswith(("companion.core.", "companion.errors."))
    ]
    assert core
    assert foreign == []


def test_the_rehearsal_server_imports_nothing_of_ours() -> None:
    server = [path for path in CODE if name_of(path).startswith("companion/rehearsal/server")]
    ours = [
        f"{name_of(path)}:{line}: {name}"
        for path in server
        for line, name in imports_of(path)
        if name.split(".")[0] == "companion" and not name.startswith("companion.rehearsal.server.")
    ]
    assert server
    assert ours == []


def test_nobody_imports_pyplot_but_the_benchmark_beside_it() -> None:
    told = {name_of(path) for path in CODE for _, name in imports_of(path) if "pyplot" in name.split(".")}
    assert told == {"tests/benchmarks/charts.py"}


@pytest.mark.parametrize("entry", ["companion.app", "companion.cli"])
def test_the_process_of_the_bot_loads_no_drawing_or_number_library(entry: str) -> None:
    if find_spec(entry) is None:
        pytest.skip(f"{entry} is not written yet")
    ask = f"import sys, {entry}; print(sorted({{'matplotlib', 'numpy', 'scipy'}} & sys.modules.keys()))"
    told = subprocess.run([sys.executable, "-c", ask], cwd=ROOT, check=True, capture_output=True, text=True)
    assert told.stdout.strip() == "[]"
