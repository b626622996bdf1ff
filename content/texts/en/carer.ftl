### What the carer finds behind "More", and what they report beside a session. $name is the client.

more-about = What is this about?
b-report = Write to the therapist
b-beside = Something else
b-near-fall = They almost fell
b-worry = I have a worry
b-how-it-goes = How it goes
b-briefing-again = Read the briefing

## One phone for both, and a carer who goes. On the client's phone the carer's words begin with "For your helper:".

b-had-to-leave = My helper had to leave
shared-now = Your helper may use this phone too.
shared-read = Please read some short words first.
shared-no-more = This phone is only for you now.
helps-nobody = You are not a helper here now. Ask the therapist.
carer-removed = You are not the helper of { $name } here now. Thank you for your help.
carer-removed-client = { $carer } is not your helper here now.

## They almost fell

near-fall-ask = Good. That was not a fall. Is { $name } hurt?
b-not-hurt = They are fine
b-hurt = Hurt, or not sure
near-fall-noted = Thank you. I noted this.
near-fall-more = If they get worse, press "Something is wrong".

## A worry

worry-ask = Do they need help now?
b-help-now = They need help now
b-can-wait = It can wait
worry-how = Write here. Or send a voice note or a picture.

## How it goes: what the client allows, and no more

carer-view-none = { $name } keeps the rest private. That is fine.
carer-view-ask = You can ask them.
carer-view-stopped = { $name } does not practise for now.
carer-view-no-stop = Nothing stops practice now.
carer-view-days = { $days-plural ->
        [one] { $name } practised on 1 day this week.
       *[other] { $name } practised on { $days } days this week.
    }
carer-view-kind = You help with that.
carer-view-no-day = I have no practice of { $name } this week.
carer-view-goal = Their goal: { $goal }
carer-view-said = They wrote: { $text }
