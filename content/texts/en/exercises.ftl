### The exercises, for the client and the carer.
### ex-NAME: short name; .notice, .normal, .stop, .caution.
### form-NAME-FORM: short name of the form; .setup ($side: weaker, stronger or none); .do ($target) where it is
### counted; .carer: what the carer does; .short ($side, $target): all of it in one line of at most 8 words, under a picture.

-carer-place = Stand on their weaker side, a little behind.
-carer-arm = Do not hold the weak arm.

short-times = { $target-plural ->
        [one] once
       *[other] { $target } times
    }
short-lengths = { $target-plural ->
        [one] 1 length
       *[other] { $target } lengths
    }

## Warm-up

ex-seated-press = Seated foot press
    .notice = Notice if both feet press the same.
    .normal = Warm, working legs are normal.
    .stop = Stop if it hurts or you feel dizzy.
    .caution = Your chair must not slide.
form-seated-press-sat-back = sitting back
    .setup = Sit back in the chair. Feet flat on the floor.
    .short = Sit back. Press both feet { short-times }.
    .do = Press both feet down. Let go. Do it { $target } times.
    .carer = Stay close. Count with them.
form-seated-press-edge = on the edge
    .setup = Sit on the edge of the chair. Pull your feet back a little.
    .short = Sit on the edge. Press { short-times }.
    .do = Press both feet down. Let go. Do it { $target } times.
    .carer = Stay close. Count with them.
form-seated-press-lean = leaning forward
    .setup = Sit on the edge. Pull your feet back a little. Lean forward.
    .short = Lean forward. Press both feet { short-times }.
    .do = Press both feet down. Let go. Do it { $target } times.
    .carer = { -carer-place } Count with them.

ex-feet-together = Feet together
    .notice = Notice how much you sway.
    .normal = A little sway is normal. Keep breathing.
    .stop = Stop if you feel dizzy or unwell.
    .caution = Do not lean your legs on the chair.
form-feet-together-apart = easier, feet apart
    .setup = Wait until you are not dizzy. Feet apart.
    .short = Stand still. Feet apart.
    .carer = { -carer-place } { -carer-arm }
form-feet-together-together = stand still
    .setup = Wait until you are not dizzy. Feet together.
    .short = Stand still. Feet together.
    .carer = { -carer-place } { -carer-arm }

## Standing still

ex-feet-together-eyes-closed = Eyes closed
    .notice = Notice which way you sway.
    .normal = More sway with eyes closed is normal.
    .stop = Open your eyes if you feel dizzy.
    .caution = Open your eyes at any time.
form-feet-together-eyes-closed-apart-open = easier, eyes open
    .setup = Feet apart. Eyes open. Look at one spot.
    .short = Stand still. Feet apart. Eyes open.
    .carer = { -carer-place } { -carer-arm }
form-feet-together-eyes-closed-apart-closed = feet apart
    .setup = Feet apart. Close your eyes when steady.
    .short = Feet apart. Close your eyes when steady.
    .carer = { -carer-place } Say when to open the eyes.
form-feet-together-eyes-closed-together-closed = feet together
    .setup = Feet together. Close your eyes when steady.
    .short = Feet together. Close your eyes when steady.
    .carer = { -carer-place } Say when to open the eyes.

ex-half-step = Half step
    .notice = Notice the weight on each foot.
    .normal = A little sway is normal. Keep breathing.
    .stop = Stop if you feel dizzy or unwell.
    .caution = A step to save yourself is good.
form-half-step-wide = easier, feet wide
    .setup = { $side ->
        [weaker] Weaker foot half a step in front.
       *[stronger] Stronger foot half a step in front.
    } Keep the feet wide.
    .short = { $side ->
        [weaker] Weaker foot half a step in front, wide.
       *[stronger] Stronger foot half a step in front, wide.
    }
    .carer = { -carer-place } { -carer-arm }
