### For the therapist: the last sessions against the client's own usual, as reported. No diagnosis, no red flag.

lower-noticed = { $name }: the last 4 sessions, taken together, were among the lowest, set against the { $earlier } before (reported).
lower-no-diagnosis = This is no diagnosis. Practice goes on as planned; client and carer are not told.
