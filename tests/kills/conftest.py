"""The served yard of the walk, here too."""

from tests.walk.conftest import place

__all__ = ["place"]
