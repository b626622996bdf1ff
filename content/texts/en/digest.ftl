### For the therapist: the words of the weekly digest over all clients. Dense; "reported" is what client or carer said.

digest-title = Week { $first } to { $last }, { $total-plural ->
    [one] 1 client
   *[other] { $total } clients
}.
digest-look = Need a look first: { $look }
digest-more = and { $count } more: see My clients
digest-none = Nobody needs a look first.
digest-others = Nothing to look at first: { $count-plural ->
    [one] 1 client
   *[other] { $count } clients
}.
digest-coming = The other charts are on their way.
b-digest-others = { $count-plural ->
    [one] The other chart
   *[other] The other { $count } charts
}
