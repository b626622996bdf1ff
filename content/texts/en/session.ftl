### One session, from the reminder to the last word, on the client's and the carer's phone.

## Reminder

reminder = Time to practise.
reminder-minutes = About { $minutes } minutes.
reminder-carer = It is practice time for { $name }.
b-start = Start
b-later = Later
b-not-today = Not today
later = I will ask again in { $minutes } minutes.
not-today = No practice today. That is fine.
not-today-kind = Rest well.

## How are you?

how-are-you = Is one of these new, or worse than usual?
sign-row = · { $sign }
usual-row = · { $sign }: worse than your usual
b-same = Same as usual
b-different = Different, or not sure
unsure-today = No practice today. Rest, with somebody near.
unsure-told = I wrote to your therapist.

## Your place

place-title = Is your place ready?
place-chair = Chair behind you. It can not slide.
place-floor = Floor clear and dry.
b-all-ready = All ready
b-not-ready = Not yet
place-wait = Take your time. Make your place ready first.
b-all-ready-now = All ready now

## Your helper

gate-client = Show your helper this number: { $number }
gate-carer = { $name } wants to practise.
gate-carer-look = Stand beside them, on the weaker side. Do they look as usual?
gate-carer-pick = If so, pick the number on their phone.
gate-carer-right = That is the number. Stay beside them.
gate-carer-wrong = That was not the number. Look at their phone again.
b-number = { $shown }
b-beside-them = Beside them. They look as usual
b-not-there = I am not there
b-something-different = Something is different
no-carer = Your helper did not answer. No standing now.
no-carer-there = Your helper is not with you. No standing now.
carer-too-late = That was too late. No standing for now.
nudge-answered = They have answered now.
carer-not-there = Thank you for your answer. No standing for now.
carer-looks = Your helper sees a change.
carer-left = Your helper had to leave.
carer-left-thanks = Thank you. I told { $name } to sit down.
carer-not-today = No practice now. You can go.
carer-stay = No practice today. Please stay with { $name }.
b-seated = Seated exercises
b-helper-back = My helper is back

## Set-up

set-up-title = { $name }
set-up-title-form = { $name }: { $form }
phone-in-view = Put the phone where you can see it. Keep its screen on. If you hear no sound, stop when you like.
ready-first = Read this. Press Ready. Then get into place.
sound-ready-first = Read this. Press Ready. The sound comes next.
own-media-here = From your therapist: { $name }
easier-now = Easier now.
harder-now = Harder now.
sit-down = Sit down.
hand-down = Hand on.
feet-apart = Feet apart.
eyes-open = Eyes open.
b-ready = Ready
b-easier = Make it easier
b-harder = Try a harder way
b-as-planned = As planned

## The clock on the client's screen

into-place = Stand up slowly. Get into place. { $seconds } seconds.
into-place-left = Get into place. { $left } seconds.
hold-now = Now hold still. { $seconds } seconds.
hold-now-left = { $left } seconds left.
clock-late = The clock did not start.
ready-again = Press Ready to try again.
time = Time.
clock-stopped = Sorry. The clock stopped. I do not know your time.
then-answer = Then hand on. Feet apart. Tell me how many.
then-answer-eyes = Then hand on. Eyes open. Feet apart. Tell me how many.
rest = Rest now.
rest-sit = Sit if you like. The next one comes here.

## The carer's clock

carer-clock = They do: { $name }. You keep the time. { $seconds } seconds.
carer-say-start = When they are steady, say "start". Then press Start.
b-start-clock = Start
b-step-or-touch = Step or touch
carer-hold = The clock runs. { $seconds } seconds. Watch them.
carer-hold-left = { $left } seconds left. Watch them.
carer-time = Time.
carer-say-down = Say: "Hand on. Feet apart."
carer-say-down-eyes = Say: "Hand on. Eyes open. Feet apart."
carer-clock-stopped = The clock stopped.
carer-clock-off = You did not press Start. The clock is off.
carer-has-clock = Your helper keeps the time.
carer-says-start = Stand up slowly. Get into place. Wait for the word "start".
carer-not-started = Your helper did not start the clock.
tap-noted = Noted.

## The clock in a voice note

sound-play = Press play. Then get into place.
sound-lies = Leave the phone where it lies.
sound-last-tone = The last long tone is the end. Then:
sound-stop = If no sound comes, stop when you like.
sound-then = After the sound: how did it go?
sound-starts = The clock starts with a long tone.
sound-breathe = Breathe.
sound-did-not-come = The sound did not come.
b-sound-again = Send the sound again
b-sound-heard = I heard the sound
b-unheard = I heard no sound
    .carer = They heard no sound
