"""Recipes, and what a batch of one takes by the litre, by the scoop and by the bag."""

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.plants.standard import standard
from cuttings.rules.batches import (
    COIR_L_PER_KG,
    FOR_A_HEAP,
    FOR_POTS,
    LEAST_L,
    MOST_L,
    SCOOPS,
    Bag,
    Batch,
    batch,
    fewest_left_over,
    parse_bags,
)
from cuttings.rules.caution import POTTING_MIX
from cuttings.rules.mixes import (
    COIR,
    COMPOST,
    GRIT,
    LIME_BURNS,
    LIME_FREE_SAND,
    LOAM,
    MATERIALS,
    PEAT,
    PERLITE,
    RECIPES,
    SAND,
    Part,
    Recipe,
    recipe_called,
)
from cuttings.rules.pots import classes, parse_pot
from cuttings.rules.potting import ACID_GENERA, recommend_mix
from cuttings.units import LITRES
from cuttings.words import Units

recipes = st.sampled_from(list(RECIPES.values()))
totals = st.floats(LEAST_L, MOST_L)
allowances = st.sampled_from([FOR_POTS, FOR_A_HEAP])
sizes = st.floats(0.5, 300.0).map(lambda litres: round(litres, 2))


def made(recipe: Recipe, total_l: float, units: Units = Units.METRIC) -> Batch:
    return batch(recipe.parts, total_l, FOR_POTS, units)


@given(recipes, st.booleans(), totals, allowances, st.sampled_from(Units))
def test_the_parts_add_up_to_what_is_wanted(
    recipe: Recipe, with_peat: bool, total: float, allowance: object, units: Units
) -> None:
    parts = recipe.version(with_peat=with_peat)
    allowed = FOR_POTS if allowance == FOR_POTS else FOR_A_HEAP
    found = batch(parts, total, allowed, units)
    assert sum(share.litres for share in found.shares) == pytest.approx(found.total_l, abs=1e-9)
    assert found.total_l == pytest.approx(total, abs=0.00051)
    whole = sum(part.parts for part in parts)
    for share in found.shares:
        assert share.litres == pytest.approx(total * share.part.parts / whole, abs=0.0011)
        assert share.litres < share.loose_l <= share.litres * allowed.factor + 0.0011


@given(recipes, st.integers(1, 400), st.sampled_from(classes()))
def test_any_pots_of_any_class_are_filled(recipe: Recipe, count: int, size: object) -> None:
    pot = next(each for each in classes() if each == size)
    total = count * pot.volume_l
    if total <= MOST_L:
        assert made(recipe, total).total_l == pytest.approx(total, abs=0.00051)


@given(recipes, st.floats(1.0, 1000.0), st.integers(2, 20))
def test_a_batch_so_many_times_as_large_takes_so_many_times_as_much(
    recipe: Recipe, total: float, times: int
) -> None:
    once, often = made(recipe, total), made(recipe, total * times)
    for one, many in zip(once.shares, often.shares, strict=True):
        assert many.litres == pytest.approx(one.litres * times, abs=0.0011 * (times + 1))
        assert many.loose_l == pytest.approx(one.loose_l * times, abs=0.003 * (times + 1))


@given(recipes, totals, st.sampled_from(Units))
def test_scoops_are_enough_and_keep_the_parts(recipe: Recipe, total: float, units: Units) -> None:
    found = made(recipe, total, units)
    assert (found.scoop, found.scoop_l) in SCOOPS[units]
    of_a_part = {share.scoops / share.part.parts for share in found.shares}
    assert len(of_a_part) == 1
    assert (2 * of_a_part.pop()).is_integer()
    for share in found.shares:
        assert share.scoops * found.scoop_l >= share.litres * FOR_POTS.factor - 0.002 * share.part.parts


@given(st.floats(0.1, 2000.0), st.lists(sizes, min_size=1, max_size=2, unique=True))
def test_bags_are_enough_and_one_fewer_of_any_is_not(needed: float, litres: list[float]) -> None:
    bought = fewest_left_over(needed, [Bag(COIR, each) for each in litres])
    held = sum(each.count * each.bag.litres for each in bought)
    assert held >= needed - 1e-6
    for each in bought:
        assert each.count >= 1
        assert held - each.bag.litres < needed


