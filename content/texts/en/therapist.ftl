### For the therapist and the next contacts: dense, exact, with units. "Reported" is what client or carer said;
### "unknown" is where nobody answered. Nothing here names an illness.

## The therapist's fixed row of controls. Every label ever shipped must go on being understood.

row-caseload = My clients
row-new-client = New client
row-settings = Settings

## Joining and typing

welcome-therapist = Hello { $name }. You get a chart of each client once a week and every red flag at once. This chat is not monitored, and the companion never changes a plan.
welcome-contact = Hello { $name }. You are a next contact: you get a red flag that the therapist has not acknowledged. You can acknowledge it and say whether you reached the client; words that you type then are passed on. Only the therapist can lift a stop.
typed-therapist = This chat takes buttons only; nothing was changed. Charts come weekly, red flags at once.
left-therapist = { $name }: { $who } can not be reached in this chat any more (blocked or left).
report-failed = The chart for { $first } to { $last } could not be drawn. The record is kept; ask the operator.
invitation-picture = The same link, to scan with the camera of their phone.

## Sessions

sound-unheard-therapist = { $name }: sound check not passed at the place of practice (reported: tones not heard, not counted right, or the check declined). Exercises by sound go on another clock or are left out until it passes.
unsure-therapist = { $name }: "different or not sure" at the check, no sign named (reported). No practice today.
no-word-therapist = { $name }: session ended without word after a standing bout, { $at } ({ $zone }). How it went is unknown.

ending-done = done
ending-partly = partly done
ending-stopped = stopped by a red flag
ending-no-word = ended without word (unknown)
ending-not-ready = not ready at the check
ending-no-answer = no answer (unknown)
ending-not-asked = not asked (companion away)
ending-declined = declined
ending-held = on hold (red flag)
ending-paused = paused

## Red flags

