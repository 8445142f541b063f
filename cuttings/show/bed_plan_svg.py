"""Beds as a drawing: each seen from above and to scale, with its plants at full size and what they are."""

from collections.abc import Sequence

from attrs import frozen

from cuttings.show.bed_plan import BedPlan, Growth, Ring
from cuttings.show.plain import wrapped
from cuttings.show.svg import ACCENT, DASHED, HEAVY, LINE, QUIET, SOLID, THIN, Group, Point, Style, Svg

WIDTH = 900.0
MARGIN = 40.0
MOST_PIXELS_A_METRE = 160.0
HEADING, LINE_STEP, GAP = 34.0, 18.0, 30.0
WORDS_SIZE, SIGN_SIZE, HEADING_SIZE = 12.0, 13.0, 18.0
LETTERS_A_LINE = 110

STROKES: dict[Growth, Style] = {Growth.GROWN: SOLID, Growth.HELD: DASHED, Growth.OFFERED: ACCENT}
"""How each circle is drawn: filled where something grows, dashed where a spot is held, heavy where one is
offered."""


KEY = "Filled: grows here, full grown. Dashed: held. Heavy: offered."


@frozen
class _Sheet:
    """Where one bed lies on the paper, and what is written below it."""

    plan: BedPlan
    top: float
    scale: float
    left_m: float
    back_m: float
    deep_m: float
    words: Sequence[str]

    def at(self, x: float, y: float) -> Point:
        return MARGIN + (x - self.left_m) * self.scale, self.top + HEADING + (self.back_m - y) * self.scale

    @property
    def foot(self) -> float:
        return self.top + HEADING + self.deep_m * self.scale

    @property
    def bottom(self) -> float:
        return self.foot + GAP + LINE_STEP * (len(self.words) + 1)


def beds_svg(plans: Sequence[BedPlan], title: str) -> str:
    """The text of an SVG file with the beds one below the other."""
    sheets: list[_Sheet] = []
    for plan in plans:
        sheets.append(_sheet(plan, sheets[-1].bottom + GAP if sheets else MARGIN))
    height = (sheets[-1].bottom if sheets else HEADING) + MARGIN
    said = " ".join(ring.words + "." for plan in plans for ring in plan.rings)
    drawing = Svg(WIDTH, height, title=title, description=said or "No bed is drawn.")
    for sheet in sheets:
        _bed(drawing.group(sheet.plan.name), sheet)
    return drawing.document()


def _sheet(plan: BedPlan, top: float) -> _Sheet:
    ends = [(ring, way * ring.radius_m) for ring in plan.rings for way in (-1.0, 1.0)]
    xs = [x for x, _ in plan.outline] + [ring.x + reach for ring, reach in ends]
    ys = [y for _, y in plan.outline] + [ring.y + reach for ring, reach in ends]
    scale = min((WIDTH - 2 * MARGIN) / max(max(xs) - min(xs), 0.1), MOST_PIXELS_A_METRE)
    words = [KEY] if plan.rings else []
    words += [line for note in plan.notes for line in wrapped(note, LETTERS_A_LINE)]
    for ring in plan.rings:
        words += wrapped(f"{ring.sign}  {ring.words}", LETTERS_A_LINE)
    return _Sheet(plan, top, scale, min(xs), max(ys), max(ys) - min(ys), words)


def _bed(drawing: Group, sheet: _Sheet) -> None:
    plan = sheet.plan
    drawing.text((MARGIN, sheet.top + HEADING_SIZE), plan.name, size=HEADING_SIZE)
    for growth in Growth:
        for ring in plan.rings:
            if ring.growth is growth:
                drawing.circle(sheet.at(ring.x, ring.y), ring.radius_m * sheet.scale, STROKES[growth])
    drawing.polygon([sheet.at(x, y) for x, y in plan.outline], HEAVY)
    for ring in plan.rings:
        _sign(drawing, sheet, ring)
    _scale(drawing, sheet)
    for number, line in enumerate(sheet.words):
        drawing.text((MARGIN, sheet.foot + GAP + LINE_STEP * (number + 1)), line, size=WORDS_SIZE)


def _sign(drawing: Group, sheet: _Sheet, ring: Ring) -> None:
    x, y = sheet.at(ring.x, ring.y)
    drawing.text((x, y + SIGN_SIZE / 3), ring.sign, size=SIGN_SIZE, anchor="middle")


def _scale(drawing: Group, sheet: _Sheet) -> None:
    """A bar of so many units, and an arrow to the north."""
    plan, y = sheet.plan, sheet.foot + GAP / 2
    units = next((many for many in (1, 2, 5, 10) if many * plan.unit_m * sheet.scale >= 40), 20)
    end = MARGIN + units * plan.unit_m * sheet.scale
    drawing.line((MARGIN, y), (end, y), LINE)
    for x in (MARGIN, end):
        drawing.line((x, y - 4), (x, y + 4), LINE)
    drawing.text(
        (end + 8, y + 4), f"{units} {plan.unit}, front of the bed below", size=WORDS_SIZE, colour=QUIET
    )
    if plan.north is not None:
        dx, dy = plan.north
        middle = (WIDTH - MARGIN - 12, sheet.top + HEADING_SIZE / 2)
        tip = (middle[0] + 12 * dx, middle[1] - 12 * dy)
        drawing.line((middle[0] - 12 * dx, middle[1] + 12 * dy), tip, HEAVY)
        drawing.circle(tip, 2.5, THIN)
        drawing.text((tip[0] + 8 * dx, tip[1] - 8 * dy + 4), "N", size=WORDS_SIZE, anchor="middle")
