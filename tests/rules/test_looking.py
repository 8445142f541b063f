import pytest

from cuttings.rules.looking import DO_NOT_PULL, SCRAPE_ASIDE, Seen, Verdict, how_to_look, judge
from cuttings.words import Method

CUTTING, LAYER = Method.SOFTWOOD_CUTTING, Method.SIMPLE_LAYER


@pytest.mark.parametrize(
    "seen", [Seen(roots_at_holes=True), Seen(root_length_m=0.01), Seen(resists_tug=True)]
)
def test_roots_or_a_hold_mean_rooted(seen: Seen) -> None:
    assert judge(seen, CUTTING).value is Verdict.ROOTED


def test_roots_outweigh_a_black_stem() -> None:
    assert judge(Seen(blackened=True, root_length_m=0.02), CUTTING).value is Verdict.ROOTED


def test_black_without_roots_has_failed() -> None:
    assert judge(Seen(blackened=True, new_growth=True), CUTTING).value is Verdict.FAILED


def test_new_leaves_alone_prove_nothing() -> None:
    advice = judge(Seen(new_growth=True), CUTTING)
    assert advice.value is Verdict.NOT_YET
    assert "stored" in advice.why
    assert DO_NOT_PULL in advice.why


def test_a_pegged_layer_always_holds_so_a_hold_tells_nothing() -> None:
    advice = judge(Seen(resists_tug=True), LAYER)
    assert advice.value is Verdict.NOT_YET
    assert SCRAPE_ASIDE in advice.why


def test_nothing_seen_is_not_yet() -> None:
    assert judge(Seen(), CUTTING).value is Verdict.NOT_YET


@pytest.mark.parametrize(
    "seen", [Seen(resists_tug=False), Seen(root_length_m=0.0), Seen(roots_at_holes=False)]
)
def test_no_sign_of_roots_is_not_yet(seen: Seen) -> None:
    assert judge(seen, CUTTING).value is Verdict.NOT_YET


@pytest.mark.parametrize("method", Method)
def test_every_method_has_a_way_to_look(method: Method) -> None:
    assert how_to_look(method).endswith(".")
