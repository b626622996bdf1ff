"""What the therapist finds at the visit: what bears on safety and on how the companion speaks. No birth date."""

from dataclasses import dataclass

from companion.core.programme import Quiet


@dataclass(frozen=True, slots=True)
class Baseline:
    """Answers by key; the texts `baseline-*` hold their words; "unknown" where nobody said. `deficits` are the signs that are
    usual for this client, so that "new or worse" has a meaning. `support_name` is the support object in the client's own
    words, empty if none were given. `supervision` is a `Supervision`, or "none": nobody is there to supervise. `from_file`:
    nobody asked at a visit, and much is unknown.
    """

    weaker_side: str
    tap_hand: str
    orthosis: str
    blood_thinner: str
    falls_last_year: str
    call_for_help: str
    age_band: str = "unknown"
    walking_aid: str = "none"
    footwear: str = "shoes"
    support: str = "worktop"
    support_name: str = ""
    support_side: str = "stronger"
    deficits: tuple[str, ...] = ()
    vision: str = "usual"
    hearing: str = "usual"
    reading: str = "usual"
    shared_phone: bool = False
    into_place_s: int = 20
    supervision: str = "always"
    from_file: bool = False


def asked_at_a_visit(baseline: Baseline | None) -> bool:
    """Whether a therapist took it; else it is what an enrolment file says, formerly always without a weaker side."""
    return baseline is not None and not baseline.from_file and baseline.weaker_side != "unknown"


@dataclass(frozen=True, slots=True)
class About:
    """What was asked at the visit and is kept beside the baseline. People are (id, call name); `contacts` in order of alert."""

    name: str
    zone: str
    quiet: Quiet | None = None
    carer: tuple[str, str] | None = None
    contacts: tuple[tuple[str, str], ...] = ()
