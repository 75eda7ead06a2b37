"""Kitwright: from an idea for a cardstock kit to a proved, cut-planned, printable make-pack."""
