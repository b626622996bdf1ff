"""What a clinician may change: the files of `content/`, read into core values and words, or told apart fault by fault."""
