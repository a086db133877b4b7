"""Whose phone an enrolment is: the phone makes a secret before it first signs in, and names it each time.

So a person with a passcode of their own cannot take up another phone's enrolment and speak for those who signed in
on it.
The first secret that comes with an enrolment is its own for good: also where the enrolment is older than its secret, or
comes back after a restore. An older one takes it from its own people only, or somebody else could lock them out.
"""

from __future__ import annotations

import hmac

from sqlalchemy import Connection, insert, select

from server.people.digests import digest
from server.people.tables import device_key


def is_its_phone(conn: Connection, device: str, secret: str | None, *, may_be_first: bool) -> bool:
    """Whether this secret goes with the enrolment; the first one is kept, hashed. None for programs that keep none.

    `may_be_first`: whoever signs in has signed in on it before, or holds a session of it.
    """
    kept = conn.execute(select(device_key.c.secret).where(device_key.c.device == device)).scalar_one_or_none()
    if kept is None and secret is not None:
        if not may_be_first:
            return False
        conn.execute(insert(device_key).values(device=device, secret=digest(secret)))
    return kept is None or (secret is not None and hmac.compare_digest(kept, digest(secret)))
