"""Who it is for: her lengths, what had to be guessed and how surely, what looks like a slip of the tape."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from output.api.body import BodyRow, body_lengths, length_name, written_lengths
from output.api.order_options import sizes_had, sizes_to_choose
from output.api.several_sizes import MOST_SIZES
from output.api.showing import measurement_for
from output.api.size_lines import nearest_sizes
from output.api.wording import length_text
from output.page.views.data import Data, bare_unit, both_units
from output.page.views.fields import asked_text, typed_text
from output.page.views.shown import Shown

__all__ = ["who"]


def who(shown: Shown) -> Data:
    """Her lengths.

    name, body, measured, born, unit: as her file says, "" for what it does not; bare: the unit of its plain numbers
    chart:  the sizes of the chart it is made to, where nobody was measured; "" elsewhere
    sizes:  which size it is where, each with its place in the file and what there is to choose from
    charts: {words, edits}: what makes it in the nearest size of a chart; none where it is so made
    nest:   the sizes that are drawn over each other; choices: all there are; most: so many at once
    anew:   {words, edits}: what stands is kept as measured earlier, so that she can be measured again today; None where
            the file does not say when that was, or it was today
    child:  whether it is a child, of whom it is told how she grows; grow: the day until which it is to fit, "" for none
    taken, guessed: how many of the lengths the garment is drawn from were measured, and how many not
    rows:   each length that there is:
        key, word, name: as the engine, her file and a reader call it; how, again: how it is taken
        text: as she typed it, or what was worked out; hers: whether she typed it; mm, other: the same in mm, and in the
              other unit
        from: "measured", "estimated", "chart", "worked out" of others that were measured, or "" where it is not known
        off:  how far off a guess may be; needed, basic: whether the garment is drawn from it, whether it must be there
        doubt: None, or {sentence, offers}: why it looks like a slip of the tape, and buttons that mend it
    out:    what is drawn out beyond the bodies that were measured, in sentences
    """
    drafted = shown.draft
    wearer = drafted.garment.wearer
    lengths = shown.person.get("measurements")
    typed: Mapping[str, Any] = lengths if isinstance(lengths, Mapping) and not drafted.garment.sizes else {}
    words = written_lengths(typed, wearer.body)
    rows = body_lengths(drafted)
    nest = list(shown.garment.sizes.nest) if shown.garment.sizes else []
    needed = [row for row in rows if row.needed]
    return {
        "name": wearer.name,
        "body": wearer.body,
        "unit": shown.unit,
        "bare": bare_unit(shown.person) or "cm",
        "measured": wearer.measured.isoformat() if wearer.measured else "",
        "born": wearer.born.isoformat() if wearer.born else "",
        "anew": _measured_anew(shown, wearer.measured),
        "child": wearer.body != "woman" and drafted.garment.sizes is None,
        "grow": drafted.garment.grow_until.isoformat() if drafted.garment.grow_until else "",
        "chart": drafted.garment.sizes.name if drafted.garment.sizes else "",
        "sizes": [
            {
                "name": name,
                "at": ["sizes", word],
                "value": None if nest else size,
                "choices": list(sizes_to_choose(drafted)),
            }
            for name, word, size in sizes_had(drafted)
        ],
        "charts": [] if drafted.garment.sizes else _charts(shown, {row.about.key: row.mm for row in rows if row.mm}),
        "nest": nest,
        "choices": list(sizes_to_choose(drafted)),
        "most": MOST_SIZES,
        "taken": sum(row.source != "estimated" for row in needed),
        "guessed": sum(row.source == "estimated" for row in needed),
        "rows": [_row(row, words.get(row.about.key), typed, shown) for row in rows],
        "out": list(drafted.drawn_out),
    }


def _charts(shown: Shown, mm: Mapping[str, float]) -> list[Data]:
    leave = [{"in": "garment", "do": "remove", "at": [key]} for key in ("wearer",) if key in shown.tables]
    return [
        {
            "words": f"size {' '.join(str(each) for key, each in said.items() if key != 'chart')} for {said['chart']}",
            "edits": [
                *leave,
                *({"in": "garment", "do": "set", "at": ["sizes", key], "value": value} for key, value in said.items()),
            ],
        }
        for said in nearest_sizes(shown.garment.wearer.body, mm)
    ]


def _row(row: BodyRow, word: str | None, typed: Mapping[str, Any], shown: Shown) -> Data:
    """The row of one measurement as data: what was measured or estimated, how far off it may be, and a doubt."""
    about = row.about
    text, other = both_units(row.mm, shown.unit, typed.get(word or ""))
    source = row.source if word or row.source != "measured" or not shown.person else "worked out"
    return {
        "key": about.key,
        "word": word or about.word,
        "name": length_name(about, shown.garment.wearer.body),
        "how": measurement_for(about.key, shown.garment.wearer.body).how,
        "again": about.again,
        "hers": word is not None,
        "text": typed_text(typed[word]) if word else text,
        "asked": asked_text(shown, "person", "measurements", word or about.word),
        "mm": row.mm,
        "other": other,
        "from": source,
        "off": length_text(row.sd, shown.unit) if row.sd is not None else "",
        "needed": row.needed,
        "basic": row.basic,
        "doubt": _doubt(row, word, shown),
    }


def _doubt(row: BodyRow, word: str | None, shown: Shown) -> Data | None:
    doubt = row.doubt
    if doubt is None or word is None:
        return None
    if doubt.swapped_with:
        return {"sentence": doubt.sentence, "offers": _exchange(word, doubt.swapped_with, shown)}
    likely = length_text(doubt.expected_mm, shown.unit)
    edits = [{"in": "person", "do": "set", "at": ["measurements", word], "value": likely}]
    return {"sentence": doubt.sentence, "offers": [{"words": f"It should be about {likely}", "edits": edits}]}


def _measured_anew(shown: Shown, measured: date | None) -> Data | None:
    lengths, earlier = shown.person.get("measurements"), shown.person.get("earlier", [])
    today = date.today()
    if measured is None or measured >= today or not isinstance(lengths, Mapping) or not isinstance(earlier, list):
        return None
    kept = {"measured": measured.isoformat(), **lengths}
    edits = [
        {"in": "person", "do": "insert", "at": ["earlier", len(earlier)], "value": kept},
        {"in": "person", "do": "set", "at": ["measured"], "value": today.isoformat()},
    ]
    return {"words": "Measure anew today, and keep these as earlier ones", "edits": edits}


def _exchange(word: str, other: str, shown: Shown) -> list[Data]:
    """A button that puts each of two lengths in the other's place."""
    typed: Mapping[str, Any] = shown.person["measurements"]
    theirs = written_lengths(typed, shown.garment.wearer.body).get(other)
    if theirs is None:
        return []
    edits = [
        {"in": "person", "do": "set", "at": ["measurements", word], "value": typed[theirs]},
        {"in": "person", "do": "set", "at": ["measurements", theirs], "value": typed[word]},
    ]
    return [{"words": "Exchange the two", "edits": edits}]
