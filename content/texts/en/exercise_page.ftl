### The page that `companion exercise` writes: an own exercise as it is drawn, said, heard and rehearsed. For the therapist.

exercise-page-title = { $name }: how it looks, reads, sounds and goes
exercise-page-fine = Checked, drawn and rehearsed: nothing wrong was found.
exercise-page-wrong = Not right yet: { $what }
exercise-page-invented = All people are invented. The left side is the weaker one in these pictures.
exercise-page-usual = The form that is usually planned: { $form }.

exercise-page-form = Form { $number } of { $all } (1 is the easiest): { $form }
exercise-page-stance = { $stance }, { $eyes ->
    [closed] eyes closed
   *[open] eyes open
}
exercise-page-dose-timed = Hold: usually { $target } s, from { $least } to { $most } s
exercise-page-dose-counted = Count: usually { $target }, from { $least } to { $most }
exercise-page-hands = Hand support: { $hands }
exercise-page-clocks = Clock: { $clocks }
exercise-page-needs-carer = Needs a carer beside the client
exercise-page-needs-free-ankle = Needs an ankle that nothing blocks
exercise-page-needs-two-hands = Needs two good hands

exercise-page-side = { $side ->
    [weaker] Weaker side
    [stronger] Stronger side
   *[none] No sides
}
exercise-page-drawn = Drawn for each hand support
exercise-page-phone = { $who ->
    [carer] On the carer’s phone
   *[client] On the client’s phone
}
exercise-page-sound = Voice note, { $seconds } s: { $description }
exercise-page-rehearsed = The session as it was rehearsed, the phones side by side

exercise-page-checks = What was looked at
exercise-page-check-file = The file: forms from easiest to hardest, doses, hand support, clocks, and what a form needs for safety.
exercise-page-check-words = { $count } texts: sentences of at most 10 words, digits, no short forms, weaker or stronger for sides.
exercise-page-check-drawn = { $pictures } pictures and { $sounds } voice notes, made as the bot makes them.
exercise-page-check-played = { $forms } sessions, each to its closing: every bout done, none made easier. A session on paper is no test on people: try it yourself, standing, before you prescribe it.
