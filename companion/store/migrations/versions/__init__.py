"""The changes, in order."""
