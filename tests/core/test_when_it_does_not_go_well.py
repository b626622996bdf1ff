"""When it does not go well: each thing that can happen, played at every step at which a session of the full plan can wait,
and at those that only a plan by sound has.

A test is told a kind of step and plays it in the easiest, the hardest and a middle way of doing that exercise.
"""

import re
from collections import defaultdict
from dataclasses import replace

import pytest

from companion.core.effects import Say, Urgency
from companion.core.events import Control, Why
from companion.core.observations import Bout, Ending, FallReported, OwnWords, Quality
from companion.core.programme import Posture
from companion.core.steps import Ask, Counted, Sounded, Timed
from tests.core.everywhere import by_sound, full
from tests.core.home import Home
from tests.core.practice import CARER, CLIENT, EXERCISES, NINE, THERAPIST

BOUTS = ("press", "together", "tandem", "tandem", "dark", "toes", "toes", "rise", "sit")
STANDING = {"into", "hold", "start", "how", "lost", "again", "count"}
BY_SOUND = ("note", "no-note", "tones", "what", "when")
DOUBTS = {"unsure.sign", "carer-unsure.sign"}


def kind_of(step: str) -> str:
    """The kind of a step: its exercise and what is waited for, whatever the form; "sign" stands for each of the signs."""
    bout = re.fullmatch(r"b(\d+)\.\d+\.([\w-]+)", step)
    if bout:
        return f"{BOUTS[int(bout[1]) - 1]}.{bout[2]}"
    if re.fullmatch(r"i\d+\.rest\d*", step):
        return "rest"
    return re.sub(r"^(check|unsure|carer-unsure)\.\w+$", r"\1.sign", step)


