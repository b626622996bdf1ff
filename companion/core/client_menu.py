"""What a client finds behind *More*, beside the session: at most 3 choices a screen, at most 3 screens deep.

    more -> I fell | Practise now | Something else
    else -> Tell my therapist | My week and my goal | Pause, help or leave
    week -> My goal | What my helper sees | From my therapist
    rest -> Pause | How this works | Leave        help -> Fewer words

Every screen stands on the card of the menu and is changed in place. The menu keeps no state: a button says by itself what it
is for, so that an old one still does what it says.
"""

from companion.core import agreement, alerts, carer_leaving, my_week, own_media_question, pausing, short_words, talk, telling
from companion.core.consenting import CARER_SEES, carer_sees_buttons
from companion.core.effects import PersonId, Put, Words, words
from companion.core.events import Pressed
from companion.core.observations import ConsentAnswer, ConsentNoted
from companion.core.starting import start_session
from companion.core.turn import ANSWER, Turn

SCREENS: dict[str, tuple[tuple[str, str], ...]] = {
    "more": (("b-i-fell", "fell"), ("b-practise-now", "practise"), ("b-else", "else")),
    "else": (("b-tell", "tell"), ("b-week", "week"), ("b-rest", "rest")),
    "helping": (("b-i-fell", "fell"), ("b-had-to-leave", "left"), ("b-else", "else")),
    "rest": (("b-pause", "pause"), ("b-help", "help"), ("b-leave", "leave")),
}
"""The screens that only lead on: their buttons as (label, choice), by name."""

WITHOUT_CONSENT = ("fell", "practise", "left", "else", "rest", "help", "consent", "leave", "stay")
"""What works before the client has agreed; the rest asks for the consent first."""


def more(turn: Turn) -> None:
    """The first screen, said new. In a session on a shared phone the carer finds there what their own row would have."""
    session = turn.client.session
    helping = session is not None and session.carer_phone == session.phone
    _screen(turn, "helping" if helping else "more", Put.NEW)


def pressed(turn: Turn, event: Pressed) -> None:
    """A button of the menu, pressed by the client."""
    turn.reply()
    choice = event.press.choice
    if turn.client.consent is None and choice not in WITHOUT_CONSENT:
        agreement.ask(turn)
    elif choice == "fell":
        alerts.fell(turn, event.by)
    elif choice == "practise":
        _practise(turn, event.by)
    elif choice == "left":
        _carer_left(turn)
    elif choice == "help":
        talk.help_with(turn, event.by)
    elif choice in SCREENS:
        _screen(turn, choice, Put.IN_PLACE)
    elif choice in short_words.CHOICES:
        _style(turn, event.by, choice)
    elif turn.client.session is not None and choice not in ("leave", "stay"):
        _with_the_question(turn, event.by, (words("menu-in-session"),))  # *Enough* ends it, or it goes on
    else:
        _beside(turn, event)


def _beside(turn: Turn, event: Pressed) -> None:
    """What is only done while no session runs."""
    step, choice = event.press.step, event.press.choice
    if choice == "consent":
        agreement.ask(turn)
    elif choice == "week":
        my_week.show(turn)
    elif choice == "tell":
        telling.begin(turn)
    elif choice == "goal":
        telling.begin_goal(turn)
    elif (step, choice) == ("tell", "done"):
        telling.done(turn)
    elif choice == "sees":
        _ask_carer_sees(turn)
    elif choice == "own" or step == "own":
        own_media_question.listed(turn, choice)
    elif choice in ("leave_out", "show"):
        own_media_question.chosen(turn, step, choice)
    elif step == "sees" and choice in CARER_SEES:
        _carer_sees(turn, choice)
    elif turn.client.discharged_at is not None and choice not in ("leave", "stay"):
        turn.say(event.by, words("ended-start"), card="menu", put=Put.IN_PLACE, **ANSWER)
    elif choice == "pause":
        pausing.begin(turn)
    elif choice == "leave":
        _leave(turn, step)
    elif choice == "stay":
        turn.say(event.by, words("stayed"), card="menu", put=Put.IN_PLACE, **ANSWER)
    else:
        pausing.pressed(turn, event)


def _practise(turn: Turn, by: PersonId) -> None:
    if turn.client.session is None:
        start_session(turn)
        return
    again = talk.where_we_are(turn, by, ())
    if again is not None:
        turn.effects.append(again)


def _carer_left(turn: Turn) -> None:
    by = turn.client.people.client
    if carer_leaving.counts_on(turn.client, by):
        carer_leaving.had_to_leave(turn, by)
    else:
        turn.say(by, words("nothing-runs"), **ANSWER)


def _style(turn: Turn, by: PersonId, choice: str) -> None:
    lines = short_words.choose(turn, choice)
    if turn.client.session is not None:
        _with_the_question(turn, by, lines)
    else:
        turn.say(by, *lines, card="help", put=Put.IN_PLACE, **ANSWER)


def _with_the_question(turn: Turn, by: PersonId, before: tuple[Words, ...]) -> None:
    """Said, and the question of the session once more, if one is open: first things first."""
    again = talk.where_we_are(turn, by, before)
    if again is not None:
        turn.effects.append(again)
    else:
        turn.say(by, *before, silent=True, **ANSWER)


def _screen(turn: Turn, name: str, put: Put) -> None:
    buttons = tuple(turn.button(label, "menu", name, choice) for label, choice in SCREENS[name])
    turn.say(turn.client.people.client, words("more"), buttons=buttons, card="menu", put=put, **ANSWER)


def _ask_carer_sees(turn: Turn) -> None:
    people = turn.client.people
    if people.carer is None:
        my_week.show(turn)
        return
    buttons = tuple(turn.button(label, "menu", "sees", choice) for label, choice in carer_sees_buttons())
    lines = (words("consent-carer", carer=people.name(people.carer)), words("consent-carer-ask"))
    turn.say(people.client, *lines, buttons=buttons, card="menu", put=Put.IN_PLACE, **ANSWER)


def _carer_sees(turn: Turn, choice: str) -> None:
    client, seen = turn.client, CARER_SEES[choice]
    assert client.consent is not None
    if seen != client.carer_sees:
        turn.set(carer_sees=seen)
        version = client.consent.version
        turn.record(ConsentNoted(turn.at, client.people.client, version, ConsentAnswer.AGREED, seen))
    turn.say(client.people.client, words("carer-sees-kept"), card="menu", put=Put.IN_PLACE, **ANSWER)


def _leave(turn: Turn, step: str) -> None:
    """Says what is kept and asks once more; only the second press leaves."""
    to = turn.client.people.client
    if step == "leave":
        if turn.client.consent is not None or turn.client.refused_at is None:
            agreement.withdrawn(turn)
        turn.say(to, words("left-for-good"), words("left-for-good-back"), card="menu", put=Put.IN_PLACE, **ANSWER)
        return
    choices = (("b-leave-now", "leave"), ("b-stay", "stay"))
    buttons = tuple(turn.button(label, "menu", "leave", choice) for label, choice in choices)
    lines = (words("leave-what"), words("leave-kept"), words("leave-told"))
    turn.say(to, *lines, buttons=buttons, card="menu", put=Put.IN_PLACE, **ANSWER)
