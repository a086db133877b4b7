"""Headers that every answer carries, problems and pages too."""

from __future__ import annotations

from flask import Flask, Response, current_app, request

from server.api.bodies import pack

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' blob:",
        "font-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "base-uri 'none'",
        "form-action 'self'",
        "frame-ancestors 'none'",
        "object-src 'none'",
    )
)
ALWAYS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(self), geolocation=(), microphone=()",
}


def guarded(response: Response) -> Response:
    """Adds what is missing; what a route has set stays (a rendition's policy is stricter)."""
    for name, value in ALWAYS.items():
        response.headers.setdefault(name, value)
    if current_app.extensions["settings"].secure_cookies:
        response.headers.setdefault("Strict-Transport-Security", "max-age=31536000")
    if request.path.startswith("/api/") or response.status_code >= 400:
        response.headers.setdefault("Cache-Control", "no-store")
    return response


def register(app: Flask) -> None:
    app.after_request(pack)
    app.after_request(guarded)
