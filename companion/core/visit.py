"""What is asked at the visit, as a table of questions, and the baseline that the answers make.

What bears on safety has no default and must be answered; everything else stands with a default until somebody changes it.
An "unknown" from a file, where nobody was asked, is no answer here and is asked for.
"""

from dataclasses import dataclass
from datetime import time

from companion.core.baseline import About, Baseline
from companion.core.effects import Words, words
from companion.core.intake import BOTH_HANDS, CALLS
from companion.core.programme import Quiet
from companion.core.questionnaire import BETWEEN, Answers, Question, Questionnaire
from companion.core.schedule import is_zone

LONGEST_NAME = 30
MOST_CONTACTS = 4
NONE = "none"
PERSON, RISK, HOME = "person", "risk", "home"
CARER, DEPUTY = "carer", "deputy"
ON_SAFETY = ("weaker_side", "tap_hand", "orthosis", "blood_thinner", "falls_last_year", "call_for_help", "supervision")
"""What has no default."""

NIGHTS = {"night_21_08": "21:00-08:00", "night_20_08": "20:00-08:00", "night_22_07": "22:00-07:00"}
"""Quiet hours that one tap chooses."""


@dataclass(frozen=True, slots=True)
class Visit:
    """What the questions depend on: the therapist's zone, the signs that may be usual, whether a deputy is known by name.

    `carer`: somebody is named already, and is only taken away on the client's page.
    """

    zone: str
    signs: tuple[str, ...]
    deputy: str = ""
    carer: bool = False


def questions(answers: Answers, visit: Visit) -> Questionnaire:
    """The questions that apply to these answers, in the order asked."""
    return Questionnaire("baseline", (*_person(answers, visit), *_risk(answers, visit), *_home(answers, visit)))


def _person(answers: Answers, visit: Visit) -> tuple[Question, ...]:
    signs = {sign: words(f"sign-{_hyphens(sign)}.short") for sign in visit.signs}
    ages = ("age_18_39", "age_40_54", "age_55_64", "age_65_74", "age_75_84", "age_85", "unknown")
    aids = (NONE, "stick", "four_foot_stick", "frame", "wheelchair")
    return (
        Question("name", section=PERSON, reads=call_name),
        Question("weaker_side", ("left", "right"), section=PERSON),
        Question("tap_hand", ("left", "right", BOTH_HANDS, "neither"), section=PERSON),
        Question("orthosis", (NONE, "ankle_free", "ankle_blocked"), section=PERSON),
        Question("age_band", ages, "unknown", PERSON),
        Question("walking_aid", aids, NONE, PERSON),
        Question("deficits", visit.signs, "", PERSON, many=True, labels=signs),
        Question("vision", ("usual", "reduced", "side_missed"), "usual", PERSON),
        Question("hearing", ("usual", "hard_of_hearing"), "usual", PERSON),
        Question("reading", ("usual", "short_words", "pictures_only"), "usual", PERSON),
    )


def _risk(answers: Answers, visit: Visit) -> tuple[Question, ...]:
    kinds = ("always", "when_form_needs", NONE)
    # somebody who can tap with neither hand is never alone with the phone
    alone = not visit.carer and answers.get("tap_hand") != "neither"
    carer = (Question("carer", section=RISK, reads=call_name),) if _has_carer(answers, visit) else ()
    told = (*((DEPUTY,) if visit.deputy else ()), *((CARER,) if carer else ()))
    return (
        Question("blood_thinner", ("yes", "no", "unknown"), section=RISK),
        Question("falls_last_year", (NONE, "one", "several", "unknown"), section=RISK),
        Question("call_for_help", ("voice", "alarm", "phone_tap", "cannot"), section=RISK),
        Question("supervision", kinds if alone else kinds[:2], section=RISK),
        *carer,
        Question("contacts", told, "", RISK, contact_names, many=True),
    )


