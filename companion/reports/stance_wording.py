"""The words of stances and of what came of them: names, targets, hands, sides, medians. All come from the texts."""

from collections.abc import Iterable
from dataclasses import dataclass

from companion.content.texts import Texts, key_of
from companion.core.effects import words
from companion.core.programme import Eyes, Measure, Side
from companion.reports.breaks import FirstBreak
from companion.reports.stances import Found, SideLine, StanceLine, Tried


@dataclass(frozen=True, slots=True)
class StanceWording:
    """Puts stances into words of one language."""

    texts: Texts
    language: str

    def say(self, key: str, **params: str | int) -> str:
        """A text of the report, by its key without `report-`."""
        return self.texts.text(words(key_of("report", key), **params), self.language)

    def _named(self, key: str, otherwise: str) -> str:
        """A name out of the library's own texts; the bare id for what the library no longer has."""
        if key in self.texts.keys(self.language):
            return self.texts.text(words(key), self.language)
        return otherwise.replace("_", " ")

    def many(self, parts: Iterable[str]) -> str:
        """Parts as one line."""
        return ", ".join(parts)

    def exercise(self, exercise: str) -> str:
        """The name of an exercise."""
        return self._named(key_of("ex", exercise), exercise)

    def stance(self, line: StanceLine, *, hand: bool) -> str:
        """The stance with its eyes and target, and with its hand support where that is wanted."""
        unit = "target-timed" if line.measure is Measure.TIMED else "target-counted"
        target = self.say(unit, target=self._range(line.targets))
        if line.targets_before is not None:
            target = self.say("target-before", target=target, before=self.say(unit, target=self._range(line.targets_before)))
        parts = [self.stance_name(line), target, *([self.hand_range(line)] if hand else [])]
        return self.many(parts if line.version is None else [*parts, self.say("plan", plan=line.version)])

    def stance_name(self, line: StanceLine) -> str:
        """The stance with its eyes, or the exercise."""
        name = self.say(f"stance-{line.stance}")
        if line.exercise is not None:
            exercise = self.exercise(line.exercise)
            name = self.say("stance-of", exercise=exercise, stance=name.lower()) if line.told_apart else exercise
        return self.say("eyes-closed", name=name) if line.eyes is Eyes.CLOSED else name

    def short(self, line: StanceLine, side: SideLine) -> str:
        """The stance, or the exercise, and the side in few words, to stand in a list."""
        if line.exercise is None:
            name = self.say(f"stance-{line.stance}.short")
        else:
            exercise = self.exercise(line.exercise)
            name = exercise[:1].lower() + exercise[1:]
        if line.eyes is Eyes.CLOSED:
            name = self.say("eyes-closed.short", name=name)
        if line.version is not None:
            name = f"{name} ({self.say('plan', plan=line.version)})"
        return name if side.side is None else f"{name} {self.side(side.side)}"

    def _range(self, ends: tuple[int, int]) -> str:
        low, high = ends
        return str(low) if low == high else self.say("range", low=low, high=high)

    def hand_range(self, line: StanceLine) -> str:
        """The hand stage; that of each side where each has one of its own; else from which to which."""
        most, least = line.hands
        if most is least:
            return self.say(f"hand-{most}")
        if all(one.hands[0] is one.hands[1] for one in line.sides):
            own = [(self.side(one.side), self.say(f"hand-{one.hands[0]}")) for one in line.sides]
            return self.many(self.say("hand-side", side=side, hand=hand) for side, hand in own)
        return self.say("range", low=self.say(f"hand-{most}"), high=self.say(f"hand-{least}"))

    def side(self, side: Side | None) -> str:
        """Weaker, stronger, or no side."""
        return self.say(f"side-{side or 'none'}")

    def tried(self, tried: Tried) -> str:
        """Clean of tried; unknown where somebody tried and nobody answered."""
        if tried.tried:
            return self.say("tried", clean=tried.clean, tried=tried.tried)
        return self.say("tried-unknown" if tried.unknown else "tried-none")

    def stopped_bouts(self, found: Found) -> str:
        """How many bouts were stopped for a symptom; empty where none was."""
        return self.say("tried-stopped", count=found.tried.stopped) if found.tried.stopped else ""

    def median(self, found: Found, target: tuple[int, int]) -> str:
        """The median quarter of the first break, or count; a dash where nothing broke, empty where nothing was tried."""
        if not found.tried.tried:
            return ""
        if found.all_clean or found.earliest is FirstBreak.NO_BREAK:
            return self.say("no-break")
        if found.usual_count is not None and target[0] == target[1]:
            return self.say("counted", count=found.usual_count, target=target[0])
        return self.say(f"break-{found.usual}") if found.usual_count is None else str(found.usual_count)

    def worst(self, found: Found, measure: Measure) -> str:
        """The earliest quarter of a first break, or the least count; empty where all was clean or nothing was tried."""
        if not found.tried.tried or found.all_clean:
            return ""
        if measure is Measure.COUNTED:
            return self.say("counted-least", count=self._count(found.least_count))
        if found.earliest is FirstBreak.NO_BREAK:  # what was not clean was stopped for a symptom
            return ""
        return self.say("earliest", quarter=self._break(found.earliest))

    def _count(self, count: int | None) -> str | int:
        return self.say("not-known") if count is None else count

    def _break(self, quarter: FirstBreak) -> str:
        return self.say("not-known") if quarter is FirstBreak.UNKNOWN else self.say(f"break-{quarter}")

    def side_in_words(self, line: SideLine, measure: Measure) -> str:
        """A side with its numbers, last week's in brackets; where it was not all clean, the median and the worst of it."""
        parts = [self.tried(line.now)]
        if line.side is not None:
            parts[0] = f"{self.side(line.side)} {parts[0]}"
        if line.before is not None:
            parts[0] = f"{parts[0]} ({self.tried(line.before)})"
        found = line.found
        if found.tried.tried and not found.all_clean and found.earliest is not FirstBreak.NO_BREAK:
            if measure is Measure.COUNTED:
                median, least = self._count(found.usual_count), self._count(found.least_count)
                parts.append(self.say("median-count", median=median, least=least))
            elif found.usual is found.earliest is FirstBreak.UNKNOWN:
                parts.append(self.say("break-unknown.long"))
            else:
                median, earliest = self._break(found.usual), self._break(found.earliest)
                parts.append(self.say("median-break", median=median, earliest=earliest))
        if line.now.stopped:
            parts.append(self.stopped_bouts(found))
        if line.now.tried and line.now.unknown:
            parts.append(self.say("caption-unknown", count=line.now.unknown))
        return self.many(parts)
