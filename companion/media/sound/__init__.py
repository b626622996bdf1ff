"""Sound is a clock for closed eyes: voice notes of tones, with spoken words where a speech engine is installed."""
