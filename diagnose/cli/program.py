"""The command tree, with each command's module imported only when it is called."""

import sys
from collections.abc import Mapping
from importlib import import_module

import click

from diagnose import __version__
from diagnose.cli import exits
from diagnose.cli.screen import screen_for
from diagnose.problems import PressloreError

COMMANDS: Mapping[str, str] = {
    "diagnose": "diagnose.cli.diagnosis:diagnose",
    "demo": "diagnose.cli.demo:demo",
    "defects": "diagnose.cli.lookup:defects",
    "causes": "diagnose.cli.lookup:causes",
    "checks": "diagnose.cli.lookup:checks",
    "fixes": "diagnose.cli.lookup:fixes",
    "items": "diagnose.cli.lookup:items",
    "care": "diagnose.cli.care:care",
    "why": "diagnose.cli.lookup:why",
    "handbook": "diagnose.cli.handbook:handbook",
    "rules": "diagnose.cli.rules:rules",
    "schema": "diagnose.cli.schema:schema",
    "completion": "diagnose.cli.completion:completion",
}


class Program(click.Group):
    """Commands by name, each loaded when it is wanted, listed in the order a person meets them."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        module, name = COMMANDS[cmd_name].split(":")
        command: click.Command = getattr(import_module(module), name)
        return command


@click.group(
    cls=Program,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 88},
    epilog=f'\b\nExample: presslore diagnose --item "tea towel" --saw "pale and doubled"\n\n\b\n{exits.TABLE}',
)
@click.version_option(__version__, prog_name="presslore")
@click.pass_context
def program(ctx: click.Context) -> None:
    """Find out why a dye-sublimation print went wrong, and put it right.

    Say what you see, answer a few cheap questions, try the likeliest fix, press one test piece.
    """
    ctx.color = screen_for(sys.stdout).colour


def run(args: list[str] | None = None) -> int:
    """Run the command and return its exit code. No traceback reaches the person."""
    err = screen_for(sys.stderr)
    try:
        result = program.main(args=args, prog_name="presslore", standalone_mode=False)
        return result if isinstance(result, int) else exits.GOOD
    except click.exceptions.NoArgsIsHelpError as error:
        print(error.format_message(), file=sys.stderr)
        return exits.USAGE
    except click.ClickException as error:
        error.show()
        return error.exit_code
    except PressloreError as error:
        err.problem(str(error))
        return exits.PROBLEMS
    except (KeyboardInterrupt, click.Abort):
        err.line()
        err.line("Stopped. Nothing is left half done.")
        return exits.STOPPED
    except BrokenPipeError:
        sys.stderr.close()
        return exits.GOOD
