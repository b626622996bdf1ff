"""What a button under a message carries: a `Press` as callback data, and back.

The platform allows 64 bytes and hands them back as they were, so they hold ids only. Buttons live for years
in a chat: a form, once shipped, must be read for ever, so it begins with the number of its form. What was asked and
what was answered are told by their place in `NAMES`, so that no word about anybody's health leaves in a button.
"""

import re

from companion.core.events import Press

MOST_BYTES = 64
FORM = "1"
BETWEEN = "|"
# Printable ASCII without space and separator: what is no id of ours is refused, in both directions.
PART = re.compile(r"[!-{}~]*")
CODED = "~"

# Only ever added to, at the end: a place, once shipped, keeps its meaning. Numbers (a turn, a count) stand as they are.
# fmt: off
NAMES = [
    "start", "later", "not_today", "same", "different", "ready", "not_ready", "seated", "back", "not_there", "easier",
    "harder", "as_planned", "clean", "not_quite", "unwell", "held", "broke", "right", "other", "unknown", "step",
    "hand", "both", "leaned", "fewer", "foot_down", "stopped", "tap", "hardly", "a_little", "a_lot",
    "forward_or_back", "to_weaker", "to_stronger", "less", "more", "weaker", "stronger", "easy", "medium", "hard",
    "seen", "lift", "spoke", "mistake", "keep", "fell", "up", "down", "saved", "hit", "not_hit", "not_sure",
    "practise", "help", "all_well", "happened", "offer", "after", "alert", "what", "fall", "head", "sure", "a_little_sure",
    # a table of questions, its summary and its end
    "summary", "cancel", "done", "clear", "write", "drop",
    # the carer's briefing and menu, a shared phone, a carer who goes
    "next", "briefing", "near_fall", "worry", "report", "how_it_goes", "beside", "left", "hurt", "not_hurt",
    "help_now", "can_wait", "saw_step", "shared", "remove_carer",
    # the client's consent and menu
    "go_on", "agree", "decline", "sees_all", "sees_practice", "sees_none", "consent", "else", "tell", "week", "rest",
    "pause", "leave", "stay", "goal", "sees", "holiday", "look", "3_days", "1_week", "2_weeks", "open",
    # the baseline
    "name", "weaker_side", "tap_hand", "either", "neither", "orthosis", "none", "ankle_free", "ankle_blocked",
    "age_band", "age_18_39", "age_40_54", "age_55_64", "age_65_74", "age_75_84", "age_85", "walking_aid", "stick",
    "four_foot_stick", "frame", "wheelchair", "deficits", "balance", "eyes", "face", "arm", "speech", "breath", "dizzy",
    "calf", "vision", "usual", "reduced", "side_missed", "hearing", "hard_of_hearing", "reading", "short_words",
    "pictures_only", "blood_thinner", "yes", "no", "falls_last_year", "one", "several", "call_for_help", "voice",
    "alarm", "phone_tap", "cannot", "supervision", "always", "when_form_needs", "carer", "contacts", "deputy",
    "footwear", "shoes", "shoes_orthosis", "barefoot", "support", "worktop", "sink", "rail", "heavy_table",
    "sturdy_chair", "support_name", "support_side", "front", "into_place", "phones", "two", "zone", "quiet",
    "night_21_08", "night_20_08", "night_22_07", "person", "risk", "home", "draft", "anew", "prescribe", "not_now",
    # the therapist's list of clients, a client's page, a proposal
    "list", "page", "plan", "chart", "words", "history", "baseline", "links", "link", "hand_over", "cover", "discharge",
    "proposal",
    # the therapist's digest
    "charts", "others",
    # calls under a red flag, hours and deputies, handing on, discharge
    "reached", "not_reached", "with_them", "menu", "days", "times", "digest_day", "digest_time", "close", "pick",
    "who", "when", "dates", "today_only", "tomorrow_only", "end_cover", "no_hours", "no_deputy", "no_digest",
    "on", "off",
    "visited", "doctor", "mon_fri", "mon_thu", "every_day", "from_8_to_16", "from_9_to_17",
    "from_8_to_18", "at_7", "at_8", "at_12", "at_17", "all", "some",
    # what a therapist recorded for one client
    "media", "own", "use", "leave_out", "show", "which", "there", "send", "how", "instead", "replace",
    # fewer words, or all of them
    "style", "all_words",
    # documents of a client's records
    "record", "week_a4", "week_letter", "review_a4", "review_letter", "data",
    # charts of many weeks
    "four_weeks", "course",
    # what is measured at a review
    "review", "reviews",
]
# fmt: on
PLACES = {name: f"{CODED}{place}" for place, name in enumerate(NAMES)}
MEANT = {place: name for name, place in PLACES.items()}


def encode(press: Press) -> str:
    """The callback data of a press, at most 64 bytes. ValueError if it does not fit: the caller's fault."""
    parts = (press.client, press.scope, _coded(press.step), _coded(press.choice))
    if not all(PART.fullmatch(part) for part in parts):
        raise ValueError(f"a button can not carry {press}: only printable ASCII, no space, no {BETWEEN!r}")
    data = BETWEEN.join((FORM, *parts))
    if len(data) > MOST_BYTES:
        raise ValueError(f"a button can not carry {press}: {len(data)} bytes, {MOST_BYTES} are allowed")
    return data


def decode(data: object) -> Press | None:
    """The press that callback data stands for; None for anything that `encode` never wrote."""
    if not isinstance(data, str) or len(data) > MOST_BYTES:
        return None
    form, *parts = data.split(BETWEEN)
    if form != FORM or len(parts) != 4 or not all(PART.fullmatch(part) for part in parts):
        return None
    client, scope, step, choice = parts
    step_meant, choice_meant = _meant(step), _meant(choice)
    if step_meant is None or choice_meant is None:
        return None
    return Press(client, scope, step_meant, choice_meant)


def _coded(name: str) -> str:
    return PLACES.get(name) or (CODED + name if name.startswith(CODED) else name)


def _meant(code: str) -> str | None:
    if code.startswith(CODED * 2):
        return code[1:]
    if code.startswith(CODED):
        return MEANT.get(code)
    return None if code in PLACES else code
