"""Talks with the chat platform: what comes in, what goes out, and the buttons between.

The only part that knows the platform.
"""
