### For the record: what goes out as a document. For the therapist.

record-data = Data as CSV, with a dictionary of its columns. All that was said is self-report; "unknown": nobody told.
