"""The piece that a step of a garment file names: which is meant, and whether the garment has it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from blocks.block_table import Block
from drafting.alterations import Alteration
from drafting.alterations.alteration_words import piece_meant
from drafting.errors import meant
from drafting.pattern import is_part_name
from drafting.reading.read_table import Reader

__all__ = ["accept_piece", "known_names", "of_piece_meant"]


def of_piece_meant(step: Alteration, pieces: Sequence[str]) -> Alteration:
    """The step with the piece that is meant by what it names."""
    named = getattr(step, "piece", None)
    return replace(step, piece=piece_meant(named, pieces, alter=step.name)) if isinstance(named, str) else step  # type: ignore[call-arg]


def accept_piece(
    reader: Reader, step: Alteration, pieces: Sequence[str], blocks: tuple[Block, ...], *, is_alone: bool
) -> None:
    """Note a piece that no block of the garment makes; one that another step may make is left to the step.

    pieces: those that the blocks of the garment make; is_alone: whether it has no other step
    """
    name = getattr(step, "piece", None)
    if not pieces or not isinstance(name, str) or not name or name in pieces:
        return
    if not is_alone and any(is_part_name(name, piece) for piece in pieces):
        return
    block = next((block.name for block in blocks if name in block.pieces), None)
    mend = f'It comes with the block "{block}": add that, or leave this step out.' if block else meant(name, pieces)
    read = None if "piece" in reader else f'nothing, which stands for "{name}"'
    reader.problem("piece", known_names("piece", pieces), mend, read=read)


def known_names(kind: str, names: Sequence[str]) -> str:
    """What there is to choose from, in words."""
    return f"one of these {kind}s: " + ", ".join(f'"{name}"' for name in names)
