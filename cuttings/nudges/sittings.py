"""How a long job is split into sittings, so that nobody kneels or stoops too long at one go."""

from itertools import accumulate, pairwise

from cuttings.nudges.sheet import Sitting

SITTING_MINUTES = 30
"""The longest stretch of garden work without a break; a quarter to half an hour is advised. Rutgers NJAES
Burlington, Ergonomics for Gardeners Part 4, 2021,
https://burlington.njaes.rutgers.edu/2021/04/22/ergonomics-for-gardeners-part-4"""


def sittings(minutes: int, parts: int) -> tuple[Sitting, ...]:
    """The sittings of a job that takes so many minutes and can be split into so many like parts, 1 or more.

    A job of at most ``SITTING_MINUTES`` is done at one go, and so is one that cannot be split, as it cannot
    be left half done. Any other becomes the fewest sittings of whole parts, as even as can be, the largest
    first. None is longer than ``SITTING_MINUTES`` unless a single part is; that is then a sitting of its own.
    """
    if minutes <= SITTING_MINUTES or parts == 1:
        return (Sitting(minutes, parts),)
    most = max(SITTING_MINUTES * parts // minutes, 1)
    number = -(-parts // most)
    each, over = divmod(parts, number)
    shares = [each + 1] * over + [each] * (number - over)
    # Rounding the ends, not the lengths, keeps each length within a minute of its share, and their sum.
    ends = [-(-minutes * done // parts) for done in accumulate(shares, initial=0)]
    lengths = sorted((end - begin for begin, end in pairwise(ends)), reverse=True)
    return tuple(Sitting(length, share) for length, share in zip(lengths, shares, strict=True))
