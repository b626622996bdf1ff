### What is said beside a session, to the client and the carer: joining, the fixed row, the menu, typed words.

## The fixed row of controls. Every label ever shipped must go on being understood.

row-something-wrong = Something is wrong
row-enough = Enough
row-had-to-leave = I had to leave
row-more = More

## Joining

hello = Hello { $name }.
welcome-carer = Hello { $name }. Thank you for your help.
stranger = This chat is private. Ask your therapist for a link. In an emergency, call your emergency number.
link-unknown = I do not know this link. Ask your therapist for a new one.
link-used = This link was used before. Ask your therapist for a new one.
link-expired = This link is too old. Ask your therapist for a new one.
link-taken = This phone has joined as somebody else. Ask your therapist.

## The menu

more = What do you need?
b-practise-now = Practise now
b-i-fell = I fell
b-they-fell = They fell
b-help = How this works
help-client = I guide your practice. Press the large buttons.
help-carer = I guide the practice. Stay beside them.
help-not-watched = Nobody watches this chat all the time.
nothing-runs = No practice runs now.
off-today = No practice today. Rest now.
no-plan = There is no plan yet. Ask your therapist.
nothing-left = You did all for today. Well done.
needs-helper = Your plan needs a helper. No helper has joined yet.

## Typed words

typed-kept = I keep this for { $therapist }. Nobody reads this at once.
typed-other = I can not read that.
tell-in-session = { $kept } { $form ->
        [voice] I can not hear this.
        [audio] I can not hear this.
       *[other] I can not look at this.
    }
typed-emergency = In an emergency, call { $number } now.
typed-row = Please use the buttons.

## When something fails

fault = That did not work here. Please press again. In an emergency, call { $number } now.
