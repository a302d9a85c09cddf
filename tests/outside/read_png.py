"""A small reader of PNG pictures (ISO/IEC 15948), 8 bits a channel, not interlaced: how dark each pixel is."""

from __future__ import annotations

import struct
import zlib

import numpy as np


def darkness(png: bytes) -> np.ndarray:
    """Rows by columns, 0 for white and 1 for black, from the red channel."""
    assert png[:8] == b"\x89PNG\r\n\x1a\n"
    data, at, width, height = b"", 8, 0, 0
    while at < len(png):
        (size,) = struct.unpack(">I", png[at : at + 4])
        kind, content = png[at + 4 : at + 8], png[at + 8 : at + 8 + size]
        if kind == b"IHDR":
            width, height, depth, colours, _, _, interlaced = struct.unpack(">IIBBBBB", content)
            assert (depth, colours, interlaced) == (8, 6, 0)
        elif kind == b"IDAT":
            data += content
        at += 12 + size
    rows = np.frombuffer(zlib.decompress(data), dtype=np.uint8).reshape(height, 1 + 4 * width)
    # the filters work on each channel by itself, so one channel can be undone alone
    red = rows[:, 1::4].astype(int)
    above = np.zeros(width, dtype=int)
    for row, how in zip(red, rows[:, 0], strict=True):
        if how == 1:
            row[:] = np.cumsum(row) % 256
        elif how == 2:
            row[:] = (row + above) % 256
        elif how == 3:
            _undo_average(row, above)
        elif how == 4 and (row.any() or np.ptp(above)):  # nothing added to a row of one shade: that shade again
            _undo_paeth(row, above)
        elif how == 4:
            row[:] = above
        above = row
    return 1.0 - red / 255.0


def _undo_average(row: np.ndarray, above: np.ndarray) -> None:
    left, found = 0, []
    for value, up in zip(row.tolist(), above.tolist(), strict=True):
        left = (value + (left + up) // 2) % 256
        found.append(left)
    row[:] = found


def _undo_paeth(row: np.ndarray, above: np.ndarray) -> None:
    left, corner, found = 0, 0, []
    for value, up in zip(row.tolist(), above.tolist(), strict=True):
        # the guess is left + up - corner, where that is one of the three, as in even stretches of a picture it is
        guess = up if left == corner else left if up == corner else _paeth(left, up, corner)
        left, corner = (value + guess) % 256, up
        found.append(left)
    row[:] = found


def _paeth(left: int, up: int, corner: int) -> int:
    estimate = left + up - corner
    return min((abs(estimate - left), 0, left), (abs(estimate - up), 1, up), (abs(estimate - corner), 2, corner))[2]
