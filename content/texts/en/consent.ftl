### The client's consent, screen by screen (the order is in content/consent.yaml), and what the carer may see.
### Whoever changes what a text says raises the version there.

## What it does, and what it is not

consent-does = I remind you of practice. I guide you as you practise.
consent-alone = I am a program. Nobody watches while you practise.
consent-emergency = I can not call for help. In an emergency, call { $number }.
consent-beside = Your therapist and local rules come first.

## What is kept, and who sees it

consent-kept = I keep your answers and your words. Your clinic stores them.
consent-who = Your therapist sees them. A stand-in sees them too.
consent-platform = The chat service carries your words. The service can see them too.

## Nobody reads at once, and stopping is free

consent-unread = Nobody reads what you write at once.
consent-stop = You can stop at any time. Press "More" to leave.
consent-free = Your care stays the same.
consent-ask = Do you agree?

b-consent-go-on = I understand. Go on
b-consent-stop = I do not want this
b-consent-agree = I agree
b-consent-disagree = I do not want this
b-consent-read = Read it again

consent-carer = { $carer } is your helper. In an emergency I tell them.
consent-carer-ask = What else may they see?
b-sees-all = My practice and my words
b-sees-practice = Only my practice
b-sees-none = Nothing else
carer-sees-kept = Thank you. You can change that at any time.

## After it

consent-thanks = Thank you. You agreed.
consent-next = I remind you when it is time.
consent-next-no-plan = Your therapist makes your plan next.
consent-declined = That is fine. I will not remind you.
consent-declined-care = I tell your therapist. Your care stays the same.
consent-first = First read this, please. I keep nothing yet.
consent-new-words = Some words are new. Please read them.
