### What a picture shows, in words: for who can not see it, and for the record. Plain words, exactly what is drawn.
### $side: the foot in front, the leg stood on, or the leg that moves: weaker, stronger, or none.

## How the client stands or sits

picture-posture-back = You sit back on a chair.
picture-posture-edge = You sit on the edge of a chair.
picture-posture-lean = You sit on the edge and lean forward.
picture-posture-raised = You sit on the edge, on a firm cushion.
picture-posture-standing = You stand.

picture-feet-flat = Feet flat, side by side.
picture-feet-apart = Feet apart, side by side.
picture-feet-together = Feet together.
picture-feet-wide-half-step = { $side ->
        [weaker] Weaker foot half a step in front.
       *[stronger] Stronger foot half a step in front.
    } Feet wide.
picture-feet-half-step = { $side ->
        [weaker] Weaker foot half a step in front.
       *[stronger] Stronger foot half a step in front.
    } Feet close.
picture-feet-small-gap = { $side ->
        [weaker] Weaker foot in front.
       *[stronger] Stronger foot in front.
    } Feet in one line, a small gap between.
picture-feet-touching = { $side ->
        [weaker] Weaker foot in front.
       *[stronger] Stronger foot in front.
    } Feet in one line. Heel touches toes.
picture-feet-toes-rest = { $side ->
        [weaker] On your weaker leg.
       *[stronger] On your stronger leg.
    } Other foot behind, only its toes down.
picture-feet-one-up = { $side ->
        [weaker] On your weaker leg.
       *[stronger] On your stronger leg.
    } The other foot is up.
picture-toes = You are up on your toes.
picture-weight = { $side ->
        [weaker] More weight on your weaker leg. It has a ring.
       *[stronger] More weight on your stronger leg. It has a ring.
    }

## Support and hands

picture-hand-on = Stronger hand flat on it.
picture-hand-both-on = Both hands flat on it.
picture-hand-fingertips = Only the fingers of the stronger hand touch it.
picture-hand-both-fingertips = Only the fingers of both hands touch it.
picture-hand-hovers = Stronger hand just above it, with a gap.
picture-hand-side = Hands at your sides, not on it.
picture-seat-on = Stronger hand on the seat.
picture-seat-both-on = Both hands on the seat.
picture-seat-fingertips = Only the fingers of the stronger hand touch the seat.
picture-seat-both-fingertips = Only the fingers of both hands touch the seat.
picture-seat-hovers = Stronger hand just above the seat, with a gap.
picture-seat-lap = Hands on your lap.

picture-eyes-closed = Eyes closed.

## What moves

picture-motion-press = Arrows: both feet press down.
picture-motion-lift-heels = Arrow: both heels go up.
picture-motion-lift-heels-a-little = Arrow: both heels go up a little.
picture-motion-lift-heel = { $side ->
        [weaker] Arrow: the weaker heel goes up.
        [stronger] Arrow: the stronger heel goes up.
       *[none] Arrow: one heel goes up, then the other.
    }
picture-motion-lift-foot = { $side ->
        [weaker] Arrow: the weaker foot goes up.
        [stronger] Arrow: the stronger foot goes up.
       *[none] Arrow: one foot goes up, then the other.
    }
picture-motion-lift-knee = { $side ->
        [weaker] Arrow: the weaker knee goes up.
        [stronger] Arrow: the stronger knee goes up.
       *[none] Arrow: one knee goes up, then the other.
    }
picture-motion-shift = Arrow: weight to one side, then the other.
picture-motion-shift-heel-up = Arrow: weight to one side. Other heel goes up.
picture-motion-turn-head = Arrow: the head turns from side to side.
picture-motion-tap-forward = { $side ->
        [weaker] Arrow: weaker foot taps in front.
       *[stronger] Arrow: stronger foot taps in front.
    }
picture-motion-step-forward = { $side ->
        [weaker] Arrow: weaker foot steps in front.
       *[stronger] Arrow: stronger foot steps in front.
    }
picture-motion-long-step-forward = { $side ->
        [weaker] Arrow: weaker foot takes a long step in front.
       *[stronger] Arrow: stronger foot takes a long step in front.
    }
picture-motion-tap-side = { $side ->
        [weaker] Arrow: weaker foot taps to its side.
       *[stronger] Arrow: stronger foot taps to its side.
    }
picture-motion-step-side = { $side ->
        [weaker] Arrow: weaker foot steps to its side.
       *[stronger] Arrow: stronger foot steps to its side.
    }
picture-motion-long-step-side = { $side ->
        [weaker] Arrow: weaker foot takes a long step aside.
       *[stronger] Arrow: stronger foot takes a long step aside.
    }
picture-motion-stand-up = Arrow: you stand up.
picture-motion-walk = Arrow: you walk along the support.
picture-motion-clap = Arrow: hands leave the support and clap.
picture-motion-pat = Arrow: stronger hand goes to your chest.
picture-motion-reach-near = Arrow: stronger hand goes forward.
picture-motion-reach-far = Arrow: stronger hand goes far out in front.
picture-motion-reach-across = Arrow: stronger hand goes across to your weaker side.

## What is around

picture-chair = Chair behind you.
picture-helper = Helper on your weaker side, a little behind.
picture-letter-weaker = W
picture-letter-stronger = S
picture-marks = Weaker foot striped, with { $weaker }. Stronger foot white, with { $stronger }.
picture-weaker-left = Weaker side: left.
picture-weaker-right = Weaker side: right.
picture-weaker-unknown = Your weaker side is not known yet. It is drawn left.

## The sheet of signs, and the place

picture-signs = New, or worse than your usual?
picture-sign = { $sign }.
picture-place = Your place.
picture-place-floor = Floor clear.
picture-place-you = The feet show where you stand.
