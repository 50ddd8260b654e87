"""Who answers: the name that stands at every entry of the log."""

from __future__ import annotations

from dictate.errors import UsageError


def login(by: str | None) -> str:
    """Return who answers: the name as given, else the login name. Raises UsageError."""
    import getpass

    name = " ".join((by or "").split())
    if not name:
        try:
            name = getpass.getuser()
        except (OSError, KeyError):
            raise UsageError("who answers is not known.", "Say it with --by NAME.") from None
    if len(name) > 80:
        raise UsageError("the name is longer than 80 characters.", "Shorten it.")
    return name
