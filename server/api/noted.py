"""The security log: one JSON line for each event, in UTC, without passcodes, tokens, names typed or texts written."""

from __future__ import annotations

import json
import logging

from flask import current_app, request

from server.clock import stamp

LOG = logging.getLogger("rakelight.security")


def note(what: str, **facts: object) -> None:
    """JSON keeps a line break in a value from beginning a line of its own."""
    line = {
        "at": stamp(current_app.extensions["clock"].now()),
        "what": what,
        "method": request.method,
        "path": request.path[:200],
        "address": request.remote_addr,
        **facts,
    }
    LOG.info(json.dumps(line, sort_keys=True))
