"""Which files in a folder are complete recordings, and which visit each belongs to.

A phone's sync writes a recording in pieces, and a half-copied file fools every decoder: m4a and flac raise,
mp3 decodes half, wav and ogg decode half without a word. A file counts as complete when its name is not a
temporary one, its size and time of change stayed the same over several looks, no program has it open for
writing (where the system can tell), and its container says that nothing is missing. A file that stays
incomplete is taken in after a while all the same, and its record says what is missing.

A rescan of the folder is the truth; notices from the system would only make it look sooner.
"""

from __future__ import annotations

import contextlib
import os
import re
import stat
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from dictate.errors import InputError, OutputError

if TYPE_CHECKING:
    from dictate.settings import Watching

TRANSCRIPTS = frozenset((".txt", ".vtt", ".srt"))
ENDINGS = TRANSCRIPTS | {
    ".wav", ".mp3", ".m4a", ".m4b", ".mp4", ".mov", ".ogg", ".oga", ".opus", ".flac", ".aac", ".amr", ".3gp",
    ".3gpp", ".caf", ".webm", ".wma", ".aif", ".aiff", ".mka",
}  # fmt: skip
_TEMPORARY = re.compile(
    r"(^[.~])|(^\._)|\.(part|partial|tmp|temp|crdownload|download|filepart|swp|lock)$", re.IGNORECASE
)
PATIENCE = 30
"""After so many looks without a change, an incomplete container is taken in as it is."""


@dataclass(frozen=True)
class Found:
    """A file that is ready: its bytes by hash, and where it belongs."""

    path: Path
    size: int
    mtime_ns: int


@dataclass
class _Watched:
    size: int
    mtime_ns: int
    same: int = 0


@dataclass
class Scanner:
    """Looks at a folder again and again; `ready()` yields each file when it has come to rest."""

    root: Path
    rules: Watching
    seen: dict[Path, _Watched] = field(default_factory=dict)

    def ready(self, known: object = None) -> Iterator[Found]:
        """Look once: yield the files that are complete now. Raises OutputError when the folder is gone.

        `known` is a callable (path, size, mtime_ns) -> bool that tells which files need no second look.
        """
        skip = known if callable(known) else (lambda *_: False)
        present: set[Path] = set()
        for path, status in files(self.root):
            present.add(path)
            size, mtime_ns = status.st_size, status.st_mtime_ns
            if skip(path, size, mtime_ns):
                self.seen.pop(path, None)
                continue
            watched = self.seen.get(path)
            if watched is None or (watched.size, watched.mtime_ns) != (size, mtime_ns):
                self.seen[path] = _Watched(size, mtime_ns)
                continue
            watched.same += 1
            if watched.same >= self.rules.settle_polls - 1 and self._complete(path, watched):
                yield Found(path, size, mtime_ns)
        for path in set(self.seen) - present:
            del self.seen[path]

    def waiting(self) -> list[Path]:
        """Return the files that were seen and are not complete yet."""
        return sorted(self.seen)

    def _complete(self, path: Path, watched: _Watched) -> bool:
        if watched.size == 0:
            return watched.same >= PATIENCE
        if being_written(path):
            return False
        if path.suffix.lower() in TRANSCRIPTS:
            return True
        from dictate.speech.recording import unfinished

        try:
            missing = unfinished(path)
        except InputError:
            # A half-copied m4a is no recording yet; a file that never becomes one is taken in after a while
            # and fails there, with its reason.
            return watched.same >= PATIENCE
        return not missing or watched.same >= PATIENCE


def files(root: Path) -> Iterator[tuple[Path, os.stat_result]]:
    """Yield the regular files under a folder that may be recordings, in the order of their names."""
    if not root.is_dir():
        raise OutputError(f"the folder {root} is not there.", "Connect or create it; watching goes on.")
    for folder, folders, names in os.walk(root):
        folders[:] = sorted(f for f in folders if not f.startswith("."))
        for name in sorted(names):
            if _TEMPORARY.search(name) or Path(name).suffix.lower() not in ENDINGS:
                continue
            path = Path(folder) / name
            with contextlib.suppress(OSError):
                status = path.lstat()
                if stat.S_ISREG(status.st_mode):
                    yield path, status


def being_written(path: Path) -> bool:
    """Tell whether a program has the file open for writing; false where the system cannot tell.

    On Linux a read lease is refused while anybody has the file open for writing (fcntl(2), F_SETLEASE).
    """
    try:
        import fcntl
    except ImportError:
        return False
    if not hasattr(fcntl, "F_SETLEASE"):
        return False
    try:
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0))
    except OSError:
        return False
    try:
        fcntl.fcntl(handle, fcntl.F_SETLEASE, fcntl.F_RDLCK)
        fcntl.fcntl(handle, fcntl.F_SETLEASE, fcntl.F_UNLCK)
    except BlockingIOError:
        return True
    except OSError:
        return False  # another owner's file, or a file system without leases: nothing can be told
    finally:
        os.close(handle)
    return False


def visit_key(path: Path, root: Path, rules: Watching, recorded: datetime | None = None) -> str:
    """Return the key of the visit that a file belongs to, by the rule of the settings.

    `folder`: the sub-folder is the visit, and a file in the root is a visit of its own. `prefix`: what stands
    before the separator in the name. `each`: every file. `gap` needs to know the other clips, see `gap_key`.
    """
    relative = path.relative_to(root)
    if rules.group == "folder" and len(relative.parts) > 1:
        return f"folder:{relative.parts[0]}"
    if rules.group == "prefix":
        prefix, found, _ = relative.stem.partition(rules.prefix_separator)
        return f"prefix:{prefix}" if found and prefix else f"file:{relative.as_posix()}"
    if rules.group == "gap" and recorded is not None:
        return f"gap:{recorded.isoformat(timespec='seconds')}"
    return f"file:{relative.as_posix()}"


def recorded_time(path: Path, mtime_ns: int) -> datetime:
    """Return when a clip was recorded: what its metadata say, else its time of change."""
    from dictate.speech.recording import open_recording

    fallback = datetime.fromtimestamp(mtime_ns / 1e9).astimezone()
    if path.suffix.lower() in TRANSCRIPTS:
        return fallback
    with contextlib.suppress(InputError, ValueError, TypeError):
        said = open_recording(path).recorded_at
        if said:
            return datetime.fromisoformat(said).astimezone()
    return fallback


def near(recorded: datetime, position: str, gap_minutes: int) -> bool:
    """Tell whether a clip belongs to the visit of another clip recorded at `position` (ISO time)."""
    with contextlib.suppress(ValueError, TypeError):
        return abs((recorded - datetime.fromisoformat(position)).total_seconds()) <= gap_minutes * 60
    return False