form-half-step-close = feet close
    .setup = { $side ->
        [weaker] Weaker foot half a step in front.
       *[stronger] Stronger foot half a step in front.
    } Front heel beside the other big toe.
    .short = { $side ->
        [weaker] Weaker foot half a step in front.
       *[stronger] Stronger foot half a step in front.
    }
    .carer = { -carer-place } { -carer-arm }

ex-heel-to-toe = Heel to toe
    .notice = Notice how your ankles work.
    .normal = Working ankles and a little sway are normal.
    .stop = Stop if you feel dizzy or unwell.
    .caution = A step to save yourself is good.
form-heel-to-toe-half-step = easier, half step
    .setup = { $side ->
        [weaker] Weaker foot half a step in front.
       *[stronger] Stronger foot half a step in front.
    } Front heel beside the other big toe.
    .short = { $side ->
        [weaker] Weaker foot half a step in front.
       *[stronger] Stronger foot half a step in front.
    }
    .carer = { -carer-place } { -carer-arm }
form-heel-to-toe-small-gap = easier, a small gap
    .setup = { $side ->
        [weaker] Weaker foot in front.
       *[stronger] Stronger foot in front.
    } Feet in one line. Leave a small gap.
    .short = { $side ->
        [weaker] Weaker foot in front. Leave a small gap.
       *[stronger] Stronger foot in front. Leave a small gap.
    }
    .carer = { -carer-place } { -carer-arm }
form-heel-to-toe-touching = heel touches toes
    .setup = { $side ->
        [weaker] Weaker foot in front.
       *[stronger] Stronger foot in front.
    } Front heel touches the other toes.
    .short = { $side ->
        [weaker] Weaker foot in front. Heel touches toes.
       *[stronger] Stronger foot in front. Heel touches toes.
    }
    .carer = { -carer-place } { -carer-arm }

ex-one-leg = One leg
    .notice = Notice the foot you stand on.
    .normal = The foot may come down. Lift it again.
    .stop = Stop if it hurts or you feel dizzy.
    .caution = Do not press your legs together.
form-one-leg-toes-rest = easier, toes rest on the floor
    .setup = { $side ->
        [weaker] Stand on your weaker leg.
       *[stronger] Stand on your stronger leg.
    } Other foot behind. Only the toes touch the floor.
    .short = { $side ->
        [weaker] Stand on your weaker leg, other toes down.
       *[stronger] Stand on your stronger leg, other toes down.
    }
    .carer = { -carer-place } { -carer-arm }
form-one-leg-foot-up = foot up
    .setup = { $side ->
        [weaker] Stand on your weaker leg.
       *[stronger] Stand on your stronger leg.
    } Lift the other foot a little.
    .short = { $side ->
        [weaker] Stand on your weaker leg. Other foot up.
       *[stronger] Stand on your stronger leg. Other foot up.
    }
    .carer = { -carer-place } { -carer-arm }

## On the toes

ex-one-leg-toes = Up on your toes
    .notice = Notice how your ankle works.
    .normal = Coming down early is normal.
    .stop = Stop for pain in the foot or calf.
    .caution = Hand back on each time.

toes-face = { $again ->
        [yes] Stay facing the support.
       *[no] Turn slowly to face the support. Your helper moves the chair.
    }
-toes-carer = Put the chair right behind them. { -carer-place }

form-one-leg-toes-both-pat = both legs, on the toes, pat
    .setup = { toes-face } Up on your toes. { $side ->
        [weaker] More weight on your weaker leg.
       *[stronger] More weight on your stronger leg.
    }
    .short = { $side ->
        [weaker] On toes, weaker leg more. Pat { short-times }.
       *[stronger] On toes, stronger leg more. Pat { short-times }.
    }
    .do = Lift the hand. Pat your chest. Hand back. { $target-plural ->
        [one] Do it once.
       *[other] Do it { $target } times.
    }
    .carer = { -toes-carer }
form-one-leg-toes-both-clap = both legs, on the toes
    .setup = { toes-face } Up on your toes. { $side ->
        [weaker] More weight on your weaker leg.
       *[stronger] More weight on your stronger leg.
    }
    .short = { $side ->
        [weaker] On toes, weaker leg more. Clap { short-times }.
       *[stronger] On toes, stronger leg more. Clap { short-times }.
    }
    .do = { $target-plural ->
        [one] Clap once.
       *[other] Clap { $target } times.
    } Hands back on each time.
    .carer = { -toes-carer }
