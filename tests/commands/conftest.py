"""Gardens for the command tests: one in each system of units, and the demo garden."""

import shutil
from pathlib import Path

import pytest

from tests.commands.running import demo_garden, recorded

GARDEN = ("garden", "--name", "Quarry Bank", "--lat", "42.9", "--lon", "-76.1", "--zone", "5b",
          "--last-frost-odds", "05-28,05-15,05-02", "--first-frost-odds", "09-18,09-30,10-12",
          "--area", "gate strip", "--area", "holding bench")  # fmt: skip


def _made(folder: Path, units: str) -> Path:
    recorded(*GARDEN, "--elevation", "330m", "--units", units, ledger=folder)
    recorded("sites", "add", "Gate Bed", "--area", "gate strip", "--light", "full-sun",
             "--length", "6m", "--depth", "1.5m", ledger=folder)  # fmt: skip
    recorded("sites", "add", "gate corner", "--area", "gate strip", "--light", "part-sun", ledger=folder)
    return folder


@pytest.fixture(scope="module")
def us_garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return _made(tmp_path_factory.mktemp("us") / "ledger", "us")


@pytest.fixture(scope="module")
def metric_garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return _made(tmp_path_factory.mktemp("metric") / "ledger", "metric")


@pytest.fixture(scope="module")
def kept_demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return demo_garden(tmp_path_factory.mktemp("demo") / "quarry-bank")


@pytest.fixture
def ledger(us_garden: Path, tmp_path: Path) -> Path:
    """A garden in US units with two sites and no lots."""
    return Path(shutil.copytree(us_garden, tmp_path / "ledger"))


@pytest.fixture
def metric(metric_garden: Path, tmp_path: Path) -> Path:
    """The same garden in metric units."""
    return Path(shutil.copytree(metric_garden, tmp_path / "metric"))


@pytest.fixture
def demo(kept_demo: Path, tmp_path: Path) -> Path:
    """The demo garden on the second of May."""
    return Path(shutil.copytree(kept_demo, tmp_path / "demo"))
