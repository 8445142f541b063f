"""The best joint plan by trying every position of every plant: a witness that shares no code with the
matcher."""

import math
from collections.abc import Sequence

from attrs import frozen


@frozen
class Stem:
    """A plant to be placed: its lot, its mature radius, the least height it grows to, and what it is worth on
    each bed."""

    lot: int
    radius_m: float
    worth: tuple[float, ...]


@frozen
class Box:
    """A rectangular bed with circles that stay where they are, all in metres."""

    length_m: float
    depth_m: float
    taken: tuple[tuple[float, float, float], ...] = ()


def nodes(box: Box, radius_m: float, step_m: float) -> list[tuple[float, float]]:
    """The positions of a net on which a plant stands whole in a bed, or, where none does, with all but half
    its radius."""
    for inset in (radius_m, radius_m / 2):
        if 2 * inset <= min(box.length_m, box.depth_m) + 1e-9:
            found = [
                (x * step_m, y * step_m)
                for x in range(math.ceil(box.length_m / step_m) + 1)
                for y in range(math.ceil(box.depth_m / step_m) + 1)
                if inset - 1e-9 <= x * step_m <= box.length_m - inset + 1e-9
                and inset - 1e-9 <= y * step_m <= box.depth_m - inset + 1e-9
            ]
            if found:
                return [
                    at
                    for at in found
                    if all(math.dist(at, (u, v)) >= radius_m + r - 1e-9 for u, v, r in box.taken)
                ]
    return []


def best_total(stems: Sequence[Stem], boxes: Sequence[Box], step_m: float) -> float:
    """The highest total worth of any plan in which no two plants overlap."""
    order = sorted(stems, key=lambda stem: (-stem.radius_m, stem.lot))
    places = [
        [
            (stem.worth[bed], bed, at)
            for bed, box in enumerate(boxes)
            if stem.worth[bed] > 0.0
            for at in nodes(box, stem.radius_m, step_m)
        ]
        for stem in order
    ]
    for each in places:
        each.sort(key=lambda place: -place[0])
    hopes = [0.0]
    for each in reversed(places):
        hopes.append(hopes[-1] + (each[0][0] if each else 0.0))
    hopes.reverse()
    best = 0.0

    def go_on(
        number: int, total: float, standing: list[tuple[int, tuple[float, float], float]], last: int
    ) -> None:
        nonlocal best
        best = max(best, total)
        if number == len(order) or total + hopes[number] <= best + 1e-9:
            return
        stem = order[number]
        twin = number > 0 and order[number - 1].lot == stem.lot
        for index, (worth, bed, at) in enumerate(places[number]):
            if twin and index <= last:  # stems of one lot change places without changing the plan
                continue
            if total + worth + hopes[number + 1] <= best + 1e-9:
                break
            if all(
                bed != there or math.dist(at, other) >= stem.radius_m + radius - 1e-9
                for there, other, radius in standing
            ):
                go_on(number + 1, total + worth, [*standing, (bed, at, stem.radius_m)], index)
        go_on(number + 1, total, standing, len(places[number]))

    go_on(0, 0.0, [], -1)
    return best
