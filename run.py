"""Set up the project and run its main jobs, with nothing but Python: python run.py demo, python run.py test.

Any Python can read this file, so that an old one is told in words that it is too old; what is done stands in jobs.py.
"""

import sys

OLDEST = (3, 11)

if sys.version_info < OLDEST:
    sys.exit(
        "Kitwright needs Python %d.%d or newer; this is %d.%d.%d. Install a newer Python and run this again."  # noqa: UP031
        % (OLDEST + sys.version_info[:3])
    )

if __name__ == "__main__":
    from jobs import main

    main()
