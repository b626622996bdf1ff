### What every table of questions to the therapist says beside its own questions and answers.

answer-by-tap = Not taken: this one is answered by a tap.
answer-line = { $question }: { $answer }
answer-list = { $first }, { $rest }
answer-now = Now: { $answer }
answer-place = { $at } of { $of }
answer-heading = — { $section }
answer-several = { $count }
b-answer-back = Back
b-answer-cancel = Cancel
b-answer-clear = Clear
b-answer-done = Done
b-answer-drop = Throw the draft away
b-answer-keep = Go on with it
b-answer-write = Write it down
