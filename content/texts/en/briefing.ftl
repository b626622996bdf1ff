### What a carer is told before the first session, topic by topic, each with a check question. On the carer's phone, or on
### the client's where they share one. $number is this service's emergency number. The order is in carer_briefing.yaml.

for-helper = For your helper:
for-helper-left = { for-helper }
briefing-begin = First, some words for you, the helper. There are { $parts } short parts. Take your time.
briefing-part = Part { $part } of { $parts }
b-go-on = Go on
b-read-briefing = Read it now
briefing-done = That was all. Now you can help.
briefing-more = You can read it again under "More".
briefing-first = Please finish what is open here first.
carer-unbriefed = Please read your { $parts } short parts first. Until then { $name } does not stand.
no-carer-briefed = Your helper has to read some words first. No standing now.

## Where to stand

briefing-role = You stand by and you watch. Do not lift. Do not catch.
briefing-where = Stand on their weaker side, a little behind. Keep 1 hand close to them.
briefing-where-ask = Where do you stand?
b-briefing-where-front = In front of them
b-briefing-where-weaker = On the weaker side, a little behind
b-briefing-where-far = Across the room
briefing-where-wrong = Not quite. They need help most on the weaker side. A little behind, you can see and reach them.

## What to hold

briefing-hold = Their good hand is for the support. Do not hold the weak arm.
briefing-hold-phone = Hold only your phone. Your other hand is free. They never have to tap while they stand.
briefing-hold-ask = What do you hold?
b-briefing-hold-phone = Only my phone
b-briefing-hold-weak = Their weak arm
b-briefing-hold-good = Their good hand
briefing-hold-wrong = Not quite. A pull on the weak arm can hurt. Their good hand has to hold the support.

## What to say aloud

briefing-say = They may not see the phone. So you speak aloud.
briefing-say-end = When the time is over, say: "Hand on. Feet apart."
briefing-say-ask = The time is over. What do you say?
b-briefing-say-still = "Stand still."
b-briefing-say-more = "Go on for a little."
b-briefing-say-down = "Hand on. Feet apart."
briefing-say-wrong = Not quite. They wait for your words. Say: "Hand on. Feet apart."

## When to stop

briefing-normal = A little sway is normal. A step to save themselves is good. Easier is always fine.
briefing-stop = Look if they are pale, dizzy or unwell. Then say: "Hand on. Feet apart. Sit."
briefing-stop-ask = They look pale. What do you do?
b-briefing-stop-now = Stop and let them sit
b-briefing-stop-end = Let them finish first
b-briefing-stop-wait = Wait and see
briefing-stop-wrong = Not quite. Do not wait. Stopping too soon does no harm.

## What to do after a fall

briefing-fall = After a fall, do not lift them. Stay with them.
briefing-fall-tell = Then press "More". There, press "They fell".
briefing-fall-ask = They fell. What comes first?
b-briefing-fall-lift = I pull them up
b-briefing-fall-stay = I stay, and I do not lift
b-briefing-fall-on = We go on with practice
briefing-fall-wrong = Not quite. A lift can hurt you both. Stay there. If they are hurt, call { $number }.

## When to call

briefing-call = If they are very unwell or hurt, call { $number }. Call first. I can not call for you.
briefing-call-tell = Then press "Something is wrong". All practice stops. I tell their therapist.
briefing-call-ask = Who calls { $number }?
b-briefing-call-chat = This chat calls
b-briefing-call-therapist = The therapist calls
b-briefing-call-me = I call
briefing-call-wrong = Not quite. Nobody reads this chat at once. So you call { $number } yourself.
