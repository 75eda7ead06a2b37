"""Lets `python -m kitwright` do what the command `kitwright` does."""

from kitwright.cli import main

if __name__ == "__main__":
    main()
