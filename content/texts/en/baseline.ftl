### The baseline at the visit, and making a client in the chat. For the therapist: dense, exact. Nothing here names an illness.
### `baseline-<question>` is the field, `.ask` the question, `.again` what typed words have to be, `-<answer>` an answer.

baseline-title-new = NEW CLIENT · baseline
baseline-title = { $name } · baseline
baseline-person = Person
baseline-risk = Risk and help
baseline-home = Home and phone
baseline-cancel = Throw this draft away? Nothing of it has been written down.
baseline-kept = { $name }: baseline kept, with today's date. Earlier ones stay in the record.

## Person

baseline-name = Call name
    .ask = Type the call name: what the client is called, at most 30 letters. No full name, no date of birth.
    .again = A call name is 1 to 30 letters, with no comma.
baseline-weaker-side = Weaker side
    .ask = Weaker side. If even: the side that the client agrees to call weaker.
baseline-weaker-side-left = left
baseline-weaker-side-right = right
baseline-weaker-side-unknown = unknown
baseline-tap-hand = Can tap a phone
    .ask = Which hand can tap a phone? "Either" also means two good hands for support and claps.
baseline-tap-hand-left = left hand only
baseline-tap-hand-right = right hand only
baseline-tap-hand-either = either hand
baseline-tap-hand-neither = neither: the carer taps
baseline-tap-hand-one = one hand (side unknown)
baseline-orthosis = Orthosis
    .ask = Ankle or foot orthosis in practice? One that blocks the ankle rules out rising on the toes.
baseline-orthosis-none = none
baseline-orthosis-ankle-free = worn, ankle moves
baseline-orthosis-ankle-blocked = worn, blocks the ankle
baseline-orthosis-unknown = unknown
baseline-age-band = Age
    .ask = Age band, years.
baseline-age-band-age-18-39 = 18-39
baseline-age-band-age-40-54 = 40-54
baseline-age-band-age-55-64 = 55-64
baseline-age-band-age-65-74 = 65-74
baseline-age-band-age-75-84 = 75-84
baseline-age-band-age-85 = 85 or over
baseline-age-band-unknown = unknown
baseline-walking-aid = Walking aid
    .ask = Walking aid, indoors.
baseline-walking-aid-none = none
baseline-walking-aid-stick = stick
baseline-walking-aid-four-foot-stick = stick with 4 feet
baseline-walking-aid-frame = frame
baseline-walking-aid-wheelchair = wheelchair between exercises
baseline-deficits = Usual deficits
    .ask = Which signs are usual for this client? The check then asks for "worse than usual" there. Only what is there on most days.
baseline-deficits-none = none
baseline-vision = Vision
    .ask = Vision, with the usual glasses.
baseline-vision-usual = reads the screen
baseline-vision-reduced = reduced
baseline-vision-side-missed = misses one side of the screen
baseline-hearing = Hearing
    .ask = Hearing, with the usual aids. Hears the phone from the practice spot?
baseline-hearing-usual = hears the phone
baseline-hearing-hard-of-hearing = hard of hearing
baseline-reading = Reading
    .ask = Reads short messages alone?
baseline-reading-usual = reads alone
baseline-reading-short-words = short words only
baseline-reading-pictures-only = pictures only; somebody reads aloud

## Risk and help

baseline-blood-thinner = Blood thinner
    .ask = Does the client take a blood thinner? With one, a head hit is an emergency.
baseline-blood-thinner-yes = takes one
baseline-blood-thinner-no = takes none
baseline-blood-thinner-unknown = unknown: treated as taking one
baseline-falls-last-year = Falls, last 12 months
    .ask = Falls in the last 12 months (reported).
baseline-falls-last-year-none = none
baseline-falls-last-year-one = 1
baseline-falls-last-year-several = 2 or more
baseline-falls-last-year-unknown = unknown
baseline-call-for-help = Calls for help
    .ask = How can the client call for help from the floor? A phone that must be tapped does not count for standing alone.
baseline-call-for-help-voice = by voice, somebody hears it
baseline-call-for-help-alarm = worn alarm
baseline-call-for-help-phone-tap = phone only
baseline-call-for-help-cannot = can not
baseline-call-for-help-some-way = can (how: unknown)
baseline-supervision = Supervision
    .ask = Who must be beside the client?
