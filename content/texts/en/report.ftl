# The therapist's weekly chart and its caption.

## Dates and times

report-weekday-1 = Mon
    .letter = M
report-weekday-2 = Tue
    .letter = T
report-weekday-3 = Wed
    .letter = W
report-weekday-4 = Thu
    .letter = T
report-weekday-5 = Fri
    .letter = F
report-weekday-6 = Sat
    .letter = S
report-weekday-7 = Sun
    .letter = S
report-month-1 = Jan
report-month-2 = Feb
report-month-3 = Mar
report-month-4 = Apr
report-month-5 = May
report-month-6 = Jun
report-month-7 = Jul
report-month-8 = Aug
report-month-9 = Sep
report-month-10 = Oct
report-month-11 = Nov
report-month-12 = Dec
report-day = { $weekday } { $day }
report-full-day = { $day } { $month }
report-moment = { $day } { $time }
report-span = Week { $week }: { $first } to { $last } { $year }

## First of all: what waits for the therapist, or is to be checked

report-bar-lift = Waiting for you: { $count-plural ->
        [one] lift the stop, or keep it. Open since { $stops }
       *[other] lift or keep each of { $count } stops. Open since { $stops }
    }.
report-bar-stop = { $at }{ $seen ->
    [yes] { "" }
   *[no] , not acknowledged
}
report-bar-step = Waiting for you: { $exercise }, { $way ->
        [up] a step up
       *[other] a step back
    }, proposed { $at }.
report-bar-change = { $step ->
        [longer-hold] Longer hold
        [more-repeats] More repeats
        [less-hand] Less hand support
        [narrower-base] Next form
        [eyes-closed] Eyes closed
       *[other] Easier
    }{ $sides ->
        [both] , both sides
       *[other] { "" }
    }. Now: { $before }. Then: { $after }.
report-bar-check = To check: { $what }.
report-bar-nothing = No decision waits for you.
report-bar-nothing-yet = No decision waits for you. Not over yet: { $days }.
report-check-unknown = { $count } of { $due } days due are unknown
report-check-no-word = a session ended without a word after standing ({ $days })
report-check-sessions-unknown = { $count-plural ->
    [one] 1 session due is unknown
   *[other] { $count } sessions due are unknown
} ({ $days })
report-check-unanswered = { $count-plural ->
    [one] 1 bout without an answer
   *[other] { $count } bouts without an answer
}
report-check-near-falls = near-fall reported ({ $days })
report-check-lower = holds break earlier (early notice { $since })
report-check-carer-absent = practised with the carer absent ({ $days })
report-check-carer-saw-more = client and carer differ ({ $count-plural ->
    [one] 1 session
   *[other] { $count } sessions
})
report-check-paused = paused all week, { $last ->
    [unknown] no last day on record
   *[other] up to and including { $last }
}
report-check-none-done = none done of { $due } due
report-check-never-clean = 0 of { $tried } clean: { $lines }
report-check-never-clean-more = { $count } more with 0 clean

## 1. Flags and falls, days with no answer

report-heading-flags = FLAGS AND FALLS
report-no-flag = No red flag. No fall reported{ $known ->
    [all] .
   *[some] { " " }on the days with an answer.
}
report-falls = Falls reported: { $count } ({ $days }){ $unsure-plural ->
    [zero] .
   *[other] ; not told apart from a near-fall: { $unsure }.
}
report-no-flag-unknown = { $asked ->
        [yes] No answer on { $due-plural ->
            [one] the 1 day due: practice and falls
           *[other] any of the { $due } days due: practice and falls
        }
       *[no] { $due-plural ->
            [one] On the 1 day due, practice and falls are
           *[other] On all { $due } days due, practice and falls are
        }
    } unknown. No red flag on record.
