### For the therapist: the list of clients, who needs a look first and why, and a client's page. Dense, exact, with units.
### "Reported" is what client or carer said; "unknown" is where nobody told.

listed = { $before }; { $item }
listed-close = { $before }, { $item }

## The list. look-NAME: why a client needs a look.

desk-empty = No clients yet. Press New client.
desk-no-more = No more clients on this page.
desk-title = Clients { $first } to { $last } of { $total }, who needs a look first
desk-client = { $number }. { $name }: nothing to look at
desk-client-look = { $number }. { $name }: { $reasons }
desk-more-reasons = and { $count } more
b-desk-client = { $name }
b-desk-next = Next page
b-desk-before = Page before

look-flag-unseen = RED FLAG of { $value }, not acknowledged
look-flag-open = red flag of { $value } open
look-fall = fall reported { $value }
look-near-fall = near-fall reported { $value }
look-lower = last 4 sessions among the lowest (reported), noted { $value }
look-no-word = ended without word { $value } (unknown)
look-silent = no answer since { $value }
look-adherence = adherence low, { $value } sessions reported
look-proposal = proposal waiting
look-review = review was due { $value }
look-ended = plan ended { $value }
look-left = can not be reached (blocked or left)
look-never-joined = has not joined yet
look-refused = consent declined or withdrawn { $value }
look-no-consent = no consent yet
look-no-plan = no plan
look-carer-away = carer not in the chat
look-paused = paused until { $value ->
    [unknown] the client comes back
   *[other] { $value }
}
look-discharged = discharged { $value }

## A client's page

page-title = { $name }
page-look = Look: { $reasons }
page-look-none = Nothing to look at first.
page-plan = Plan { $version }: { $exercises } exercises
page-care = Carer beside: { $supervision } · { $eyes }
page-plan-none = Plan: none yet
page-adherence = Sessions reported: { $done } of { $due } due ({ $percent } %), last { $days } days
page-adherence-none = Sessions reported: none was due, last { $days } days
page-no-answer = Days with no answer: { $count }, last { $days } days (unknown)
page-past-none = Sessions: none yet
page-flag-none = No red flag open
page-flag = RED FLAG ({ $level }) of { $at } ({ $zone }), { $state }
page-flag-unseen = not acknowledged
page-flag-seen = acknowledged, practice stopped
page-falls = Reported, newest first: { $falls }
page-falls-none = No fall and no near-fall reported to the companion
page-slip = { $fall } { $day }
page-consent = Consent given { $day } (version { $version }); { $joined }
page-consent-none = Consent: not given; { $joined }
page-cover = Cover: { $who }, { $start } to { $end } ({ $zone })
page-in-chat = in the chat
page-not-in-chat = not in the chat
page-carer = Carer { $name }: { $joined }; { $briefed }
page-carer-none = Carer: none named
page-briefed = briefed (version { $version })
page-not-briefed = not briefed: no standing practice where a carer is needed
page-shared = One shared phone: the carer's presence is not verified
page-goal = Goal, own words: "{ $goal }"
page-baseline = Baseline. { $found }
page-baseline-none = Baseline: not taken yet
page-said = { $at } { $who }: "{ $what }"
page-sent = { $at } { $who }: sent without words ({ $what })
page-said-none = Own words: none yet
page-history-plan = Plan { $version } holds now. Newest first:
page-more = What do you want to do?
page-links = A new one-time link for whom? Their older unused links stop working.
page-link-comes = The link comes.
page-chart-comes = The chart comes.
page-no-chart = No plan, so no chart.
b-page-alert = The red flag...
b-page-proposal = The proposal...
b-page-plan = Plan...
b-page-chart = Chart now
b-page-four-weeks = 4 weeks
b-page-course = Whole course
b-page-words = Words
b-page-history = History
b-page-more = More...
b-page-list = My clients
b-page-open = Back to the page
b-page-baseline = Baseline...
b-page-links = Links again...
b-page-link = { $name } ({ $joined })
b-page-hand-over = Hand over...
b-page-cover = Cover...
b-page-shared = Shared phone...
b-page-remove-carer = Remove the carer...
b-page-discharge = Discharge...