form-one-leg-toes-flat-pat = one leg, flat foot, pat
    .setup = { toes-face } { $side ->
        [weaker] Stand on your weaker leg, foot flat.
       *[stronger] Stand on your stronger leg, foot flat.
    }
    .short = { $side ->
        [weaker] Weaker leg, foot flat. Pat { short-times }.
       *[stronger] Stronger leg, foot flat. Pat { short-times }.
    }
    .do = Lift the hand. Pat your chest. Hand back. { $target-plural ->
        [one] Do it once.
       *[other] Do it { $target } times.
    }
    .carer = { -toes-carer }
form-one-leg-toes-flat-clap = one leg, flat foot
    .setup = { toes-face } { $side ->
        [weaker] Stand on your weaker leg, foot flat.
       *[stronger] Stand on your stronger leg, foot flat.
    }
    .short = { $side ->
        [weaker] Weaker leg, foot flat. Clap { short-times }.
       *[stronger] Stronger leg, foot flat. Clap { short-times }.
    }
    .do = { $target-plural ->
        [one] Clap once.
       *[other] Clap { $target } times.
    } Hands back on each time.
    .carer = { -toes-carer }
form-one-leg-toes-toes-pat = one leg, on the toes, pat
    .setup = { toes-face } { $side ->
        [weaker] Stand on your weaker leg, up on your toes.
       *[stronger] Stand on your stronger leg, up on your toes.
    }
    .short = { $side ->
        [weaker] Weaker leg, on your toes. Pat { short-times }.
       *[stronger] Stronger leg, on your toes. Pat { short-times }.
    }
    .do = Lift the hand. Pat your chest. Hand back. { $target-plural ->
        [one] Do it once.
       *[other] Do it { $target } times.
    }
    .carer = { -toes-carer }
form-one-leg-toes-toes-clap = one leg, on the toes
    .setup = { toes-face } { $side ->
        [weaker] Stand on your weaker leg, up on your toes.
       *[stronger] Stand on your stronger leg, up on your toes.
    }
    .short = { $side ->
        [weaker] Weaker leg, on your toes. Clap { short-times }.
       *[stronger] Stronger leg, on your toes. Clap { short-times }.
    }
    .do = { $target-plural ->
        [one] Clap once.
       *[other] Clap { $target } times.
    } Hands back on each time.
    .carer = { -toes-carer }
form-one-leg-toes-shut-count = one leg, eyes shut, hands on
    .setup = { toes-face } { $side ->
        [weaker] Stand on your weaker leg, up on your toes.
       *[stronger] Stand on your stronger leg, up on your toes.
    }
    .short = { $side ->
        [weaker] Weaker leg, on toes. Eyes shut. Count { $target }.
       *[stronger] Stronger leg, on toes. Eyes shut. Count { $target }.
    }
    .do = Keep your hand on. Shut your eyes. Count to { $target }.
    .carer = { -toes-carer } Count aloud. Then say: "Eyes open."
form-one-leg-toes-shut-pat = one leg, eyes shut, pat
    .setup = { toes-face } { $side ->
        [weaker] Stand on your weaker leg, up on your toes.
       *[stronger] Stand on your stronger leg, up on your toes.
    }
    .short = { $side ->
        [weaker] Weaker leg, toes, eyes shut. Pat { short-times }.
       *[stronger] Stronger leg, toes, eyes shut. Pat { short-times }.
    }
    .do = Shut your eyes. Lift the hand. Pat your chest. Hand back. { $target-plural ->
        [one] Do it once.
       *[other] Do it { $target } times.
    }
    .carer = { -toes-carer } Count aloud. Then say: "Eyes open."
