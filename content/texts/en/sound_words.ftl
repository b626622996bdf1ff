# What is heard in a voice note, told in words: for who can not hear it, and for the record.

sound-spoken = A voice says: “{ $what }”
sound-into-place = { $seconds } seconds to get into place.
sound-start = A long tone: start.
sound-quarter = { $tones-plural ->
    [one] At { $seconds } seconds: { $tones } short tone.
   *[other] At { $seconds } seconds: { $tones } short tones.
}
sound-end = At { $seconds } seconds: a long falling tone: the end.
sound-to-count = Then { $tones } short tones to count.
