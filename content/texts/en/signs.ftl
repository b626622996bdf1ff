### The signs of an emergency, for the client ($person: you) and for the carer ($person: they, with $name).
### The buttons under each are "Same as usual" and "Different or not sure". .short is for lists,
### .title is what the therapist reads: what was reported, never what it may be.

sign-balance = { $person ->
        [they] How is the balance of { $name } today?
       *[you] How is your balance today?
    } Think of a sudden loss of balance.
    .short = Balance
    .title = loss of balance
sign-eyes = { $person ->
        [they] How well does { $name } see today?
       *[you] How well do you see today?
    } Think of blurred, double or lost sight.
    .short = Sight
    .title = change of sight
sign-face = { $person ->
        [they] How does the face of { $name } look?
       *[you] How does your face look today?
    } Think of one side hanging down.
    .short = Face
    .title = change in the face
sign-arm = { $person ->
        [they] How are the arms of { $name } today?
       *[you] How are your arms today?
    } Think of a new weak or numb arm.
    .short = Arms
    .title = change in an arm
sign-speech = { $person ->
        [they] How does { $name } speak today?
       *[you] How is your speech today?
    } Think of new slurred or mixed-up words.
    .short = Speech
    .title = change of speech
sign-chest = { $person ->
        [they] How does the chest of { $name } feel?
       *[you] How does your chest feel today?
    } Think of pain or a tight chest.
    .short = Chest
    .title = chest pain or tightness
sign-breath = { $person ->
        [they] How does { $name } breathe at rest?
       *[you] How do you breathe at rest?
    } Think of being short of breath.
    .short = Breath
    .title = short of breath at rest
sign-dizzy = { $person ->
        [they] How does the head of { $name } feel?
       *[you] How does your head feel today?
    } Think of feeling dizzy or faint.
    .short = Dizzy
    .title = dizzy or faint
sign-calf = { $person ->
        [they] How are the calves of { $name } today?
       *[you] How are your calves today?
    } Think of one swollen, hot or sore calf.
    .short = Calves
    .title = calf swollen, hot or sore