report-no-flag-paused = Paused: falls were not asked about. No red flag on record.
report-near-falls = Near-falls reported, not hurt, no red flag: { $count } ({ $days }).
report-flag-title = { $state }: { $level }, { $at }
report-flag-open = OPEN
report-flag-lifted = Lifted
report-level-emergency = emergency flag
report-level-urgent = urgent flag
report-level-none = flag
report-flag-facts = { $facts }. Reported by { $by }.
report-flag-seen = Acknowledged { $at }.
report-flag-more = More reported { $at }.
report-flag-not-seen = Not acknowledged.
report-flag-lifted-at = Lifted { $at }{ $reason }.
report-flag-reason = , { $reason }
report-by-client = the client
report-by-carer = the carer
report-by-therapist = the therapist
report-by-contact = a contact
report-by-somebody = somebody
report-fall-fall = fall
report-fall-near-fall = near-fall
report-fall-unknown = fall or near-fall, not told apart
report-fact-none = no detail
report-no-answer = Days with no answer: { $count } of { $due } due ({ $days }). Practice and falls then: unknown.
report-no-record = Days with no record: { $count } of { $due } due ({ $days }). Practice and falls then: unknown.
report-no-answer-none = Days with no answer: 0 of { $due } due.
report-flags-more = More flags, not shown here: { $count }.
report-lower-title = Early notice { $since }: holds break earlier
report-lower = Time to the first break, against their own holds of the same kind: the last 4 sessions, taken together, were among the lowest, set against { $earlier ->
        [unknown] those
       *[other] the { $earlier }
    } before (reported).
report-not-asked = Not asked, the companion was away: { $days }. Practice and falls then: unknown.
report-no-word = Ended without a word after standing: { $days }. How it went, and falls: unknown.

## 2. Sessions

report-heading-sessions = SESSIONS, AS REPORTED
report-reported = { $reported } of { $due } { $due-plural ->
        [one] day
       *[other] days
    } due{ $unknown }
    .title = Done or partly: { $reported } of { $due } { $due-plural ->
        [one] day
       *[other] days
    } due{ $unknown }
report-reported-unknown = , unknown { $count }
report-reported-none-due = none counted as due
    .title = No day counted as due
report-part-first = Plan { $plan }: { $reported }.
report-part = Plan { $plan }, from { $day }: { $reported }.
report-plan = plan { $plan }
report-sessions = Sessions reported done or partly: { $reported } of { $due } due{ $unknown }{ $all-plural ->
    [zero] .
   *[other] ; { $all } in all.
}
report-more-than-70 = More than 70 % of the sessions due (SS-MAHE 2019).
report-count-done = done { $count }
report-count-partly = partly { $count }
report-count-missed = missed { $count }
report-count-unknown = unknown { $count }
report-count-no-word = unknown { $count }, without a word { $silent } of them
report-count-stopped = stopped { $count }
report-count-paused = paused { $count }
report-count-held = held { $count }
report-count-to-come = not over yet { $count }
report-count-extra = not due but done { $count }
report-count-kinds = { $counted } ({ $kinds })
report-count-kind = { $state } { $count }
report-pause = Paused by the client on { $since } ({ $why ->
        [holiday] holiday
        [unwell] felt unwell
       *[other] other reason
    }, reported).
report-pause-last = Paused up to and including { $day }.
report-pause-open = No end was named.
report-pause-over = Over since { $day }.
report-pause-unknown = Paused: since when and until when is not on record.
report-state-done = done
report-state-partly = partly
report-state-stopped = stopped
report-state-no-word = no word
report-state-not-ready = not ready
report-state-no-answer = no answer
report-state-not-asked = not asked
report-state-declined = not today
report-state-held = held
report-state-paused = paused
report-state-no-record = no record
report-state-to-come = not over
report-state-not-due = not due
report-state-times = { $state } { $times } times
report-state-times-of = { $state } { $times } of { $asked }
report-state-times-more = { $state } { $times }, due { $asked }
report-state-flag = red flag

## 3. Stances

report-heading-stances = STANCES, AS REPORTED
report-no-bout = No bout was reported.
report-column-clean = clean
    .below = of tried
report-column-break = first break
    .below = in quarter,
    .median = median
report-column-count = count,
    .below = median
report-column-before = last week
    .below = clean
