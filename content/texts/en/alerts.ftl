### Red flags, on the client's and the carer's phone. $person is you (the client's phone) or they (the carer's).
### The emergency words come first, at once, before any question. $number is this service's emergency number.

emergency-stop = Stop now. Sit down, or stay where you are.
emergency-call = In an emergency, call { $number } now.
emergency-call-now = Call { $number } now.
emergency-bot = I can not call for you.
emergency-go = Go to them now. Stay with them.
emergency-go-fall = Go to them now. Do not lift them. Stay with them.
helper-pressed = Your helper pressed for help.
happened-pressed-wrong = { $name } pressed: Something is wrong.
happened-fall = { $name } fell.
happened-still-down = { $name } is still down.
happened-felt-unwell = { $name } feels unwell.
happened-sign = { $name } has a new or worse sign: { $sign }.
helper-mistake = Your helper pressed by mistake. No more practice today.
told = I wrote to { $who }.
told-not = I can not reach { $who } here. Call them.
told-therapist = { $therapist }, the therapist
told-contact = { $contact }
told-stand-in = { $name }, who stands in
told-off-duty = { $who } is off work now.
told-late = They may see this late.

## The carer is the next contact too

alert-contact-carer = The therapist has not answered yet. You are next.
alert-contact-alone-carer = I can not reach the therapist. You are next.
alert-seen-carer = Thank you. I noted that you saw this.
alert-call-noted-carer = Thank you. I noted this.
alert-stays-carer = No practice for { $name } for now.
b-call-reached-carer = They picked up
b-call-not-reached-carer = No answer
b-call-with-them-carer = I am there now

## The questions

flag-ask-what = What happened?
flag-ask-fall = { $person ->
        [they] Is { $name } up and safe?
       *[you] Are you up and safe?
    }
flag-ask-head = { $person ->
        [they] Did their head hit anything?
       *[you] Did your head hit anything?
    }
b-flag-fell-you = I fell
b-flag-fell-they = They fell
b-flag-unwell-you = I am unwell
b-flag-unwell-they = They are unwell
b-flag-mistake-you = Pressed by mistake
b-flag-mistake-they = Pressed by mistake
b-flag-up-you = Up and safe
b-flag-up-they = Up and safe
b-flag-down-you = Still down
b-flag-down-they = Still down
b-flag-saved-you = I did not reach the floor
b-flag-saved-they = They did not reach the floor
b-flag-hit-you = I hit my head
b-flag-hit-they = They hit their head
b-flag-not-hit-you = No knock at all
b-flag-not-hit-they = No knock at all
b-flag-not-sure-you = Not sure
b-flag-not-sure-they = Not sure

flag-noted = Thank you. I noted this.
flag-noted-unwell = I noted "unwell".
flag-noted-head = I noted the knock to the head.
flag-still-down = { $person ->
        [they] Keep them warm. Do not lift them.
       *[you] Stay there. Stay warm.
    }
flag-saved = Good. That was not a fall.
flag-urgent = { $person ->
        [they] Call their therapist today. Or call their doctor.
       *[you] Call your therapist or your doctor today.
    }
flag-mistake = Thank you. I noted "by mistake".
flag-mistake-today = { $person ->
        [they] No more practice today.
       *[you] No more practice today. Rest now.
    }
flag-sit = { $person ->
        [they] Let them sit down.
       *[you] Sit down.
    }
flag-seen = { $who } has seen this.
flag-called = { $who } called. No one answered.
flag-called-near = Please keep your phone near.
flag-lifted = { $who } says: Practice can go on.
flag-lifted-today = Not today. Practice goes on another day.
flag-lifted-goes-on = Practice goes on as planned.
held = Practice stops for now. Your therapist tells you when to start.
