"""Who reads a text: the client, the carer or both, told by its file and its key. For lists; nobody is sent anything by it.

On a shared phone the client's phone shows the carer's texts too, under "For your helper:".
"""

CLIENT, CARER = "client", "carer"
BOTH = f"{CLIENT}, {CARER}"

_CARERS_FILES = ("carer.ftl", "briefing.ftl")
_OF_THE_CLIENT = frozenset(
    {
        "no-carer-briefed", "b-had-to-leave", "shared-now", "shared-read", "shared-no-more", "carer-removed-client",
        "no-carer", "no-carer-there", "carer-looks", "carer-left", "carer-has-clock", "carer-says-start", "carer-not-started",
        "carer-sees-kept", "consent-carer", "consent-carer-ask", "b-carer-sees", "plan-clock-carer",
    }
)  # fmt: skip
"""Texts for the client that are about the carer."""
_OF_THE_CARER = (
    "happened-", "emergency-go", "gate-carer", "carer-", "nudge-carer", "nudge-answered", "b-all-is-well", "b-saw-a-step",
        "b-something-happened", "b-beside-them", "b-start-clock", "b-step-or-touch",
        "b-number", "b-they-fell", "help-carer", "welcome-carer",
    "row-had-to-leave", "tap-noted", "plan-carer-clock", "ended-carer", "also-carer", "also-answered", "also-thanks",
)  # fmt: skip
"""How texts begin that are for the carer alone, in files for both."""
_OF_BOTH = (
    "emergency-call", "emergency-bot", "told", "flag-", "sign-", "usual-asked", "reminder-minutes", "b-same", "b-different",
    "b-not-there", "b-read-briefing", "b-briefing-again", "for-helper", "tell-", "b-tell-done", "b-help", "help-not-watched",
    "nothing-runs", "typed-", "row-", "hello", "stranger", "link-", "fault", "press-", "therapist-now", "cover-",
    "plan-screens-tell", "plan-over-quiet", "plan-over-next", "plan-time", "plan-list", "ex-", "form-", "set-up-title",
    "ask-effort", "b-effort-", "more", "own-made", "b-unwell", "b-something-different",
    "ask-how", "ask-wh", "ask-known", "b-clean", "b-not-quite", "b-held", "b-broke", "b-quarter", "b-tones", "b-when-unknown",
    "b-known", "step-is-good", "sound-then",
)  # fmt: skip
"""How texts begin that either may read."""


def readers(key: str, file: str) -> str:
    """Who reads the text of that key, written in the file of that name: `CLIENT`, `CARER` or `BOTH`."""
    name, _, part = key.partition(".")
    if part == "carer" or (name.endswith(("-carer", "-they")) and name not in _OF_THE_CLIENT):
        return CARER
    if name in _OF_THE_CLIENT or name.endswith("-you"):
        return CLIENT
    if name.startswith(_OF_BOTH):
        return BOTH
    return CARER if file in _CARERS_FILES or name.startswith(_OF_THE_CARER) else CLIENT
