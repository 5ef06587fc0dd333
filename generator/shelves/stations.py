"""The stations where cards hang: the table of templates/cards, in the order of printing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.reading.block import Block
from generator.reading.fields import Choice, Many, Texts
from generator.reading.names import Name, references
from generator.shelves.procedures import CARD
from generator.shelves.rows import contradiction
from generator.shelves.shelf import File, Names, Shelf, Tallied

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from generator.reading.findings import Finding
    from generator.reading.names import Known

ITS_RAFT, MUSTER_PLACE = "its raft", "muster place"
STATION_BILL, PLAN, CALL_SCRIPT, RAFT_PARTY = "station bill", "plan", "call script", "raft party"


class Station(Block):
    """A place where cards hang."""

    called = "station"
    station = Name("What is it called?", required=True)
    hangs_at = Choice(
        "What does the card say of its place?", (ITS_RAFT, MUSTER_PLACE, "nothing more"), required=True
    )
    when = references("Which facts must all be so for a card to hang there?", to="fact", negatable=True)
    shows = Texts("What hangs there besides procedures?", (STATION_BILL, PLAN, CALL_SCRIPT, RAFT_PARTY))

    @property
    def name(self) -> str:
        """What it is called."""
        return str(self.station)


class StationTable(Tallied):
    """The table of stations."""

    stations = Many(Station, "Where do cards hang?", distinct=True, required=True)


def _named(files: Sequence[File[StationTable]]) -> Names:
    return {"station": [row.name for each in files for row in each.block.stations]}


def _used(files: Sequence[File[StationTable]], known: Known) -> Iterator[Finding]:
    """Something hangs at every station."""
    hung = known.get(CARD, ())
    for row in (row for each in files for row in each.block.stations):
        if not row.shows and row.name not in hung:
            yield contradiction(
                row.place("station"),
                f"nothing hangs at the station '{row.name}'",
                "name it under 'cards' of a procedure, say what it shows, or remove it",
            )


STATIONS = Shelf(
    "stations",
    "cards/stations.yaml",
    StationTable,
    "Where cards hang, and what hangs there besides procedures.",
    gives=_named,
    agrees=_used,
)


def stations() -> tuple[Station, ...]:
    """Every station in the order of printing; raises ShelfFault."""
    return tuple(row for each in STATIONS.files() for row in each.block.stations)
