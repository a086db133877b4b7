"""How `learned.json` was made: `python3 -m tests.rules.learned_tables > server/rules/data/1/learned.json`.

The rules reckon with + - * / alone, so what needs `log` and `exp` is written down here, once. test_learned.py holds the
file to this script.

* `spread`: a coat of the yard needs its factor times a log-normal share of the dose, sigma 0.25: three of four within
  a third.
* `doubt`: one look in fifty is simply wrong, and then says *dry* or *not dry* by chance.
* `prior`: before any look the factor is about 100 per cent, log-normal, sigma 0.2.
All three are judgement, not a measurement; the yard's own looks outweigh the prior from about ten on.
"""

from __future__ import annotations

import json
import textwrap
from math import erf, log, sqrt
from typing import Any

SPREAD, DOUBT, PRIOR = 0.25, 0.02, 0.2
PERCENT, RATIO = (50, 250), (20, 400)


def dry_share(ratio: float) -> float:
    """The share of coats that are dry once `ratio` times the dose that the middle one needs has passed."""
    return (1 + erf(log(ratio) / SPREAD / sqrt(2))) / 2


def tables() -> dict[str, Any]:
    """Shares in millionths by whole per cent; surprise (-1000 ln) by thousandths and of the prior by whole per cent."""
    return {
        "percent": {"from": PERCENT[0], "to": PERCENT[1]},
        "doubt": round(DOUBT * 1_000_000),
        "dry_share": {
            "from": RATIO[0],
            "millionths": [round(1_000_000 * dry_share(each / 100)) for each in range(RATIO[0], RATIO[1] + 1)],
        },
        "surprise": [round(-1000 * log(max(1, each) / 1000)) for each in range(1001)],
        "prior": [round(500 * (log(each / 100) / PRIOR) ** 2) for each in range(PERCENT[0], PERCENT[1] + 1)],
    }


def text() -> str:
    """As JSON, in lines."""
    return textwrap.fill(json.dumps(tables()), 118, subsequent_indent=" ", break_on_hyphens=False) + "\n"


if __name__ == "__main__":
    print(text(), end="")
