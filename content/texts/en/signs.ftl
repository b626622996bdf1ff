### The signs of an emergency, for the client ($person: you) and for the carer ($person: they, with $name).
### The buttons under each are "Same as usual" and "Different or not sure". .short is for lists,
### .title is what the therapist reads: what was reported, never what it may be.

sign-balance = { $person ->
        [they] How is the balance of { $name } today?
       *[you] How is your balance today?
    } Watch for a sudden loss of balance.
    .short = Balance
    .title = loss of balance: different or not sure
sign-eyes = { $person ->
        [they] How well does { $name } see today?
       *[you] How well do you see today?
    } Watch for blurred, double or lost sight.
    .short = Sight
    .title = change of sight: different or not sure
sign-face = { $person ->
        [they] How does the face of { $name } look?
       *[you] How does your face look today?
    } Watch for one side hanging down.
    .short = Face
    .title = change in the face: different or not sure
sign-arm = { $person ->
        [they] How are the arms and legs of { $name }?
       *[you] How are your arms and legs today?
    } Watch for a new weak or numb arm or leg.
    .short = Arms and legs
    .title = change in an arm or leg: different or not sure
sign-speech = { $person ->
        [they] How does { $name } speak today?
       *[you] How is your speech today?
    } Watch for new slurred or mixed-up words.
    .short = Speech
    .title = change of speech: different or not sure
sign-chest = { $person ->
        [they] How does the chest of { $name } feel?
       *[you] How does your chest feel today?
    } Watch for pain or a tight chest.
    .short = Chest
    .title = chest pain or tightness: different or not sure
sign-breath = { $person ->
        [they] How does { $name } breathe at rest?
       *[you] How do you breathe at rest?
    } Watch for being short of breath.
    .short = Breath
    .title = short of breath at rest: different or not sure
sign-dizzy = { $person ->
        [they] How does the head of { $name } feel?
       *[you] How does your head feel today?
    } Watch for feeling dizzy or faint.
    .short = Dizzy
    .title = dizzy or faint: different or not sure
sign-calf = { $person ->
        [they] How are the calves of { $name } today?
       *[you] How are your calves today?
    } Watch for one swollen, hot or sore calf.
    .short = Calves
    .title = calf swollen, hot or sore: different or not sure

## What is usual for this client: there, only worse than that counts.

usual-asked = { $person ->
        [they] Some of this is usual for them.
       *[you] Some of this is usual for you.
    } Watch for more than usual.
