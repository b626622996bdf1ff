"""Keeps the bot's token out of every log, whoever writes it.

The platform's token is part of every URL, the HTTP library logs every URL, and an exception may carry it. So
the libraries that speak are told to be quiet, and every log record is read over before any handler sees it.
"""

import logging
import traceback

TALKERS = ("httpx", "httpcore", "telegram")
HIDDEN = "<token>"

_secrets: set[str] = set()
_make_record = logging.getLogRecordFactory()


def conceal(token: str) -> None:
    """From now on neither `token` nor its secret half is in any log record of this process."""
    _secrets.update(part for part in (token, token.partition(":")[2]) if part)
    for name in TALKERS:
        logging.getLogger(name).setLevel(logging.WARNING)
    if logging.getLogRecordFactory() is not _make_quietly:
        global _make_record
        _make_record = logging.getLogRecordFactory()
        logging.setLogRecordFactory(_make_quietly)


def redacted(text: str) -> str:
    """The text with every concealed secret struck out."""
    for secret in sorted(_secrets, key=len, reverse=True):
        text = text.replace(secret, HIDDEN)
    return text


def _make_quietly(*args: object, **more: object) -> logging.LogRecord:
    """A filter of a logger is not asked about its children's records, nor a handler's about others'."""
    record = _make_record(*args, **more)
    told = record.getMessage() if record.args else str(record.msg)
    if redacted(told) != told:
        record.msg, record.args = redacted(told), ()
    if record.exc_info and record.exc_info[0] is not None:
        # A formatter takes this text where it is set, instead of the exception's own.
        record.exc_text = redacted("".join(traceback.format_exception(*record.exc_info)).rstrip("\n"))
    return record
