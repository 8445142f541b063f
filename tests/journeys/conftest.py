"""What the journeys share."""

from pathlib import Path

import pytest

from tests.journeys.askings import demo_garden


@pytest.fixture(scope="session")
def garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The ledger file of the demo garden; journeys that write take a copy of it."""
    return demo_garden(tmp_path_factory.mktemp("garden"))
