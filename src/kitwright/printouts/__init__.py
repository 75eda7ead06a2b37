"""Everything that goes to paper or to a file for others."""
