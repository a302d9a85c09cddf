"""The cuffs, as rows of the table of parts."""

from __future__ import annotations

from typing import Final

from drafting.errors import Remedy, Setting
from drafting.parts.cuffs.cuff import CUFF_TO, draw_cuff
from drafting.parts.cuffs.cuff_lengths import BLOUSE, DROP, cuff_ends, cuff_room
from drafting.parts.cuffs.wrist_marks import CUFF, GATHERED, PLEATED
from drafting.parts.part import SHORTER, Part, Room
from drafting.pattern import BodyPart, Place, Site
from drafting.reading.options import Option

__all__ = ["CUFFS"]

_WIDER: Final = 80.0  # mm that a sleeve is made wider for a cuff, to be drawn in (ours)

CUFFS: Final = (
    Part(
        CUFF,
        "A band that closes at a slit in the sleeve, whose lower edge is pleated or gathered into it.",
        CUFF_TO,
        (Site(Place.WRIST, BodyPart.SLEEVE),),
        (
            Option("depth", "length", "how deep it is when it is finished", 20.0, 200.0, default=60.0),
            Option("ease", "length", "how much wider than the wrist it closes", 10.0, 150.0, default=40.0),
            Option("overlap", "length", "how far its ends lap over each other", 15.0, 60.0, default=25.0),
            Option("into", "choice", "how the sleeve is drawn in", default=PLEATED, choices=(PLEATED, GATHERED)),
            Option("pleats", "number", "how many pleats", 1.0, 4.0, default=2.0),
            Option(
                "slit", "length", "how long the slit is; left out, 10 cm, 7 cm for a child", 30.0, 250.0, default=None
            ),
            SHORTER,
            Option(
                "blouse", "length", "how much longer the sleeve is left, to fall over it", 0.0, 100.0, default=BLOUSE
            ),
            Option(
                "drop",
                "length",
                "how much lower the edge of the sleeve is behind, by the slit, over the elbow",
                0.0,
                30.0,
                default=DROP,
            ),
        ),
        draw_cuff,
        fills=("wrist",),
        helped_by=(
            Remedy("add", "full sleeve", (Setting("hem", _WIDER, "mm"),), lead="Make the sleeve wider at its hem"),
        ),
        room=Room(cuff_room, ("full sleeve",)),
        ends=cuff_ends,
    ),
)
