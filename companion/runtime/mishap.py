"""How a mishap is told in the log: what kind and where, never what anybody wrote."""

from traceback import extract_tb


def told(error: BaseException) -> str:
    """The error's type and the innermost place. Its message is left out: it may quote a person or a token."""
    frames = extract_tb(error.__traceback__)
    if not frames:
        return type(error).__name__
    where = frames[-1]
    return f"{type(error).__name__} at {'/'.join(where.filename.split('/')[-3:])}:{where.lineno} in {where.name}"
