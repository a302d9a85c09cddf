"""The parts of the page that the sheet is made of: pure functions, so that no browser is needed."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from output.api import StepRefused, draft, read_garment
from output.api.order_options import PARTS, blocks_for
from output.page.editing import edited_text
from output.page.edits import read_edits
from output.page.views import VIEWS
from output.page.views.block_picture import NOTHING, picture
from output.page.views.changed import changed, more, order
from output.page.views.cloth import cloth
from output.page.views.head import head
from output.page.views.paper import paper
from output.page.views.refused import refused_step
from output.page.views.together import together
from output.page.views.what import what
from output.page.views.who import who
from tests.output.page.shown_garments import DRESS, EXAMPLES, PERSON, example, plain, shown_file, shown_text
from tests.sampling import some

NAMES = sorted(path.stem for path in (EXAMPLES / "garments").glob("*.toml"))


def by_key(rows: list[dict[str, Any]], key: str, name: str = "key") -> dict[str, Any]:
    return next(each for each in rows if each[name] == key)


@pytest.mark.parametrize("view", [head, who, what, cloth, changed, order, together, paper])
@pytest.mark.parametrize("name", ["lantern-dress", "tollhouse-dress", "towpath-skirt"])
def test_every_part_is_plain_data_that_a_browser_can_read(view: Any, name: str) -> None:
    data = view(example(name))
    assert plain(data)
    assert json.loads(json.dumps(data, allow_nan=False)) == json.loads(json.dumps(data))


def test_her_own_writing_stands_in_the_fields_as_she_wrote_it(tmp_path: Path) -> None:
    shown = shown_text(tmp_path, DRESS + '[[step]]\nalter = "lengthen"\npiece = "sleeve"\nby = "1 1/2 in"\n')
    rows = who(shown)["rows"]
    waist, neck = by_key(rows, "waist_girth"), by_key(rows, "neck_base_girth")
    assert (waist["text"], waist["hers"], waist["other"]) == ("29 1/2 in", True, "74.9 cm")
    assert (neck["hers"], neck["from"]) == (False, "estimated")
    assert neck["off"].endswith(" cm")
    by = by_key(changed(shown)["cards"][0]["fields"], "by")
    assert (by["text"], by["value"], by["other"]) == ("1 1/2 in", pytest.approx(38.1), "3.8 cm")


def test_a_slip_of_the_tape_is_told_with_the_likely_length_as_a_button(tmp_path: Path) -> None:
    row = by_key(who(shown_text(tmp_path, DRESS, f"{PERSON}wrist = 24\n"))["rows"], "wrist_girth")
    assert "24.0 cm was measured" in row["doubt"]["sentence"]
    edit = row["doubt"]["offers"][0]["edits"][0]
    assert (edit["in"], edit["do"], edit["at"]) == ("person", "set", ["measurements", "wrist"])
    assert edit["value"].endswith(" cm")


def test_the_chest_of_a_child_is_told_as_a_chest(tmp_path: Path) -> None:
    top = 'title = "Jetty top"\nwearer = "person.toml"\n[[block]]\nname = "child\'s bodice"\n[paper]\nsize = "A4"\n'
    boy = 'name = "Jens"\nbody = "boy"\nunit = "cm"\n[measurements]\nheight = 110\nchest = 57\nwaist = 54\nhip = 59\n'
    row = by_key(who(shown_text(tmp_path, top, boy))["rows"], "bust_girth")
    assert row["name"] == "chest"
    assert "bust" not in row["how"]


def test_two_lengths_in_each_others_place_are_exchanged_by_a_button(tmp_path: Path) -> None:
    person = f"{PERSON}back_waist_length = 40.4\nneck = 35.1\nshoulder = 18.7\nbetween_bust_points = 14.6\n"
    skirt = DRESS[: DRESS.index("[[block]]")] + '[[block]]\nname = "skirt"\n'
    rows = who(shown_text(tmp_path, skirt, person))["rows"]
    (doubt,) = [row["doubt"] for row in rows if row["doubt"]]
    edits = doubt["offers"][0]["edits"]
    assert {each["at"][1]: each["value"] for each in edits} == {"shoulder": 14.6, "between_bust_points": 18.7}


def test_a_card_says_what_moved_and_what_did_not() -> None:
    card = changed(example("lantern-dress"))["cards"][0]
    assert (card["alter"], card["piece"], card["turn"]) == ("lengthen", "sleeve", 1)
    wrist = by_key(card["moved"], "shoulder to wrist", "name")
    assert (wrist["before"], wrist["after"], wrist["by"], wrist["way"]) == ("58.0 cm", "62.0 cm", "4.0 cm", "more")
    assert "dart intakes" in card["untouched"]


def test_a_word_that_turns_the_number_keeps_it_above_zero(tmp_path: Path) -> None:
    shown = shown_text(tmp_path, DRESS + '[[step]]\nalter = "crop"\npiece = "sleeve"\nby = "3 cm"\n')
    card = changed(shown)["cards"][0]
    by = by_key(card["fields"], "by")
    assert (card["title"], card["alter"]) == ("Crop", "lengthen")
    assert (by["value"], by["low"], by["scale"]["low"]) == (30.0, 0.0, 0.0)
    assert by_key(card["moved"], "shoulder to wrist", "name")["way"] == "less"


def test_a_word_that_says_an_option_leaves_it_out_of_the_fields() -> None:
    keys = [each["key"] for each in changed(example("signal-dress"))["cards"][0]["fields"]]
    assert "depth" in keys
    assert "shape" not in keys


def test_what_a_step_may_name_is_offered_by_name() -> None:
    piece = by_key(changed(example("lantern-dress"))["cards"][0]["fields"], "piece")
    assert piece["choices"] == ["bodice front", "bodice back", "sleeve", "skirt front", "skirt back"]
    waistband = by_key(by_key(more(example("towpath-skirt"))["more"], "lengthen", "alter")["fields"], "piece")
    assert waistband["choices"] == ["skirt front", "skirt back"]  # the band is drawn to these


@pytest.mark.parametrize("name", some(NAMES, every=3))
def test_every_slider_holds_its_value_within_what_may_be_asked_for(name: str) -> None:
    shown = example(name)
    fields = [field for card in changed(shown)["cards"] for field in card["fields"]] + cloth(shown)["ease"]
    for field in fields:
        scale = field["scale"]
        if scale is None:
            continue
        assert field["low"] <= scale["low"] < scale["high"] <= field["high"]
        if field["value"] is not None:
            assert scale["low"] <= field["value"] <= scale["high"]


def test_everything_there_is_can_be_found_by_other_words() -> None:
    found = more(example("ferry-dress"))["more"]
    legs = ["crotch length", "seat", "full thigh", "crotch curve", "leg line"]
    not_here = [each["alter"] for each in found if each["not_here"]]
    assert not_here == ["blend", *legs]  # no chart to take another size from, and no trousers
    assert [each["alter"] for each in more(example("tollhouse-dress"))["more"] if each["not_here"]] == legs
    instead = [each["instead"] for each in found if each["alter"] == "blend"]
    assert [each["not_here"] for each in found if [each["alter"]] == instead] == [""]  # a button leads to it
    assert all(each["instead"] in ("", *(other["alter"] for other in found)) for each in found)
    crop = by_key(by_key(found, "lengthen", "alter")["words"], "crop", "word")
    assert crop == {"word": "crop", "turned": ["by"], "told": {}, "by": ""}
    assert by_key(by_key(found, "neckline", "alter")["words"], "V neck", "word")["told"] == {"shape": "V"}


def test_a_card_whose_order_matters_says_what_would_differ() -> None:
    between = order(example("lantern-dress"))["between"]
    assert [(each["first"], each["second"], each["matters"]) for each in between] == [(0, 1, True), (1, 2, False)]
    assert "instead of" in between[0]["sentence"]


REFUSED = DRESS + '[[step]]\nalter = "{}"\npiece = "sleeve"\nby = "{}"\n'


@pytest.mark.parametrize(
    ("word", "by", "unit"), [("lengthen", "-52 cm", "cm"), ("crop", "52 cm", "cm"), ("crop", "20 in", "in")]
)
def test_the_button_of_a_refused_step_gives_what_can_be_had(tmp_path: Path, word: str, by: str, unit: str) -> None:
    text = REFUSED.format(word, by).replace("wearer", f'unit = "{unit}"\nwearer', 1)
    shown_text(tmp_path, DRESS)
    path = tmp_path / "garment.toml"
    path.write_text(text, encoding="utf-8")
    garment = read_garment(path)
    with pytest.raises(StepRefused) as refused:
        draft(garment)
    told = refused_step(refused.value, garment, {"unit": unit, "step": [{"alter": word, "piece": "sleeve", "by": by}]})
    (offer,) = told["offers"]
    (edit,) = offer["edits"]
    assert told["at"] == ["step", 0]
    assert edit["at"] == ["step", 0, "by"]
    assert edit["value"].startswith("-") == (word == "lengthen")
    path.write_text(text.replace(f'"{by}"', f'"{edit["value"]}"'), encoding="utf-8")
    assert changed(shown_file(path))["cards"][0]["moved"]


def test_a_failed_check_is_mended_by_its_button(tmp_path: Path) -> None:
    text = DRESS + '[[step]]\nalter = "take in"\nwaist = "8 cm"\n'
    shown = shown_text(tmp_path, text)
    assert head(shown)["state"] == "failed"
    assert not any("alter =" in fault["sentence"] for fault in together(shown)["faults"])
    edits = [offer["edits"] for fault in together(shown)["faults"] for offer in fault["offers"]]
    (edit,) = edits[0]
    if edit["do"] == "insert":
        added = "".join(f'{key} = "{value}"\n' for key, value in edit["value"].items())
        mended = f"{text}[[step]]\n{added}"
    else:
        mended = text.replace('"8 cm"', f'"{edit["value"]}"')
    (tmp_path / "garment.toml").write_text(mended, encoding="utf-8")
    assert head(shown_file(tmp_path / "garment.toml"))["state"] != "failed"


def test_finished_measurements_tell_what_the_last_change_did(tmp_path: Path) -> None:
    before = shown_text(tmp_path, DRESS)
    path = tmp_path / "garment.toml"
    path.write_text(DRESS + '[[step]]\nalter = "lengthen"\npiece = "sleeve"\nby = "3 cm"\n', encoding="utf-8")
    rows = together(shown_file(path, before))["finished"]
    assert by_key(rows, "shoulder to wrist", "name")["by"] == "3.0 cm"
    assert by_key(rows, "hip", "name")["before"] == ""


def test_lengths_can_be_shown_in_the_other_unit_where_no_number_would_change_its_meaning(tmp_path: Path) -> None:
    units = head(shown_text(tmp_path, DRESS))["units"]
    assert units["in"] == [{"in": "garment", "do": "set", "at": ["unit"], "value": "in"}]
    assert units["cm"] == []
    stated = DRESS.replace("wearer", 'unit = "in"\nwearer', 1)
    assert head(shown_text(tmp_path, stated))["units"]["cm"] == [{"in": "garment", "do": "remove", "at": ["unit"]}]
    assert head(shown_text(tmp_path, stated.replace('"58 cm"', "23")))["units"]["cm"] is None


def test_the_ease_says_where_it_is_written_and_what_it_measures() -> None:
    rows = cloth(example("ferry-dress"))["ease"]
    bust, cap = by_key(rows, "bust"), by_key(rows, "cap_ease")
    assert (bust["at"], bust["given"], bust["text"]) == (["block", 0, "ease", "bust"], True, "6 cm")
    assert bust["finished"] == "104.5 cm"
    assert (cap["at"], cap["given"]) == (["block", 1, "cap_ease"], True)
    assert by_key(rows, "hip")["given"] is False


def test_blocks_and_parts_say_where_they_stand_and_are_drawn_by_the_engine() -> None:
    data = what(example("towpath-skirt"))
    assert [(each["name"], each["at"]) for each in data["blocks"] if each["there"]] == [("skirt", ["block", 0])]
    band = by_key(data["parts"], "waistband", "name")
    assert by_key(band["fields"], "height")["text"] == "3.5 cm"


@pytest.mark.parametrize("fastening", ["", "side", "fly"])
def test_a_fly_is_put_in_and_taken_out_where_the_trousers_say_how_they_open(fastening: str, tmp_path: Path) -> None:
    text = 'title = "T"\nwearer = "person.toml"\n[[block]]\nname = "trousers"\n'
    written = text + (f'fastening = "{fastening}"\n' if fastening else "")
    fly = by_key(what(shown_text(tmp_path, written))["parts"], "fly", "name")
    is_in = fastening == "fly"
    assert fly["there"] is is_in
    done = edited_text(written, read_edits(fly["take_out" if is_in else "put_in"]))
    assert done == (text if is_in else text + 'fastening = "fly"\n')
    assert by_key(what(shown_text(tmp_path, done))["parts"], "fly", "name")["there"] is not is_in


@pytest.mark.parametrize(
    ("body", "not_for_it"),
    [("woman", {"bib binding", "leg elastic"}), ("girl", {"fly", "front band", "hem band", "neck elastic"})],
)
def test_every_block_and_part_is_drawn_by_the_engine_whatever_garment_is_open(body: str, not_for_it: set[str]) -> None:
    """What cannot be drawn on any plain garment for this kind of body has no picture, and the page no card for it."""
    names = [each.name for each in (*blocks_for(body), *PARTS)]
    assert {name for name in names if picture(name, body) == NOTHING} == not_for_it
    assert picture("no such block", "woman") == NOTHING


def test_a_band_is_drawn_as_the_edge_it_lies_along() -> None:
    """A strip alone is a box that tells nothing."""
    kinds = [path["kind"] for path in picture("wrist band", "woman")["paths"]]
    assert kinds == ["fine", "strong"]


def test_the_paper_names_what_it_may_be_printed_on() -> None:
    data = paper(example("ferry-dress"))
    assert by_key(data["fields"], "size")["choices"][:2] == ["A4", "Letter"]
    assert data["failed"] is False


def test_every_part_of_the_sheet_is_listed() -> None:
    assert {"head", "who", "what", "cloth", "changed", "together", "paper"} <= set(VIEWS)


def test_what_to_beware_of_for_a_child_stands_beside_the_checks() -> None:
    told = together(example("lockside-top"))["child"]
    assert any("cords" in each for each in told)
    assert together(example("ferry-dress"))["child"] == []
