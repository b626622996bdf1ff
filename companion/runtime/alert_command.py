"""The operator's own command, run when an alert can not be delivered in the chat.

It gets the alert as one JSON object on its standard input: `{"alert": 41, "client": "c1", "why": "undeliverable"}`. No words,
no names. It runs beside the loops and never holds them up; that it failed is said in the log, loudly.
"""

import asyncio
import json
import logging
import os
import subprocess
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor

from companion.runtime.mishap import told
from companion.runtime.settling import StuckAlert, tell_log

log = logging.getLogger(__name__)

PATIENCE_S = 30.0
"""Longer than this no command runs."""

AT_ONCE = 2


class AlertCommand:
    """An `OperatorHook`. The program and its arguments are called as they are: no shell reads them."""

    def __init__(self, command: Sequence[str], secret: str, patience_s: float = PATIENCE_S) -> None:
        self._command = tuple(command)
        self._secret = secret
        self._patience_s = patience_s
        self._threads = ThreadPoolExecutor(AT_ONCE, thread_name_prefix="operators-hook")
        self._running: set[asyncio.Future[None]] = set()

    def __call__(self, alert: StuckAlert) -> None:
        """Say it in the log, and run the command. Returns at once."""
        tell_log(alert)
        running = asyncio.get_running_loop().run_in_executor(self._threads, self._run, alert)
        self._running.add(running)
        running.add_done_callback(self._running.discard)

    async def close(self) -> None:
        """Wait for what still runs; it does not run for ever."""
        if self._running:
            await asyncio.wait(set(self._running))
        self._threads.shutdown(wait=False)

    def _run(self, alert: StuckAlert) -> None:
        given = json.dumps({"alert": alert.row, "client": alert.client, "why": alert.why}) + "\n"
        try:
            done = subprocess.run(
                self._command,
                input=given.encode(),
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
                timeout=self._patience_s,
                # whoever reads the environment of the command shall not find the key to the bot there
                env={name: value for name, value in os.environ.items() if self._secret not in value},
                check=False,
            )
        except (OSError, ValueError, subprocess.TimeoutExpired) as error:
            log.critical("the alert command failed for alert %d: %s", alert.row, told(error))
            return
        if done.returncode != 0:
            log.critical("the alert command failed for alert %d: it ended with %d", alert.row, done.returncode)
