"""Every error this program raises on purpose, and the exit code each one owns.

Doubtful data is never an error: it is a finding in the record. An error means that a run is
broken (a file that cannot be read, a missing model, a full disk), and it always says in one line
what is wrong and what to do next.

    DictateError
    ├── UsageError            2   wrong usage
    ├── InputError            3   an input cannot be read or holds no audio
    ├── ModelError            4   the model is missing or its hash is wrong
    ├── NoSpeechError         5   no speech found
    ├── RecordError           6   a record or a configuration is invalid
    ├── OutputError           7   the output cannot be written
    └── ExportRefusedError    8   questions are open
"""

from enum import IntEnum


class ExitCode(IntEnum):
    """The promised exit codes; README lists them and a test compares the two."""

    OK = 0
    USAGE = 2
    INPUT = 3
    MODEL = 4
    NO_SPEECH = 5
    RECORD = 6
    OUTPUT = 7
    EXPORT_REFUSED = 8
    OPEN = 10
    INTERRUPTED = 130


class DictateError(Exception):
    """The root: a sentence that says what is wrong, and one that says what to do next."""

    exit_code: ExitCode = ExitCode.RECORD

    def __init__(self, what: str, advice: str = "") -> None:
        super().__init__(what)
        self.what = what
        self.advice = advice

    def __str__(self) -> str:
        """Return the one line that is printed on stderr."""
        line = " ".join(f"{self.what} {self.advice}".split())
        return line or type(self).__name__


class UsageError(DictateError):
    """The command was called in a way that cannot work."""

    exit_code = ExitCode.USAGE


class InputError(DictateError):
    """An input cannot be read, or holds no audio."""

    exit_code = ExitCode.INPUT


class ModelError(DictateError):
    """The speech model is missing, or a file of it is not the published one."""

    exit_code = ExitCode.MODEL


class NoSpeechError(DictateError):
    """The sound was read, and nobody speaks in it."""

    exit_code = ExitCode.NO_SPEECH


class RecordError(DictateError):
    """A record, a transcript or a configuration file does not say what it must."""

    exit_code = ExitCode.RECORD


class OutputError(DictateError):
    """The result cannot be written where it was asked for."""

    exit_code = ExitCode.OUTPUT


class ExportRefusedError(DictateError):
    """A question that blocks export is open."""

    exit_code = ExitCode.EXPORT_REFUSED
