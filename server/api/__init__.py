"""Thin routes: read the request, call one room, write the answer."""

from flask import Flask

from server.api import (
    access,
    csv_files,
    devices,
    headers,
    health,
    modules,
    openapi,
    pages,
    people,
    photos,
    problems,
    readings,
    release,
    reports,
    rules,
    sensors,
    set_aside,
    sync,
)

__all__ = ["register"]

SUBJECTS = (
    csv_files,
    devices,
    health,
    modules,
    openapi,
    people,
    photos,
    readings,
    release,
    reports,
    rules,
    sensors,
    set_aside,
    sync,
)


def register(app: Flask) -> None:
    """Hangs every route into the application, with what stands before and after each."""
    for subject in SUBJECTS:
        app.register_blueprint(subject.blueprint, url_prefix="/api")
    pages.register(app)
    access.register(app)
    headers.register(app)
    problems.register(app)