b-tones = { $tones-plural ->
        [zero] Before 1 short tone
        [one] After 1 short tone
       *[other] After { $tones } short tones
    }

## Is the sound heard?

sound-check = Now we try the sound.
sound-check-phone = Put the phone where it will stay.
sound-check-loud = Turn the sound up.
sound-check-ready = Press Ready. The sound comes next.
sound-count = Count the short tones.
ask-tones = How many tones did you hear?
b-heard = { $tones } tones
b-heard-nothing = I heard nothing
b-without = Without sound
sound-louder = Turn the sound up more.
sound-nearer = Put the phone nearer. Then we try once more.
sound-not-heard = You can not hear the sound here.
sound-without = We go on without sound.
sound-told = I tell your therapist.

## The carer may answer too

also-carer = Stay beside them. You can answer this for them.
also-answered = They have answered. Thank you.
also-thanks = Thank you. I noted this.
also-helper-answered = Your helper answered.

## How did it go?

ask-how = How did it go?
b-clean = Whole { $seconds } s, no step, hand off
b-clean-hand-on = Whole { $seconds } s, no step
b-not-quite = Not quite
b-unwell = I felt unwell
    .carer = They felt unwell
ask-what-happened = What happened?
b-held = I stayed steady
b-stepped-or-touched = I stepped or touched
    .carer = They stepped or touched
ask-known = Your helper pressed at { $tapped } seconds. Is that right?
    .carer = You pressed at { $tapped } seconds. Is that right?
b-known-right = At { $tapped } seconds
b-known-other = At another time
ask-when = When did you first step or touch?
    .carer = When did they first step or touch?
b-quarter = { $low } to { $high } seconds
b-when-unknown = I do not know
step-is-good = A step to save yourself is good.
ask-what = What happened then?
b-broke-step = A step
b-broke-hand = My hand touched
    .carer = Their hand touched
b-broke-both = Step and hand
b-broke-leaned = My legs leaned on the chair
    .carer = Their legs leaned on the chair
b-count = { $number }
b-fewer = Fewer
b-i-stopped = I stopped
b-foot-down = The foot came down

## What was noticed

ask-sway-amount = How much did you sway?
b-sway-amount-hardly = Hardly
b-sway-amount-a-little = A little
b-sway-amount-a-lot = A lot
ask-sway-direction = Which way did you sway?
b-sway-direction-forward-or-back = Forward or back
b-sway-direction-to-weaker = Weaker side
b-sway-direction-to-stronger = Stronger side
b-sway-direction-hardly = Hardly
ask-against-warm-up = Did you sway more or less than at warm-up?
b-against-warm-up-less = Less
b-against-warm-up-same = The same
b-against-warm-up-more = More
ask-steadier-side = Which was steadier?
b-steadier-side-front-foot-weaker = Weaker foot in front
b-steadier-side-front-foot-stronger = Stronger foot in front
b-steadier-side-front-foot-same = The same
b-steadier-side-leg-weaker = Weaker leg
b-steadier-side-leg-stronger = Stronger leg
b-steadier-side-leg-same = The same
ask-confidence = How sure do you feel on your feet?
b-confidence-sure = Sure
b-confidence-a-little-sure = A little sure
b-confidence-not-sure = Shaky
ask-effort = How hard was today?
b-effort-easy = Easy
b-effort-medium = Medium
b-effort-hard = Hard

## Closing

closing-done = You did { $done } of { $planned }.
closing-all = { $planned-plural ->
        [one] You did what was planned.
       *[other] You did all { $planned } parts.
    }
closing-clean = { $clean-plural ->
        [zero] You kept going. That is what counts.
        [one] 1 hold had no step or touch.
       *[other] { $clean } holds had no step or touch.
    }
closing-sit = Sit. Drink some water.
closing-enough = That is enough for now. Well done.
closing-idle = I close this practice now.
carer-finished = { $name } has finished.
carer-finished-ask = Are they safe and well?
b-all-is-well = All is well
b-saw-a-step = I saw a step
b-something-happened = Something happened
carer-thanks = Thank you for your help.

## No word

nudge = I have no answer from you yet.
nudge-carer = No word after standing. Please look after them now.
nudge-carer-wrong = If they are not well, press "Something is wrong".
no-word-client = I heard nothing. I close this practice.
no-word-carer = { $name } still does not answer. Go to them now.

## Presses that come too late

press-stale = I have that answer already.
press-over = That is over. Nothing changed.
press-another-day = That is from another day. Press "More" to practise.
press-not-yours = This button is not for you. Nothing changed.