form-one-leg-toes-shut-clap = one leg, eyes shut
    .setup = { toes-face } { $side ->
        [weaker] Stand on your weaker leg, up on your toes.
       *[stronger] Stand on your stronger leg, up on your toes.
    }
    .short = { $side ->
        [weaker] Weaker leg, toes, eyes shut. Clap { short-times }.
       *[stronger] Stronger leg, toes, eyes shut. Clap { short-times }.
    }
    .do = Shut your eyes. { $target-plural ->
        [one] Clap once.
       *[other] Clap { $target } times.
    } Hands back on each time.
    .carer = { -toes-carer } Count aloud. Then say: "Eyes open."

ex-heel-raises = Heel lifts
    .notice = Notice if both heels lift the same.
    .normal = Warm calves are normal.
    .stop = Stop for pain in the foot or calf.
    .caution = Lower your heels slowly.
form-heel-raises-seated = seated
    .setup = Sit on the chair. Feet flat on the floor.
    .short = Sit. Lift both heels { short-times }.
    .do = Lift both heels. Lower them slowly. Do it { $target } times.
    .carer = Stay close. Count with them.
form-heel-raises-small = standing, small lifts
    .setup = Turn slowly to face the support. Feet apart.
    .short = Stand. Lift heels a little, { short-times }.
    .do = Lift both heels a little. Lower slowly. Do it { $target } times.
    .carer = { -carer-place } Count with them.
form-heel-raises-full = standing, full lifts
    .setup = Turn slowly to face the support. Feet apart.
    .short = Stand. Lift heels high, { short-times }.
    .do = Lift both heels high. Lower slowly. Do it { $target } times.
    .carer = { -carer-place } Count with them.

## Moving

ex-heel-to-toe-walk = Heel-to-toe walk
    .notice = Notice if your feet land in one line.
    .normal = Slow steps and a little sway are normal.
    .stop = Stop if you feel dizzy or unwell.
    .caution = Do not turn around.
form-heel-to-toe-walk-wide = easier, feet wide
    .setup = Support on your stronger side. Feet wide.
    .short = Walk, feet wide. { short-lengths }. Come back sideways.
    .do = { $target-plural ->
        [one] Walk 1 length. Stop.
       *[other] Walk { $target } lengths. Stop after each.
    } Face the support. Step sideways back.
    .carer = Walk along on their weaker side. { -carer-arm }
form-heel-to-toe-walk-small-gap = easier, a small gap
    .setup = Support on your stronger side. Feet in one line. Leave a small gap at each step.
    .short = Walk, small gap. { short-lengths }. Come back sideways.
    .do = { $target-plural ->
        [one] Walk 1 length. Stop.
       *[other] Walk { $target } lengths. Stop after each.
    } Face the support. Step sideways back.
    .carer = Walk along on their weaker side. { -carer-arm }
form-heel-to-toe-walk-touching = heel touches toes
    .setup = Support on your stronger side. Feet in one line. Heel touches toes at each step.
    .short = Walk heel to toe. { short-lengths }. Sideways back.
    .do = { $target-plural ->
        [one] Walk 1 length. Stop.
       *[other] Walk { $target } lengths. Stop after each.
    } Face the support. Step sideways back.
    .carer = Walk along on their weaker side. { -carer-arm }

ex-weight-shift = Weight from side to side
    .notice = Notice the weight on each foot.
    .normal = One side feels easier. That is normal.
    .stop = Stop if you feel dizzy or unwell.
    .caution = Go only as far as feels safe.
form-weight-shift-seated = seated
    .setup = Sit tall. Feet flat on the floor.
    .short = Sit tall. Weight side to side, { short-times }.
    .do = Move your weight to one side, then the other. Do it { $target } times in all.
    .carer = Stay close on their weaker side.
form-weight-shift-side-to-side = standing
    .setup = Turn slowly to face the support. Feet apart.
    .short = Stand. Weight side to side, { short-times }.
    .do = Move your weight onto one foot, then the other. Do it { $target } times in all.
    .carer = { -carer-place } { -carer-arm }
form-weight-shift-heel-light = standing, heel up
    .setup = Turn slowly to face the support. Feet apart.
    .short = Stand. Weight over, free heel up, { short-times }.
    .do = Move your weight onto one foot. Lift the other heel. Change sides. Do it { $target } times in all.
    .carer = { -carer-place } { -carer-arm }

