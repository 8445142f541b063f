"""Sheets made by hand, and a printed page as other programs read it."""

import io
from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any

import numpy as np
import numpy.typing as npt
import pypdfium2
import pypdfium2.raw as pdfium
from attrs import frozen
from pypdf import PdfReader

from cuttings.exchange.paper import page_of
from cuttings.nudges.model import Nudge
from cuttings.nudges.sheet import Item, Sheet, Sitting, Stop
from cuttings.rules.advice import Window

FIRST = date(2026, 5, 2)
LAST = FIRST + timedelta(days=6)
JOBS = (
    ("Pot {}", "Its roots are long enough.", ("pots", "mix")),
    ("Water {} whenever the top of the mix is dry", "A pot holds little water.", ("watering can",)),
    ("Look for roots on {}", "Roots are said to take 7 to 20 weeks. Do not pull it up.", ("trowel",)),
    ("Plant {} out", "The ground has thawed.", ("spade", "watering can")),
)
AREAS = ("holding bench", "north wall", "gate strip")


def nudge(
    job: str = "Pot {}", name: str = "26-001 red currant", why: str = "It is time.", **more: Any
) -> Nudge:
    window = Window(
        what="pot",
        opens=more.pop("opens", FIRST),
        best=(FIRST, FIRST),
        closes=more.pop("closes", LAST),
        why=why,
        source="common practice",
    )
    return Nudge(id=f"{job} {name}", job=job, name=name, window=window, **more)


def item(
    number: int, what: Nudge, cost: float = 0.0, sittings: Sequence[Sitting] = (), taken: int = 1
) -> Item:
    parts = tuple(sittings) or (Sitting(what.minutes, what.parts),)
    return Item(nudge=what, number=number, cost=cost, sittings=parts, taken=taken)


def sheet(*stops: tuple[str, Sequence[Item]], **more: Any) -> Sheet:
    found = tuple(Stop(area=area, items=tuple(items)) for area, items in stops)
    return Sheet(first=FIRST, last=LAST, stops=found, **{"walk": 5, **more})


def many(count: int, *, alike: bool = False, left: int = 0) -> Sheet:
    """A sheet of so many jobs in three parts of the garden, each of its own unless they are alike."""

    def made(number: int) -> Item:
        job, why, tools = JOBS[number % len(JOBS)]
        own = why if alike else f"{why} Reason {number}."
        name = f"26-{number:03d} Siberian iris"
        return item(number, nudge(job, name, own, tools=tools), cost=max(5.0 - number / 10, 0.0))

    items = [made(number) for number in range(1, count + 1)]
    third = -(-count // 3) or 1
    stops = [(area, items[n * third : (n + 1) * third]) for n, area in enumerate(AREAS)]
    waits = tuple(
        item(count + n, nudge("Feed {}", f"27-{n:03d} box", "It grows."), 0.4, taken=0) for n in range(left)
    )
    return sheet(*((area, found) for area, found in stops if found), left=waits)


@frozen
class Printed:
    """A page as pypdf reads it and as PDFium draws it."""

    pdf: bytes

    @property
    def reader(self) -> PdfReader:
        return PdfReader(io.BytesIO(self.pdf))

    @property
    def pages(self) -> int:
        return len(self.reader.pages)

    @property
    def lines(self) -> list[str]:
        return self.reader.pages[0].extract_text().splitlines()

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.lines).split())

    @property
    def letters(self) -> str:
        """The text without any space, for words that run over a line's end."""
        return "".join(self.text.split())

    def sizes(self) -> list[tuple[str, float]]:
        """Each piece of text with its size in points."""
        found: list[tuple[str, float]] = []

        def seen(text: str, _cm: Any, _tm: Any, _font: Any, size: float) -> None:
            if text.strip():
                found.append((text.strip(), float(size)))

        self.reader.pages[0].extract_text(visitor_text=seen)
        return found

    def squares(self) -> list[tuple[float, float, float, float]]:
        """Left, bottom, right and top of each drawn square, in points from the lower left corner."""
        document = pypdfium2.PdfDocument(self.pdf)
        bounds = [
            found.get_bounds()
            for found in document[0].get_objects()
            if found.type == pdfium.FPDF_PAGEOBJ_PATH
        ]
        return [b for b in bounds if abs((b[2] - b[0]) - (b[3] - b[1])) < 0.1 and b[2] - b[0] > 5]

    def pixels(self, scale: float = 4.0) -> npt.NDArray[np.int16]:
        """Red, green and blue of every pixel, ``scale`` of them to a point, from the upper left corner."""
        drawn = pypdfium2.PdfDocument(self.pdf)[0].render(scale=scale)
        return np.asarray(drawn.to_numpy(), dtype=np.int16)[:, :, :3]


def printed(what: Sheet, *, garden: str = "Quarry Bank", us: bool = True) -> Printed:
    return Printed(page_of(what, garden=garden, today=FIRST, us=us))
