"""The catalogue agrees with what is published, and the page that says so is true."""

from tests.published.agreement import PAGE, findings, page, share_in_agreement

LEAST_AGREEMENT = 0.95


def test_ninety_five_in_a_hundred_published_facts_are_within_or_overlap() -> None:
    found = findings()
    print(page())
    assert share_in_agreement(found) >= LEAST_AGREEMENT


def test_what_lies_apart_or_is_not_held_says_why() -> None:
    for each in findings():
        if each.verdict in ("apart", "not held"):
            assert each.fact.why, f"{each.plant} {each.fact.field}: {each.ours} against {each.fact.printed}"


def test_the_page_is_what_the_comparison_says_today() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "run 'python -m tests.published.agreement'"
