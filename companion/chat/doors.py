"""Start links, which the platform opens as a chat with the bot, and the same as a picture to scan at a visit."""

from io import BytesIO

import segno

DOT = 8
"""A dot of the picture is so many pixels wide: sharp on any screen, and still small."""


class StartLinks:
    """The `Doors` of the runtime. `bot` is the bot's name on the platform; empty until the platform has told it."""

    def __init__(self, bot: str = "") -> None:
        self.bot = bot

    def named(self, bot: str) -> None:
        """The platform has told the bot's name."""
        self.bot = bot

    def link(self, payload: str) -> str:
        if not self.bot:
            raise LookupError("the bot's name is not known yet")
        return f"https://t.me/{self.bot}?start={payload}"

    def picture(self, link: str) -> bytes:
        file = BytesIO()
        # not the smaller kind of code, which few cameras know
        segno.make(link, micro=False, error="m").save(file, kind="png", scale=DOT)
        return file.getvalue()
