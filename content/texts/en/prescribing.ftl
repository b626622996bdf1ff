### For the therapist who writes a plan: dense, with units. The preview uses the client's own texts.

## Where to begin

plan-start = Plan for { $name }: begin from
template-hand-on = First weeks, hand on
template-to-half-step = Feet together to half-step
template-one-leg = Heel-to-toe and one leg
template-toes-and-claps = One leg on the toes, claps
template-seated = Seated only
b-plan-template = { $template }
b-plan-template-faults = { $template } ({ $count } to mend)
b-plan-as-now = The plan as it is (version { $version })
b-plan-as-before = The plan before it (version { $version })
b-plan-copy = Copy from another client
b-plan-empty = No exercises yet
plan-client = { $name }
plan-copy-from = Copy into the plan for { $name }: exercises, doses, clocks and hand support. Days, supervision and permissions are not copied.
plan-copy-nobody = No other client to copy from.
plan-copy-none = { $name } has no plan. Nothing was copied.
b-plan-next-page = Next page
plan-no-baseline = { $name }: no baseline yet. What bears on safety has no default: take the baseline first.

## Days and times

plan-days-ask = Days of practice (now: { $now })
b-plan-mon-wed-fri = 3 days: Mon, Wed, Fri
b-plan-mon-to-fri = 5 days: Mon to Fri
b-plan-every-day = Every day
b-plan-choose-days = Choose the days
b-plan-day-on = Add { $day }
b-plan-day-off = Take off { $day }
plan-short-day-0 = Mon
plan-short-day-1 = Tue
plan-short-day-2 = Wed
plan-short-day-3 = Thu
plan-short-day-4 = Fri
plan-short-day-5 = Sat
plan-short-day-6 = Sun
plan-times-ask = Time of practice, { $zone } (now: { $now }). Press one, or type up to 4, like 08:30 16:00.
plan-unset = not set

## The whole plan

plan-title = Plan for { $name }, version { $version } (draft)
plan-item = { $number }. { $item }
plan-item-unknown = { $number }. "{ $id }" is not in the library in this form
plan-item-line = { $exercise }: { $way }, clock: { $clock }{ $sides }{ $range }
plan-sides-all = { "" }
plan-sides-stronger = , stronger side only
plan-sides-weaker = , weaker side only
plan-range-none = { "" }
plan-range = ; range: up to { $range }
plan-clock-screen-short = screen
plan-clock-carer-short = carer
plan-clock-none-short = own pace
plan-clock-sound-short = sound
plan-practice = { $days } · { $times } ({ $zone }) · about { $minutes } min
plan-care = Carer beside: { $supervision } · Check: { $check }
plan-more = { $eyes } · Rest { $rest } s · Into place { $into } s
plan-dates = Review: { $review } · End: { $end }
plan-date = { $day }
plan-no-date = none
plan-supervision-always = always
plan-supervision-when-form-needs = where a form needs one
plan-check-one-look = all signs at one look
plan-check-sign-by-sign = sign by sign
plan-eyes-open = Eyes closed: not permitted
plan-eyes-permitted = Eyes closed: permitted
plan-refused = REFUSED: { $said }
plan-warned = Note: { $said }
plan-quiet = Note: { $time } is in the quiet hours ({ $start } to { $end }): the reminder comes at { $end }.
b-plan-preview = Preview
b-plan-preview-more = Next exercises
b-plan-change = Change
b-plan-other-start = Begin from something else
b-plan-take-out = Take out: { $exercise }
b-plan-instead = Instead, { $exercise }: { $form }
b-plan-mend-supervision = Carer only where a form needs one
b-plan-mend-minutes = Make it { $minutes } min
b-plan-mend-review-on = Review on the end date
b-plan-mend-ends-on = No end date
b-plan-mend-order = A warm-up first
b-plan-mend-clock = Another clock: { $exercise }
b-plan-mend-hand = Hand support that can be: { $exercise }
b-plan-mend-hand-hardest = Open only what can be: { $exercise }
b-plan-mend-target = Nearest possible dose: { $exercise }
b-plan-mend-weaker-target = Nearest possible dose: { $exercise }
b-plan-mend-sides = Usual sides: { $exercise }

## What is objected to

objection-no-carer = a carer is always wanted and none is named.
objection-unknown-exercise = "{ $id }" is not in the library any more.
objection-twice = { $exercise } is in the plan twice.
objection-unknown-form = { $exercise } has no form "{ $id }" any more.
objection-hardest-is-easier = { $exercise }: the hardest form opened is easier than the planned one.
objection-dose = { $exercise }: { $dose } { $unit } is no possible dose; { $least } to { $most } is.
objection-sound-short = { $exercise }: by sound not under { $least } s; its tones need the room.
objection-clock = { $exercise } can not be done on that clock.
objection-clock-no-carer = { $exercise }: the carer keeps the time and none is named.
objection-one-hand = { $exercise }, { $hand }: the client has one good hand.
objection-hand = { $exercise } is not done so: { $hand }.
objection-opens-nothing = { $exercise }: { $hand-hardest } gives more support than { $hand }, so it opens nothing.
objection-no-sides = { $exercise } has no sides.
objection-side-twice = { $exercise }: a side is named twice.
objection-two-hands = { $exercise }, { $form }: needs two good hands and the client has one.
objection-blocked-ankle = { $exercise }, { $form }: needs a free ankle and the orthosis blocks it.
objection-eyes-closed = { $exercise }, { $form }: closes the eyes and the plan does not permit it.
objection-needs-carer = { $exercise }, { $form }: needs a carer beside the client and none is named.
objection-alone = { $exercise }, { $form }: done standing, alone, by a client who can not call for help.
objection-tips = { $exercise }: a chair is the support and can tip under one leg or walking. Take it out, or change the support in the baseline.
objection-no-warm-up = the plan does not begin with a warm-up.
objection-warm-up-late = a warm-up comes after the main part.
objection-too-long = the exercises take { $needed } min or more and the plan says { $minutes }.
objection-no-days = no days or no time of practice.
objection-ended = the end date is past.
objection-review-after-end = the review is after the end.
objection-long-to-begin = { $times } sessions a week of { $minutes } min: more than { $usual } min at a time to begin with ({ $source }).

