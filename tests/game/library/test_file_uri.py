"""File URIs are read as RFC 8089 writes them; every other name stays as it is."""

import pytest

from game.library.file_uri import path_of_name


@pytest.mark.parametrize(
    ("name", "path"),
    [
        ("file:///home/ada/Week%20one.pack.toml", "/home/ada/Week one.pack.toml"),
        ("FILE:/srv/a%25b%23.json", "/srv/a%b#.json"),
        ("file://localhost/srv/a", "/srv/a"),
        ("file:///srv/Zo%C3%AB.json", "/srv/Zoë.json"),
        ("file:///C:/Ada/week%20one.toml", "C:/Ada/week one.toml"),
        ("file:///srv/a%00b", "file:///srv/a%00b"),
        ("a%20b.toml", "a%20b.toml"),
        ("file.json", "file.json"),
        ("", ""),
    ],
)
def test_a_uri_is_a_path_and_a_path_is_itself(name: str, path: str) -> None:
    assert path_of_name(name) == path
