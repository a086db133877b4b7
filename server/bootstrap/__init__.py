"""What the two commands do on a machine that has nothing but Python: everything else is set up here.

Standard library only, and no import from the rest of the server: this runs before any package is there.
Each step looks first whether it is still current (see `stamps`), so a second start takes well under a second.
"""

import sys

if sys.version_info < (3, 11):  # noqa: UP036 - nothing has checked it before us
    raise SystemExit(f"Python 3.11 or newer is needed; this is {sys.version.split()[0]}.")

from server.bootstrap.steps import inside, set_up

__all__ = ["inside", "set_up"]
