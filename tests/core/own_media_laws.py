"""The laws of what therapists recorded for a client: judged after every event, beside those of `laws.py`."""

from companion.core.care import Client, seeing
from companion.core.client import Decision
from companion.core.effects import Say
from companion.core.events import Event, MediaGiven, MediaRemoved, Pressed
from companion.core.media import Recorded


class OwnMediaLaws:
    """Judges one client's life. Keeps which files this client ever agreed to."""

    def __init__(self, agreed: frozenset[str] = frozenset()) -> None:
        self.agreed = agreed

    def copy(self) -> "OwnMediaLaws":
        return OwnMediaLaws(self.agreed)

    def judge(self, before: Client, event: Event, decision: Decision) -> None:
        """AssertionError with the law that an event broke."""
        after = decision.client
        self.agreed |= _kept(before)
        new = _kept(after) - self.agreed
        if new:
            assert isinstance(event, Pressed) and event.by == after.people.client, f"{event} agreed for the client"
            assert after.hold is None and after.session is None, "agreed while everything is stopped, or in a session"
        self.agreed |= new
        for say in [effect for effect in decision.effects if isinstance(effect, Say)]:
            if isinstance(say.media, Recorded):
                self._is_theirs(before, after, say, say.media)
        _is_given_by_who_may(before, event, after)
        _is_kept_only_of_who_agreed(after)

    def _is_theirs(self, before: Client, after: Client, say: Say, media: Recorded) -> None:
        """Nobody but the client gets it, and of another client nothing ever comes; in a session only what was agreed to."""
        assert say.to == after.people.client, f"a recording came to {say.to}"
        if say.topic == "media":
            known = {own.media.file_id for own in (*before.own_media, *after.own_media)}
            assert media.file_id in known, "a recording of nobody knows whom"
            assert after.session is None and after.hold is None, "asked about a recording at a bad moment"
        else:
            assert media.file_id in self.agreed, "a recording is used that the client did not agree to"


def _kept(client: Client) -> frozenset[str]:
    return frozenset(own.media.file_id for own in client.own_media if own.kept_at is not None)


def _is_given_by_who_may(before: Client, event: Event, after: Client) -> None:
    if isinstance(event, MediaGiven | MediaRemoved) and before.own_media != after.own_media:
        assert event.by in seeing(before, event.at), f"{event.by} changed what is recorded"


def _is_kept_only_of_who_agreed(after: Client) -> None:
    if after.consent is None or after.discharged_at is not None:
        assert not after.own_media, "files are kept of somebody who left"
    kept = [own.exercise for own in after.own_media if own.kept_at is not None]
    waiting = [own.exercise for own in after.own_media if own.kept_at is None]
    assert len(set(kept)) == len(kept) and len(set(waiting)) == len(waiting), "two recordings for one exercise"
    assert sum(own.asked for own in after.own_media if own.kept_at is None) <= 1, "two questions stand at a time"
