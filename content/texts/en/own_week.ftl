### The client's own picture of the week: kind, true, few words. A day without practice is simply empty.

own-week-title = Your week
own-week-days = { $days-plural ->
    [one] You practised on 1 day.
   *[other] You practised on { $days } days.
}
own-week-none = A new day is a new start.
own-week-unsure = ? I do not know how this day went.
own-week-times = { $exercise }: { $times-plural ->
    [one] 1 time
   *[other] { $times } times
}
own-week-goal = Your goal
own-week-caption = Here is your week as a picture.