report-key-held = no break
report-key-held-or-counted = no break, or counted
report-key-broke = broke in here
report-key-broke-unknown = broke, moment unknown
report-key-ran = went on after it
report-key-not-run = white: not practised
report-key-early = ended early, no break told
report-key-stopped = stopped for a symptom
report-key-counted = counted
report-key-count-between = count ends in here
report-key-not-done = white: not done
report-key-no-answer = bout without an answer
report-key-day-unknown = day unknown
report-key-day-missed = missed
report-key-day-held = held
report-key-day-stopped = stopped before it
report-key-day-paused = paused
report-key-day-to-come = not over
report-key-from-below = Bars begin at the bottom.
report-key-in-order = Several bars on a day: in order of time, from left to right{ $below ->
        [yes] , then below
       *[no] { "" }
    }.
report-key-turns = Session 1, 2 and so on: in the order of the day.
report-weaker-side = Weaker side: { $side ->
        [left] left
        [right] right
       *[other] not known
    } (baseline).
report-stance-of = { $exercise } ({ $stance })
report-stance-seated = Seated
    .short = seated
report-stance-feet-apart = Feet apart
    .short = feet apart
report-stance-feet-together = Feet together
    .short = feet together
report-stance-half-step = Half-step, foot in front
    .short = half-step
report-stance-heel-to-toe = Heel-to-toe, foot in front
    .short = heel-to-toe
report-stance-one-leg = One leg
    .short = one leg
report-stance-one-leg-toes = One leg, on the toes
    .short = one leg on the toes
report-stance-two-leg-toes = Both legs, on the toes
    .short = both legs on the toes
report-stance-walking = Walking
    .short = walking
report-eyes-closed = { $name }, eyes closed
    .short = { $name } with eyes closed
report-range = { $low } to { $high }
report-target-timed = { $target } s
report-target-before = { $target } (last week { $before })
report-before-new = new plan
report-target-counted = count of { $target }
report-hand-two-hands = two hands
report-hand-one-hand = one hand
report-hand-fingertips = fingertips
report-hand-hovering = hovering
report-hand-none = hands off
report-side-weaker = weaker
report-side-stronger = stronger
report-side-none = both
report-hand-side = { $side } { $hand }
report-turn = session { $turn }
report-tried = { $clean } of { $tried }
report-tried-stopped = { $count } stopped
report-tried-unknown = unknown
report-tried-none = not tried
report-break-first = 1st
report-break-second = 2nd
report-break-third = 3rd
report-break-last = last
report-break-no-break = not reached
report-break-unknown = unknown
    .long = quarter unknown
report-earliest = earliest { $quarter }
report-counted = { $count } of { $target }
report-counted-least = least { $count }
report-no-break = –
report-not-known = ?
report-median-break = { $median }/{ $earliest }
report-median-count = count { $median }/{ $least }
report-first-week = No record of the week before.

## 4. Hand, steps, touches, made easier

report-heading-support = HAND AS SET UP, STEPS AS REPORTED
report-hands = Hand as set up: { $hands } (of { $bouts } bouts{ $unanswered }).
report-hands-unanswered = ; { $count } without an answer not counted
report-hand-count = { $hand } { $count }
report-broke = Steps reported { $steps }, hand touches { $touches }.
report-leaned = Legs leaned on the chair { $count }.
report-feet-down = The foot came down { $count }.
report-eased = Made easier, reported: { $count } of { $bouts } bouts{ $where }.
report-eased-where = { " " }({ $lines })
report-eased-line = { $stance } { $count } of { $bouts }
report-eased-side = { $stance } { $side } { $count } of { $bouts }
report-harder = Harder, in the opened range: { $count }.

## 5. Effort, confidence, carer, own words, the decision that waits

report-heading-words = EFFORT, CARER, OWN WORDS
report-effort = Effort reported: { $efforts } (of { $sessions } sessions).
report-effort-none = Effort: no session on record.
report-effort-easy = easy { $count }
report-effort-medium = medium { $count }
report-effort-hard = hard { $count }
report-effort-unknown = unknown { $count }
report-confidence = Confidence reported: { $answer }.
report-confidence-sure = sure
report-confidence-a-little-sure = a little sure
report-confidence-not-sure = not sure
report-carer = Carer present: { $carer } (of { $sessions } sessions).
report-carer-none = Carer present: no session on record.
report-carer-verified = verified { $count }
report-carer-not-verified = said on a shared phone, not verified { $count }
report-carer-absent = absent { $count }
report-carer-when = Absent: { $days }.
report-carer-not-begun = { $day } (session not begun)
report-carer-not-needed = not needed { $count }
report-carer-saw-more = Reports differ: in { $count-plural ->
        [one] 1 session
       *[other] { $count } sessions
    } the carer saw a step or touch and the client reported none. Both are on record.
