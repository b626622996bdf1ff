### For the therapist: a step is proposed, with what it rests on. Dense, exact, with units; everything is as reported.

## How an exercise is planned

way = { $form }, { $hand }, { $dose }
dose-seconds = { $dose } s
dose-times = { $dose } times
dose-seconds-sides = { $dose } s (weaker side { $weaker } s)
dose-times-sides = { $dose } times (weaker side { $weaker } times)

## The proposal

proposal-title-up = Proposal: { $name }, { $exercise }, a step up
proposal-title-back = Proposal: { $name }, { $exercise }, a step back
proposal-evidence-up = { $sessions } sessions running clean to the target on all planned sides (reported), no flag, fall or near-fall since:
proposal-evidence-back = { $sessions } sessions running with a bout that broke or was made easier, no fewer in the last (reported):
proposal-day = · { $day }: { $clean } of { $sides } bouts clean, { $broke } broke or made easier; { $effort }
proposal-effort-easy = effort easy
proposal-effort-medium = effort medium
proposal-effort-hard = effort hard
proposal-effort-unknown = effort unknown
proposal-due = Sessions reported: { $done } of { $due } due, last { $days } days
proposal-now = Now: { $way }
proposal-next = Next step ({ $step }, both sides): { $way }
proposal-back = Step back: { $way }; nothing harder stays open
proposal-yours = Nothing changes unless you choose.
challenge-longer-hold = longer hold
challenge-more-repeats = more repeats
challenge-less-hand = less hand support
challenge-narrower-base = next form
challenge-eyes-closed = eyes closed
b-proposal-next = Next step
b-proposal-stay = Stay
b-proposal-back = Step back
b-proposal-week = Ask me in a week

## The answer

proposal-about = { $name }, { $exercise }
proposal-by = Chosen by { $who }
proposal-stays = stays as planned
proposal-next-done = next step: { $way } (plan { $version })
proposal-back-done = step back: { $way }; nothing harder is open (plan { $version })
proposal-later = asked again { $day }
proposal-withdrawn = proposal withdrawn: { $why }
proposal-why-plan-changed = the plan changed
proposal-why-flag = a red flag
proposal-why-discharged = discharged
proposal-why-therapist-changed = another therapist sees to the client
proposal-why-no-longer-met = the last sessions do not support it any more
proposal-over = That proposal is over. Nothing was changed.
proposal-no-harder = No harder form in the library for this client. Nothing was changed.
proposal-no-easier = No easier form in the library for this client. Nothing was changed.
proposal-refused = Not done: that plan would contradict itself.
