"""What the therapist finds at the visit: what bears on safety and on how the companion speaks. No birth date."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Baseline:
    """Answers by key; the texts `baseline-*` hold their words. `deficits` are the signs that are usual for this client, so that
    "new or worse" has a meaning. `support_name` is the support object in the client's own words, empty if none were given."""

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
