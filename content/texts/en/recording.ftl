### For the therapist: own voice cue, photo or clip for one exercise of one client. Dense, exact.

b-page-media = Own voice, photo, clip...

## Asked

media-which = { $name }: own voice cue, photo or clip, for which exercise?
media-caution = Only { $name } gets it, and only once they agree on their own phone. Record { $name } and what they agreed to, nobody else; say no full names.
media-medium = { $medium ->
        [photo] photo
        [video] clip
       *[voice] voice note
    }
media-there = · { $exercise }: { media-medium }, { $way ->
        [beside] beside the standard picture
       *[instead] instead of the standard picture
    }; { $state ->
        [agreed] the client agreed { $at } ({ $zone })
        [aside] the client agreed { $at } ({ $zone }); not used now, the plan has no longer the form it was recorded for
        [asked] asked { $at } ({ $zone }), no answer yet (unknown)
       *[waits] given { $at } ({ $zone }), client not asked yet
    }
b-media-exercise = { $exercise }
media-keep-there = Replace: what the client agreed to stays until they agree to the new one.
media-unplanned = Not in the plan now: not used, and not asked about.
b-media-replace = Replace
b-media-remove = Remove the { media-medium } ({ $state ->
        [agreed] agreed
       *[waits] no answer yet
    })
media-send = { $name }, { $exercise }: send a voice note, a photo or a clip now, as one message in this chat.
media-not-taken = Not taken: a voice note, a photo or a clip (video) can be sent here; no words, files or round video notes.
media-first-which = Not taken: choose the exercise first.
media-how = Above: what { $name } will see or hear with the words of the set-up. How shall it come?
b-media-instead = Instead of the standard picture
b-media-beside = Beside the standard picture
b-media-again = Send another one
b-media-back = Back
b-media-cancel = Cancel
media-cancelled = { $name }: nothing changed.
media-passed-on = { $name }: being passed on.

## Done

media-given = { $name }, { $exercise }: { media-medium } kept. Used only if the client agrees on their own phone.
media-when-now = The client is being asked now.
media-when-day = The client is asked in the daytime, outside the quiet hours.
media-when-answered = The client is asked once another one was answered.
media-when-session = The client is asked after the session under way.
media-when-lifted = The client is asked once the red flag is lifted.
media-when-back = The client is asked once they are back from the pause.
media-when-joined = The client is asked once they are in the chat and have agreed to the words of the consent.
media-removed = { $name }, { $exercise }: { media-medium } removed. A session under way goes on as it began.
media-gone = { $name }: nothing changed; it was removed before.
media-not-in-plan = Not kept: the exercise is not in the plan any more.
media-agreed = { $name }, { $exercise }: the client agreed to the { media-medium } (own phone). Used from the next session on.
media-declined-by-client = { $name }, { $exercise }: the client declined the { media-medium } (own phone). Forgotten.
media-removed-by-client = { $name }, { $exercise }: the client took out the { media-medium } (own phone). The standard picture comes again.
media-set-aside = { $name }, { $exercise }: the { media-medium } is not used any more: the plan has no longer the form that it was recorded for. Record it anew, or remove it.
media-undelivered = { $name }, { $exercise }: the { media-medium } can not be delivered to the client. Forgotten; record it anew.
media-discharged = Not possible: discharged. A new plan opens it again.
media-no-consent = Not possible: the client has not given consent on their own phone yet.
media-no-plan = Not possible: there is no plan yet.
