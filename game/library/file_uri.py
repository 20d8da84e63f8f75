"""Names of files as other programs hand them over: a path, or a file URI with its signs in percent."""

import os
import re
from urllib.parse import unquote

__all__ = ["path_of_name"]

_URI = re.compile(r"file:(?://(?P<host>[^/]*))?(?P<path>/.*)", re.IGNORECASE)
_DRIVE = re.compile(r"/([A-Za-z]:[/\\].*)")


def path_of_name(name: str) -> str:
    """The path of a file URI (RFC 8089); any other name as it is.

    >>> path_of_name("file:///home/ada/Week%20one.pack.toml"), path_of_name("a%20b.toml")
    ('/home/ada/Week one.pack.toml', 'a%20b.toml')
    >>> path_of_name("file:///C:/Ada/week%20one.toml"), path_of_name("file://localhost/srv/a")
    ('C:/Ada/week one.toml', '/srv/a')
    """
    found = _URI.fullmatch(name)
    if found is None:
        return name
    path = unquote(found["path"], errors="surrogateescape")
    if "\x00" in path:
        return name
    if drive := _DRIVE.fullmatch(path):
        return drive[1]
    host = found["host"] or ""
    away = os.name == "nt" and host.lower() not in ("", "localhost")
    return f"//{host}{path}" if away else path
