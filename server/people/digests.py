"""What is kept of a secret instead of the secret."""

from __future__ import annotations

import hashlib


def digest(secret: str) -> str:
    """Hex SHA-256: 256 random bits need no slow hash. Junk has one too, which nothing kept is equal to."""
    return hashlib.sha256(secret.encode("utf-8", "replace")).hexdigest()
