### What a carer is told before the first session, a message each. $name is the client.

briefing-role = You are the helper of { $name }. You stand by and you watch. Do not lift. Do not catch.
briefing-place = Stand on their weaker side, a little behind. Do not hold the weak arm. One hand close to them.
briefing-hands = Their good hand is for the support. Hold your phone in the other hand. They never have to tap while they stand.
briefing-normal = A little sway is normal. A step to save themselves is good. Easier is always fine.
briefing-stop = Are they pale, dizzy or unwell? Say: "Hand on. Feet apart. Sit."
briefing-words = Worried? Press "Something is wrong". In an emergency, call { $number } first. I can not call for you.
