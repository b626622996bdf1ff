"""safety.yaml: the signs that are asked for, how long the companion waits, and how alerts repeat."""

from collections.abc import Mapping

from pydantic import Field

from companion.content.yaml_lines import Id, Shape, Whole
from companion.core.programme import Exercise, FlagRule, Patience, Rhythm, Rules


class PatienceShape(Shape):
    """Seconds, by what is waited for; every one is written out, so that nobody has to look for a default."""

    check_fresh_s: Whole = Field(ge=60, le=7200)
    gate_s: Whole = Field(ge=60, le=3600)
    nudge_s: Whole = Field(ge=30, le=3600)
    carer_nudge_s: Whole = Field(ge=30, le=3600)
    no_word_s: Whole = Field(ge=60, le=7200)
    carer_start_s: Whole = Field(ge=30, le=3600)
    later_s: Whole = Field(ge=300, le=14400)
    idle_s: Whole = Field(ge=600, le=86400)
    late_cue_s: Whole = Field(ge=1, le=10)
    late_reminder_s: Whole = Field(ge=600, le=43200)
    receipt_s: Whole = Field(ge=1, le=60)
    writing_s: Whole = Field(ge=60, le=14400)


class RhythmShape(Shape):
    """Seconds since an alert was raised."""

    repeat_s: tuple[Whole, ...] = Field(min_length=1)
    repeat_every_s: Whole = Field(ge=300, le=86400)
    next_contact_s: Whole = Field(ge=60, le=7200)
    emergency_next_contact_s: Whole = Field(ge=60, le=3600)
    fall_ask_again_s: Whole = Field(ge=30, le=1800)
    fall_next_contact_s: Whole = Field(ge=60, le=3600)
    fall_therapist_again_s: Whole = Field(ge=60, le=7200)


class SafetyShape(Shape):
    """The whole file."""

    signs: tuple[Id, ...] = Field(min_length=1)
    can_be_usual: tuple[Id, ...] = ()
    sign_by_sign_sessions: Whole = Field(ge=0, le=20)
    sign_by_sign_gap_days: Whole = Field(ge=1, le=60)
    patience: PatienceShape
    rhythm: RhythmShape

    def rules(self, exercises: Mapping[str, Exercise], flags: tuple[FlagRule, ...]) -> Rules:
        """The core's rules, but for the number to call."""
        return Rules(
            exercises=exercises,
            signs=self.signs,
            flags=flags,
            emergency_number="",
            rhythm=Rhythm(**self.rhythm.model_dump()),
            patience=Patience(**self.patience.model_dump()),
            can_be_usual=self.can_be_usual,
            sign_by_sign_sessions=self.sign_by_sign_sessions,
            sign_by_sign_gap_days=self.sign_by_sign_gap_days,
        )
