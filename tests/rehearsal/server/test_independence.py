"""A witness that shares code with the accused is no witness: the server imports nothing of the project."""

import ast
import subprocess
import sys
from pathlib import Path

import companion.rehearsal.server as server_package

FOLDER = Path(server_package.__path__[0])


def test_the_server_imports_nothing_of_the_project() -> None:
    foreign = []
    for path in sorted(FOLDER.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                foreign += [(path.name, alias.name) for alias in node.names if alias.name.startswith("companion")]
            elif isinstance(node, ast.ImportFrom) and (node.level > 1 or (node.module or "").startswith("companion")):
                foreign.append((path.name, node.module or "."))
    assert foreign == []


def test_running_the_server_loads_nothing_of_the_project_and_no_bot_library() -> None:
    told = subprocess.run(
        [sys.executable, "-c", "import companion.rehearsal.server, sys; print(*sys.modules)"],
        capture_output=True,
        text=True,
        check=True,
        cwd=FOLDER.parents[2],
    )
    loaded = told.stdout.split()
    ours = {name for name in loaded if name.startswith("companion") and not name.startswith("companion.rehearsal.server")}
    assert ours <= {"companion", "companion.rehearsal"}
    assert not {"telegram", "aiogram", "sqlalchemy", "matplotlib"} & set(loaded)
