"""Draws what the therapist gets: the weekly chart and its caption, in a child process."""
