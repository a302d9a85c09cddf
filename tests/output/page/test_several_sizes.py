"""A garment in several sizes of a chart: each drawn, each judged, and a change done to all of them."""

from __future__ import annotations

import json
from pathlib import Path

from output.drawings.drawing import LINE_STYLES, SIZE_LINES
from output.page.desk import Desk
from output.page.edits import read_edits
from output.page.folder import Folder
from tests.output.page.running_page import copy_of_examples, set_to


def test_several_sizes_are_drawn_over_each_other(tmp_path: Path) -> None:
    desk = Desk(Folder.at(copy_of_examples(tmp_path)))
    dress = "garments/tollhouse-dress.toml"
    told = json.loads(desk.look(dress, {}))["parts"]
    assert told["sizes"] == {"drawn": "", "sizes": [], "outlines": {}, "finished": [], "refused": []}
    edits = [{"in": "garment", "do": "remove", "at": each["at"]} for each in told["who"]["sizes"] if each["value"]]
    edits.append(set_to(["sizes", "nest"], [84, 88, 92]))
    state = json.loads(desk.change(dress, "", read_edits(edits), "sizes", "", {}))
    nest, pieces = state["parts"]["sizes"], state["parts"]
    assert state["problems"] == []
    assert (nest["drawn"], [each["size"] for each in nest["sizes"]]) == ("88", ["84", "88", "92"])
    dashes = [tuple(each["dash"]) for each in nest["sizes"]]
    assert dashes == [LINE_STYLES[kind].dash for kind in SIZE_LINES[: len(dashes)]]  # as in print
    assert len({*dashes}) == len(dashes)
    assert {each["state"] for each in nest["sizes"]} == {"calm"}
    front = nest["outlines"]["bodice front"]
    assert list(front) == ["84", "92"]
    assert len({*front.values(), pieces["piece bodice front"]["outline"]}) == 3
    bust = next(each for each in nest["finished"] if each["name"] == "bust")
    assert (
        bust["by_size"][1]
        == next(each for each in pieces["together"]["finished"] if each["name"] == "bust")["finished"]
    )
    wider = [float(text.split()[0]) for text in bust["by_size"]]
    assert wider == sorted(set(wider))
    step = {"alter": "lengthen", "piece": "skirt", "by": "3 cm"}
    longer = [{"in": "garment", "do": "insert", "at": ["step", 0], "value": step}]
    after = json.loads(desk.change(dress, state["version"], read_edits(longer), "longer", "", {}))["parts"]["sizes"]
    assert after["outlines"]["skirt front"]["92"] != nest["outlines"]["skirt front"]["92"]
    assert after["outlines"]["bodice front"] == front
    desk.close()