alert-title = RED FLAG ({ $level }): { $name }
alert-again = RED FLAG, not acknowledged yet ({ $level }): { $name }
alert-update = RED FLAG, update ({ $level }): { $name }
alert-update-up = RED FLAG, update ({ $level }): { $name }, up and safe (reported)
alert-contact = RED FLAG ({ $level }): { $name }. The therapist has not acknowledged it; you are the next contact.
alert-contact-alone = RED FLAG ({ $level }): { $name }. The therapist can not be reached in this chat; you are the next contact.
alert-handed-over = RED FLAG, open ({ $level }): { $name }. You see to this client now.
alert-as-cover = You are told as cover for { $therapist }.
alert-as-deputy = { $therapist } is off duty; you are told as deputy. You can acknowledge and note a call; only a therapist who sees to the client can lift a stop.
alert-when = Raised { $at } ({ $zone })
alert-by = Reported by { $by }
alert-fact = · { $fact }
alert-told = · { $at } reported by { $by }: { $fact }
alert-during = During: { $exercise }, { $form }, { $side }; no clock running
alert-during-hold = During: { $exercise }, { $form }, { $side }; second { $second } of { $target } (companion's clock)
alert-during-check = During a session: safety check, set-up or rest
alert-side-weaker = weaker side
alert-side-stronger = stronger side
alert-side-none = no side
alert-call-reached = Call { $at } { $by }: reached
alert-call-not-reached = Call { $at } { $by }: not reached
alert-call-with-them = { $at } { $by } (contact): is with them
alert-own-words = { $at } { $by } (contact), own words: "{ $text }"
alert-blood-thinner = On a blood thinner (baseline)
alert-contact-saw = Seen by { $who }
alert-mistake = Then reported: pressed by mistake
alert-fall-open = No answer to "up and safe?" for { $minutes } min: unknown
alert-past = { $day }: { $ending }, { $done } of { $planned } bouts reported
alert-held = All exercise is stopped until the therapist lifts it.
alert-noted = Noted.
alert-noted-already = Noted before.
alert-seen = { $name }: acknowledged. All exercise stays stopped.
alert-seen-contact = { $name }: acknowledged. Thank you. Only the therapist can lift the stop.
alert-waiting = { $name }: all exercise is still stopped. Your decision is waiting.
alert-kept = { $name }: the stop stays.
alert-call-noted = { $name }: call noted. All exercise stays stopped.
alert-seen-by = { $name }: acknowledged by { $who }. All exercise stays stopped.
alert-calls = Calls and words noted: { $count }
alert-since = Red flag of { $at } ({ $zone })
b-alert-seen = I have seen this
b-alert-lift = Lift the stop...
lift-ask = { $name }: lift the stop? Choose the reason.
b-call-reached-therapist = I called: reached
b-call-not-reached-therapist = I called: not reached
b-call-reached-contact = I called: reached
b-call-not-reached-contact = I called: not reached
b-call-with-them-contact = I am with them
b-lift-spoke = Spoke with client: safe
b-lift-visited = Saw the client: safe
b-lift-doctor = Doctor: may practise
b-lift-mistake = Pressed by mistake: lift
b-lift-keep = Keep the stop
lift-kept = The stop stays.
lifted = { $name }: stop lifted ({ $reason }).
lifted-by = { $name }: stop lifted by { $who } ({ $reason }).
lift-reason-spoke = spoke with client: safe
lift-reason-visited = saw the client: safe
lift-reason-doctor = a doctor says that practice may go on
lift-reason-mistake = pressed by mistake

fact-fall = fall
fact-still-down = still down after a fall
fact-up-and-safe = then up and safe
fact-head-not-hit = head hit: no
fact-near-fall = near-fall: saved, did not reach the floor
fact-head-knock = head hit
fact-hurt = hurt, or not sure
fact-head-unsure = head hit: not sure
fact-pressed-wrong = pressed "Something is wrong"
fact-felt-unwell = felt unwell
fact-carer-different = carer: does not look as usual
fact-blood-thinner = on a blood thinner (baseline)

## The client beside the session

consent-declined-therapist = { $name }: consent declined on the client's phone. No reminders, no sessions. The client can read it again at any time.
left-for-good-therapist = { $name }: left (consent withdrawn by the client). No reminders, no sessions from now on; what was reported is kept. An open red flag stays open.
b-page-shared-on = Allow one shared phone
b-page-shared-off = End the shared phone
page-shared-is-on = Shared phone: allowed.
page-shared-is-off = Shared phone: not allowed.
page-shared-means = The carer's screens then come on the client's phone, marked as the carer's, without the number check. Charts show such sessions as "not verified". From the next session on.
b-page-remove-sure = Remove { $carer } now
page-remove-ask = Remove { $carer } as carer?
page-remove-means = { $carer } then gets and sees nothing more here, also not as a next contact; a session with them ends. What they reported stays on record. A plan that needs a carer is seated until another one joins.
page-removed = { $carer } was removed as carer.
page-removed-means = Old buttons of theirs do nothing. A plan that needs a carer is seated from now on; another carer is named under Baseline.
near-fall-therapist = { $name }: near-fall, not hurt (reported by { $by }, { $at } { $zone }). Saved, did not reach the floor (ProFaNE). No red flag was raised.
worry-therapist = { $name }, a worry of { $by } (reported; "it can wait"), { $at }: { $text }
worry-therapist-form = { $name }, a worry of { $by } (reported; "it can wait"), { $at }, as { $form ->
        [voice] a voice note
        [photo] a photo
        [video] a video
       *[other] a file
    }: see below, as it was sent.
tell-therapist = { $name }, own words (reported), { $at }: { $text }
tell-therapist-form = { $name }, { $form ->
        [voice] voice note
        [audio] sound file
        [photo] photo
        [video] video
        [video_note] video note
       *[document] file
    } (own, reported), { $at }: see below, as it was sent.
pause-therapist = { $name }: pause ({ $why ->
        [unwell] unwell, no emergency sign reported
       *[holiday] break or holiday
    }), { $until ->
        [open] until the client comes back
       *[other] reminders again from { $until }
    }. Days are recorded as paused.
pause-unsure-therapist = { $name }: unwell before a pause, "different or not sure", no sign named (reported). No practice today.
pause-back-therapist = { $name }: back from the pause (reported).
pause-over-therapist = { $name }: the pause is over; reminders go on.
