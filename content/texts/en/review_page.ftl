# The therapist's page of what was measured at reviews. Norms and thresholds name whom they were found in, and where.

review-page-note = Measured by the therapist at review; home practice is not shown here.
review-page-own-page = What the therapist measured at reviews stands on a page of its own, the last.
review-page-none = No review is on record yet.
review-page-count = Reviews on record: { $count }
review-page-count-last = Reviews on record: { $count }, the last { $shown } shown
review-page-key = Empty: not measured. –: not tried.
review-page-day-month = { $day } { $month }
review-page-date = { $day } { $year }
review-page-on = { $day }: { $what }
review-page-not-measured = Not measured at these reviews: { $what }.

## 4-stage test

review-page-heading-four-stage = 4-STAGE BALANCE TEST, s OF 10
review-page-four-stage = 4-stage balance test
review-page-stage-side-by-side = Feet side by side
review-page-stage-half-step = Half-step
review-page-stage-heel-to-toe = Heel-to-toe
review-page-stage-one-leg = One leg
review-page-row-risk = Fall risk flag
review-page-risk-yes = flag
review-page-risk-no = no flag
review-page-risk-not-known = unknown
review-page-row-tandem = Tandem points
review-page-tandem-source = Tandem points, 0 to 2: SPPB (Guralnik 1994).
review-page-stopped = stopped at { $stage }, { $seconds } s.
review-page-unfinished = not finished, next: { $stage }.
review-page-all-held = all 4 stages held for 10 s.
review-page-risk-flag = Heel-to-toe under 10 s: fall risk flag (CDC STEADI). Not a diagnosis.
review-page-risk-flag-not-reached = Heel-to-toe not reached: fall risk flag (CDC STEADI). Not a diagnosis.
review-page-risk-none = Heel-to-toe held for 10 s: no fall risk flag (CDC STEADI).
review-page-risk-unknown = Heel-to-toe not tried: fall risk unknown.

## Times

review-page-heading-sit-to-stand = FIVE SIT TO STANDS, s (LESS IS BETTER)
review-page-heading-one-leg = ONE LEG, s, EYES OPEN, NO HAND (MORE IS BETTER)
review-page-sit-to-stand = Five sit to stands
review-page-one-leg = One leg
review-page-one-leg-weaker = One leg, weaker
review-page-one-leg-stronger = One leg, stronger
review-page-row-sit-to-stand = Time
review-page-row-one-leg-weaker = Weaker side
review-page-row-one-leg-stronger = Stronger side
review-page-row-against = against norm
review-page-worse = worse
review-page-not-worse = not worse
review-page-no-norm = no norm
review-page-no-age = age ?
review-page-norm = Worse than usual for age: { $values } ({ $population }; { $source }).
review-page-norm-above = above { $seconds } s at { $first } to { $last }
review-page-norm-under = under { $seconds } s at { $first } to { $last }
review-page-norm-none = No norm for this age ({ $source }).
review-page-norm-no-age = Age not told, so no norm ({ $source }).
review-page-population-healthy = healthy adults
review-page-population-at-home = older adults living at home
review-page-population-stroke-rehabilitation = stroke rehabilitation
review-page-population-stroke-chronic = chronic stroke
review-page-changed = { $when }: { $what }.
review-page-since = Since { $since }
review-page-between = { $since } to { $at }
review-page-changed-sit-to-stand = { $by } s
review-page-changed-one-leg-weaker = weaker { $by } s
review-page-changed-one-leg-stronger = stronger { $by } s
review-page-threshold-sit-to-stand = No threshold for a change is kept here.
review-page-threshold-one-leg = No published threshold for a change after stroke.
review-page-category = Berg item 14 by time, 1 to 4, { $day }: weaker { $weaker }, stronger { $stronger }.
review-page-category-none = not measured
review-page-category-0 = unknown at 0 s

## Berg scale

review-page-heading-berg = BERG TOTAL, POINTS OF 56
review-page-berg = Berg total
review-page-row-berg = Total
review-page-changed-berg = { $by } points
review-page-beyond = beyond
review-page-within = within
review-page-detectable = MDC{ $level } { $points } ({ $source }; { $population })
review-page-beyond-means = Beyond: as many points or more, up or down.

## Goal attainment

review-page-heading-goals = GOAL ATTAINMENT, T (50 = AS EXPECTED)
review-page-goals = goal attainment
review-page-row-goals = T
review-page-goals-of = Goals of { $day } (0 = as expected):
review-page-goal = Goal { $number }
review-page-goal-words = “{ $words }”
review-page-goal-level = Level { $level }, weight { $weight }: { $goal }
review-page-goals-source = T of each review rests on its own goals (Kiresuk & Sherman 1968, r 0.3).

## Below the picture

review-page-newest = Reviews: { $count }. The newest: { $day }.
review-page-caption-time = { $what }, { $day }: { $seconds } s, { $how }.
review-page-caption-worse = worse than usual for { $first } to { $last } years ({ $source })
review-page-caption-not-worse = not worse than usual for { $first } to { $last } years ({ $source })
review-page-caption-no-norm = no norm for this age
review-page-caption-no-age = age not told, no norm
review-page-caption-berg = Berg total, { $day }: { $total } points.
review-page-caption-changed = { " " }Since the review before { $by }: { $told }.
review-page-caption-detectable = { $how } MDC{ $level } { $points } ({ $source })
review-page-caption-goals = Goal attainment, { $day }: T { $value } (50 = as expected), goals { $count }.
