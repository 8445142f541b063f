"""Every kind of entry by the word that stands for it in the file."""

from collections.abc import Mapping

from cuttings.ledger import entries as e
from cuttings.ledger.containers import Containers
from cuttings.ledger.goals import Goal
from cuttings.ledger.ticks import NudgeDone, NudgeLater, NudgeNever

KINDS: Mapping[str, type[e.Entry]] = {
    cls.kind: cls
    for cls in (
        e.Find, e.Strike, e.Layer, e.Divide, e.Check, e.Pot, e.Harden, e.Ready, e.Plant, e.Give, e.Sell,
        e.Lose, e.Split, e.Note, e.Rename, e.Labelled, e.Reverse, e.Mark, e.MarkDone, e.SeasonSign,
        e.PlantFacts, e.GardenFacts, e.SiteFacts, e.GrowingHere, e.Thinned, e.ObstacleHere, e.ObstacleGone,
        e.PointHere, e.HoldSpot, e.ReleaseSpot, NudgeDone, NudgeLater, NudgeNever, Containers,
        Goal,
    )
}  # fmt: skip