@given(st.floats(1.0, 60.0), st.lists(st.integers(2, 30), min_size=2, max_size=2, unique=True))
def test_two_sizes_are_put_together_with_the_least_left_over(needed: float, litres: list[int]) -> None:
    """Against every pair of counts."""
    bought = fewest_left_over(needed, [Bag(COIR, float(each)) for each in litres])
    held = sum(each.count * each.bag.litres for each in bought)
    tried = (a * litres[0] + b * litres[1] for a in range(32) for b in range(32))
    assert held == min(each for each in tried if each >= needed)


@given(recipes, st.floats(1.0, 500.0), sizes)
def test_what_is_left_over_is_what_is_not_measured_out(recipe: Recipe, total: float, size: float) -> None:
    bags = [Bag(part.material, size) for part in recipe.parts]
    for share in batch(recipe.parts, total, FOR_POTS, Units.US, bags).shares:
        (bought,) = share.bags
        assert share.left_l == pytest.approx(bought.count * size - share.loose_l, abs=0.001)
        assert share.left_l is not None
        assert 0 <= share.left_l < size


def test_nothing_is_bought_where_no_bag_is_named() -> None:
    coir, perlite = batch(RECIPES["striking"].parts, 10, FOR_POTS, Units.METRIC, [Bag(PERLITE, 100.0)]).shares
    assert (coir.bags, coir.left_l) == ((), None)
    assert [each.count for each in perlite.bags] == [1]


@pytest.mark.parametrize("total", [0.0, 0.01, -1.0, MOST_L * 1.01, float("nan"), float("inf")])
def test_no_batch_is_as_small_or_as_large_as_that(total: float) -> None:
    with pytest.raises(ValueError, match="cannot be reckoned"):
        made(RECIPES["potting"], total)


def test_bags_are_read_as_people_write_them() -> None:
    parts = RECIPES["potting"].parts
    bags = parse_bags("coir 9L, perlite 100L,compost 1,5cuft; Topsoil 10 qt", parts, Units.US)
    assert [(bag.material, bag.litres) for bag in bags] == [
        (COIR, 9.0),
        (PERLITE, 100.0),
        (COMPOST, round(1.5 * LITRES["cuft"], 3)),
        (LOAM, round(10 * LITRES["qt"], 3)),
    ]
    assert parse_bags("2 cu ft bags of coir", parts, Units.METRIC)[0].litres == round(2 * LITRES["cuft"], 3)
    assert parse_bags("sand 25L", RECIPES["acid"].parts, Units.METRIC)[0].material == LIME_FREE_SAND
    assert parse_bags("sand 25L", RECIPES["loam"].parts, Units.METRIC)[0].material == SAND


