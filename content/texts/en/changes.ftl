### For the client and the carer: who the therapist is, and the end of practice with the companion.

therapist-now = Your therapist is now { $who }.
cover-now = { $who } stands in for { $therapist } now.
cover-back = { $who } is back as your therapist.

## The end of practice. keep-... is the list to go on with.

ended-client = Your practice with me ends here.
ended-kind = You practised { $times-plural ->
    [one] 1 time
   *[other] { $times } times
}. Well done.
ended-no-reminders = I will not remind you again.
ended-carer = Practice with me has ended for { $name }.
ended-carer-thanks = Thank you for your help.
ended-start = Practice with me has ended. Ask your therapist.
keep-title = You can go on with this.
keep-item = · { $exercise }: { $form }
keep-hand = Keep a hand on.
keep-place-worktop = Stand beside the worktop.
keep-place-sink = Stand beside the kitchen sink.
keep-place-rail = Stand beside the rail.
keep-place-heavy-table = Stand beside the heavy table.
keep-place-sturdy-chair = Stand beside the sturdy chair.
keep-helper = Have your helper beside you.
keep-seated = Do this seated only.
keep-stop = Stop when you feel unwell.
keep-none = Ask your therapist what to go on with.
keep-ask = Ask your therapist again after a fall.
keep-ask-steady = Ask too if you feel less steady.