def by_kind() -> dict[str, list[Home]]:
    kinds = defaultdict(list)
    for step in sorted(full()):
        kinds[kind_of(step)].append(full()[step])
    for step in sorted(by_sound()):
        home = by_sound()[step]
        if step.startswith("sound-") or (step.endswith(BY_SOUND) and home.session.heard):
            kinds[f"by-sound {kind_of(step)}"].append(home)
    return {kind: [steps[at] for at in sorted({0, len(steps) // 2, len(steps) - 1})] for kind, steps in sorted(kinds.items())}


KINDS = by_kind()
AT_EVERY_STEP = pytest.mark.parametrize("kind", KINDS)


def homes(kind: str) -> list[Home]:
    """A home at each step of that kind."""
    return [here.copy() for here in KINDS[kind]]


def stood(it: Home) -> bool:
    """Whether somebody stands on the session's word, or stood and was not heard of since."""
    step = it.session.current
    if isinstance(step, Sounded) or it.at.startswith("sound-") or it.at.endswith(".no-note"):
        return isinstance(step, Sounded) or (isinstance(step, Ask) and step.watch)
    script = it.session.script.steps
    bout, _, waits = it.at.rpartition(".")
    mine = (step.bout for step in script if isinstance(step, Timed | Counted) and step.id.rpartition(".")[0] == bout)
    return waits in STANDING and any(spec is not None and spec.posture is Posture.STANDING for spec in mine)


def left_over(it: Home, before: int) -> list[Bout]:
    return it.bouts[before:]


def practise_again(it: Home) -> None:
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "practise")


def test_the_steps_that_are_played_are_of_every_kind() -> None:
    assert {"tandem.into", "tandem.hold", "tandem.lost", "dark.start", "dark.known", "toes.count", "helper", "rest"} <= set(
        KINDS
    )
    assert {kind_of(step) for step in full()} <= set(KINDS) and len(full()) > 200
    assert {"by-sound tandem.note", "by-sound dark.no-note", "by-sound sound-check.twice.tones"} <= set(KINDS)


# --- something is wrong, a fall -----------------------------------------------------------------------------------


@AT_EVERY_STEP
@pytest.mark.parametrize("by", [CLIENT, CARER])
def test_something_is_wrong_stops_everything_until_the_therapist_lifts_it(kind: str, by: str) -> None:
    for it in homes(kind):
        bouts = len(it.bouts)
        it.row(by, Control.SOMETHING_WRONG)
        assert it.over and it.held and it.ended[-1].ending is Ending.STOPPED
        assert "emergency-stop" in it.keys(CLIENT) and "alert-title" in it.keys(THERAPIST)
        assert {"emergency-go", "emergency-go-fall"} & set(it.keys(CARER))
        assert all(bout.quality is not Quality.CLEAN for bout in left_over(it, bouts))
        practise_again(it)
        assert it.keys(CLIENT) == ["held"]
        it.lift()
        practise_again(it)
        assert it.keys(CLIENT) == ["off-today"]
        it.until(it.now.replace(day=3, hour=9))
        it.press(CLIENT, "start")
        assert it.at == f"check.{it.rules.signs[0]}"


@AT_EVERY_STEP
@pytest.mark.parametrize("by", [CLIENT, CARER])
def test_a_fall_is_alerted_and_asked_after(kind: str, by: str) -> None:
    for it in homes(kind):
        it.row(by, Control.MORE)
        it.press(by, "fell")
        assert it.over and it.held and it.hold.fall is not None
        assert "emergency-stop" in it.keys(CLIENT) and "alert-title" in it.keys(THERAPIST) and "flag-ask-fall" in it.keys(by)
        it.wait(600)
        assert it.heard(by).count("flag-ask-fall") == 2 and "alert-again" in it.heard(THERAPIST)
        assert len(it.all(FallReported)) == 1


# --- enough, the carer leaves -------------------------------------------------------------------------------------


@AT_EVERY_STEP
def test_enough_ends_kindly_and_only_what_is_left_is_offered_again(kind: str) -> None:
    for it in homes(kind):
        planned, done = it.session.script.bouts, it.session.done
        it.row(CLIENT, Control.ENOUGH)
        assert it.over and not it.held
        if kind in DOUBTS:
            assert it.ended[-1].ending is Ending.NOT_READY and "unsure-therapist" in it.keys(THERAPIST)
            continue
        assert it.ended[-1].ending is Ending.PARTLY and "closing-enough" in it.keys(CLIENT) and it.keys(THERAPIST) == []
        assert not [say for say in it.last if isinstance(say, Say) and say.urgency is Urgency.ALERT]
        practise_again(it)
        if set(planned) == set(done):
            assert it.keys(CLIENT) == ["nothing-left"]
            continue
        assert it.at.startswith("check")
        assert it.session.script.bouts == tuple(bout for bout in planned if bout not in done)


@AT_EVERY_STEP
def test_a_carer_who_has_to_leave_ends_standing_at_once_and_comes_back_by_a_new_check_and_number(kind: str) -> None:
    for it in homes(kind):
        seated_before = it.session.seated_only
        it.row(CARER, Control.HAD_TO_LEAVE)
        if kind in DOUBTS:
            assert it.over and it.ended[-1].ending is Ending.NOT_READY
            continue
        said_before = kind == "carer-left"
        assert it.at == "carer-left" and ("sit-down" in it.keys(CLIENT)) is not said_before
        it.wait(1)
        back, seated = it.copy(), it.copy()
        number = back.session.numbers
        back.press(CLIENT, "back")
        assert back.at.startswith("check")
        back.check()
        assert back.session.numbers[:1] != number[:1]
        back.finish()
        assert back.ended[-1].ending is (Ending.PARTLY if seated_before else Ending.DONE)
        bouts = len(seated.bouts)
        seated.press(CLIENT, "seated")
        seated.finish()
        assert {posture(bout) for bout in left_over(seated, bouts)} <= {Posture.SEATED}
        assert seated.ended[-1].ending is Ending.PARTLY


def posture(bout: Bout) -> Posture:
    return EXERCISES[bout.exercise].form(bout.form).posture


# --- silence, an outage, a lost message ---------------------------------------------------------------------------


@AT_EVERY_STEP
def test_silence_ends_every_session_and_is_told_where_somebody_stood(kind: str) -> None:
    for it in homes(kind):
        bouts, on_their_feet = len(it.bouts), stood(it)
        it.wait(6 * 3600)
        assert it.over and not it.held
        assert "closing-all" not in it.heard(CLIENT) and all(end.ending is not Ending.DONE for end in it.ended)
        assert all(bout.quality is not Quality.CLEAN for bout in left_over(it, bouts))
        if on_their_feet:
            assert it.ended[-1].ending is Ending.NO_WORD
            assert (
                "no-word-therapist" in it.heard(THERAPIST) and "nudge" in it.heard(CLIENT) and "nudge-carer" in it.heard(CARER)
            )
        elif kind != "rest":  # after some rests a bout follows that no Ready starts
            assert "no-word-therapist" not in it.heard(THERAPIST)
        assert ("unsure-therapist" in it.heard(THERAPIST)) is (kind in DOUBTS)


@AT_EVERY_STEP
@pytest.mark.parametrize("away", [4.0, 40.0, 700.0, 20000.0])
def test_after_a_restart_no_clock_runs_on_and_no_late_cue_is_given(kind: str, away: float) -> None:
    """The alarm that was due goes off that many seconds late."""
    for it in homes(kind):
        it.now = max(it.now, it.wake)
        it.away(away)
        heard = it.keys(CLIENT) + it.keys(CARER)
        assert "time" not in heard and "carer-time" not in heard
        if kind.endswith((".hold", ".into")):
            late = away > (10 if kind.endswith(".into") else 3)
            assert not late or it.at.endswith((".lost", ".again"))
        if not it.over:
            it.finish(prefer=("held",))
            assert it.ended and it.over
        if kind.endswith(".hold"):
            lost = [bout for bout in it.bouts if bout.quality is Quality.UNKNOWN]
            assert lost and lost[0].practised_s is None and lost[0].first_break is None


@AT_EVERY_STEP
@pytest.mark.parametrize("why", list(Why))
def test_a_message_that_is_lost_never_leaves_a_clock_running(kind: str, why: Why) -> None:
    for it in homes(kind):
        if not it.tags:
            continue
        was, step = it.client, it.session.current
        it.lose(why)
        if isinstance(step, Ask) and step.late is not None and it.at.endswith(".lost"):
            it.press(CLIENT, "held")
            assert it.bouts[-1].quality is Quality.UNKNOWN and it.bouts[-1].practised_s is None
        elif isinstance(step, Ask | Sounded) and step.lost is not None:
            assert it.at.endswith(".no-note")
        else:
            assert it.client == was, "the clock had begun, or the message was of an earlier step"
        it.finish()


@AT_EVERY_STEP
def test_words_that_are_typed_are_kept_and_change_nothing(kind: str) -> None:
    for it in homes(kind):
        was = it.client
        for by in (CLIENT, CARER):
            it.write(by, "my knee hurts")
            assert "typed-emergency" in it.keys(by)
        assert replace(it.client, said=was.said) == was and len(it.all(OwnWords)) == 2


@AT_EVERY_STEP
def test_a_button_of_an_earlier_step_changes_nothing(kind: str) -> None:
    for it in homes(kind):
        was, now = it.client, (it.session.id, str(it.session.turn))
        for by, press in it.ever:
            if (press.scope, press.step) != now:
                it.send(by, press)
                assert it.client == was


@AT_EVERY_STEP
def test_nobody_answers_for_somebody_else(kind: str) -> None:
    for it in homes(kind):
        was, now = it.client, (it.session.id, str(it.session.turn))
        asked = [(by, press) for by, press in it.ever if (press.scope, press.step) == now]
        for _, press in asked:
            for other in {CLIENT, CARER, THERAPIST} - {who for who, one in asked if one == press}:
                it.send(other, press)
                assert it.client == was
        assert asked or isinstance(it.session.current, Timed), "at every step but a clock somebody is asked something"


def test_the_reminder_of_the_next_day_comes_after_every_end() -> None:
    for step, here in full().items():
        it = here.copy()
        it.row(CLIENT, Control.ENOUGH)
        it.until(NINE.replace(day=3))
        assert it.keys(CLIENT)[:1] == ["reminder"], f"after enough at {step}"
