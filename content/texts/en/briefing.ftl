### What a carer is told before the first session, a message each. $name is the client.

briefing-role = You are the helper of { $name }. You stand by and you watch. You do not have to lift or catch.
briefing-place = Stand on their weaker side, a little behind. Do not hold the weak arm. Hands close and free.
briefing-hands = Their good hand is for the support. You hold your phone. They never have to tap while they stand.
briefing-normal = A little sway is normal. A step to save oneself is good. Easier is always fine.
briefing-stop = Are they pale, dizzy or unwell? Say: "Hand down. Feet apart. Sit."
briefing-words = Worried? Press "Something is wrong". In an emergency, call { $number } first. I can not call for you.
