"""Who may ask what: this machine's own page, and nobody through it.

Another site's page can send requests to an address on this machine (cross-site posts) or make its own
name point there (rebinding). Neither knows the token; the first has a foreign Origin, the second a
foreign Host.
"""

import hmac
import ipaddress
import re
import secrets

from flask import Flask, Request, Response, abort, g, request

MOST_FORM = 1_000_000
"""Bytes of a form without files."""
MOST_FILE = 20_000_000
MOST_FILES = 200_000_000
UPLOADS = ("page.own_theme",)
"""Endpoints that files may be sent to."""

POLICY = (
    "default-src 'none'; img-src 'self'; style-src 'self'; script-src 'self'; font-src 'self'; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
_HOST = re.compile(r"^(\[[0-9a-fA-F:.]+\]|[A-Za-z0-9.-]+)(?::(\d+))?$")


def guard(app: Flask, address: str, port: int) -> None:
    """Puts the checks before every request and the headers behind it."""
    token = secrets.token_urlsafe(32)
    app.config["TOKEN"] = token

    @app.before_request
    def check() -> None:
        if not host_allowed(request.host or "", address, port):
            abort(403)
        if _foreign(request, address, port):
            abort(403)
        if request.method not in ("GET", "HEAD"):
            request.max_content_length = MOST_FILES if request.endpoint in UPLOADS else MOST_FORM
            request.max_form_memory_size = MOST_FORM
            request.max_form_parts = 2000
            if not hmac.compare_digest(request.form.get("token", "").encode(), token.encode()):
                abort(403)
        g.token = token

    @app.after_request
    def headers(response: Response) -> Response:
        if response.mimetype != "application/pdf":  # the browser's own viewer needs its styles
            response.headers["Content-Security-Policy"] = POLICY
        response.headers["X-Content-Type-Options"] = "nosniff"
        response.headers["X-Frame-Options"] = "DENY"
        response.headers["Referrer-Policy"] = "same-origin"
        response.headers["Cross-Origin-Resource-Policy"] = "same-origin"
        response.headers["Cross-Origin-Opener-Policy"] = "same-origin"
        response.headers.setdefault("Cache-Control", "no-store")
        return response


def host_allowed(host: str, address: str, port: int) -> bool:
    """Whether a Host header names this machine itself; a name could be made to point here.

    Where the page listens on another address, that address is allowed, and any address in digits if
    it listens on all of them.
    """
    parts = _HOST.match(host)
    if not parts or int(parts[2] or 80) != port:
        return False
    name = parts[1].strip("[]").lower()
    if name in ("localhost", "127.0.0.1", "::1", address.lower()):
        return True
    return _is_any(address) and _is_digits(name)


def is_loopback(address: str) -> bool:
    """Whether only this machine itself reaches an address."""
    try:
        return ipaddress.ip_address(address).is_loopback
    except ValueError:
        return address == "localhost"


def _is_any(address: str) -> bool:
    try:
        return ipaddress.ip_address(address).is_unspecified
    except ValueError:
        return False


def _is_digits(name: str) -> bool:
    try:
        ipaddress.ip_address(name)
    except ValueError:
        return False
    return True


def _foreign(asked: Request, address: str, port: int) -> bool:
    """Whether another site's page sent the request."""
    origin = asked.headers.get("Origin")
    if origin is not None:
        scheme, _, host = origin.partition("://")
        if scheme != "http" or host != asked.host or not host_allowed(host, address, port):
            return True
    site = asked.headers.get("Sec-Fetch-Site", "none")
    if site in ("none", "same-origin"):
        return False
    return asked.method not in ("GET", "HEAD") or asked.headers.get("Sec-Fetch-Mode") != "navigate"
