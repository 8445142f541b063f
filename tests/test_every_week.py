"""The docs' examples for schedulers are such as each can read, and name options that the program has."""

import configparser
import plistlib
import re
import shlex
from pathlib import Path

import click
import pytest

from cuttings.app import cli

PAGE = (Path(__file__).parents[1] / "docs" / "every-week.md").read_text(encoding="utf-8")


def blocks(language: str) -> list[str]:
    """The page's code in a language, in order."""
    return re.findall(rf"^```{language}\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)


def property_list() -> dict[str, object]:
    (block,) = blocks("xml")
    found: dict[str, object] = plistlib.loads(block.encode())
    return found


def units() -> tuple[configparser.ConfigParser, configparser.ConfigParser]:
    service, timer = (configparser.ConfigParser(interpolation=None) for _ in range(2))
    for unit, block in zip((service, timer), blocks("ini"), strict=True):
        unit.optionxform = str  # type: ignore[assignment,method-assign]  # systemd minds capital letters
        unit.read_string(block)
    return service, timer


def cron_line() -> str:
    (block,) = blocks("cron")
    (line,) = block.splitlines()
    return line


def week_cmd() -> str:
    return blocks("bat")[0].splitlines()[1]


def command_lines() -> dict[str, list[str]]:
    """The words of each example's command, the program first, without where its output goes."""
    told = property_list()["ProgramArguments"]
    assert isinstance(told, list)
    by_hand = re.search(r"^cuttings .*$", PAGE, re.MULTILINE)
    assert by_hand is not None
    in_quotes_or_bare = re.findall(r'"([^"]*)"|([^\s"]+)', week_cmd().split(" > ")[0])
    return {
        "by hand": shlex.split(by_hand[0]),
        "cron": shlex.split(cron_line().split(maxsplit=5)[5].split(" > ")[0]),
        "systemd": shlex.split(units()[0]["Service"]["ExecStart"]),
        "launchd": told,
        "Task Scheduler": [quoted or bare for quoted, bare in in_quotes_or_bare],
    }


@pytest.mark.parametrize("scheduler", command_lines())
def test_every_example_gives_the_same_command(scheduler: str) -> None:
    program, *words = command_lines()[scheduler]
    assert re.fullmatch(r"(.*[/\\])?cuttings(\.exe)?", program)
    plain = [re.sub(r"^(~|\$HOME|%h|/Users/r|%USERPROFILE%)", "~", word).replace("\\", "/") for word in words]
    assert plain == command_lines()["by hand"][1:]


@pytest.mark.parametrize("scheduler", [each for each in command_lines() if each != "by hand"])
def test_a_scheduler_is_told_where_the_program_is(scheduler: str) -> None:
    """None of them has the path of a login shell."""
    assert re.match(r"(/|%h/|\$HOME/|%USERPROFILE%\\)", command_lines()[scheduler][0])


def test_the_command_has_the_options_of_the_examples() -> None:
    command = cli.get_command(click.Context(cli), "week")
    assert command is not None
    known = {name for each in command.params for name in each.opts}
    for words in command_lines().values():
        assert {word for word in words if word.startswith("--")} <= known


def test_cron_is_told_a_saturday_and_no_percent_sign() -> None:
    """crontab(5): five fields, then the command, in which a bare percent sign would be a line break."""
    minute, hour, day, month, weekday, command = cron_line().split(maxsplit=5)
    assert (minute, hour, day, month, weekday) == ("15", "6", "*", "*", "6")
    assert "%" not in command


def test_systemd_is_told_a_saturday_and_makes_up_for_missed_ones() -> None:
    """systemd.service(5) and systemd.timer(5)."""
    service, timer = units()
    assert service["Service"]["Type"] == "oneshot"
    assert dict(timer["Timer"]) == {"OnCalendar": "Sat 06:15", "Persistent": "true"}
    assert timer["Install"]["WantedBy"] == "timers.target"


def test_launchd_is_told_a_saturday_and_whole_paths() -> None:
    """launchd.plist(5): 0 and 7 are Sunday; nothing is filled in for a home folder."""
    told = property_list()
    assert told["StartCalendarInterval"] == {"Weekday": 6, "Hour": 6, "Minute": 15}
    assert f"{told['Label']}.plist" in PAGE
    paths = [told["StandardOutPath"], told["StandardErrorPath"], *command_lines()["launchd"]]
    assert not [path for path in paths if re.match(r"[~$]", str(path))]


def test_the_task_is_the_file_that_was_saved_and_short_enough() -> None:
    """schtasks: the path of a task's program holds at most 262 characters."""
    create = blocks("bat")[1].splitlines()[0]
    run = re.search(r'/TR "\\"(.*)\\""', create)
    assert run is not None
    assert run[1] == r"%USERPROFILE%\sheets\week.cmd"
    assert "/SC WEEKLY /D SAT /ST 06:15" in create
