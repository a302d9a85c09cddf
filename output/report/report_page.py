"""The report: one page of HTML that holds everything there is to know before cutting, and needs nothing but itself."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from html import escape
from typing import Final

from drafting.body.plausible import Doubt
from drafting.checks import Result, Verdict, worst
from drafting.fit.ease import Ease
from drafting.pattern import Pattern, Piece
from drafting.pattern.seam_ends import sewn
from output.drawings.drawing import LineKind
from output.drawings.piece_notes import allowance_note, cut_note, still_to_finish
from output.drawings.svg import overlay_picture, piece_picture
from output.report.before_after import BeforeAfter, before_after
from output.report.dart_table import dart_table
from output.report.notch_table import notch_table
from output.report.page_style import STYLE
from output.report.tables import (
    Column,
    Passage,
    Table,
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

_CLASSES: Final = {Verdict.WARN: "warn", Verdict.FAIL: "fail", Verdict.ERROR: "fail", Verdict.NOTHING: "warn"}

_KEY: Final = (
    (LineKind.CUTTING, "cutting line"),
    (LineKind.SEWING, "sewing line"),
    (LineKind.FOLD, "fold of the cloth"),
    (LineKind.BALANCE, "bust, waist, hip and other lines"),
    (LineKind.GATHER, "two rows of stitches: gather there"),
    (LineKind.GRAIN, "grain line"),
)

_PRINTING: Final = (
    "Print the sheets at 100 % (“actual size”), never fitted to the page.",
    "A browser may shrink a sheet to the printer’s border without saying so. Measure the squares on the first sheet "
    "and on the last with a ruler: {squares}.",
    "If they are right, cut each sheet along its line marked “cut”, lay it to the same line of its neighbour so that "
    "the rounds with one number become whole, and measure the lengths drawn across the joins.",
    "If they are wrong, change the print settings and print again. Do not cut cloth from it.",
)


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
) -> str:
    """The report on a checked pattern as one HTML document: no scripts, nothing fetched, the same text every time.

    ease:   the ease at each place, with whose figure it is
    doubts: the measured lengths that look wrong
    drawn_out: a sentence where estimates reach beyond the bodies measured
    stages: the pattern as it was drafted and after each of its steps, to be drawn before under after
    order:  what is told of the order of the steps
    dated:  the date the person gave; "" for none
    unit:   the unit she works in ("cm", "in" or "mm")
    paper:  what the sheets are printed on, in words
    """
    units = (unit,)
    lengths = pattern.wearer.lengths
    whose = ", ".join(part for part in (f"for {pattern.wearer.name}" if pattern.wearer.name else "", dated) if part)
    parts = [
        f"<h1>{escape(pattern.title)}</h1>",
        f'<p class="whose">{escape(whose)}</p>' if whose else "",
        _verdict(results, unit),
        *_first(look_first_passages(doubts, drawn_out)),
        *_pieces(pattern, unit),
        *_table(finished_table(pattern, units)),
        *_passage(gave_way_passage(pattern, unit)),
        *(line for passage in ease_notes(ease, unit) for line in _passage(passage)),
        *(_passage(Passage("Still to be finished", bare)) if (bare := still_to_finish(pattern)) else ()),
        *_table(estimate_table(lengths, units)),
        *(_steps(before_after(stages, unit)) if len(stages) > 1 else _passage(steps_passage(pattern, unit))),
        *(line for passage in order for line in _passage(passage)),
        "<h2>Printing</h2>",
        f'<p class="soft">{escape(paper)}</p>' if paper else "",
        _list((line.format(squares=_SQUARES[unit == "in"]) for line in _PRINTING), "ol"),
        *(_table(ease_sources_table(ease, pattern, units)) if ease else ()),
        *_table(measured_table(lengths, units)),
        *_table(seam_table(pattern, unit)),
        *_table(notch_table(pattern, unit)),
        *(_table(dart_table(pattern, unit)) if any(piece.darts for piece in pattern.pieces) else ()),
        *_table(gather_table(pattern, unit)),
        "<h2>Every check</h2>",
        '<p class="soft">Everything that was looked at, what was found and what was wanted; what failed first.</p>',
        *(line for table in check_tables(results, unit) for line in _table(table, level=3)),
    ]
    title = " ".join(part for part in (pattern.title, whose) if part)
    head = (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n<main>\n"
    )
    return head + "\n".join(part for part in parts if part) + "\n</main>\n</body>\n</html>\n"


def _verdict(results: Sequence[Result], unit: str) -> str:
    kind = _CLASSES.get(worst(results), "")
    faults = _list(fault_lines(results, unit))
    return f'<div class="verdict {kind}"><p><strong>{escape(counted(results))}</strong></p>{faults}</div>'


def _first(passages: Sequence[Passage]) -> Iterator[str]:
    """What is to be looked at first, beside the verdict."""
    for passage in passages:
        yield (
            f'<div class="verdict warn"><p><strong>{escape(passage.title)}</strong></p>{_list(passage.sentences)}</div>'
        )


def _pieces(pattern: Pattern, unit: str) -> Iterator[str]:
    yield "<h2>The pieces</h2>"
    yield '<p class="soft">Not to scale: to cut from, print the sheets. All pieces are shrunk alike.</p>'
    yield '<div class="pieces">'
    of_seams = sewn(pattern)
    for piece in pattern.pieces:
        picture = piece_picture(piece, of_seams[piece.name])
        wide = picture.partition('viewBox="0 0 ')[2].partition(" ")[0]
        yield (
            f'<figure style="--wide:{wide}">{picture.strip()}<figcaption><b>{escape(piece.name)}</b>'
            f"{escape(cut_note(piece.cut))}<br>{escape(' '.join(allowance_note(piece, unit)))}</figcaption></figure>"
        )
    yield "</div>"
    samples = (
        f'<li><svg viewBox="0 0 35 10" aria-hidden="true"><path class="{kind.replace(" ", "-")}" d="M0 8H35"/></svg>'
        f"{words}</li>"
        for kind, words in _KEY
    )
    yield f'<figure><ul class="key small">{"".join(samples)}</ul></figure>'


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
        yield from _table(step.table, level=4)


def _overlay(before: Piece | None, after: Piece | None) -> str:
    picture = overlay_picture(before, after)
    named = after or before
    name = named.name if named is not None else ""
    fate = "new" if before is None else "no longer there" if after is None else ""
    wide = picture.partition('viewBox="0 0 ')[2].partition(" ")[0]
    caption = f"<figcaption><b>{escape(name)}</b>{fate}</figcaption>"
    return f'<figure style="--wide:{wide}">{picture.strip()}{caption}</figure>'


def _table(table: Table, *, level: int = 2) -> Iterator[str]:
    yield f"<h{level}>{escape(table.title)}</h{level}>"
    if table.above:
        yield f'<p class="soft">{escape(table.above)}</p>'
    if table.rows:
        numbers = all(column.numbers for column in table.columns[1:])
        yield f'<div class="wide"><table class="{"numbers" if numbers else "prose"}">'
        if any(column.name for column in table.columns):
            cells = "".join(f"<th{_class(column)}>{escape(column.name)}</th>" for column in table.columns)
            yield f"<thead><tr>{cells}</tr></thead>"
        yield "<tbody>"
        for row in table.rows:
            cells = "".join(
                f"<td{_class(column)}{_label(column)}>{_cell(cell)}</td>"
                for column, cell in zip(table.columns, row.cells, strict=True)
            )
            kind = _CLASSES.get(row.verdict or Verdict.PASS)
            yield f'<tr class="{kind}">{cells}</tr>' if kind else f"<tr>{cells}</tr>"
        yield "</tbody></table></div>"
    for sentence in table.below:
        yield f'<p class="small">{escape(sentence)}</p>'


def _passage(passage: Passage) -> Iterator[str]:
    yield f"<h2>{escape(passage.title)}</h2>"
    if len(passage.sentences) == 1:
        yield f"<p>{escape(passage.sentences[0])}</p>"
    else:
        yield _list(passage.sentences)


def _list(sentences: Iterable[str], kind: str = "ul") -> str:
    items = "".join(f"<li>{escape(sentence)}</li>" for sentence in sentences)
    return f"<{kind}>{items}</{kind}>" if items else ""


def _cell(cell: str) -> str:
    """The first line of a cell, the others small below it."""
    first, *rest = cell.split("\n")
    return escape(first) + "".join(f"<small>{escape(line)}</small>" for line in rest)


def _class(column: Column) -> str:
    return ' class="number"' if column.numbers else ""


def _label(column: Column) -> str:
    """What a number is, kept on it for small screens, where the head of the table is left out."""
    return f' data-is="{escape(column.name)}"' if column.numbers and column.name else ""