def test_a_block_of_coir_goes_by_weight() -> None:
    grams, kilos = parse_bags("coir 650g, coir block 5kg", RECIPES["potting"].parts, Units.US)
    assert [bag.kg for bag in (grams, kilos)] == pytest.approx([0.65, 5.0])
    assert grams.litres == pytest.approx(0.65 * COIR_L_PER_KG)
    assert kilos.litres == pytest.approx(5 * COIR_L_PER_KG)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "such as 'coir 9L"),
        ("coir", "'coir' has no size"),
        ("grit 20L", "There is no grit in this mix; it is made of coir, garden compost, loam, perlite"),
        ("gold 20L", "'gold' is no ingredient this program knows"),
        ("perlite 2kg", "only a block of coir goes by weight"),
        ("coir 0L", "more than nothing"),
        ("coir 0kg", "No bag is as large or as small"),
        ("coir 90000L", "No bag is as large or as small"),
        ("coir 1L, coir 2L, coir 3L", "at most 2 sizes of coir"),
    ],
)
def test_bags_that_cannot_be_read_are_refused_in_a_sentence(text: str, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        parse_bags(text, RECIPES["potting"].parts, Units.US)


@given(st.text(max_size=24), st.sampled_from(Units))
def test_any_text_gives_bags_or_is_refused(text: str, units: Units) -> None:
    with suppress(ValueError):
        assert all(bag.litres > 0 for bag in parse_bags(text, RECIPES["potting"].parts, units))


def test_a_bag_of_what_is_not_in_the_mix_is_refused() -> None:
    with pytest.raises(ValueError, match="There is no grit in this mix"):
        batch(RECIPES["potting"].parts, 10, FOR_POTS, Units.US, [Bag(GRIT, 20.0)])


def test_every_mix_that_is_recommended_is_a_recipe() -> None:
    """Of every plant on record, struck and potted."""
    wanted = {
        recommend_mix(plant, striking=striking).value for plant in standard() for striking in (True, False)
    }
    assert wanted <= set(RECIPES)
    assert wanted >= {"striking", "potting", "gritty", "acid"}


def test_a_lime_hater_is_sent_to_a_mix_without_lime() -> None:
    for plant in standard():
        if plant.genus in ACID_GENERA and not plant.mix:
            assert recommend_mix(plant).value == "acid"
    for with_peat in (False, True):
        parts = RECIPES["acid"].version(with_peat=with_peat)
        assert not {part.material for part in parts} & {SAND, GRIT, LOAM, COMPOST}
        assert LIME_BURNS not in RECIPES["acid"].cautions(with_peat=with_peat)
    assert not RECIPES["acid"].limed_peat
    assert RECIPES["acid"].ph[1] < 6.0


@pytest.mark.parametrize("recipe", RECIPES.values(), ids=RECIPES)
def test_every_recipe_is_whole(recipe: Recipe) -> None:
    for parts in (recipe.parts, recipe.peat):
        assert len({part.material for part in parts}) == len(parts) >= 2
        assert all(part.parts >= 1 and part.material in MATERIALS for part in parts)
    assert PEAT not in {part.material for part in recipe.parts}
    assert PEAT in {part.material for part in recipe.peat}
    assert recipe.purpose.endswith(".")
    assert recipe.drainage.endswith(".")
    assert recipe.ph[0] < recipe.ph[1]
    assert all((recipe.source, recipe.peat_source, recipe.ph_source))
    assert recipe.cautions()[0] == POTTING_MIX


@pytest.mark.parametrize("recipe", RECIPES.values(), ids=RECIPES)
def test_what_makes_dust_is_told_of_once(recipe: Recipe) -> None:
    for with_peat in (False, True):
        kinds = [caution.text for caution in recipe.cautions(with_peat=with_peat)]
        assert len(kinds) == len(set(kinds))
        dusty = {part.material.name for part in recipe.version(with_peat=with_peat)} & {
            "perlite", "vermiculite", "sharp sand", "lime-free sand",
        }  # fmt: skip
        assert bool(dusty) is any("dust mask" in text for text in kinds)


def test_names_of_recipes_are_read_without_case() -> None:
    assert recipe_called(" Gritty mix ") == RECIPES["gritty"]
    with pytest.raises(ValueError, match="striking, potting, gritty, acid"):
        recipe_called("mud")


def test_no_other_name_leads_to_two_materials_of_one_mix() -> None:
    for recipe in RECIPES.values():
        for parts in (recipe.parts, recipe.peat):
            names = [name for part in parts for name in (part.material.name, *part.material.called)]
            assert len(names) == len(set(names))


def test_a_two_litre_pot_takes_two_litres() -> None:
    assert made(RECIPES["potting"], 5 * parse_pot("2L", Units.US).volume_l).total_l == 10.0


def test_parts_are_by_volume() -> None:
    shares = batch((Part(COIR, 3), Part(PERLITE, 1)), 8.0, FOR_A_HEAP, Units.METRIC).shares
    assert [share.litres for share in shares] == [6.0, 2.0]
    assert [share.loose_l for share in shares] == [6.6, 2.2]
