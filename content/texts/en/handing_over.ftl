### For the therapist: own settings, hand-over and cover, discharge. Dense, exact, with units.

typed-contact = Words are passed on only while a red flag is open. This chat is not monitored.
not-your-client = Not changed: this client has another therapist now.
colleagues-none = No other therapist is in the chat. Nothing was changed.
b-colleague = { $name }
b-colleague-next = Next page
b-open-page = Open the page

## Settings

setting-title = Your settings
setting-kept = Kept. The care of each of your clients knows.
setting-closed = Settings closed.
setting-hours = Working hours: { $days } { $start } to { $end } ({ $zone })
setting-hours-none = Working hours: not set; clients are never told that you are off duty
setting-no-days = none
setting-day-list = { $first }, { $rest }
setting-deputy = Deputy outside working hours: { $name }, told of a red flag at once; can acknowledge, can not lift
setting-deputy-none = Deputy outside working hours: none
setting-digest = Weekly digest: { $day } { $at } ({ $zone })
setting-digest-none = Weekly digest: none
setting-charts-all = Charts with it: of all clients
setting-charts-own = Charts with it: of clients who have something to see
setting-ask-days = Working days?
setting-picked = Working days so far: { $days }
setting-ask-times = Working hours on { $days } ({ $zone })? Choose, or type two times, as in 08:30-16:45. An end before the start means over midnight.
setting-times-unread = Not read: type two different times, as in 08:30-16:45.
setting-ask-deputy = Who is told of a red flag while you are off duty?
setting-ask-digest-day = Weekly digest on which day?
setting-ask-digest-time = Weekly digest on { $day } at what time? Choose, or type a time, as in 07:45.
setting-time-unread = Not read: type one time, as in 07:45.
b-setting-hours = Working hours
b-setting-deputy = Deputy
b-setting-digest = Weekly digest
b-setting-charts-all = Charts of all clients
b-setting-charts-own = Only charts to look at
b-setting-close = Close settings
b-setting-mon-fri = Monday to Friday
b-setting-mon-thu = Monday to Thursday
b-setting-every-day = Every day
b-setting-pick = Choose days
b-setting-no-hours = No working hours
b-setting-days-done = These days
b-setting-clear = Begin again
b-setting-span = { $start } to { $end }
b-setting-time = { $at }
b-setting-no-deputy = No deputy
b-setting-no-digest = No digest
b-setting-back = Back

## Hand-over and cover: asked

hand-ask-over = Hand { $name } over for good: to whom?
hand-ask-cover = Cover for { $name }: by whom?
hand-cover-now = Cover agreed already: { $who }. A new one takes its place.
hand-ask-when = { $who } covers { $name }: when? Both of you see and do everything; either may lift a stop.
hand-type-dates = Or type the first and the last day, as in 2026-12-01 2026-12-14.
hand-dates-unread = Not read: type one or two dates, as in 2026-12-01 2026-12-14.
hand-dates-past = Not taken: the first day has passed, or the last day is before the first.
hand-dates-long = Not taken: a cover lasts at most { $days } days. For longer, hand over.
hand-sure-over = Hand { $name } over to { $who } for good? You see and change nothing of { $name } afterwards. An open red flag goes along.
hand-sure-cover = { $who } covers { $name } from { $start } to { $end } ({ $zone })?
hand-passed-on = { $name }: { $who } is being told.
hand-cover-ends = { $name }: the cover is being ended.
hand-has-left = { $name }: nothing changed. { $who } is not in the chat any more and could not be told of a red flag. Choose somebody else.
hand-cancelled = { $name }: nothing changed.
b-hand-today-only = Today
b-hand-tomorrow-only = Tomorrow
b-hand-1-week = 1 week from today
b-hand-2-weeks = 2 weeks from today
b-hand-end-cover = End the cover now
b-hand-sure-over = Hand over for good
b-hand-sure-cover = Agree the cover
b-hand-back = Back
b-hand-cancel = Cancel

## Hand-over and cover: done

handed-over-from = { $name }: handed over to { $who }. You see and change nothing more here.
handed-over-to = { $name }: handed over to you by { $who }.
cover-agreed = { $name }: { $who } covers from { $start } to { $end } ({ $zone }).
cover-to = { $name }: you cover for { $who } until { $end }.
cover-over = { $name }: the cover by { $who } is over.
cover-over-to = { $name }: your cover is over. You see and change nothing more here.
cover-none = { $name }: there is no cover to end.
cover-left = { $name }: { $who }, who covers, can not be reached in this chat (blocked or left). Red flags pass to the next contact at once. Agree another cover.
situation-plan = Plan version { $version }
situation-no-plan = No plan yet
situation-last = Last session with practice: { $at }
situation-none = No session with practice yet
situation-flag = A red flag is open: all exercise is stopped.

## Discharge

discharge-ask = Discharge { $name }? Reminders, sessions and charts end. { $name } gets a list to go on with and when to ask you again. You get a summary. A new plan opens it again.
discharge-flag = { $name }: not discharged. A red flag is open; lift it first.
discharge-session = { $name }: not discharged. A session is under way; try again after it.
discharge-already = { $name }: discharged already. A new plan opens it again.
discharge-kept = { $name }: not discharged.
b-discharge-sure = Discharge
b-discharge-keep = Do not discharge
discharged-title = { $name }: discharged { $at } ({ $zone }). { $told ->
    [both] Client and carer were told.
    [client] The client was told.
    [carer] The carer was told; the client is not in the chat.
   *[nobody] Nobody at home is in the chat; nobody was told.
}
discharged-weeks = First plan: { $since }; full weeks since: { $weeks }
discharged-weeks-unknown = First plan: unknown
discharged-sessions = Sessions reported: { $done } done, { $partly } partly done, { $stopped } stopped by a red flag, { $no_word } ended without word (unknown), { $not_ready } not ready at the check
discharged-days = Practice days without a session: { $declined } declined, { $no_answer } no answer (unknown), { $not_asked } not asked (companion away), { $held } on hold, { $paused } paused
discharged-falls = Falls reported: { $falls }; near-falls: { $near }; not told apart (unknown): { $unknown }
discharged-bouts = · { $exercise }: bouts reported { $bouts }, clean { $clean }, unknown { $unknown }
discharged-no-bouts = Bouts reported: none
discharged-earlier = Earlier sessions with practice, in the record and not counted here: { $count }
discharged-told = Told to go on with: { $list }
keep-item-plain = { $exercise } ({ $form })
discharged-told-none = Told of no exercise: there was no plan, or nothing in it may be done without a helper.
