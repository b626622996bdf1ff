### For the therapist: what is measured at a review, entered by the therapist. Scales are named, never quoted. Dense, exact.

b-page-review = Review...
b-page-reviews = Reviews
page-reviewed = Last review entered: { $day }

## What is measured

review-title = { $name }: measures of a review
review-menu = Press what was measured. All of it can be left out.
b-review-open = { $measure }
b-review-entered = { $measure }: { $value }
review-s = { $value } s
review-points = { $value } of 56
review-not-entered = not entered

review-four-stage = 4-stage test
    .how = 10 s each, no hand; it ends at the first stage not held for 10 s. Press "10 s held", or type the seconds.
review-side-by-side = Feet side by side
review-half-step = Half-step
review-heel-to-toe = Heel to toe
review-one-leg = One leg
review-sit-to-stand-5 = 5 sit to stands
    .how = time for 5, in s. Type it, e.g. 14.2
review-one-leg-weaker = One leg, weaker side ({ $side })
    .how = time standing on that leg, eyes open, no hand, in s. Type it, e.g. 4.5
review-one-leg-stronger = One leg, stronger side ({ $side })
    .how = time standing on that leg, eyes open, no hand, in s. Type it, e.g. 4.5
review-berg = Berg total
    .how = points, whole. The total only. Type it, e.g. 41
review-decade = Age

review-ask = { $measure }: { $how }
review-takes-s = { $low } to { $high } s, up to 2 decimals
review-takes-points = { $low } to { $high } points, whole
review-not-taken = { $measure }: "{ $said }" was not taken. Taken: { $taken }. Nothing was changed.
b-review-leave-out = Leave it out
b-review-menu = Back to the measures

## The 4-stage balance test

review-stage = { $stage }: { $value } s
review-stage-now = Now: { $stage }.
b-review-held = 10 s held
b-review-take-back = Take back: { $stage }
review-stages-stopped = Under 10 s: the test ends here.
review-stages-all = All 4 stages held.
review-stages-open = Not ended: the next stage was not tried.
review-stages-risk = Heel to toe not held for 10 s: fall risk flag (CDC STEADI). Not a diagnosis.
review-stages-not-reached = Heel to toe not reached: fall risk flag (CDC STEADI). Not a diagnosis.
review-stages-no-risk = Heel to toe held for 10 s: no fall risk flag (CDC STEADI).

## Goals

review-goals = goals
review-goal = Goal { $number }
review-goal-named = Goal { $number } ("{ $goal }", own words)
b-review-goal = Goal { $number }: { $level }, weight { $weight }
b-review-goal-own = The client's own goal
b-review-goal-more = A goal
review-goal-ask = { $goal }: how far was it attained?
review-level-2 = +2, much more than expected
review-level-1 = +1, more than expected
review-level-0 = 0, as expected
review-level-minus-1 = -1, less than expected
review-level-minus-2 = -2, much less than expected
review-weight-ask = { $goal }: { $level }. How much does it weigh among the goals? 1: little, 5: most.
b-review-weight = Weight { $weight }

## Age

review-age-ask = { $name }: age in decades. For published values only.
review-age-50 = under 60
review-age-60 = 60-69
review-age-70 = 70-79
review-age-80 = 80-89
review-age-90 = 90-99
review-age-none = Not told

## Saved, left

b-review-preview = Preview
review-preview = { $name }: review, to be kept as measured on { $day }
review-begun = Begun on { $day }: check that these are the measures of today.
review-line = { $measure }: { $value }
review-goal-line = { $goal }: { $level }; weight { $weight }
review-left-out = Not measured: { $measures }
review-age-line = Age { $age }
review-age-unknown = Age not told: shown without published values.
b-review-save = Save for { $name }
review-cancel = { $name }: throw away what was entered? If you leave it, it is kept on this phone, and Review offers it again.
b-review-drop = Throw it away
review-dropped = { $name }: no review was kept.
review-resume = { $name }: a review was begun on { $day } and not saved.
b-review-anew = Begin anew

## What the client's care says of it

review-kept = { $name }: review of { $day } kept, for therapists only: client and carer get nothing of it. The page of all reviews comes. A mistake in it? Enter that measure anew today: the page shows the last of a day, both stay on record.
review-discharged = Not possible: discharged. A new plan opens it again.
review-none = No review was entered yet.
review-comes = The page of reviews comes.
