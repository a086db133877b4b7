"""Passcodes: how they are hashed, compared and judged."""

from __future__ import annotations

import unicodedata
from functools import lru_cache

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

SHORTEST, LONGEST = 8, 128
COMMON = frozenset(
    "password passw0rd password1 qwertyui qwerty123 iloveyou letmein1 welcome1 sunshine football baseball "
    "12345678 123456789 1234567890 87654321 11111111 00000000 abcd1234 abc12345 rakelight".split()
)

HASHER = PasswordHasher(time_cost=2, memory_cost=19456, parallelism=1)


def typed(passcode: str) -> str:
    """The same letters from two keyboards are one passcode (NFC); nothing is trimmed or cut."""
    return unicodedata.normalize("NFC", passcode)


def fold(name: str) -> str:
    """A name as it is compared: case, width and double blanks make no difference."""
    return " ".join(unicodedata.normalize("NFKC", name).split()).casefold()


def problem_with(passcode: str, name: str) -> str | None:
    """Why this passcode is not good enough, as a sentence; None when it is."""
    text = typed(passcode)
    if len(text) < SHORTEST:
        return f"A passcode needs at least {SHORTEST} characters."
    if len(text) > LONGEST:
        return f"A passcode has at most {LONGEST} characters."
    plain = fold(text)
    if plain in COMMON or len(set(plain)) < 3 or plain == fold(name):
        return "This passcode is among the first that anybody would try."
    return None


def hashed(passcode: str) -> str:
    return HASHER.hash(typed(passcode))


def matches(stored: str, passcode: str) -> bool:
    try:
        return HASHER.verify(stored, typed(passcode))
    except (VerificationError, InvalidHashError):
        return False


def outdated(stored: str) -> bool:
    """True for a hash made with weaker settings than today's."""
    return HASHER.check_needs_rehash(stored)


@lru_cache(maxsize=1)
def nobody() -> str:
    """A hash that no passcode is meant to match: an unknown name must take as long as a known one."""
    return HASHER.hash("nobody has this passcode")
