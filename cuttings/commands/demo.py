"""The demo: an invented garden to look round in, or the main job played without a terminal."""

import contextlib
import io
import shlex
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

import click

from cuttings.commands.climate import keep_record, read_record
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.placing import ranked
from cuttings.demo.quarry_bank import quarry_bank
from cuttings.demo.script import BEST_SPOT, first_day, last_whole_season, script
from cuttings.demo.weather import daily_lines
from cuttings.errors import Refused
from cuttings.ledger.store import FILE, Ledger
from cuttings.show.page import Page


@click.command(help="Look round an invented garden; nothing of yours is touched.")
@click.option("--script", "scripted", is_flag=True, help="play the main job from find to plant, and end")
@click.option("--keep", metavar="DIR", help="make the garden in that folder and leave it there")
@global_options
@with_desk
def demo(desk: Desk, scripted: bool, keep: str | None) -> None:
    if keep is not None:
        _open(desk, Path(keep).expanduser(), scripted)
        return
    with tempfile.TemporaryDirectory(prefix="cuttings-demo-") as temporary:
        _open(desk, Path(temporary) / "quarry-bank", scripted)


def _open(desk: Desk, folder: Path, scripted: bool) -> None:
    """At a terminal the garden is opened; elsewhere, or when asked to, the main job is played in it."""
    if (folder / FILE).exists():
        raise Refused(f"There is a ledger in {folder} already; name another folder.")
    if scripted or (desk.asker is None and not desk.as_json):
        year = last_whole_season(desk.today)
        ledger = Ledger(folder)
        ledger.record(lambda _, __: quarry_bank(first_day(year)))
        _load_weather(ledger, year - 1)
        _play(desk, ledger, year)
        if desk.as_json:
            desk.answer(Page(), {"ledger": str(folder)})
        return
    ledger = Ledger(folder)
    ledger.record(lambda _, __: quarry_bank(desk.today))
    _load_weather(ledger, desk.today.year - 1)
    page = Page()
    page.row(
        "Demo",
        "An invented garden with invented keepers; nothing of yours is touched.",
        f"It stands in {folder}.",
    )
    if desk.asker is None:
        desk.answer(page, {"ledger": str(folder)})
        return
    desk.show(page)
    from cuttings.app import call

    call(["--ledger", str(folder), *(["--plain"] if desk.plain else [])])


def _load_weather(ledger: Ledger, last_year: int) -> None:
    """Thirty invented years of daily weather, read as a station's file would be."""
    garden = ledger.book().garden
    assert garden is not None
    content = "\n".join(daily_lines(last_year)).encode()
    series, _, normals = read_record(content, garden)
    keep_record(ledger, series, normals)


def _play(desk: Desk, ledger: Ledger, year: int) -> None:
    """Play the script; the best spot is asked for once, when the script first needs it."""
    lot = ledger.book().next_code(first_day(year))
    best = ""
    for line in script(year, lot):
        if BEST_SPOT in line and not best:
            there = Desk(ledger=ledger, today=desk.today, on=desk.on)
            first = ranked(there, there.book.lots[lot]).plan[0].spot
            assert first is not None
            best = first.id
        _run(desk, ledger.folder, [best if word == BEST_SPOT else word for word in line])


def _run(desk: Desk, folder: Path, line: Sequence[str]) -> None:
    """Show a command as one would type it, then what it answers; with ``--json`` do it unseen."""
    from cuttings.app import call

    with contextlib.redirect_stdout(io.StringIO()) if desk.as_json else contextlib.nullcontext():
        sys.stdout.write(f"\n$ cuttings {shlex.join(line)}\n")
        sys.stdout.flush()
        call(["--ledger", str(folder), *(["--plain"] if desk.plain else []), *line])
