"""Measures computes what the records really say, with what is missing counted apart. No I/O, no words, no drawing."""
