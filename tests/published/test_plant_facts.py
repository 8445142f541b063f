"""Facts of plants that are no range: where roots are harmed, what the law says.

What is published as a range stands in the agreement table (``agreement.py``).
"""

import pytest

from cuttings.plants.standard import standard


def test_roots_in_pots_are_thought_harmed_no_warmer_than_a_trial_brought_them_through() -> None:
    """Journal of Environmental Horticulture (abstract): Controlled freezing of twenty-three container-grown
    herbaceous perennials, https://discovery.researcher.life/article/controlled-freezing-of-twenty-three-
    container-grown-herbaceous-perennials/df818cb72f2d3425a076d3c953c3afc9: still saleable after -8 C,
    Tiarella cordifolia; after -11 C, two phloxes."""
    survived = {"Tiarella cordifolia": -8.0, "Phlox": -11.0}
    for name, temperature in survived.items():
        plant = standard().plant(name)
        assert plant.root_kill_c is None
        assert plant.root_harm_c is not None
        assert plant.root_harm_c <= temperature


@pytest.mark.parametrize("name", ["Ribes", "Ribes rubrum", "Ribes nigrum", "Ribes uva-crispa"])
def test_currants_and_gooseberries_defer_to_local_rules(name: str) -> None:
    """North Carolina Department of Agriculture: White Pine Blister Rust,
    http://ncagr.gov/plantindustry/plant/disease/48A-04.htm: the genus may not be grown there."""
    cautions = standard().plant(name).cautions
    assert any(c.kind == "law" and "local rules" in c.text for c in cautions), f"{name}: no word of the law"