def _home(answers: Answers, visit: Visit) -> tuple[Question, ...]:
    splint = answers.get("orthosis") in ("ankle_free", "ankle_blocked")
    supports = ("worktop", "sink", "rail", "heavy_table", "sturdy_chair")
    phones = (Question("phones", ("two", "shared"), "two", HOME),) if _has_carer(answers, visit) else ()
    # one good hand holds on beside it, on the stronger side; only two can face it
    two_hands = answers.get("tap_hand") == BOTH_HANDS
    side = (Question("support_side", ("stronger", "front"), "stronger", HOME),) if two_hands else ()
    here = {"same": words("baseline-zone-same", zone=visit.zone)}
    return (
        Question("footwear", ("shoes", "shoes_orthosis", "barefoot"), "shoes_orthosis" if splint else "shoes", HOME),
        Question("support", supports, "worktop", HOME),
        Question("support_name", (NONE,), NONE, HOME, call_name),
        *side,
        Question("into_place", ("10", "20", "30"), "20", HOME),
        *phones,
        Question("zone", ("same",), "same", HOME, zone_name, labels=here),
        Question("quiet", (*NIGHTS, NONE), "night_21_08", HOME, quiet_hours),
    )


def _has_carer(answers: Answers, visit: Visit) -> bool:
    return visit.carer or answers.get("supervision", NONE) != NONE


def remarks(answers: Answers, visit: Visit) -> tuple[Words, ...]:
    """What the answers together mean for practice, said before they are written down."""
    said = []
    alone = not _has_carer(answers, visit)
    if alone and answers.get("call_for_help") not in CALLS:
        said.append(words("baseline-remark-alone"))
    if answers.get("tap_hand") == "neither" and answers.get("phones") == "two":
        said.append(words("baseline-remark-taps"))
    splint = answers.get("orthosis") in ("ankle_free", "ankle_blocked")
    if splint and answers.get("footwear") != "shoes_orthosis":
        said.append(words("baseline-remark-splint"))
    if answers.get("support") == "sturdy_chair":
        said.append(words("baseline-remark-chair"))
    return tuple(said)


# --- typed words ----------------------------------------------------------------------------------------------


def call_name(text: str) -> str | None:
    """What somebody or something is called: 1 to 30 printable characters with a letter in them, no command, no list."""
    name = " ".join(text.split())
    named = any(one.isalpha() for one in name) and name.isprintable()
    return name if named and len(name) <= LONGEST_NAME and not name.startswith("/") and BETWEEN not in name else None


def contact_names(text: str) -> str | None:
    """Call names in the order in which they are told, with commas between; at most 4."""
    names = [call_name(part) for part in text.split(BETWEEN) if part.strip()]
    known = [name for name in names if name is not None]
    return BETWEEN.join(dict.fromkeys(known)) if known and len(known) == len(names) <= MOST_CONTACTS else None


def zone_name(text: str) -> str | None:
    """A time zone by its name in the public database of zones, such as Europe/London."""
    return text.strip() if is_zone(text.strip()) else None


def quiet_hours(text: str) -> str | None:
    """Two times of day, "21:00-08:00" or "21-8", as "21:00-08:00"."""
    start, dash, end = text.replace(" ", "").replace("\N{EN DASH}", "-").partition("-")
    times = [_time(start), _time(end)]
    return "-".join(f"{one:%H:%M}" for one in times if one) if dash and all(one is not None for one in times) else None


def _time(text: str) -> time | None:
    hours, _, minutes = text.partition(":")
    digits = hours.isascii() and hours.isdecimal() and len(hours) <= 2
    if not digits or (minutes and not (minutes.isascii() and minutes.isdecimal() and len(minutes) == 2)):
        return None
    whole = (int(hours), int(minutes or 0))
    return time(*whole) if whole < (24, 0) and whole[1] < 60 else None


# --- answers and values ---------------------------------------------------------------------------------------