ex-sit-to-stand = Sit to stand
    .notice = Notice if both legs push the same.
    .normal = Warm, working legs are normal.
    .stop = Stop if you feel dizzy when you stand.
    .caution = Put the chair against a wall.
form-sit-to-stand-raised-seat = raised seat
    .setup = Put a firm cushion on the chair. Sit on the edge. Pull your feet back a little.
    .short = Firm cushion. Stand up, sit down, { short-times }.
    .do = Push with the hand. Stand up. Sit down slowly. { $target-plural ->
        [one] Do it once.
       *[other] Do it { $target } times.
    }
    .carer = { -carer-place } { -carer-arm }
form-sit-to-stand-hand-push = hand helps
    .setup = Sit on the edge of the chair. Pull your feet back a little.
    .short = Push with hand. Stand, then sit, { short-times }.
    .do = Push with the hand. Stand up. Sit down slowly. { $target-plural ->
        [one] Do it once.
       *[other] Do it { $target } times.
    }
    .carer = { -carer-place } { -carer-arm }
form-sit-to-stand-no-push = no hand
    .setup = Sit on the edge of the chair. Pull your feet back a little.
    .short = No hand. Stand, then sit, { short-times }.
    .do = Stand up with no push. Sit down slowly. { $target-plural ->
        [one] Do it once.
       *[other] Do it { $target } times.
    }
    .carer = { -carer-place } { -carer-arm }

ex-marching = Marching
    .notice = Notice which leg feels heavy.
    .normal = Slow and low is fine.
    .stop = Stop if you feel dizzy or unwell.
    .caution = One foot at a time.
form-marching-seated = seated
    .setup = Sit tall. Feet flat on the floor.
    .short = Sit tall. Lift knees in turn, { short-times }.
    .do = Lift one knee, then the other. Lift { $target } times in all.
    .carer = Stay close. Count with them.
form-marching-heel-only = standing, heels only
    .setup = Turn slowly to face the support. Feet apart.
    .short = Stand. Lift heels in turn, { short-times }.
    .do = Lift one heel, then the other. Lift { $target } times in all.
    .carer = { -carer-place } Count with them.
form-marching-low = standing, low
    .setup = Turn slowly to face the support. Feet apart.
    .short = Stand. Lift feet in turn, { short-times }.
    .do = Lift one foot, then the other. Lift { $target } times in all.
    .carer = { -carer-place } Count with them.
form-marching-high = standing, high
    .setup = Turn slowly to face the support. Feet apart.
    .short = Stand. Lift knees high in turn, { short-times }.
    .do = Lift one knee high, then the other. Lift { $target } times in all.
    .carer = { -carer-place } Count with them.

ex-step-forward = Stepping forward
    .notice = Notice how your foot lands.
    .normal = Small steps are fine.
    .stop = Stop if you feel dizzy or unwell.
    .caution = Floor clear in front of you.
form-step-forward-tap = easier, tap only
    .setup = { $side ->
        [weaker] Your weaker leg taps.
       *[stronger] Your stronger leg taps.
    } Feet apart. Support on your stronger side.
    .short = { $side ->
        [weaker] Weaker leg taps in front, { short-times }.
       *[stronger] Stronger leg taps in front, { short-times }.
    }
    .do = Tap in front. Bring the foot back. Do it { $target } times.
    .carer = { -carer-place } { -carer-arm }
form-step-forward-step = short step
    .setup = { $side ->
        [weaker] Your weaker leg steps.
       *[stronger] Your stronger leg steps.
    } Feet apart. Support on your stronger side.
    .short = { $side ->
        [weaker] Weaker leg steps in front, { short-times }.
       *[stronger] Stronger leg steps in front, { short-times }.
    }
    .do = Step in front. Step back. Do it { $target } times.
    .carer = { -carer-place } { -carer-arm }
