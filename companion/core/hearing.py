"""Whether tones are heard where the client stands: kept from session to session, for as long as the place is the same."""

from companion.core.care import Client, seeing
from companion.core.effects import Urgency, words
from companion.core.sound_blocks import TONES
from companion.core.turn import Turn


def tones(seed: int) -> tuple[int, int]:
    """The numbers of tones of the two test notes: different, by the seed."""
    first = seed % len(TONES)
    second = first + 1 + seed // len(TONES) % (len(TONES) - 1)
    return TONES[first], TONES[second % len(TONES)]


def follow(turn: Turn, before: Client) -> None:
    """Keep what a session found out, and forget it where the place is another one. The therapist is told once a session."""
    client, old = turn.client, before.session
    if before.plan is not None and client.plan is not None and before.plan.place != client.plan.place:
        turn.set(sound_heard_at=None)
    now = client.session
    if now is None or old is None or old.id != now.id or now.heard == old.heard:
        return
    turn.set(sound_heard_at=turn.at if now.heard else None)
    if now.heard is False:
        for therapist in seeing(client, turn.at):
            turn.say(therapist, words("sound-unheard-therapist", name=client.name), urgency=Urgency.ANSWER, topic="talk")
