"""Time, waiting and chance come in by one door: the linter stops every other way and tells what to do."""

import subprocess
import sys
from pathlib import Path

import pytest

from tests.architecture.sources import ROOT

BANNED = {
    "now": "from datetime import UTC, datetime\n\nprint(datetime.now(UTC))\n",
    "now, by its module": "import datetime\n\nprint(datetime.datetime.now(datetime.UTC))\n",
    "today": "from datetime import date\n\nprint(date.today())\n",
    "seconds since 1970": "import time\n\nprint(time.time())\n",
    "sleep": "import time\n\ntime.sleep(1)\n",
    "sleep of a coroutine": "from asyncio import sleep\n\nprint(sleep)\n",
    "chance": "import random\n\nprint(random.random())\n",
    "chance, one name of it": "from random import choice\n\nprint(choice)\n",
    "random name": "from uuid import uuid4\n\nprint(uuid4())\n",
    "pyplot": "from matplotlib import pyplot\n\nprint(pyplot)\n",
}


def lint(text: str, name: str) -> str:
    """What the linter says of a text as if it stood in the file of that name."""
    ruff = str(Path(sys.executable).with_name("ruff"))
    command = [ruff, "check", "--quiet", "--output-format=concise", "--stdin-filename", name, "-"]
    return subprocess.run(command, cwd=ROOT, input=text, capture_output=True, text=True).stdout


@pytest.mark.parametrize("way", BANNED)
def test_the_linter_stops_it_outside_the_clock(way: str) -> None:
    assert "TID251" in lint(BANNED[way], "companion/runtime/alarms.py")


@pytest.mark.parametrize("name", ["companion/runtime/clock.py", "companion/rehearsal/server/waits.py"])
def test_the_linter_lets_the_clock_and_the_rehearsal_server_tell_the_time(name: str) -> None:
    assert lint(BANNED["now"], name) == ""