form-step-forward-long-step = long step
    .setup = { $side ->
        [weaker] Your weaker leg steps.
       *[stronger] Your stronger leg steps.
    } Feet apart. Support on your stronger side.
    .short = { $side ->
        [weaker] Weaker leg, long step in front, { short-times }.
       *[stronger] Stronger leg, long step in front, { short-times }.
    }
    .do = Take a long step in front. Step back. Do it { $target } times.
    .carer = { -carer-place } { -carer-arm }

ex-step-side = Stepping to the side
    .notice = Notice the leg you stand on.
    .normal = Small steps are fine.
    .stop = Stop if you feel dizzy or unwell.
    .caution = Floor clear on both sides.
form-step-side-tap = easier, tap only
    .setup = { $side ->
        [weaker] Your weaker leg taps.
       *[stronger] Your stronger leg taps.
    } Feet apart. Face the support.
    .short = { $side ->
        [weaker] Weaker leg taps to the side, { short-times }.
       *[stronger] Stronger leg taps to the side, { short-times }.
    }
    .do = Tap to the side. Bring the foot back. Do it { $target } times.
    .carer = { -carer-place } { -carer-arm }
form-step-side-step = short step
    .setup = { $side ->
        [weaker] Your weaker leg steps.
       *[stronger] Your stronger leg steps.
    } Feet apart. Face the support.
    .short = { $side ->
        [weaker] Weaker leg steps to the side, { short-times }.
       *[stronger] Stronger leg steps to the side, { short-times }.
    }
    .do = Step to the side. Step back. Do it { $target } times.
    .carer = { -carer-place } { -carer-arm }
form-step-side-long-step = long step
    .setup = { $side ->
        [weaker] Your weaker leg steps.
       *[stronger] Your stronger leg steps.
    } Feet apart. Face the support.
    .short = { $side ->
        [weaker] Weaker leg, long step sideways, { short-times }.
       *[stronger] Stronger leg, long step sideways, { short-times }.
    }
    .do = Take a long step to the side. Step back. Do it { $target } times.
    .carer = { -carer-place } { -carer-arm }

ex-head-turns = Head turns
    .notice = Notice if your body stays still.
    .normal = A little sway is normal.
    .stop = Stop if you feel dizzy or unwell.
    .caution = Turn your head slowly.
form-head-turns-seated = seated
    .setup = Sit tall. Feet flat on the floor.
    .short = Sit tall. Turn your head, { short-times }.
    .do = Turn your head to one side, then the other. Turn { $target } times in all.
    .carer = Stay close on their weaker side.
form-head-turns-apart = standing, feet apart
    .setup = Turn slowly to face the support. Feet apart.
    .short = Feet apart. Turn your head, { short-times }.
    .do = Turn your head to one side, then the other. Turn { $target } times in all.
    .carer = { -carer-place } { -carer-arm }
form-head-turns-together = standing, feet together
    .setup = Stand with feet together. Face the support.
    .short = Feet together. Turn your head, { short-times }.
    .do = Turn your head to one side, then the other. Turn { $target } times in all.
    .carer = { -carer-place } { -carer-arm }

## Seated

ex-reach = Seated reach
    .notice = Notice the weight on each foot.
    .normal = A short reach is fine.
    .stop = Stop if it hurts or you feel dizzy.
    .caution = Your chair must not slide.
form-reach-near = near
    .setup = Sit tall. Feet flat on the floor.
    .short = Stronger hand reaches forward, { short-times }.
    .do = Reach forward with your stronger hand. Sit tall again. Do it { $target } times.
    .carer = Stay close on their weaker side.
form-reach-far = far
    .setup = Sit on the edge of the chair. Feet flat.
    .short = Stronger hand reaches far forward, { short-times }.
    .do = Reach far forward with your stronger hand. Sit tall again. Do it { $target } times.
    .carer = Stay close on their weaker side.
form-reach-across = across
    .setup = Sit on the edge of the chair. Feet flat.
    .short = Reach across to your weaker side, { short-times }.
    .do = Reach across to your weaker side. Sit tall again. Do it { $target } times.
    .carer = Stay close on their weaker side.
