"""The command tree, with each command's module imported only when it is called."""

import os
import re
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from importlib import import_module
from typing import Any

import click

from diagnose import __version__
from diagnose.cli import exits, net
from diagnose.cli.terminal.screen import Screen, screen_for
from diagnose.problems import PressloreError

_NO_TEXT = re.compile("[\ud800-\udfff]")  # how bytes that are no text come as an argument
COMMANDS: Mapping[str, str] = {
    "diagnose": "diagnose.cli.diagnosis.command:diagnose",
    "ready": "diagnose.cli.ready.command:ready",
    "settings": "diagnose.cli.press.settings:settings",
    "heat": "diagnose.cli.press.heat:heat",
    "pressure": "diagnose.cli.press.pressure:pressure",
    "colour": "diagnose.cli.press.colour:colour",
    "blend": "diagnose.cli.press.blend:blend_",
    "demo": "diagnose.cli.diagnosis.demo:demo",
    "defects": "diagnose.cli.lookup.command:defects",
    "causes": "diagnose.cli.lookup.command:causes",
    "checks": "diagnose.cli.lookup.command:checks",
    "fixes": "diagnose.cli.lookup.command:fixes",
    "items": "diagnose.cli.lookup.command:items",
    "why": "diagnose.cli.lookup.command:why",
    "cases": "diagnose.cli.cases.command:cases",
    "good": "diagnose.cli.cases.good:good",
    "learn": "diagnose.cli.cases.learn:learn",
    "care": "diagnose.cli.lookup.care:care",
    "handbook": "diagnose.cli.handbook:handbook",
    "rules": "diagnose.cli.rules.command:rules",
    "shop": "diagnose.cli.shop.command:shop",
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

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and args[0] not in COMMANDS and not args[0].startswith("-") and not ctx.resilient_parsing:
            from diagnose.reasoning.words import nearest

            near = nearest(COMMANDS, args[0])
            raise click.UsageError(f"no command {args[0]!r}.{f' Did you mean {near}?' if near else ''}", ctx)
        return super().resolve_command(ctx, args)

    def make_context(self, *args: Any, **kwargs: Any) -> click.Context:
        with _left_to_us():
            return super().make_context(*args, **kwargs)

    def invoke(self, ctx: click.Context) -> Any:
        with _left_to_us():
            return super().invoke(ctx)


class NobodyReads(Exception):
    """Whoever read the output has gone, as after ``| head``."""


@contextmanager
def _left_to_us() -> Iterator[None]:
    """Keep click from ending the process by itself where nobody reads on."""
    try:
        yield
    except BrokenPipeError:
        raise NobodyReads from None


@click.group(
    cls=Program,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 88},
    epilog=f'\b\nExample: presslore diagnose --item "tea towel" --saw "pale and doubled"\n\n{exits.TABLE}',
)
@click.version_option(__version__, prog_name="presslore")
@click.pass_context
def program(ctx: click.Context) -> None:
    """Find out why a dye-sublimation print went wrong, and put it right.

    Say what you see, answer a few cheap questions, try the likeliest fix, press one test piece.
    """
    ctx.color = screen_for(sys.stdout).colour


def run(args: list[str] | None = None) -> int:
    """Run the command and return its exit code. No traceback reaches the person, whatever happens."""
    try:
        return _ended(sys.argv[1:] if args is None else args)
    except (NobodyReads, BrokenPipeError):
        net.close_output()
        return exits.GOOD
    except Exception as error:
        return net.caught(error)


def _ended(args: list[str]) -> int:
    try:
        code = _called(args)
    except click.exceptions.NoArgsIsHelpError as error:
        screen_for(sys.stderr).document([error.format_message(), "\n"])
        code = exits.USAGE
    except click.ClickException as error:
        _show(error, screen_for(sys.stderr))
        code = error.exit_code
    except PressloreError as error:
        screen_for(sys.stderr).whole(str(error))
        code = exits.PROBLEMS
    except (KeyboardInterrupt, click.Abort):
        err = screen_for(sys.stderr)
        err.line()
        err.line("Stopped. Nothing is left half done.")
        code = exits.STOPPED
    if sys.stdout:
        sys.stdout.flush()  # here, where it can still be said that it failed
    return code


def _called(args: list[str]) -> int:
    args = [_legible(each) for each in args]
    width = screen_for(sys.stdout).width
    result = program.main(args=args, prog_name="presslore", standalone_mode=False, terminal_width=width)
    return result if isinstance(result, int) else exits.GOOD


def _legible(argument: str) -> str:
    """Bytes that are no text serve as the name of a file that is there; elsewhere a mark stands in their place."""
    if argument.isascii() or os.path.lexists(argument.partition("=")[2] or argument):
        return argument
    return _NO_TEXT.sub("\ufffd", argument)


def _show(error: click.ClickException, err: Screen) -> None:
    """What was wrong with the call, and where its help stands."""
    if isinstance(error, click.UsageError) and error.ctx is not None:
        err.whole(error.ctx.get_usage())
        err.line(f"Try: {error.ctx.command_path} --help")
    err.line(f"Error: {error.format_message()}", "bad")
