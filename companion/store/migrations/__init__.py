"""How older tables become today's: one file a change, never altered once it was shipped."""
