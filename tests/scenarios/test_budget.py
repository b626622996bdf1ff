"""What a session may cost, in every demo scenario: taps of the client, taps of the carer, new messages to the client.

                                                   client taps   carer taps                             new messages
    reminder to first exercise                     4             1                                      4
    whole session of 7 bouts, all clean            20            2, and 1 a bout on the carer's clock   20
    the same, every bout "not quite"               32            4, and 2 a bout on the carer's clock   24

Sign by sign instead of at a glance may take up to 8 taps more, each time the check is asked. Trying whether the sound is heard
may take 2 more, each time, and a hold whose sound was not heard 3. What the carer answers in the client's place is counted with
the client. Once a week one question comes on top, of the week and not of the session: how sure the client feels. Its tap is not
counted.
"""

from dataclasses import dataclass

import pytest

from companion.core.observations import Bout, Ending, Quality, Reporter, SessionEnded
from companion.core.programme import Clock
from tests.scenarios.playing import ALL, Line, Rehearsals, labels

BOUTS = 7
SIGN_BY_SIGN = 8
EXERCISES = ("Seated foot press", "Feet together", "Heel to toe", "Eyes closed", "Up on your toes")
REMINDER = "Time to practise."
CHECK = "How is your balance today?"
OF_THE_WEEK = ("Sure", "A little sure", "Shaky")
NUMBER = "pick the number on their phone"
WRONG_NUMBER = "That was not the number."
TONES, UNHEARD = "How many tones", "I heard no sound"
TRY_THE_SOUND, HOLD_WITHOUT_SOUND = 2, 3
NOT_THE_CLIENTS_COURSE = {"twice_and_typing"}
"""Where everything is tapped twice, twice as much is tapped."""


@dataclass(frozen=True, slots=True)
class Cost:
    """What was tapped and shown."""

    client: int
    carer: int
    new: int


@dataclass(frozen=True, slots=True)
class Walked:
    """One session as the phones saw it, from its reminder on, and what it left."""

    lines: list[Line]
    row: set[str]
    ended: SessionEnded
    bouts: list[Bout]

    def cost(self, lines: list[Line]) -> Cost:
        taps = [line for line in lines if line.kind == "press" or (line.way == "in" and line.text in self.row)]
        taps = [tap for tap in taps if tap.text not in OF_THE_WEEK]
        client, carer = (sum(tap.phone == phone for tap in taps) for phone in ("client", "carer"))
        return Cost(client, carer, sum(line.new and line.phone == "client" for line in lines))

    def to_first_exercise(self) -> list[Line] | None:
        """Up to the first set-up on the client's phone; None if it did not come to that."""
        for place, line in enumerate(self.lines):
            if line.phone == "client" and line.way == "out" and line.text.startswith(EXERCISES):
                return self.lines[: place + 1]
        return None

    @property
    def signs(self) -> int:
        """The taps more that are allowed for checks sign by sign."""
        return SIGN_BY_SIGN * sum(
            line.text.startswith(CHECK) and line.phone == "client" for line in self.lines if line.way == "out"
        )

    @property
    def for_the_sound(self) -> int:
        """The taps more that are allowed for trying the sound, and for a hold in which it was not heard."""
        tried = sum(line.kind == "voice" and TONES in line.text and line.phone == "client" for line in self.lines)
        unheard = sum(line.kind == "press" and line.text == UNHEARD for line in self.lines)
        return TRY_THE_SOUND * tried + HOLD_WITHOUT_SOUND * unheard

    @property
    def in_the_clients_place(self) -> int:
        """How often the carer answered how a hold went that they kept no clock of."""
        return sum(bout.reporter is Reporter.CARER and bout.clock is not Clock.CARER for bout in self.bouts)

    @property
    def numbers_asked_again(self) -> int:
        """How often the number was asked again: after a wrong one, and when a check was too old."""
        return (
            sum(NUMBER in line.text and line.way == "out" and line.phone == "carer" for line in self.lines if line.buttons) - 1
        )

    @property
    def on_carers_clock(self) -> int:
        return sum(bout.clock is Clock.CARER for bout in self.bouts)

    @property
    def whole(self) -> bool:
        return self.ended.ending is Ending.DONE and self.ended.planned <= BOUTS

    @property
    def clean(self) -> bool:
        return all(bout.quality is Quality.CLEAN for bout in self.bouts)


def sessions(name: str, rehearsals: Rehearsals) -> list[Walked]:
    """Every session of a scenario that somebody came to the end of."""
    lines, observed = rehearsals.lines(name), rehearsals.observations(name)
    walked = []
    for ended in (one for one in observed if isinstance(one, SessionEnded)):
        places = [place for place, line in enumerate(lines) if line.session == ended.session]
        reminders = [at for at in range(places[0]) if lines[at].text.startswith(REMINDER) and lines[at].phone == "client"]
        asked = [lines[reminders[-1]]] if reminders and lines[reminders[-1]].at[:10] == lines[places[0]].at[:10] else []
        of_session = [line for line in lines[places[0] :] if line.session == ended.session]
        bouts = [bout for bout in observed if isinstance(bout, Bout) and bout.session == ended.session]
        walked.append(Walked([*asked, *of_session], labels(lines), ended, bouts))
    return walked


@pytest.mark.parametrize("name", sorted(set(ALL) - NOT_THE_CLIENTS_COURSE))
def test_no_session_costs_more_than_its_budget(name: str, rehearsals: Rehearsals) -> None:
    for session in sessions(name, rehearsals):
        beginning = session.to_first_exercise()
        number = f"{name}, {session.ended.session} of {session.ended.day}"
        if beginning is not None and not any(line.text.startswith(WRONG_NUMBER) for line in beginning):
            cost, signs = session.cost(beginning), SIGN_BY_SIGN * any(line.text.startswith(CHECK) for line in beginning)
            assert cost.client <= 4 + signs and cost.carer <= 1 and cost.new <= 4, f"{number}, to the first exercise: {cost}"
        if not session.whole:
            continue
        cost = session.cost(session.lines)
        carer = cost.carer - session.numbers_asked_again - session.in_the_clients_place
        client = cost.client + session.in_the_clients_place - session.signs - session.for_the_sound
        if session.clean:
            assert client <= 20, f"{number}, clean: {cost}"
            assert carer <= 2 + session.on_carers_clock and cost.new <= 20, f"{number}, clean: {cost}"
        else:
            assert client <= 32, f"{number}, not quite: {cost}"
            assert carer <= 4 + 2 * session.on_carers_clock and cost.new <= 24, f"{number}, not quite: {cost}"


def test_the_budget_is_held_against_a_clean_and_a_not_quite_session_of_7_bouts_at_a_glance(rehearsals: Rehearsals) -> None:
    full = [
        session
        for session in sessions("working_week", rehearsals)
        if session.whole and session.ended.planned == session.ended.done == BOUTS and session.signs == 0
    ]
    clean, not_quite = full
    assert clean.clean and clean.on_carers_clock == not_quite.on_carers_clock == 1
    assert {bout.quality for bout in not_quite.bouts} == {Quality.BROKE, Quality.ENDED_EARLY}
    assert clean.to_first_exercise() is not None


def test_sign_by_sign_takes_8_taps_more(rehearsals: Rehearsals) -> None:
    first, *_, last, _ = sessions("working_week", rehearsals)
    assert (first.signs, last.signs) == (SIGN_BY_SIGN, 0)
    assert first.cost(first.lines).client - last.cost(last.lines).client == SIGN_BY_SIGN
