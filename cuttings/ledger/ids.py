"""Entry ids: they sort by the time of writing and never repeat across machines.

An id is the moment in UTC to the millisecond and ten random letters, ``20260501-102211123-k3f9w2x7qd``:
readable in the file, and 50 random bits apart from any other machine's of the same millisecond. Ids
written to one ledger always rise, even if the clock is set back.
"""

import os
from datetime import UTC, datetime

# Crockford's base-32 letters: no i, l, o or u to misread.
LETTERS = "0123456789abcdefghjkmnpqrstvwxyz"
RANDOM_LETTERS = 10
_SPACE = 32**RANDOM_LETTERS


def new_id(now: datetime, after: str = "") -> str:
    """An id for an entry written at ``now`` (aware), later than the id ``after``."""
    moment = now.astimezone(UTC)
    stamp = f"{moment:%Y%m%d-%H%M%S}{moment.microsecond // 1000:03d}"
    # The top half of the space is left for the ids that follow within one millisecond.
    fresh = f"{stamp}-{_letters(int.from_bytes(os.urandom(8)) % (_SPACE // 2))}"
    if fresh > after:
        return fresh
    previous, tail = after.rsplit("-", 1)
    return f"{previous}-{_letters(_number(tail) + 1)}"


def _letters(number: int) -> str:
    digits = []
    for _ in range(RANDOM_LETTERS):
        number, digit = divmod(number, 32)
        digits.append(LETTERS[digit])
    return "".join(reversed(digits))


def _number(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 32 + LETTERS.index(letter)
    return number
