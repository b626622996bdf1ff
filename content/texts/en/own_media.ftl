### What a therapist recorded for this client: asked about on the client's phone, and found again behind More.

## The question, with the file itself

own-made = { $therapist } made this for you.
own-ask = Shall I use this when you practise?
b-own-use = Use it
b-own-leave-out = Leave it out
own-used = Good. I use this when you practise.
own-used-change = To change that, press "More".
own-left-out = Good. I leave this out.
own-not-now = You practise now. Press again later.

## Behind More

b-own = From my therapist
own-none = There is nothing here now.
own-item = { $name }: { $medium ->
        [photo] a photo.
        [video] a clip.
       *[voice] a voice note.
    }
own-item-kept = I use it when you practise.
own-item-aside = I do not use it now.
own-item-waiting = You did not choose yet.
b-own-show = See or hear it
b-own-next = The next one
