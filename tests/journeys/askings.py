"""Every command that asks, with its prompts in order, a right answer to each, and nonsense for it.

One list serves two kinds of journey: those that type nonsense, and those that stop in the middle.
"""

import shutil
from collections.abc import Mapping
from datetime import date
from pathlib import Path

from attrs import frozen

from cuttings.demo.quarry_bank import quarry_bank
from cuttings.ledger.store import FILE, Ledger
from tests.journeys.terminal import ENTER, ROOT, Terminal

DAY = date(2025, 9, 28)
"""The day on which the journeys through the demo garden take place."""

APRIL = date(2025, 4, 20)
"""A day in the spring before, for what is only seen in spring."""

RECORD = ROOT / "fixtures" / "quarry-bank" / "daily.csv"
"""A station's daily record, invented."""

RUBBISH = ("%", "!", "Z", "~", "\t", "=")
"""Keys that mean nothing to a list or to a yes-or-no question."""

ESCAPES = "\x1b[31mred\x1b[0m \x1b]0;title\x07[red]markup[/red] [/] \\"
"""What a careless paste can hold; the words of it are kept and none of it is obeyed."""

COUNTS = (
    ("three", "'three' is not a whole number"),
    ("-2", "-2 is too few"),
    ("1.5", "'1.5' is not a whole number"),
)
LENGTHS = (
    ("wide", "'wide' is not a length"),
    ("-4in", "A length cannot be negative"),
    ("3 bananas", "has no length unit this program knows"),
    ("99999999999999m", "is longer than anything a garden has"),
)
HUGE = ("99999999999999999999", "is too many; 99999 is the most")


@frozen
class Asking:
    """One prompt. ``kind`` is ``text``, ``list`` (the answer is part of its line) or ``yes``."""

    prompt: str
    answer: str = ""
    wrong: tuple[tuple[str, str], ...] = ()
    kind: str = "text"
    free: bool = False

    def reply(self, terminal: Terminal) -> None:
        """Give the right answer."""
        if self.kind == "list":
            terminal.choose(self.prompt, self.answer)
        elif self.kind == "yes":
            terminal.say(self.prompt, self.answer or ENTER)
        else:
            terminal.answer(self.prompt, self.answer)


@frozen
class Command:
    """A command as it is called at a terminal, all it asks, and what it says at the end. ``writes`` is false
    for one that leaves the ledger as it was. ``after`` is asked when something was recorded."""

    words: str
    askings: tuple[Asking, ...]
    recorded: str = ""
    on: date = DAY
    writes: bool = True
    after: tuple[Asking, ...] = ()


def text(prompt: str, answer: str = "", *wrong: tuple[str, str]) -> Asking:
    return Asking(prompt, answer, wrong)


def free(prompt: str, answer: str = "") -> Asking:
    return Asking(prompt, answer, free=True)


def one(prompt: str, answer: str = "") -> Asking:
    return Asking(prompt, answer, kind="list")


def yes(prompt: str, answer: str = "") -> Asking:
    return Asking(prompt, answer, kind="yes")


EMPTY = ("", "This cannot be left empty")
EMPTY_TIME = ("", "'' is no time to come")
PLANT = text("Which plant?", "red currant", EMPTY, ("   ", "This cannot be left empty"))
UNKNOWN = (
    text("Which plant?", "[red]glass[/red] blumph", EMPTY),
    yes("Keep that name?", "y"),
    one("What kind of plant is it?", "shrub"),
)
REMEMBER = free("Anything to remember?")
DETAILS = (free("Which is the mother plant?"), free("Where do they stand now?"), REMEMBER)
NONE_OF_THEM = (("4", "Only 2 are left"),)
MONTH_DAYS = (
    ("13-45", "'13-45' is not a month and day"),
    ("may", "'may' is not a month and day"),
    ("02-31", "'02-31' is not a month and day"),
)