## Changing it

plan-change-ask = Change what?
b-plan-item = { $number }. { $exercise }
b-plan-add = Add an exercise
b-plan-days = Days
b-plan-time = Time
b-plan-supervision = Carer beside
b-plan-eyes = Permit closed eyes
b-plan-check = Safety check
b-plan-minutes = Length
b-plan-rest = Rest
b-plan-review = Review date
b-plan-ends = End date
plan-supervision-ask = When must a carer be beside the client?
plan-eyes-ask = May the eyes be closed? Only then are forms with closed eyes open, with a carer who keeps the time or counts aloud.
plan-check-ask = Safety check before each session. The first sessions, and those after a flag or a gap, are sign by sign anyway.
plan-minutes-ask = Length of a session, as the client is told.
plan-minutes-about = about { $minutes } min
plan-rest-ask = Least rest after a standing bout. There is no most.
plan-review-on-ask = Review date: from then on the client is on your list. Press one, or type it like 2026-12-31.
plan-ends-on-ask = End date: the last day of the plan. Then reminders end and you are told. Press one, or type it like 2026-12-31.
plan-in-weeks = { $weeks-plural ->
    [one] in { $weeks } week
   *[other] in { $weeks } weeks
}

## One exercise

plan-add-ask = Which exercise? It comes in its usual form, or the hardest easier one this client can have, with all the hand support there is.
b-plan-add-one = { $exercise }
b-plan-add-not-possible = { $exercise } (not possible now)
b-plan-x-form = Form
b-plan-x-dose = Dose
b-plan-x-weaker = Dose of the weaker side
b-plan-x-sides = Sides
b-plan-x-hand = Hand support
b-plan-x-clock = Clock
b-plan-x-hardest = Range: hardest form
b-plan-x-least = Range: least hand support
b-plan-x-earlier = Earlier
b-plan-x-later = Later
plan-form-ask = { $exercise }: which form? What was opened beyond it is closed.
plan-dose-ask = { $exercise }: dose. Press one, or type a number.
plan-weaker-ask = { $exercise }: dose of the weaker side. Press one, or type a number.
plan-weaker-same = the same on both sides
plan-sides-ask = { $exercise }: which sides?
plan-x-sides-both = both sides
plan-x-sides-stronger = stronger side only
plan-x-sides-weaker = weaker side only
plan-hand-ask = { $exercise }: hand support. What was opened beyond it is closed.
plan-clock-ask = { $exercise }: who keeps the time?
plan-hardest-ask = { $exercise }: up to which form may the client go without asking?
plan-least-ask = { $exercise }: down to which hand support may the client go without asking?
plan-opens-nothing = nothing beyond the plan

## Preview, reason, end

plan-preview = What { $name } will see (exercises { $first } to { $last } of { $all }):
plan-between = ————
plan-button = [ { $label } ]
b-plan-prescribe = Prescribe for { $name }
plan-reason-ask = Why does the plan change? { $name } is told. Press one, or type it in short plain words.
plan-reason-typed = { $text }
b-plan-reason-typed = Prescribe with these words
plan-cancel = Throw away the draft for { $name }?
plan-dropped = { $name }: the draft was thrown away. The plan is as it was.
plan-resume = { $name }: a draft was begun before.
b-plan-anew = Begin anew
plan-meanwhile = { $name }: not prescribed. The plan is another one by now, or the draft does not fit any more. The plan as it is, version { $version }:
b-plan-from-now = Go on from this plan
b-plan-my-draft = Go on with my draft
plan-not-read = That can not be read here. Nothing was changed.
plan-only-buttons = This screen takes buttons only. Nothing was changed.
b-plan-page = To the client's page

## What the client's care says of it

plan-taken = { $name }: plan version { $version } holds from now on (by { $by }).
plan-told-now = Client and carer are told now.
plan-told-joined = Client and carer are told once the client has joined and agreed.
plan-told-lifted = It waits: a red flag is open. Client and carer are told when it is lifted.
plan-told-session = A session is under way and ends on the old plan. Client and carer are told after it.
plan-told-back = It waits: the client is on a pause. Client and carer are told after it.
plan-not-theirs = { $name } is not your client now. Nothing was changed.
plan-ended = { $name }: plan version { $version } ended on { $day }. Reminders have stopped; your decision is waiting.
