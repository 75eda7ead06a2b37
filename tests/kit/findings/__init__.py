"""For every kind of finding one kit document that has it, and one beside it that has it no more."""