def baseline_of(filled: Answers) -> Baseline:
    """The baseline that the answers make. `filled`: every question that applies, with its answer or its default."""
    named = filled["support_name"]
    return Baseline(
        weaker_side=filled["weaker_side"],
        tap_hand=filled["tap_hand"],
        orthosis=filled["orthosis"],
        blood_thinner=filled["blood_thinner"],
        falls_last_year=filled["falls_last_year"],
        call_for_help=filled["call_for_help"],
        age_band=filled["age_band"],
        walking_aid=filled["walking_aid"],
        footwear=filled["footwear"],
        support=filled["support"],
        support_name="" if named == NONE else named,
        support_side=filled.get("support_side", "stronger"),
        deficits=_several(filled["deficits"]),
        vision=filled["vision"],
        hearing=filled["hearing"],
        reading=filled["reading"],
        shared_phone=filled.get("phones") == "shared",
        into_place_s=int(filled["into_place"]),
        supervision=filled["supervision"],
    )


def answers_of(baseline: Baseline | None, about: About) -> dict[str, str]:
    """The answers there are, to begin with when the baseline is taken anew."""
    known = {"name": about.name, "zone": about.zone, "quiet": _quiet_answer(about.quiet)}
    known["contacts"] = BETWEEN.join(CARER if one == about.carer else one[1] for one in about.contacts)
    if about.carer is not None:
        known["carer"] = about.carer[1]
    if baseline is None:
        return known
    same = ("age_band", "walking_aid", "footwear", "support", "support_side", "vision", "hearing", "reading")
    return known | {
        **{key: str(getattr(baseline, key)) for key in (*ON_SAFETY, *same)},
        "support_name": baseline.support_name or NONE,
        "deficits": BETWEEN.join(baseline.deficits),
        "phones": "shared" if baseline.shared_phone else "two",
        "into_place": str(baseline.into_place_s),
    }


def notable(baseline: Baseline) -> tuple[Words, ...]:
    """What bears on safety, and of the rest what is out of the ordinary, a line each."""
    usual = Baseline("", "", "", "", "", "")
    rest = ("walking_aid", "vision", "hearing", "reading")
    shown = (*ON_SAFETY, *(key for key in rest if getattr(baseline, key) != getattr(usual, key)))
    lines = [_line(key, words(f"baseline-{_hyphens(key)}-{_hyphens(getattr(baseline, key))}")) for key in shown]
    lines += [_line("deficits", words(f"sign-{_hyphens(sign)}.short")) for sign in baseline.deficits]
    return tuple(lines)


def _line(question: str, answer: Words) -> Words:
    return words("answer-line", question=words(f"baseline-{_hyphens(question)}"), answer=answer)


def _hyphens(name: str) -> str:
    return name.replace("_", "-")


def contacts_of(filled: Answers) -> tuple[str, ...]:
    """Who is told after the therapist, in order: names, DEPUTY or CARER."""
    return _several(filled["contacts"])[:MOST_CONTACTS]


def tidy(answers: tuple[tuple[str, str], ...], visit: Visit) -> tuple[tuple[str, str], ...]:
    """The answers without a contact who is nobody any more: the carer, where no carer is named."""
    given = dict(answers)
    told = _several(given.get("contacts", ""))
    if CARER in told and not _has_carer(given, visit):
        given["contacts"] = BETWEEN.join(one for one in told if one != CARER)
    return tuple(given.items())


def zone_of(filled: Answers, visit: Visit) -> str:
    """The client's time zone."""
    return visit.zone if filled["zone"] == "same" else filled["zone"]


def quiet_of(filled: Answers) -> Quiet | None:
    """The hours in which no reminder goes out, None for none."""
    hours = NIGHTS.get(filled["quiet"], filled["quiet"])
    start, _, end = hours.partition("-")
    return None if hours == NONE else Quiet(time.fromisoformat(start), time.fromisoformat(end))


def _quiet_answer(quiet: Quiet | None) -> str:
    if quiet is None:
        return NONE
    hours = f"{quiet.start:%H:%M}-{quiet.end:%H:%M}"
    return next((night for night, known in NIGHTS.items() if known == hours), hours)


def _several(answer: str) -> tuple[str, ...]:
    return tuple(one for one in answer.split(BETWEEN) if one)
