### For the therapist: the last sessions against the client's own usual, as reported. No diagnosis, no red flag.

lower-noticed = { $name }: the last 4 sessions, taken together, were among the lowest, set against the { $earlier } before (reported).
lower-no-diagnosis = This is no diagnosis. Practice goes on as planned; client and carer are not told.

## What the client's own spread allows (spread.yaml)

spread-heading = Getting worse: what would be noticed
spread-unknown = Spread from session to session: unknown (fewer than 15 sessions with a hold that broke). It can not be said what fall would be noticed.
    .short = Own spread of holds between sessions: unknown (under 15 sessions with a hold that broke). What loss would be noticed: unknown.
spread-beyond = Spread from session to session: log-SD { $spread } (reported holds), beyond what was simulated. Do not count on a fall being noticed.
    .short = Own spread of holds between sessions: log-SD { $spread }, beyond what was simulated. Do not count on a loss being noticed.
spread-allows = Spread from session to session: log-SD { $spread } (reported holds). Within 4 sessions a lasting fall of the holds by a third would be noticed in about { $third } of 100 cases, by half in { $half } of 100 (simulated, log-SD { $row }).
    .short = Own spread of holds between sessions: log-SD { $spread }. Holds a third shorter for good would be noticed within 4 sessions in about { $third } of 100 cases, half as long in { $half } (simulated).
