### What the client finds behind More, beside the session: my week, my therapist, my goal, a pause, leaving.

## The screens

b-else = Something else
b-tell = Tell my therapist
b-week = My week and my goal
b-rest = Pause, help or leave
b-pause = Pause
b-leave = Leave
b-goal = My goal
b-carer-sees = What my helper sees
menu-in-session = Practice goes on now. To end, press "Enough".

## The short style: a picture and 1 line, or all the words

b-short-words = Fewer words
b-all-words = All the words
style-short = I use fewer words now.
style-all = I use all the words now.
style-next-time = This begins with your next practice.

## My week: kind and true

week-none = I know of no practice yet this week.
week-none-kind = That is fine. Start when you like.
week-days = { $days-plural ->
        [one] You practised on 1 day this week.
       *[other] You practised on { $days } days this week.
    }
week-parts = { $parts-plural ->
        [one] You did 1 part.
       *[other] You did { $parts } parts.
    }
week-parts-and-minutes = { $parts-plural ->
        [one] You did 1 part.
       *[other] You did { $parts } parts.
    } { $minutes-plural ->
        [one] You held for 1 minute or more.
       *[other] You held for { $minutes } minutes or more.
    }
week-kind = Every time counts. Well done.
week-unsure = { $days-plural ->
        [one] Of 1 day I do not know the end.
       *[other] Of { $days } days I do not know the end.
    }

## My goal

goal-is = Your goal: "{ $goal }"
goal-ask = What would you like to do again?
goal-how = Write here, in your own words.
b-goal-later = Not now
goal-kept = Thank you. I keep your goal for you.

## Tell my therapist

tell-how = Write here. Or send your voice or a photo.
tell-not-read = Nobody reads this at once.
tell-passed = I passed this on to { $therapist }.
tell-kept = { $therapist } is not in this chat now. I keep this.
b-tell-done = That is all
tell-done = Thank you. That is all.

## A pause

pause-why = Why do you pause?
b-pause-holiday = A break or a holiday
b-pause-unwell = I am unwell
pause-how-long = For how long?
b-pause-3-days = 3 days
b-pause-1-week = 1 week
b-pause-2-weeks = 2 weeks
b-pause-open = Until I come back
paused = You pause now. I do not remind you.
pause-until = { $days-plural ->
        [one] I remind you again in 1 day.
       *[other] I remind you again in { $days } days.
    }
pause-open = Press the button when you are back.
b-pause-back = I am back
pause-none = You are not on a pause.
pause-welcome = Welcome back. I remind you as before.
pause-goes-on = Go gently at first.
pause-over = Your pause is over. I remind you as before.
pause-carer = { $name } pauses practice for a while.

## Leaving

leave-what = Do you want to leave? I will not remind you then.
leave-kept = I keep what you told me.
leave-told = I tell your therapist. Your care stays the same.
b-leave-now = Leave now
b-stay = Stay
stayed = Good. Nothing changes.
left-for-good = You have left. Thank you for your practice.
left-for-good-back = To come back, ask your therapist for a link.
left-for-good-carer = { $name } has left. I will not remind you.