baseline-supervision-always = a carer, for all standing
baseline-supervision-when-form-needs = a carer, where a form needs one
baseline-supervision-none = nobody: no carer named
baseline-carer = Carer
    .ask = Type the carer's call name.
    .again = A call name is 1 to 30 letters, with no comma.
baseline-contacts = Alerts after you
    .ask = Who is alerted next if you do not acknowledge, in this order? Tap, or type call names with commas between, at most 4. Each gets a link.
    .again = Type call names of 1 to 30 letters with commas between, at most 4.
baseline-contacts-none = nobody else
baseline-contacts-carer = the carer
baseline-contacts-deputy = your deputy

## Home and phone

baseline-footwear = Footwear
    .ask = Footwear in practice.
baseline-footwear-shoes = shoes
baseline-footwear-shoes-orthosis = shoes and orthosis
baseline-footwear-barefoot = barefoot
baseline-support = Support
    .ask = Support object at home, fixed or too heavy to move.
baseline-support-worktop = worktop
baseline-support-sink = kitchen sink
baseline-support-rail = fixed rail
baseline-support-heavy-table = heavy table
baseline-support-sturdy-chair = sturdy chair
baseline-support-name = Support called
    .ask = What does the client call it? Type it, for example: the kitchen worktop.
    .again = Type a name of 1 to 30 letters, with no comma.
baseline-support-name-none = no own name
baseline-support-side = Support stands
    .ask = Where does the support stand?
baseline-support-side-stronger = on the stronger side
baseline-support-side-front = in front
baseline-into-place = Time to get into place
    .ask = Time from Ready to standing in place, s.
baseline-into-place-10 = 10 s
baseline-into-place-20 = 20 s
baseline-into-place-30 = 30 s
baseline-phones = Phones
    .ask = Phones. On a shared phone the carer's number is not checked; charts then say "not verified".
baseline-phones-two = one each
baseline-phones-shared = one, shared
baseline-zone = Time zone
    .ask = Time zone of the client. Tap, or type its name, for example Europe/London.
    .again = There is no time zone of that name. Type it like Europe/London.
baseline-zone-same = as yours, { $zone }
baseline-quiet = Quiet hours
    .ask = Hours without reminders, client's time. Tap, or type them, for example 21:30-07:30.
    .again = Type two times of day, for example 21:30-07:30.
baseline-quiet-night-21-08 = 21:00-08:00
baseline-quiet-night-20-08 = 20:00-08:00
baseline-quiet-night-22-07 = 22:00-07:00
baseline-quiet-none = none

## What the answers together mean

baseline-remark-alone = Note: alone and can not call for help from the floor: standing practice will not be offered.
baseline-remark-taps = Note: the client can not tap and there are 2 phones: the carer has to tap on both.
baseline-remark-splint = Note: an orthosis is worn, and the footwear leaves it out.
baseline-remark-chair = Note: a chair can tip: no one-leg stance and no walking beside it.

## Making a client

enrol-draft = You began a new client: { $name }. Nothing of it has been written down yet.
enrol-draft-again = { $name }: you began to take the baseline anew. Nothing of it has been written down yet.
b-enrol-anew = Start anew
enrol-dropped = Draft thrown away. Nothing was written down.
enrol-link-client = Link for { $name } (client). One use, within 14 days. Open it on their phone, or scan: { $link }
enrol-link-carer = Link for { $name }, carer of { $client }. One use, within 14 days. Open it on their phone, or scan: { $link }
enrol-link-contact = Link for { $name }, told of alerts of { $client } after you. One use, within 14 days. Send it to them: { $link }
enrol-done = { $name } is enrolled; the baseline is kept. Practice begins after the client's consent, with a plan. Prescribe now?
b-enrol-prescribe = Prescribe now
b-enrol-not-now = Not now
enrol-later = { $name } has no plan yet. You find it on the client's page.
b-enrol-page = { $name }

## A baseline taken anew, where there is a plan

baseline-plan = { $name }: the plan follows the new baseline, version { $version }, at once. What the baseline rules out is not offered.
baseline-plan-against = The plan contradicts the baseline in { $count } places. Open it and change it:
baseline-not-theirs = You do not see to { $name } any more. The baseline was not kept.
