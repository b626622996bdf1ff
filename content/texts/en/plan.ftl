### A plan and what is new in it, for the client and the carer: one idea a message.

plan-ready = Your plan is ready.
plan-changed = Your therapist changed your plan.

plan-reason-steadier = You are steadier now.
plan-reason-easier = Practice is easier for a while.
plan-reason-asked = You asked for this.
plan-reason-visit = We talked about this at the visit.
plan-reason-own = { $therapist } says: "{ $text }"

plan-every-day = You practise every day.
plan-days = The days: { $days }.
plan-times = The time: { $times }.
plan-time = { $time }
plan-list = { $first }, { $rest }
plan-none = none
plan-day-0 = Monday
plan-day-1 = Tuesday
plan-day-2 = Wednesday
plan-day-3 = Thursday
plan-day-4 = Friday
plan-day-5 = Saturday
plan-day-6 = Sunday

plan-new-exercise = New: { $exercise }.
plan-no-more = No more: { $exercise }.
plan-new-form = { $exercise }, now this way: { $form }.
plan-new-hand = { $exercise }, now with the { $hand }.
plan-hold = { $exercise }: now hold { $dose } seconds.
plan-hold-sides = { $exercise }: now hold { $dose } seconds.
    On the weaker side, { $weaker } seconds.
plan-count = { $exercise }: now do { $dose }.
plan-count-sides = { $exercise }: now do { $dose }.
    On the weaker side, { $weaker }.
plan-clock-screen = { $exercise }: now your screen keeps the time.
plan-clock-carer = { $exercise }: now your helper keeps the time.
plan-clock-sound = { $exercise }: now a sound keeps the time.
plan-helper-always = Your helper now stays each time.
plan-each-sign = I now ask each sign first.
plan-minutes = Practice now takes about { $minutes } minutes.
plan-place = Your place is new. Look there first.
plan-much-new = Some things are new.
plan-screens-tell = Each screen says what to do.

plan-ready-carer = { $name } has a plan now.
plan-changed-carer = { $name } has a new plan.
plan-carer-clock = You now keep the time of { $exercise }.

## When it had its last day

plan-over = Your plan has ended.
plan-over-carer = The plan of { $name } has ended.
plan-over-quiet = No more reminders for now.
plan-over-next = { $therapist } plans what comes next.
