"""The command table. Each command's module is imported only when the command is called."""

import os
import sys
from collections.abc import Mapping, Sequence
from importlib import import_module
from typing import Any

import click
from attrs import frozen

from cuttings import __version__
from cuttings.ask import Answers
from cuttings.commands.desk import global_options
from cuttings.commands.terminal import say_error
from cuttings.errors import Back, Cancelled, CuttingsError, Misused


@frozen
class Entry:
    """Where a command lives, and what it is for in one line."""

    module: str
    name: str
    purpose: str


COMMANDS: Mapping[str, Entry] = {
    "find": Entry("recording", "find", "write down stems found rooted, or rooting"),
    "strike": Entry("recording", "strike", "write down cuttings put in to root"),
    "layer": Entry("recording", "layer", "write down stems pegged or wrapped to root"),
    "divide": Entry("recording", "divide", "write down the pieces of a clump"),
    "mark": Entry("marks", "mark", "mark something in the ground to come back to"),
    "check": Entry("checking", "check", "look whether a lot has rooted"),
    "pot": Entry("potting", "pot", "pot rooted stems, with advice at every question"),
    "harden": Entry("hardening", "harden", "harden a lot off, day by day"),
    "plant": Entry("leaving", "plant", "plant stems on a site"),
    "give": Entry("leaving", "give", "give stems away"),
    "sell": Entry("leaving", "sell", "sell stems"),
    "lose": Entry("leaving", "lose", "write down stems that died"),
    "split": Entry("leaving", "split", "let part of a lot go on under its own code"),
    "note": Entry("correcting", "note", "add a note to a lot"),
    "undo": Entry("correcting", "undo", "take an entry back"),
    "climate": Entry(
        "climate", "climate", "when cold comes, how warm the soil is, and how this season is going"
    ),
    "dip": Entry("dip", "dip", "how strong a rooting hormone, and what to mix for it"),
    "week": Entry("advising", "week", "what is worth doing in the next seven days, and why"),
    "tonight": Entry("tonight", "tonight", "what tonight's cold endangers, in the order to save it"),
    "feed": Entry("feed", "feed", "how much fertiliser makes how strong a feed, and whether it is time"),
    "spot": Entry("spots", "spot", "where a lot could go, best first"),
    "goal": Entry("goal", "goal", "how many of a plant to start, and when, to have enough by a day"),
    "mix": Entry("mixing", "mix", "how much of each ingredient a mix for so many pots takes"),
    "lots": Entry("looking", "lots", "the lots and where their stems stand"),
    "card": Entry("looking", "card", "everything about one lot"),
    "labels": Entry("labels", "labels", "what to write on the labels, or labels to print"),
    "which": Entry("which", "which", "which lot a pot without a label could be"),
    "tally": Entry("looking", "tally", "prove that every stem is accounted for"),
    "takes": Entry("takes", "takes", "how many of your stems root and live, and what makes more of them do"),
    "sites": Entry("sites", "sites", "the places a plant can go"),
    "pots": Entry("pots", "pots", "the pots you own, how many are free, and how to clean them"),
    "garden": Entry("garden", "garden", "the garden: where it lies and when frost comes"),
    "plants": Entry("plants", "plants", "what is known of a plant"),
    "demo": Entry("demo", "demo", "look round an invented garden"),
}


class Table(click.Group):
    """The commands by name; nothing is imported until one is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        entry = COMMANDS.get(cmd_name)
        if entry is None:
            return None
        command = getattr(import_module(f"cuttings.commands.{entry.module}"), entry.name)
        assert isinstance(command, click.Command)
        return command

    def invoke(self, ctx: click.Context) -> Any:
        try:
            return super().invoke(ctx)
        except BrokenPipeError:
            # The reader of a pipe has gone; give Python nothing to complain of at its own end.
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            return None

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and args[0] not in COMMANDS:
            near = [name for name in COMMANDS if name.startswith(args[0][:3])]
            hint = f"; perhaps '{near[0]}'" if near else ""
            raise click.UsageError(f"there is no command '{args[0]}'{hint}; 'cuttings --help' lists them")
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        with formatter.section("Commands"):
            formatter.write_dl([(name, entry.purpose) for name, entry in COMMANDS.items()])


@click.command(
    cls=Table,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"]},
    help="The ledger of new plants: from the find to the place where they grow. "
    "With no command, at a terminal, it opens the ledger.",
)
@global_options
@click.version_option(__version__, message="cuttings %(version)s")
@click.pass_context
def cli(ctx: click.Context) -> None:
    if ctx.invoked_subcommand is None:
        import_module("cuttings.commands.home").home(ctx)


def call(arguments: Sequence[str], answers: Answers | None = None) -> None:
    """Run one command line; what goes wrong is raised, and so is ``Back``.

    ``answers`` keeps what is answered and takes up what was; without it nobody can go back.
    """
    for word in arguments:
        if not _is_text(word):
            shown = word.encode(errors="replace").decode()
            raise Misused(f"'{shown}' holds bytes that are no text in this encoding; type it anew.")
    cli.main(args=list(arguments), prog_name="cuttings", standalone_mode=False, obj=answers)


def call_going_back(arguments: Sequence[str], taken_up: Sequence[tuple[str, str]] = ()) -> None:
    """Run one command line, and from its beginning again whenever somebody goes back one question; nothing
    is recorded before the last answer. ``taken_up``: see ``Answers``."""
    while True:
        try:
            call(arguments, Answers(taken_up))
        except Back as back:
            taken_up = back.answers
        else:
            return


def _is_text(word: str) -> bool:
    """Whether a word of the command line could be decoded; Python keeps stray bytes as lone surrogates."""
    return not any("\ud800" <= letter <= "\udfff" for letter in word)


def run(arguments: Sequence[str]) -> int:
    """Run one command line and return its exit code. Errors are told in one sentence on stderr."""
    try:
        call_going_back(arguments)
    except (CuttingsError, click.ClickException) as error:
        return tell(error)
    except click.exceptions.Exit as done:
        return done.exit_code
    except (KeyboardInterrupt, click.Abort):
        say_error("Stopped; nothing more was recorded.")
        return Cancelled.exit_code
    except ArithmeticError as error:  # a sum the rules did not foresee, never a reason for a traceback
        say_error(f"The answer could not be reckoned ({error}); 'cuttings lots' tells what is recorded.")
        return 1
    except OSError as error:
        why = error.strerror or error
        say_error(f"The answer could not be shown ({why}); 'cuttings lots' tells what is recorded.")
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
    return 0


def tell(error: CuttingsError | click.ClickException) -> int:
    """Tell what went wrong in one sentence on stderr; the exit code that goes with it."""
    if isinstance(error, CuttingsError):
        say_error(error.sentence)
        return error.exit_code
    say_error(_one_sentence(error))
    return 2


def _one_sentence(error: click.ClickException) -> str:
    message = " ".join(error.format_message().split()).rstrip(".")
    where = getattr(error, "ctx", None)
    more = " See" if message.endswith("?") else "; see"
    hint = f"{more} '{where.command_path} --help'" if where is not None and "--help" not in message else ""
    return f"{message[:1].upper()}{message[1:]}{hint}."
