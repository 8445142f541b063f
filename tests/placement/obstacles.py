"""What stands round the sites of the placement tests; all invented."""

from hypothesis import strategies as st

from cuttings.ledger.places import Obstacle
from cuttings.placement.skyline import obstacle_between
from cuttings.words import ObstacleKind

WALL = obstacle_between(ObstacleKind.WALL, 150, 210, distance_m=2.0, height_m=3.0)
TREE = obstacle_between(
    ObstacleKind.TREE, 80, 130, distance_m=5.0, height_m=7.0, base_m=2.0, leaf=((5, 10), (10, 20))
)


@st.composite
def obstacles(draw: st.DrawFn) -> Obstacle:
    """Anything that may stand round a site, to a tenth of a degree and of a metre."""
    start = draw(st.integers(0, 3599)) / 10
    return obstacle_between(
        draw(st.sampled_from(ObstacleKind)),
        start,
        start + draw(st.integers(10, 1600)) / 10,
        distance_m=draw(st.integers(10, 300)) / 10,
        height_m=draw(st.integers(5, 150)) / 10,
        base_m=draw(st.sampled_from([0.0, 0.0, 2.5])),
        leaf=draw(st.sampled_from([None, None, ((5, 10), (10, 20)), ((10, 20), (5, 10))])),
        density=draw(st.sampled_from([0.0, 0.5, 0.8, 1.0, 1.0])),
    )
