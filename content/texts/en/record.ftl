### For the record: what goes out as a document. For the therapist.

b-page-record = For the record...
record-which = For the record: PDF on A4 or US letter, or data (CSV, with a dictionary). Week: the last whole one, Monday to Sunday.
b-record-week-a4 = Week, PDF (A4)
b-record-week-letter = Week, PDF (letter)
b-record-review-a4 = Review of all, PDF (A4)
b-record-review-letter = Review of all, PDF (letter)
b-record-data = All data, CSV
record-comes = The document comes.
record-data = Data as CSV, with a dictionary of its columns. All that was said is self-report; "unknown": nobody told.

## Documents on paper

record-week = { $name }: the week
record-review = { $name }: review of practice at home
record-discharge = { $name }: end of practice with the companion
record-page = page { $page } of { $pages }
record-period = Records from { $first } to { $last } (local days, { $zone }).
record-reported = Everything is as the client or carer reported it, or by a clock that they started. Diaries overstate what was done.

record-heading-practised = Sessions reported of those due, by plan
record-nothing-due = No day on which practice was due is over yet.
record-plan = Plan { $version }, { $first } to { $last }
record-practised = Sessions { $sessions } (reported); unknown { $unknown }; days paused or held, left out: { $out }. Bouts { $bouts }. Time { $minutes } of { $due } min (reported). More than 70 % of the sessions: { $label }.
record-share = { $count }/{ $total } ({ $low } to { $high } %)

record-heading-stances = Each stance
record-no-bouts = No bout is on record.
record-condition = { $stance }, eyes { $eyes }, { $hand }, clock: { $clock }
record-side = { $of }; side: { $side }
record-clean = Clean to { $target } s: { $share } (reported); unknown { $unknown }.
record-holds-listed = Until the first break, { $sessions } { $sessions-plural ->
        [one] session
       *[other] sessions
    }, under { $least }, so no interval: { $holds }.
record-median = Median time to the first break: { $median } ({ $limits }), over { $sessions } sessions.
record-from-to = { $low } to { $high } s
record-or-more = { $low } s or more
record-lasting = Not broken past { $marks } s: { $shares } %.
record-heading-rates = Steps and hand touches
record-rates-none = No time practised is on record.
record-rate = { $cause ->
        [step] First broken by a step
       *[hand] First broken by a hand touch
    } (reported): { $count } in { $minutes } min practised, { $value } a minute ({ $low } to { $high }).
record-mean = Mean up to the target of { $target } s, each session counted once: { $mean } s ({ $low } to { $high } s).
record-second = { $second } s
record-between = between { $low } and { $high } s
record-not-reached = not reached by { $low } s

record-heading-course = Course over weeks
record-no-course = Fewer than 10 weeks with 2 or more sessions in one stance: nothing can be said.
record-trend = { $direction }: { $slope } s a week ({ $low } to { $high }), over { $weeks } weeks.
record-trend-none = No trend shown over { $weeks } weeks. Slope { $slope } s a week ({ $low } to { $high }).

record-heading-sides = Weaker against stronger side, within the same sessions
record-no-sides = No stance was practised on both sides in the same way.
record-sides-not-measurable = Not measurable: fewer than 6 sessions in which a difference could be seen.
record-sides = Weaker side shorter in { $share } of the sessions in which a difference could be seen (exact sign test, p { $p }). Stronger over weaker, both up to the target: at least { $ratio }.

record-heading-flags = Red flags
record-no-flags = No red flag is on record. Falls that nobody told are not known.
record-flag = { $level }: { $facts }. Lifted: { $until }.
record-open = not yet

record-heading-plans = Plans
record-plan-from = Plan { $version }, from { $day }
record-plan-not-kept = Its exercises were not kept on record.

record-go-on = To go on with
record-go-on-note = Each exercise of the last plan in its easiest form with open eyes, as the client was told. Beside a support, hand on, a chair behind.
record-go-on-none = Nothing: to be agreed with the therapist.

record-heading-words = What the words mean
record-word-clean = Clean: no step and no touch to the end of the hold, as reported.
record-word-held = Time to the first break: to the first step or touch. A step does not end the minute. Where only a quarter was told, it is given as bounds; a hold that was clean to the target counts as at least the target.
record-word-unknown = Unknown: nobody answered, or a session ended without a word after standing. It is never counted as zero or as fine.
record-word-intervals = In brackets: 95 % intervals (shares: Wilson; means: t on the logit, with each session counted once; breaks a minute: exact Poisson; medians: where the t interval of the sessions' own shares lasting longer holds one half).
record-word-fall = Fall: coming to rest unexpectedly on the ground, floor or other lower level (ProFaNE, Lamb 2005). A stumble that was saved is a near-fall.
record-word-not = This is no diagnosis and no overall mark. The companion does not watch over anybody and never changes a plan.

## The programme reported (CERT)

record-heading-cert = The programme, item by item
cert-source = After the Consensus on Exercise Reporting Template (CERT), Slade 2016: 16 items on 19 lines, told here in our own words. What the records do not hold says "not stated".
cert-not-stated = not stated
cert-1 = Equipment
cert-1-said = Support: { $support }. A chair behind. Footwear as planned. A phone with the chat.
cert-2 = Who teaches, with what training
cert-3 = Alone or in a group
cert-3-said = Individually, at home.
cert-4 = Supervision and how it is delivered
cert-4-said = Carer beside: { $supervision }. Guided step by step by a program in a chat; a physiotherapist prescribes and reviews.
cert-5 = How adherence is measured and told
cert-5-said = Self-report of client or carer after each bout and session; days without an answer count as unknown.
cert-6 = Motivation
cert-6-said = The goal in the client's own words: { $goal }
cert-7a = Rule for making it harder
cert-7a-said = Only by the therapist; the companion may propose after clean sessions running. The client may move within the range that is opened.
cert-7b = How it was made harder
cert-7b-said = { $plans } { $plans-plural ->
        [one] plan
       *[other] plans
    } on record; proposed steps taken: { $steps }.
cert-8 = Each exercise
cert-8-said = { $name }: { $way }
cert-9 = Home programme
cert-9-said = All of it is done at home.
cert-10 = What else belongs to it
cert-11 = Adverse events
cert-11-said = Red flags { $flags }, falls { $falls }, near-falls { $near } (reported; silence is unknown).
cert-12 = Setting
cert-12-said = At home, beside the support.
cert-13 = Dose
cert-13-said = { $days } days a week, { $times } a day, about { $minutes } min, rest { $rest } s at least between bouts; each exercise as in 8.
cert-14a = Same for all, or tailored
cert-14a-said = Tailored.
cert-14b = How it is tailored
cert-14b-said = Form, dose, side, hand support, clock and range of each exercise by the therapist.
cert-15 = Rule for the level to begin with
cert-15-said = Set by the therapist from what was found at a visit.
cert-16a = How it is checked that it goes as planned
cert-16a-said = By the reports of client and carer, week by week.
cert-16b = How far it went as planned
cert-16b-said = Sessions reported { $done } of { $due } due.