def _up_to(held: int) -> tuple[tuple[str, str], ...]:
    return (*COUNTS, ("0", "0 is too few"), HUGE, (f"{held + 1}", f"so {held + 1} cannot "))


COMMANDS: Mapping[str, Command] = {
    "plants add": Command(
        "plants add",
        (
            text("What is it called?", "Nihil nemo", EMPTY),
            one("What kind of plant is it?", "shrub"),
            free("What do people call it?", "gate bush"),
            text("Hardy in which zones?", "4-7", ("four", "'four' is not a number")),
            text("How tall does it grow?", "3-5ft", ("3-900ft", "is not between")),
            text("How wide does it grow?", "1 to 1.5m", ("-", "is not one value, or a low and a high")),
            text("In what light?", "full-sun, part-sun", ("candle", "'candle' is none of")),
            text("How wet a ground?", "", ("soup", "'soup' is none of")),
            one("How is it best increased?", "hardwood cutting"),
            text("In which months?", "11-2", ("smarch", "'smarch' is not a month")),
            text("How many days to root?", "90-180", ("2-9", "2 is not between")),
        ),
        "Recorded Nihil nemo: type, common, zones, height, spread, light, ways. It wins over the catalogue.",
    ),
    "plants amend": Command(
        "plants amend rosemary",
        (
            one("What do you know better?", "hardy in which zones"),
            text("Hardy in which zones?", "4-6", ("99", "is not between 1 and 13")),
        ),
        "Recorded Salvia rosmarinus: zones. It wins over the catalogue.",
    ),
    "find": Command(
        "find",
        (
            PLANT,
            one("How did it come about?", "tip layer"),
            text("How many stems?", "3", *COUNTS, ("0", "0 is too few"), HUGE),
            yes("Have you seen roots on them?", "n"),
            *DETAILS,
        ),
        "3 stems of red currant",
    ),
    "find of an unknown plant": Command(
        "find",
        (
            *UNKNOWN,
            one("How did it come about?"),
            text("How many stems?"),
            yes("Have you seen roots on them?"),
            *DETAILS,
        ),
        "1 stem of [red]glass[/red] blumph",
    ),
    "strike": Command(
        "strike",
        (
            PLANT,
            one("What wood is it?", "hardwood"),
            text("How many cuttings?", "12", *COUNTS, ("", "This cannot be left empty."), HUGE),
            text("Rooting hormone, in ppm (or none)?", "3000", ("strong", "'strong' is not a whole number"),
                 ("-1", "-1 is too few"), ("9999999", "is too many")),
            one("Powder or liquid?", "liquid"),
            free("What are they struck in?", "sand"),
            one("What covers them?", "frame"),
            text("Bottom heat?", "70F", ("warm", "'warm' is not a temperature"), ("70K", "use F or C"),
                 ("900F", "outside anything a garden meets"), ("-200C", "outside anything a garden meets")),
            *DETAILS,
        ),
        "12 cuttings of red currant",
    ),
    "layer": Command(
        "layer",
        (PLANT, one("How is it layered?", "mound"), text("How many stems?", "4", *COUNTS, HUGE), *DETAILS),
        "4 stems of red currant, mound layer",
    ),
    "divide": Command(
        "divide",
        (
            text("Which plant?", "siberian iris", EMPTY),
            text("How large is the clump?", "12", *LENGTHS, ("0", "0 is too few")),
            text("How many pieces?", "4", *COUNTS, HUGE),
            *DETAILS,
        ),
        "4 pieces of Siberian iris",
    ),
    "mark": Command(
        "mark",
        (
            PLANT,
            one("What is to be done there?", "keep an eye on it"),
            free("When, if you know better than the rules?"),
            free("Where is it?"),
            text("Tape from two fixed points", "A=3.20m B=4.75m", ("3m", "is not two tape distances"),
                 ("A=3.20m A=4.75m", "is not two tape distances"), ("A=3m B=far", "'far' is not a length"),
                 ("A=-3m B=4m", "A length cannot be negative"), ("A=3 bananas B=4m", "has no length unit")),
            one("On which site's plan are A and B?", "on no plan"),
            text("How far from A to B", "6m", *LENGTHS),
            one("Left or right of the line from A to B?", "right"),
            REMEMBER,
        ),
        "red currant, to watch",
    ),
    "check": Command(
        "check",
        (
            one("Which lot have you looked at?", "winter jasmine"),
            yes("Is there new growth?", "y"),
            yes("Do they hold when touched very gently?", "y"),
            yes("Are roots to be seen", "y"),
            yes("Has any stem gone black or soft?", "n"),
            text("How long is the longest root?", "3in", *LENGTHS),
            text("Of 2, how many have rooted?", "1", *COUNTS, *NONE_OF_THEM, HUGE),
            text("Of the other 1, how many have failed?", "1", *COUNTS, HUGE,
                 ("2", "Only one is left")),
            REMEMBER,
        ),
        "25-001 winter jasmine: 1 rooted",
    ),
    "pot": Command(
        "pot",
        (
            one("Which lot is to be potted?", "climbing hydrangea"),
            text("How many are potted?", "1", *_up_to(1)),
            text("How long is the longest root?", "", *LENGTHS),
            text("How wide are the roots across?", "4in", *LENGTHS),
            one("How much leaf is there", "far more leaf"),
            one("What is the stem like?", "thin, it leans"),
            text("Which pot?", "9cm", ("bucket", "bucket"), ("-4in", "-4in"), ("4 bananas", "4 bananas"),
                 ("99999999in", "99999999in"), ("0L", "0L")),
            free("Which mix?"),
            text("How deep?", "", *LENGTHS),
            text("How many days of shade?", "5", *COUNTS, ("400", "400 is too many; 90 is the most")),
            free("What does the label say?"),
            free("Where do they stand?"),
            REMEMBER,
        ),
        "1 stem of 24-001 climbing hydrangea in a 9cm pot",
    ),
    "which": Command(
        "which",
        (
            text("Where does it stand?"),
            text("Which pot is it in?", "", ("bucket", "'bucket' is not a pot")),
            one("How does it grow?", "with woody stems"),
            one("How do the leaves stand", "in pairs"),
            one("What is one leaf like?", "I cannot tell"),
            one("What is the stem like between", "I cannot tell"),
        ),
        "Keep it apart until its leaves or roots tell",
        writes=False,
    ),
    "pots add": Command(
        "pots add",
        (
            text("What do you call them?", "long toms", EMPTY),
            text("What size are they?", "deep 8x12cm", ("bucket", "'bucket' is not a pot"),
                 ("99999999in", "No pot is as wide"), ("3 cells", "as few cells")),
            text("How many?", "12", *COUNTS, ("0", "0 is too few"), HUGE),
            REMEMBER,
        ),
        "12 more of long toms; 12 owned, 0 in use, 12 free.",
    ),
    "pots add, a size": Command(
        "pots add 4in",
        (text("How many?", "30", *COUNTS, HUGE), REMEMBER),
        "30 more of 4in pots; 30 owned, 23 in use, 7 free.",
    ),
    "pot --again": Command(
        "pot --again",
        (
            one("Which lot is to be potted?", "box"),
            text("How many are potted?", "5", *_up_to(15)),
            yes("Do roots show at the holes", "y"),
            text("Which pot?", "#1", ("bucket", "bucket")),
            free("Which mix?"),
            text("How deep?", "", *LENGTHS),
            text("How many days of shade?", "5", *COUNTS, ("400", "400 is too many; 90 is the most")),
            free("What does the label say?"),
            free("Where do they stand?"),
            REMEMBER,
        ),
        "5 stems of 24-004 box in #1 pots",
    ),
    "harden": Command(
        "harden",
        (
            one("Which lot?", "switch grass"),
            one("What is to be written down?", "begin with the 1 potted"),
            text("How many begin?", "1", *_up_to(1)),
        ),
        "24-002 switch grass",
    ),
    "plant": Command(
        "plant",
        (
            one("Which lot is planted?", "heuchera"),
            text("How many are planted?", "1", *_up_to(2)),
            one("Where does it go?", "somewhere else"),
            one("Which site?", "wall foot"),
            text("Where on it, as x,y?", "5.8,0.4", ("here", "'here' is not a position"),
                 ("99,99", "lies outside wall foot"), ("-1,0.5", "A length cannot be negative"),
                 ("1,x", "'x' is not a length"), ("1,", "'' is not a length")),
            REMEMBER,
        ),
        "1 stem of 24-003 heuchera on wall foot",
    ),
    "give": Command(
        "give",
        (
            one("From which lot?", "box"),
            text("How many are given away?", "2", *_up_to(17), ("", "This cannot be left empty.")),
            free("To whom?"),
            REMEMBER,
        ),
        "2 stems of 24-004 box given",
    ),
    "sell": Command(
        "sell",
        (
            one("From which lot?", "box"),
            text("How many are sold?", "2", *_up_to(17), ("", "This cannot be left empty.")),
            text("The price of each?", "4.50", ("dear", "'dear' is not a price"),
                 ("-1", "a price lies between"), ("1e99", "a price lies between"),
                 ("nan", "a price lies between")),
            free("To whom?"),
            REMEMBER,
        ),
        "2 stems of 24-004 box sold",
    ),
    "lose": Command(
        "lose",
        (
            one("Which lot has lost stems?", "box"),
            one("At which stage did they die?", "potted"),
            text("How many died?", "2", *_up_to(15), ("", "This cannot be left empty.")),
            one("Of what?", "frost"),
            REMEMBER,
        ),
        "2 stems of 24-004 box lost (frost)",
    ),
    "split": Command(
        "split",
        (
            one("Which lot is split?", "box"),
            one("From which stage?", "potted"),
            text("How many go on by themselves?", "5", *_up_to(15), ("", "This cannot be left empty.")),
            REMEMBER,
        ),
        "5 stems of 24-004 go on as 25-006",
    ),
    "note": Command(
        "note",
        (one("Which lot?", "box"), text("What is worth remembering?", "north end", EMPTY)),
        "24-004 has a note: north end",
    ),
    "garden": Command(
        "garden --change",
        (
            text("What is the garden called?", "Quarry Bank"),
            text("Latitude in degrees", "42.9", ("north", "'north' is not a latitude"),
                 ("91", "a latitude lies between"), ("nan", "a latitude lies between")),
            text("Longitude in degrees", "-76.1", ("west", "'west' is not a longitude"),
                 ("-999", "a longitude lies between")),
            one("Which units?", "metres"),
            text("Height above the sea in metres?", "330", ("high", "'high' is not a length"),
                 ("330 bananas", "has no length unit"), ("99999999", "is longer than anything")),
            text("Hardiness zone", "5b", ("cold", "cold"), ("99z", "99z"), ("-1", "-1")),
            text("Average last frost of spring", "05-15", *MONTH_DAYS),
            text("Average first frost of autumn", "09-30", *MONTH_DAYS),
            free("Parts of the garden"),
        ),
        "Quarry Bank is described",
    ),
    "sites add": Command(
        "sites add",
        (
            text("What is the site called?", "plum bed", EMPTY),
            text("In which part of the garden?", "gate strip", EMPTY),
            one("How much light does it get?", "part sun"),
            text("How long is it", "6m", *LENGTHS, ("0", "is too small for a garden plot")),
            text("How deep is it", "2m", *LENGTHS, ("1mm", "is too small for a garden plot")),
            one("How wet is it"),
            one("How does water leave it?"),
            text("Soil pH?", "6.5", ("sour", "'sour' is not a pH"), ("-3", "a pH lies between"),
                 ("99", "a pH lies between")),
            text("A height limit", "", *LENGTHS),
            one("A path along which side", "front"),
            text("Room to leave along the path", "0.2m", *LENGTHS),
            one("A wall or fence along which side?"),
            yes("Is a black walnut near"),
            yes("Do children play there?"),
            yes("Does road salt or salt wind come there?"),
            yes("Do deer come there?"),
        ),
        "",
        after=(text("What grows there already?"),),
    ),
    "sites growing": Command(
        "sites growing",
        (
            one("Which site?", "fruit row"),
            PLANT,
            text("Where on it, as x,y?", "12,1", ("here", "'here' is not a position"),
                 ("1;2", "is not a position")),
            text("How wide will red currant grow", "", *LENGTHS),
        ),
        "grows on fruit row",
    ),
    "sites obstacle": Command(
        "sites obstacle",
        (
            one("Which site?", "fruit row"),
            one("What stands there?", "hedge"),
            one("How do you know where it stands?", "by its middle"),
            text("The bearing of its middle", "190", ("down", "'down' is not a bearing"),
                 ("400", "a bearing lies between"), ("", "is not a bearing")),
            text("Its width", "8m", *LENGTHS, ("0", "must be more than nothing")),
            text("How far is its face", "3m", *LENGTHS, ("0m", "must be more than nothing")),
            text("How high is its top", "2.5m", *LENGTHS, ("", "is not a length")),
            text("How high does its foot", "", *LENGTHS),
            text("Its first and last day in leaf", "05-10,10-20", ("may", "'may' is not two days"),
                 ("05-10,13-01", "'13-01' is not a month and day")),
            text("What share of the sun", "0.9", ("all", "'all' is not a share"),
                 ("90", "a share lies between")),
            free("What do you call it?"),
        ),
        "in leaf from 10 May to 20 October, keeping off 90 % of the sun",
    ),
    "sites obstacle by its ends": Command(
        "sites obstacle",
        (
            one("Which site?", "fruit row"),
            one("What stands there?", "wall"),
            one("How do you know where it stands?", "by the bearings"),
            text("The bearing of its left end", "150", ("left", "'left' is not a bearing")),
            text("The bearing of its right end", "220", ("140", "takes up less than 180"),
                 ("150", "The two bearings are the same")),
            text("How far is its face", "3m"),
            text("How high is its top", "2.5m"),
            text("How high does its foot", ""),
            free("What do you call it?"),
        ),
        "to the south, from 150° to 220°",
    ),
    "sites sun": Command("sites sun", (one("Which site?", "fruit row"),), "Sun on fruit row", writes=False),
    "sites check": Command("sites check", (one("Which site?", "fruit row"),), "Sun on fruit row",
                           writes=False),
    "week --tick, to wait": Command(
        "week --tick",
        (
            one("Which of them?", "Look for roots on 25-005 black raspberry"),
            one("What of it?", "it must wait"),
            text("Until when?", "friday", EMPTY_TIME, ("soonish", "'soonish' is no time to come"),
                 ("yesterday", "'yesterday' is not later than 28 September"),
                 ("2025-09-28", "is not later than 28 September"), ("waiting", "is no time to come")),
        ),
        "Put off until 3 October 2025: Look for roots on 25-005 black raspberry.",
        after=(one("Which of them?", "nothing more"),),
    ),
    "week --tick, done": Command(
        "week --tick",
        (
            one("Which of them?", "Look for roots on 25-005 black raspberry"),
            one("What of it?", "it is done"),
            yes("Is there new growth?", "y"),
            yes("Do they hold when touched very gently?", "y"),
            yes("Are roots to be seen", "y"),
            yes("Has any stem gone black or soft?", "n"),
            text("How long is the longest root?", "3in", *LENGTHS),
            text("Of 5, how many have rooted?", "5", *COUNTS, HUGE),
            REMEMBER,
        ),
        "Done: Look for roots on 25-005 black raspberry. 'cuttings undo' takes it back.",
        after=(one("Which of them?", "nothing more"),),
    ),
    "week --tick, labels": Command(
        "week --tick",
        (one("Which of them?", "Write labels for 24-002 switch grass"), one("What of it?", "it is done")),
        "Done: Write labels for 24-002 switch grass. 'cuttings undo' takes it back.",
        on=date(2024, 5, 3),
        after=(one("Which of them?", "nothing more"),),
    ),
    "week --tick, never": Command(
        "week --tick",
        (one("Which of them?", "Look for roots on 25-005"), one("What of it?", "never again")),
        "Never again: Look for roots on 25-005 black raspberry.",
        after=(one("Which of them?", "nothing more"),),
    ),
    "week --tick, to look": Command(
        "week --tick",
        (one("Which of them?", "Look for roots on 25-005"), one("What of it?", "nothing, I only looked")),
        "What of it? nothing, I only looked",
        writes=False,
        after=(one("Which of them?", "nothing more"),),
    ),
    "spot": Command(
        "spot",
        (one("For which lot?", "heuchera"), one("Hold a spot for it?", "wall foot")),
        "is held for 24-003 heuchera",
    ),
    "goal": Command(
        "goal",
        (
            PLANT,
            text("How many do you want?", "5", *COUNTS, ("0", "0 is too few"), ("501", "501 is too many")),
            text("By which day", "2027-09-01", ("soon", "'soon' is not a date"),
                 ("2020-05-01", "is no day to come"), ("", "is not a date")),
            text("How sure shall it be", "90", ("all", "'all' is not a whole number"),
                 ("100", "100 is too many"), ("49", "49 is too few")),
            one("Which shall the week's sheet remind you of?", "Hardwood"),
        ),
        "5 red currant by 1 September 2027: start ",
    ),
    "undo": Command("undo", (yes("Take back", "y"),), "has been taken back"),
    "climate seen": Command(
        "climate seen",
        (one("What have you seen?", "the first flower of a plant"), PLANT, REMEMBER),
        "the first bloom of red currant, 20 April.",
        on=APRIL,
    ),
    "climate seen of the soil": Command(
        "climate seen",
        (one("What have you seen?", "the soil can be dug"), REMEMBER),
        "the soil workable, 20 April.",
        on=APRIL,
    ),
    "climate load": Command(
        "climate load",
        (
            text("Which file holds the station's daily record?", str(RECORD), EMPTY,
                 ("nowhere.csv", "'nowhere.csv' cannot be read (No such file or directory)"),
                 (str(RECORD.parent), "is a folder; name the file in it")),
        ),
        "the odds rest on 30 winters, 1996 to 2025.",
        writes=False,
    ),
    "feed": Command(
        "feed",
        (
            text("Which grade, the three numbers on the label?", "20-10-20",
                 ("strong", "'strong' is not a grade"), ("20-10", "'20-10' is not a grade"),
                 ("60-60-60", "between 0 and 100 together"),
                 ("", "'' is not a grade")),
            text("How strong, in ppm of nitrogen?", "150", ("strong", "'strong' is not a strength"),
                 ("0", "a strength in ppm lies between"), ("-1", "a strength in ppm lies between"),
                 ("nan", "a strength in ppm lies between"), ("9999999", "a strength in ppm lies between")),
            text("How much feed is to be made?", "10L", ("much", "'much' is not a volume"),
                 ("0L", "A volume must be more than nothing"), ("3 bananas", "has no volume unit"),
                 ("99999999999gal", "is not an amount anybody feeds with")),
            text("Which ratio has your injector", "1:200", ("one", "'one' is not an injector's ratio"),
                 ("1:0", "they lie between 1:2 and 1:5000"), ("200:1", "is not an injector's ratio")),
        ),
        "20-10-20, 150 ppm of nitrogen",
        writes=False,
    ),
    "takes by dip": Command(
        "takes --ask", (one("What about?", "with a dip or without"),), "by dip", writes=False,
    ),
    "takes of a plant": Command(
        "takes --ask",
        (
            one("What about?", "one plant"),
            text("Which plant?", "rosemary", EMPTY, ("blumph", "There is no lot of 'blumph'")),
        ),
        "rosemary, by method",
        writes=False,
    ),
    "takes of a year": Command(
        "takes --ask",
        (
            one("What about?", "the account of a year"),
            text("Which year?", "2024", ("last", "'last' is not a whole number"), ("12", "12 is too few")),
        ),
        "'cuttings takes --year 2024 --markdown",
        writes=False,
    ),
    "tonight": Command(
        "tonight",
        (
            text("How low does the forecast go tonight?", "27F", ("cold", "'cold' is not a temperature"),
                 ("70K", "use F or C"), ("900F", "outside anything a garden meets"),
                 ("", "is not a temperature")),
        ),
        "a low of 27 °F",
        writes=False,
    ),
    "dip": Command(
        "dip",
        (
            one("Is the hormone a liquid or a powder?", "liquid"),
            yes("Are they to stand in it for hours?", "n"),
            one("How strong is it to be?", "as advised for a plant"),
            text("Which plant?", "rosemary", EMPTY),
            one("What wood is it?", "softwood"),
            text("How strong is the stock", "1%", ("strong", "'strong' is not a strength"),
                 ("-1%", "must be more than nothing"), ("10.000ppm", "could be read two ways"),
                 ("5 bananas", "has no unit of strength"), ("8g/kg", "holds so much in a litre")),
            text("How strong is the dip to be?", "1500ppm", ("1:10", "is understood in two ways"),
                 ("2%", "cannot make")),
            text("How much is to be made?", "250mL", ("a jar", "'a jar' is not a volume"),
                 ("0.1mL", "less than can be measured"), ("250", "more than a bench uses")),
        ),
        "37.5 mL (1.3 fl oz) of stock",
        writes=False,
    ),
    "dip in powder": Command(
        "dip",
        (
            one("Is the hormone a liquid or a powder?", "powder"),
            one("How strong is it to be?", "I know how strong"),
            text("How strong is the powder you have", "0.8%", ("8g/L", "holds so much in a kilogram")),
            text("How strong is the dip to be?", "3000ppm", ("1:3", "is understood in two ways")),
            text("How much is to be made?", "40g", ("250mL", "has no weight unit"),
                 ("-40g", "must be more than nothing")),
        ),
        "15 g (0.529 oz) of stock",
        writes=False,
    ),
    "mix": Command(
        "mix",
        (
            text("For which lot?", "25-004", ("99-999", "There is no lot '99-999'")),
            one("Which mix?", "gritty"),
            text("How many pots?", "6", *COUNTS, ("0", "0 is too few"), HUGE),
            text("Which pot?", "4in", ("bucket", "'bucket' is not a pot"), ("9000L", "No pot holds as much")),
            text("In which bags do you buy them?", "grit 10L", ("coir", "'coir' has no size"),
                 ("moss 5L", "There is no moss in this mix"), ("coir 0L", "must be more than nothing")),
        ),
        "Gritty mix",
        writes=False,
    ),
}  # fmt: skip


def demo_garden(folder: Path) -> Path:
    """The demo garden's ledger, as it stood on ``DAY``; returns its file."""
    Ledger(folder).record(lambda _, __: quarry_bank(DAY))
    return folder / FILE


def copied(garden: Path, folder: Path) -> Path:
    """A copy of the demo garden for one journey, where the terminal looks for it; returns its file."""
    kept = folder / "ledger" / FILE
    kept.parent.mkdir(parents=True)
    shutil.copyfile(garden, kept)
    return kept


def called(command: Command) -> list[str]:
    """The words of a command, on its day."""
    return [*command.words.split(), "--on", command.on.isoformat()]
