"""Rehearsal pretends: a loopback chat platform and the people on its far side, for the real app to be played
against.
"""
