"""A home-practice companion in a chat, for people relearning to balance after a stroke.

Where anything lives, in one sentence: core decides, measures computes, store remembers, runtime does it in
order, chat talks, reports draws, rehearsal pretends, app joins.
"""

__version__ = "0.1.0"
