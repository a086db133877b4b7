"""What a route says of itself for the description: a decorator, kept with the view."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, TypeVar

from marshmallow import Schema

View = TypeVar("View", bound=Callable[..., Any])


@dataclass(frozen=True)
class Description:
    """`asks`: the body's schema or media types; `gives`: the answer's media type; `refuses`: problems by status."""

    asks: type[Schema] | tuple[str, ...] | None = None
    gives: str = "application/json"
    status: int = 200
    refuses: tuple[int, ...] = ()
    query: dict[str, dict[str, Any]] = field(default_factory=dict)


DESCRIBED: dict[str, Description] = {}


def described(**told: Any) -> Callable[[View], View]:
    """Keeps the description under the view's module and name, which is also its endpoint."""

    def keep(view: View) -> View:
        DESCRIBED[f"{view.__module__.rsplit('.', 1)[-1]}.{view.__name__}"] = Description(**told)
        return view

    return keep
