"""The report: one page of HTML that holds everything there is to know before cutting, and needs nothing but itself."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from html import escape
from pathlib import PurePosixPath
from types import MappingProxyType
from typing import Final
from urllib.parse import quote

from drafting.body.plausible import Doubt
from drafting.checks import Result, worst
from drafting.fit.ease import Ease
from drafting.pattern import Pattern, Piece
from drafting.pattern.seam_ends import sewn
from output.drawings.drawing import LineKind
from output.drawings.garment_picture import garment_views
from output.drawings.piece_notes import allowance_note, cut_note, still_to_finish
from output.drawings.svg import overlay_picture, piece_picture
from output.lay.lay_pieces import Material
from output.lay.lay_values import Spread
from output.lay.shopping_list import ToBuy
from output.report.before_after import BeforeAfter, before_after
from output.report.child_words import caution_passage
from output.report.cloth_tables import buy_table, cloth_html
from output.report.dart_table import dart_table
from output.report.notch_table import notch_table
from output.report.page_style import STYLE
from output.report.picture_html import named_picture, picture_html
from output.report.sewing_section import sewing_html
from output.report.since_last import since_last
from output.report.table_html import VERDICT_CLASSES, list_html, passage_html, table_html
from output.report.tables import (
    Passage,
    check_tables,
    counted,
    ease_notes,
    ease_sources_table,
    estimate_table,
    fault_lines,
    finished_table,
    gather_table,
    gave_way_passage,
    look_first_passages,
    measured_table,
    seam_table,
    steps_passage,
)

__all__ = ["report_html"]

_LEVEL: Final = "M0 8H35"
_KEY: Final = (
    (LineKind.CUTTING, _LEVEL, "cutting line"),
    (LineKind.SEWING, _LEVEL, "sewing line"),
    (LineKind.FOLD, _LEVEL, "fold of the cloth"),
    (LineKind.BALANCE, _LEVEL, "bust, waist, hip and other lines"),
    (LineKind.GATHER, "M0 4H35M0 8H35", "two rows of stitches: gather there"),
    (LineKind.GRAIN, "M0 6H35M5 3L0 6L5 9M30 3L35 6L30 9", "arrow: grain line"),
)
"""A kind of line, a sample of it as the data of a path, and what it means."""

_PRINTING: Final = (
    "Print the sheets at 100 % (“actual size”), never fitted to the page.",
    "A browser may shrink a sheet to the printer’s border without saying so. Measure the squares on the first sheet "
    "and on the last with a ruler: {squares}.",
    "If they are right, cut each sheet along its line marked “cut”, lay it to the same line of its neighbour so that "
    "the rounds with one number become whole, and measure the lengths drawn across the joins.",
    "If they are wrong, change the print settings and print again. Do not cut cloth from it.",
)


NO_CLOTHS: Final[Mapping[Material, Spread]] = MappingProxyType({})

_SQUARES: Final = ("one is 10 cm on each side", "one is 4 inches on each side")


def report_html(
    pattern: Pattern,
    results: Sequence[Result],
    *,
    ease: Sequence[Ease] = (),
    doubts: Sequence[Doubt] = (),
    drawn_out: Sequence[str] = (),
    stages: Sequence[Pattern] = (),
    order: Sequence[Passage] = (),
    dated: str = "",
    unit: str = "cm",
    paper: str = "",
    bought: Sequence[ToBuy] = (),
    cloths: Mapping[Material, Spread] = NO_CLOTHS,
    shrinkage: float = 0.0,
    knit: bool = False,
    cloth: Sequence[Passage] = (),
    files: Sequence[str] = (),
    before: Pattern | None = None,
    grows: Iterable[str] = (),
) -> str:
    """The report on a checked pattern as one HTML document: no scripts, nothing fetched, the same text every time.

    ease:   the ease at each place, with whose figure it is
    doubts: the measured lengths that look wrong
    drawn_out: a sentence where estimates reach beyond the bodies measured
    stages: the pattern as it was drafted and after each of its steps, to be drawn before under after
    order:  what is said of the order of the steps
    dated:  the date the person gave; "" for none
    unit:   the unit she works in ("cm", "in" or "mm")
    paper:  what the sheets are printed on, in words
    bought: what is to be bought
    cloths: how each material lies, to be laid with its pieces; shrinkage: that of the shell in the wash
    knit:   whether it is cut from a knit; cloth: what is said of the cloth
    files:  the names of the other files in the same folder, to be linked
    before: what was last drafted in that folder
    grows:  what is told of the growth of a child it is to fit, as lines of HTML
    """
    units = (unit,)
    lengths = pattern.wearer.lengths
    whose = ", ".join(part for part in (f"for {pattern.wearer.name}" if pattern.wearer.name else "", dated) if part)
    parts = [
        f"<h1>{escape(pattern.title)}</h1>",
        f'<p class="whose">{escape(whose)}</p>' if whose else "",
        _verdict(results, unit),
        *(table_html(changed) if (changed := since_last(before, pattern, unit)) else ()),
        *_first(look_first_passages(doubts, drawn_out)),
        *_first(caution_passage(pattern)),
        *_looks(pattern, stages),
        *_pieces(pattern, unit),
        *(line for passage in cloth for line in passage_html(passage)),
        *(table_html(buy_table(bought)) if bought else ()),
        *(cloth_html(pattern, cloths, shrinkage, unit) if cloths else ()),
        *sewing_html(pattern, unit, knit=knit),
        *table_html(finished_table(pattern, units)),
        *grows,
        *passage_html(gave_way_passage(pattern, unit)),
        *(line for passage in ease_notes(ease, unit) for line in passage_html(passage)),
        *(passage_html(Passage("Still to be finished", bare)) if (bare := still_to_finish(pattern)) else ()),
        *table_html(estimate_table(lengths, units)),
        *(_steps(before_after(stages, unit)) if len(stages) > 1 else passage_html(steps_passage(pattern, unit))),
        *(line for passage in order for line in passage_html(passage)),
        "<h2>Printing</h2>",
        f'<p class="soft">{escape(paper)}</p>' if paper else "",
        list_html((line.format(squares=_SQUARES[unit == "in"]) for line in _PRINTING), "ol"),
        *_files(files),
        *(table_html(ease_sources_table(ease, pattern, units)) if ease else ()),
        *table_html(measured_table(lengths, units, child=pattern.wearer.child is not None)),
        *table_html(seam_table(pattern, unit)),
        *table_html(notch_table(pattern, unit)),
        *(table_html(dart_table(pattern, unit)) if any(piece.darts for piece in pattern.pieces) else ()),
        *table_html(gather_table(pattern, unit)),
        "<h2>Every check</h2>",
        '<p class="soft">Everything that was looked at, what was found and what was wanted; what failed first.</p>',
        *(line for table in check_tables(results, unit) for line in table_html(table, level=3)),
    ]
    title = " ".join(part for part in (pattern.title, whose) if part)
    head = (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n<main>\n"
    )
    return head + "\n".join(part for part in parts if part) + "\n</main>\n</body>\n</html>\n"


def _files(names: Sequence[str]) -> Iterator[str]:
    """Links to the files beside the report, those of a kind in one point."""
    if names:
        yield "<h2>The files</h2>"
        points = []
        for words, begins in _FILES:
            found = [name for name in names if name.startswith(begins)]
            links = ", ".join(
                f'<a href="{quote(name)}">{escape(PurePosixPath(name).name.removesuffix(".svg"))}</a>' for name in found
            )
            points += [f"<li>{words}: {links}</li>"] if found else []
        yield f"<ul>{''.join(points)}</ul>"


_FILES: Final = (
    ("All pages in one file, for the printer at home", "print-at-home"),
    ("All in one file, for a copy shop", "copy-shop"),
    ("The same, each page a drawing", "sheets/"),
    ("Each piece whole", "pieces/"),
    ("For a cutter or another program", "pattern."),
)


def _verdict(results: Sequence[Result], unit: str) -> str:
    kind = VERDICT_CLASSES.get(worst(results), "")
    faults = list_html(fault_lines(results, unit))
    return f'<div class="verdict {kind}"><p><strong>{escape(counted(results))}</strong></p>{faults}</div>'


def _first(passages: Sequence[Passage]) -> Iterator[str]:
    """What is to be looked at first, beside the verdict."""
    for passage in passages:
        points = list_html(passage.sentences)
        yield f'<div class="verdict warn"><p><strong>{escape(passage.title)}</strong></p>{points}</div>'


def _looks(pattern: Pattern, stages: Sequence[Pattern]) -> Iterator[str]:
    """The garment from the front and from the back; with alterations, before them as well."""
    states = [("", pattern)]
    if len(stages) > 1:
        states = [("before the alterations", stages[0]), ("as it is now", pattern)]
    figures = []
    for words, state in states:
        for view in garment_views(state):
            title = ", ".join(part for part in (view.title, words) if part)
            caption = ", ".join(part for part in (view.side, words) if part)
            picture = picture_html(view.items, view.page, title)
            figures.append(f"<figure>{picture}<figcaption>{escape(caption)}</figcaption></figure>")
    if figures:
        yield "<h2>How it will look</h2>"
        yield f'<p class="soft">{_LOOKS}</p>'
        yield f'<div class="looks">{"".join(figures)}</div>'


_CLASS: Final = re.compile(r'class="([^"]+)"')

_LOOKS: Final = (
    "Drawn from the pieces themselves, darts closed and edges laid together as far as a flat drawing can: for the "
    "shape "
    "and the proportions, not for lengths."
)


def _pieces(pattern: Pattern, unit: str) -> Iterator[str]:
    """The pieces of the report as HTML: a picture of each with how it is cut, and the key of the lines."""
    yield "<h2>The pieces</h2>"
    yield '<p class="soft">Not to scale: to cut from, print the sheets. All pieces are shrunk alike.</p>'
    yield '<div class="pieces">'
    of_seams = sewn(pattern)
    classes = set[str]()
    for piece in pattern.pieces:
        picture = named_picture(piece_picture(piece, of_seams[piece.name]), piece.name)
        classes.update(_CLASS.findall(picture))
        wide = picture.partition('viewBox="0 0 ')[2].partition(" ")[0]
        yield (
            f'<figure style="--wide:{wide}">{picture.strip()}<figcaption><b>{escape(piece.name)}</b>'
            f"{escape(' '.join(cut_note(piece)))}<br>"
            f"{escape(_in_one_line(allowance_note(piece, unit)))}</figcaption></figure>"
        )
    yield "</div>"
    samples = (
        f'<li><svg viewBox="0 0 35 10" aria-hidden="true"><path class="{named}" d="{sample}"/></svg>{words}</li>'
        for kind, sample, words in _KEY
        if (named := kind.replace(" ", "-")) in classes
    )
    yield f'<figure><ul class="key small">{"".join(samples)}</ul></figure>'


def _in_one_line(notes: Sequence[str]) -> str:
    """The notes of a piece one after the other: "the cutting line includes 1.5 cm for seams, 4.0 cm for the hem"."""
    return " ".join(notes)


def _steps(steps: Sequence[BeforeAfter]) -> Iterator[str]:
    yield "<h2>Alterations made</h2>"
    yield (
        '<p class="soft">One after the other. The thin line is the sewing line before the step, the strong one the '
        "sewing line after it; a piece that is not drawn did not change.</p>"
    )
    for step in steps:
        yield f"<h3>{escape(step.title)}</h3>"
        yield '<div class="pieces small-ones">'
        for before, after in step.pieces:
            yield _overlay(before, after)
        yield "</div>"
        yield from table_html(step.table, level=4)


def _overlay(before: Piece | None, after: Piece | None) -> str:
    named = after or before
    name = named.name if named is not None else ""
    picture = named_picture(overlay_picture(before, after), f"{name}, before and after")
    fate = "new" if before is None else "no longer there" if after is None else ""
    wide = picture.partition('viewBox="0 0 ')[2].partition(" ")[0]
    caption = f"<figcaption><b>{escape(name)}</b>{fate}</figcaption>"
    return f'<figure style="--wide:{wide}">{picture.strip()}{caption}</figure>'