report-words-sent = { $by }, { $day }: { $form ->
        [voice] a voice note
        [photo] a photo
        [video] a video
       *[other] a file
    }, passed on as it was sent
report-words = { $by }, { $day }: "{ $text }"
report-words-by-client = Client
report-words-by-carer = Carer
report-words-by-nobody = Not known who
report-words-none = No own words this week.
report-words-more = More own words: { $count }, on the client's page.
report-footer = As known { $at }. Times: { $zone }.

## The caption

report-caption-sessions = Reported done or partly: { $reported } ({ $states }).
report-caption-against = Clean of tried as reported (last week); quarter of first break, median/earliest:
report-caption-first = Clean of tried as reported (no week before); quarter of first break, median/earliest:
report-caption-stance = { $stance }: { $sides }.
report-caption-unknown = { $count } unknown
report-caption-more = The chart has more.

## The digest over all clients: the picture

report-digest-heading = { $total-plural ->
    [one] 1 client
   *[other] { $total } clients
}
report-digest-count = reported
report-digest-of = { $reported } of { $due }
report-digest-unknown = ? of { $due }
report-digest-none-due = none due
report-digest-no-plan = no plan yet
report-digest-rest = and { $count } more: see My clients
report-digest-footer = Days are as reported. A question mark is unknown. ▲ red flag.

## Many weeks side by side

report-heading-weeks = WEEKS, DAYS AS REPORTED
report-heading-span-stances = STANCES, CLEAN BOUTS OF TRIED, AS REPORTED
report-span-dates = { $first } to { $last } { $year }
report-span-each = Each column: { $weeks } weeks.
report-span-from = from
report-span-key = Filled: share clean. No bar: no bout. Shaded: paused or held.
report-row-reported = reported
report-row-unknown = unknown
report-row-flags = red flags
report-row-flags-none = Red flags: none on record.
report-row-falls = falls
report-row-falls-none = Falls reported: none.
report-row-near-falls = near-falls
report-row-plans = new plan
report-row-target-timed = target, s
report-row-target-counted = target
report-span-share = Sessions reported done or partly: { $count } of { $total } due, unknown { $unknown } (95 % interval { $low } to { $high } %).
report-span-plan = Plan { $plan }, from { $first }. { $share }
report-span-earlier = { $plans-plural ->
    [one] 1 earlier plan
   *[other] { $plans } earlier plans
}: sessions reported done or partly { $count } of { $total } due, unknown { $unknown }.
report-span-median = { $what }, { $sessions } sessions: { $median }.
report-span-half = half had broken by { $seconds } s
report-span-not-reached = median not reached by { $seconds } s
report-span-listed = { $what }, { $sessions-plural ->
    [one] 1 session
   *[other] { $sessions } sessions
}, first break in s: { $holds }{ $more }.
report-span-more = ; { $count } more not shown
report-span-at-least = none by { $seconds }
report-span-trend-rising = Trend: rising over { $weeks } weeks.
report-span-trend-falling = Trend: falling over { $weeks } weeks.
report-span-trend-not-shown = No trend shown over { $weeks } weeks.
report-span-trend-too-few = Trend: too few weeks (10 with 2 or more sessions).
report-span-sides = { $what }: weaker side shorter in { $count } of { $total } sessions where a difference could be seen.
report-span-sides-none = { $what }: sides not measurable, under 6 sessions where a difference could be seen.
report-span-caption = Red flags { $flags }, falls reported { $falls }.
report-clock-screen = screen clock
report-clock-sound = sound clock
report-clock-carer = carer's clock
report-clock-none = own pace
