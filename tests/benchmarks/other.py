"""Starts the plain bot of python-telegram-bot as a process of its own."""

import asyncio
import json
import os
import sys
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path
from subprocess import DEVNULL

PLAIN_BOT = Path(__file__).with_name("plain_bot.py")


@asynccontextmanager
async def plain_bot(orders: dict[str, object]) -> AsyncIterator[int]:
    """It runs meanwhile, with these orders; its process's number. What it logs is let go."""
    env = {**os.environ, "NO_PROXY": "127.0.0.1"}
    command = (sys.executable, str(PLAIN_BOT), json.dumps(orders))
    process = await asyncio.create_subprocess_exec(*command, env=env, stdout=DEVNULL, stderr=DEVNULL)
    try:
        yield process.pid
    finally:
        process.kill()
        await process.wait()
