### The client's own place, and how the hand is used. Keys of the plan: support and footwear.

place-support-worktop = Worktop { $side ->
        [front] in front of you
       *[stronger] on your stronger side
    }.
place-support-sink = Kitchen sink { $side ->
        [front] in front of you
       *[stronger] on your stronger side
    }.
place-support-rail = Fixed rail { $side ->
        [front] in front of you
       *[stronger] on your stronger side
    }.
place-support-heavy-table = Heavy table { $side ->
        [front] in front of you
       *[stronger] on your stronger side
    }. It must not move.
place-support-sturdy-chair = Sturdy chair { $side ->
        [front] in front of you
       *[stronger] on your stronger side
    }. It must not move.

place-stop = Stop if you feel dizzy or unwell.
place-called = You call it { $name }.

# the letters on the feet of every picture
place-letters = In pictures, W is weaker. S is stronger.
place-footwear-barefoot = Bare feet, as planned. Floor dry.
place-footwear-shoes = Shoes on, as planned.
place-footwear-shoes-orthosis = Shoes and splint on, as planned.

hand-two-hands = Both hands on.
    .short = both hands on
hand-one-hand = Hand on.
    .short = hand on
hand-fingertips = Hand on.
    .then = Then fingertips only.
    .short = fingertips on
hand-hovering = Hand on.
    .then = When steady, the hand hovers just above.
    .short = hand hovers
hand-none = Hand on.
    .then = When steady, hand off. Keep the support close.
    .short = hand off
