"""The commands: parse, call the stages, print, exit. No knowledge of the trade lives here.

Each command is a module of this folder with a click command named `command`; it is imported only when it is
called, and heavy libraries only inside it, so that `dictate --help` stays instant.
"""

from __future__ import annotations

import importlib
import os
import sys
from pathlib import Path
from typing import NoReturn

import click

from dictate import __version__
from dictate.errors import DictateError, ExitCode, OutputError

# name -> (module, one line for --help)
COMMANDS: dict[str, tuple[str, str]] = {
    "note": ("note", "Turn the recordings of one visit into its service record."),
    "demo": ("demo", "Do that with the recording that comes along."),
    "review": ("review", "Close the gaps of a record, with the sound one key away."),
    "export": ("export", "Write records as bill, customer's page, log or evidence."),
    "watch": ("watch", "Pick up recordings from a folder as they arrive."),
    "status": ("status", "List what is waiting, running, done and failed."),
    "retry": ("retry", "Put failed recordings back in the queue."),
    "visits": ("visits", "List and search the visits in the ledger."),
    "doctor": ("doctor", "Check the ledger, the models and the machine, and say how to mend."),
    "backup": ("backup", "Copy the ledger while it is in use."),
    "models": ("models", "List and verify the speech models, and say how to get one."),
    "rules": ("rules", "List the checks, or explain one."),
    "config": ("config", "Show each setting and where its value comes from."),
    "schema": ("schema", "Print the JSON Schema of the record."),
}


class LazyGroup(click.Group):
    """A group that imports a command only when it is run."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names in the order of the work."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import one command's module and return its command."""
        if cmd_name not in COMMANDS:
            return None
        module = importlib.import_module(f"dictate.cli.{COMMANDS[cmd_name][0]}")
        found = getattr(module, "command", None)
        return found if isinstance(found, click.Command) else None

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands from the table above, without importing them."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, line) for name, (_, line) in COMMANDS.items()])


@click.group(cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="dictate")
def app() -> None:
    """Turn what was said on a refrigeration job into a checked service record, on this machine only."""


def fail(error: DictateError) -> NoReturn:
    """Print the error as one line on stderr and leave with its exit code."""
    click.echo(f"dictate: {error}", err=True)
    sys.exit(int(error.exit_code))


def main() -> None:
    """Run the program; every error of ours is one line and its own exit code."""
    try:
        app(standalone_mode=False)
    except DictateError as error:
        fail(error)
    except click.exceptions.Exit as done:
        sys.exit(done.exit_code)
    except click.ClickException as error:
        error.show()
        sys.exit(error.exit_code)
    except (KeyboardInterrupt, click.Abort):
        click.echo("dictate: interrupted; nothing half-written was left behind.", err=True)
        sys.exit(int(ExitCode.INTERRUPTED))
    except BrokenPipeError:
        _drop_stdout()
        sys.exit(int(ExitCode.OUTPUT))
    except OSError as error:
        _drop_stdout()
        place = f"{error.filename}: " if error.filename else ""
        fail(
            OutputError(
                f"{place}{error.strerror or error}.", "Free some space or mend the permissions; run it again."
            )
        )
    except Exception as error:
        # A fault of the program: still one line, with the way to the whole story.
        if os.environ.get("DICTATE_TRACE"):
            raise
        what = f"{type(error).__name__}: {error}"
        line = f"dictate: fault in the program: {' '.join(what.split())} (DICTATE_TRACE=1 shows where)."
        click.echo(line, err=True)
        sys.exit(1)


def _drop_stdout() -> None:
    """Keep Python from flushing into a pipe or a disk that takes nothing more."""
    sys.stdout = Path(os.devnull).open("w", encoding="utf-8")  # noqa: SIM115 - lives to the end
