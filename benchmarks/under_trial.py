"""A plugin of pytest for the trial by mutants: CPU and memory have limits; hypothesis tries the same examples every time, and makes none
smaller that failed.
"""

from __future__ import annotations

import os
import resource

from hypothesis import Phase, settings

SECONDS = int(os.environ.get("UNDER_TRIAL_SECONDS", "240"))
MOST_ADDRESSES = 4 << 30

resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS + 5))
resource.setrlimit(resource.RLIMIT_AS, (MOST_ADDRESSES, MOST_ADDRESSES))
settings.register_profile("under trial", derandomize=True, deadline=None, phases=(Phase.explicit, Phase.generate))
settings.load_profile("under trial")
