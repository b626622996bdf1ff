"""Random lives. Hypothesis leads them, and every event goes through the laws of `laws.py`:

nobody is forgotten; after an alarm the next one is later; after a red flag nobody is told to exercise until the therapist
lifts it; nobody stands without a complete, fresh check; what was pressed is counted once; nothing is harder than opened;
closed eyes need leave, a carer, and a time that is heard; a note plays in quiet, and only once tones were heard; a phone in a
stance stays quiet; few buttons in a safety question.
"""

from datetime import timedelta

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, precondition, rule, run_state_machine_as_test

from tests.core import lives
from tests.core.home import Home, home
from tests.core.lives import Choose, Happening
from tests.core.practice import THERAPIST, full_plan, sound_plan

ANYTHING: tuple[Happening, ...] = (
    lives.an_old_press,
    lives.a_forged_press,
    lives.a_row_press,
    lives.typed_words,
    lives.a_receipt,
    lives.a_loss,
    lives.coming_and_going,
    lives.a_new_plan,
    lives.a_baseline,
    lives.changing_hands,
    lives.a_word_on_the_consent,
    lives.a_word_on_the_carer,
)


def chosen(data: st.DataObject) -> Choose:
    """Chance by Hypothesis."""
    return Choose(lambda options: data.draw(st.sampled_from(options)))


class Life(RuleBasedStateMachine):
    """One client's life: presses that fit and presses that do not, alarms on time and late, messages taken and lost."""

    it: Home

    @initialize(data=st.data())
    def a_client_begins(self, data: st.DataObject) -> None:
        self.it = lives.any_home(chosen(data))

    @rule(data=st.data())
    def a_button_that_stands_there_is_pressed(self, data: st.DataObject) -> None:
        self._happens(lives.a_press, data)

    @precondition(lambda self: not self.it.over)
    @rule(data=st.data())
    def the_question_of_the_session_is_answered(self, data: st.DataObject) -> None:
        self._happens(lives.an_answer, data)

    @rule(data=st.data())
    def time_passes_to_the_next_alarm(self, data: st.DataObject) -> None:
        lives.time_passes(self.it, chosen(data))
        self._happens(lives.an_alarm, data)

    @rule(data=st.data(), what=st.sampled_from(ANYTHING))
    def anything_happens(self, data: st.DataObject, what: Happening) -> None:
        self._happens(what, data)

    @precondition(lambda self: self.it.held)
    @rule()
    def the_therapist_lifts_the_stop(self) -> None:
        self.it.now += timedelta(seconds=1)
        if [button for button in self.it.phone(THERAPIST).buttons() if button.press.choice == "lift"]:
            self.it.press(THERAPIST, "lift")
            self.it.press(THERAPIST, "spoke")
            assert not self.it.held

    def _happens(self, what: Happening, data: st.DataObject) -> None:
        self.it.now += timedelta(seconds=1)
        event = what(self.it, chosen(data))
        if event is not None:
            self.it.do(event)


class Session(Life):
    """The same, from the first set-up of the full plan on: so that most of what happens, happens in a session."""

    @initialize(data=st.data())
    def a_client_begins(self, data: st.DataObject) -> None:
        more = {name: chosen(data).flag() for name in ("one_good_hand", "ankle_blocked", "eyes_closed", "blood_thinner")}
        of = chosen(data).of((full_plan, sound_plan))
        self.it = home(of(**more)).start().check()


EXAMPLES = settings(max_examples=100, stateful_step_count=50)


def test_the_laws_hold_in_any_life() -> None:
    run_state_machine_as_test(Life, settings=EXAMPLES)


def test_the_laws_hold_whatever_happens_in_a_session() -> None:
    run_state_machine_as_test(Session, settings=EXAMPLES)
