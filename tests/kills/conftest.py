"""The served yard and the browser of the walk, here too."""

from tests.walk.conftest import place, playwright

__all__ = ["place", "playwright"]
