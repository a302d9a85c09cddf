"""`trueseam measure --ask`: what is typed is written at once, judged, kept; earlier days stay in the file."""

from __future__ import annotations

import datetime
import os
import re
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from drafting.body.earlier import Earlier
from drafting.body.person import read_person
from drafting.errors import InputProblems
from drafting.reading.units import parse_length
from output.api.beginning import length_as_written
from output.api.measuring import looks_wrong, measuring_order
from output.command import ask, main
from output.command.ask import ask_measurements
from tests.output.command.test_command_new_asked import heard, press
from tests.sweep_children import children

TODAY = datetime.date(2026, 11, 28)
PIM = """# Pim, who grows
name = "Pim"   # our youngest
body = "girl"
unit = "cm"
measured = 2026-03-01

[measurements]
# against the door
height = 108
chest = "22 in"
waist = 53
hips = 59
"""

Ask = Callable[..., tuple[str, list[str]]]


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Ask:
    """Run it with these answers: all that was said, and the file at each question and at the end."""
    path = tmp_path / "pim.toml"

    def run(*answers: str | type[BaseException], text: str | None = PIM, **options: object) -> tuple[str, list[str]]:
        if text is not None:
            path.write_text(text, encoding="utf-8")
        files: list[str] = []
        left: Iterator[str | type[BaseException]] = iter(answers)

        def typed(question: str) -> str:
            print(question)
            files.append(path.read_text(encoding="utf-8") if path.exists() else "")
            answer = next(left, EOFError)
            if isinstance(answer, str):
                return answer
            raise answer

        monkeypatch.setattr("builtins.input", typed)
        monkeypatch.setattr(ask, "at_a_terminal", lambda: True)
        given = {"garment": None, "every": False, "quiet": False, "today": TODAY, **options}
        answer = ask_measurements(path, **given)  # type: ignore[arg-type]
        files.append(path.read_text(encoding="utf-8") if path.exists() else "")
        told = " ".join(sentence for each in answer.said for sentence in getattr(each, "sentences", ()))
        return f"{' '.join(capsys.readouterr().out.split())} {told} status {answer.status}", files

    return run


def test_each_length_is_in_the_file_before_the_next_is_asked_for_and_comments_stay(asked: Ask, tmp_path: Path) -> None:
    said, files = asked("112", "54", "stop")
    assert "1 of " in said
    assert "In the file: 108" in said
    # what stood there is kept below its day, the file has a new one, and every comment is where it was
    assert files[1] == PIM.replace("2026-03-01", "2026-11-28").replace("height = 108", "height = 112") + (
        "\n[[earlier]]\nmeasured = 2026-03-01\nheight = 108\n"
    )
    assert "waist = 54" in files[2]
    pim = read_person(tmp_path / "pim.toml")
    assert pim.earlier == (Earlier(datetime.date(2026, 3, 1), (("stature", 1080.0), ("waist_girth", 530.0))),)
    assert pim.over_time("stature") == ((datetime.date(2026, 3, 1), 1080.0), (TODAY, 1120.0))
    assert said.endswith("status 0")


def test_a_length_taken_twice_in_one_sitting_replaces_itself_not_the_old_one(asked: Ask, tmp_path: Path) -> None:
    asked("112", "back", "113", "stop")
    pim = read_person(tmp_path / "pim.toml")
    assert pim.over_time("stature") == ((datetime.date(2026, 3, 1), 1080.0), (TODAY, 1130.0))


def test_a_height_that_fell_is_told_at_once_and_may_be_taken_again(asked: Ask, tmp_path: Path) -> None:
    said, _ = asked("102", "again", "112", "stop")
    assert "! height: 108.0 cm on 2026-03-01, then 102.0 cm on 2026-11-28: a child does not get smaller" in said
    assert dict(read_person(tmp_path / "pim.toml").measurements)["stature"] == 1120.0
    said, _ = asked("102", "", "", "stop")
    assert dict(read_person(tmp_path / "pim.toml").measurements)["stature"] == 1020.0


def test_a_file_that_is_not_there_is_begun_and_gone_on_with_where_it_was_left(asked: Ask, tmp_path: Path) -> None:
    said, files = asked("Wren", "inches", "my daughter", "2020-05-01", "44 1/2", "skip", KeyboardInterrupt, text=None)
    assert said.endswith("status 130")
    assert files[-1] == (
        'name = "Wren"\nbody = "girl"\nunit = "in"\nborn = 2020-05-01\nmeasured = 2026-11-28\n\n'
        '[measurements]\nheight = "44 1/2"\n'
    )
    said, _ = asked("21", "", EOFError, text=None)
    assert "waist, in inches? (Enter skips it)" in said  # the first that is missing
    assert (tmp_path / "pim.toml").read_text(encoding="utf-8").endswith('height = "44 1/2"\nwaist = 21\n')


def test_what_cannot_be_is_asked_for_again_and_nothing_of_it_is_written(asked: Ask) -> None:
    said, files = asked("tall", "44 1/8", "4 m", "112", "stop")
    assert 'read "tall", expected a length' in said
    assert "That would be 44.1 cm, expected is a length from" in said
    assert "If 44 1/8 in was meant, type that." in said
    assert files[3] == PIM
    assert "height = 112" in files[4]


def test_a_slip_is_named_and_kept_or_taken_again(asked: Ask, tmp_path: Path) -> None:
    oda = 'name = "Oda"\nbody = "woman"\nunit = "cm"\n[measurements]\nheight = 168\nwaist = 74\nhip = 99\n'
    said, files = asked("21", "70", "92", "stop", text=oda)
    assert "! bust: 70.0 cm was measured; a body with the other measurements has" in said
    assert "bust = 70" in files[2]
    assert dict(read_person(tmp_path / "pim.toml").measurements)["bust_girth"] == 920.0


def test_for_a_garment_only_what_it_is_drawn_from_is_asked_for(asked: Ask, tmp_path: Path) -> None:
    skirt = tmp_path / "skirt.toml"
    skirt.write_text('title = "S"\nwearer = "x.toml"\n[[block]]\nname = "skirt"\n', encoding="utf-8")
    said, _ = asked("stop", text='name = "Oda"\nbody = "woman"\nunit = "cm"\n[measurements]\n', garment=skirt)
    assert "Oda: 7 measurements." in said
    growing = Path("examples/garments/skerry-dress.toml").resolve()
    said, _ = asked("stop", text=Path("examples/people/tuva.toml").read_text(encoding="utf-8"), garment=growing)
    assert "Tuva: " in said


def test_every_measurement_has_its_place_in_the_order_and_she_turns_round_once() -> None:
    order = measuring_order("woman", every=True)
    assert order[0] == "stature"
    assert len(set(order)) == len(order)
    behind = ("biacromial_breadth", "interscye_mid_distance", "interscye_distance", "back_waist_length", "scye_depth")
    first = order.index(behind[0])
    assert order[first : first + len(behind)] == behind
    assert set(measuring_order("girl")) < set(order)


def test_a_file_with_faults_or_of_a_later_day_is_told_of_before_anything_is_asked(asked: Ask) -> None:
    with pytest.raises(InputProblems, match="no day after today"):
        asked("112", text=PIM.replace("2026-03-01", "2027-03-01"))
    with pytest.raises(InputProblems, match="wasit"):
        asked("112", text=PIM.replace("waist", "wasit"))


def test_where_nobody_can_be_asked_it_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["measure", str(tmp_path / "pim.toml"), "--ask"]) == 2
    assert "measure --ask: read nobody to ask, expected somebody at a terminal" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_at_a_real_terminal_ctrl_c_leaves_what_was_typed(tmp_path: Path) -> None:
    pty = pytest.importorskip("pty", reason="pseudo-terminals are had on Unix only")
    import subprocess
    import sys

    ours, theirs = pty.openpty()
    own = "import fcntl, sys, termios; fcntl.ioctl(0, termios.TIOCSCTTY, 0)"
    run = f"{own}; from output.command import main; sys.exit(main())"
    where = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[3]), "TERM": "dumb"}
    (tmp_path / "pim.toml").write_text(PIM, encoding="utf-8")
    process = subprocess.Popen(
        [sys.executable, "-c", run, "measure", "pim.toml", "--ask"],
        stdin=theirs, stdout=theirs, stderr=theirs, cwd=tmp_path, env=where, start_new_session=True,
    )  # fmt: skip
    os.close(theirs)
    try:
        said = heard(ours, until=") ")
        os.write(ours, b"112\n")
        heard(ours, until=") ")
        press(ours, "\x03")
        last = heard(ours, until=None)
        assert process.wait(20) == 130
    finally:
        process.kill()
        process.wait()
        os.close(ours)
    assert "O" in said
    assert "Traceback" not in last
    assert "What you typed is in pim.toml" in last
    assert "height = 112" in (tmp_path / "pim.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "told", ['36"', '36 1/2"', "36½ in", "92,5 cm", " 92 ", "0.92 m", "092", "92", "92.5", "3' 1\""]
)
def test_a_length_stands_in_the_file_as_it_was_typed_and_is_read_as_it_was_meant(told: str) -> None:
    literal, wrong = length_as_written(told, "bust_girth", "cm", "woman")
    assert not wrong
    read = tomllib.loads(f"bust = {literal}")["bust"]
    assert parse_length(read, unit="cm") == pytest.approx(parse_length(told, unit="cm"))


def test_a_mark_of_inches_is_no_mark_of_feet(asked: Ask, tmp_path: Path) -> None:
    asked('44"', "stop")
    assert dict(read_person(tmp_path / "pim.toml").measurements)["stature"] == pytest.approx(44 * 25.4)


def test_a_file_that_was_spoilt_meanwhile_is_told_of_and_the_length_may_be_typed_again(
    asked: Ask, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    usual, spoilt = ask.length_as_written, iter((True, False))

    def meanwhile(*given: str) -> tuple[str, str]:
        # an editor saves half a line while she types, and mends it
        (tmp_path / "pim.toml").write_text("name = \n" if next(spoilt, False) else PIM, encoding="utf-8")
        return usual(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(ask, "length_as_written", meanwhile)
    said, _ = asked("112", "112", "stop")
    assert "! " in said
    assert "Type it again" in said
    assert dict(read_person(tmp_path / "pim.toml").measurements)["stature"] == 1120.0


@pytest.mark.parametrize(("word", "new"), [("unit", 'unit = "in"'), ("body", 'body = "boy"')])
def test_a_unit_or_a_body_that_is_new_meanwhile_is_refused_and_nothing_is_written(
    asked: Ask, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, word: str, new: str
) -> None:
    changed = re.sub(f"(?m)^{word} = .*", new, PIM)
    usual = ask.length_as_written

    def meanwhile(*given: str) -> tuple[str, str]:
        (tmp_path / "pim.toml").write_text(changed, encoding="utf-8")
        return usual(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(ask, "length_as_written", meanwhile)
    said, files = asked("112", "112", "stop")
    assert f"pim.toml, {word}: read " in said
    assert "begin again" in said
    assert "Nothing was written." in said
    assert files[-1] == changed


def test_what_was_typed_is_said_to_be_in_the_file_only_where_it_is(asked: Ask, tmp_path: Path) -> None:
    assert "Nothing was written." in asked("4000", "stop")[0]
    assert "What you typed is in" not in asked("stop")[0]
    assert "What you typed is in" in asked("112", "stop")[0]
    (tmp_path / "pim.toml").unlink()
    assert "What you typed is in" in asked("Pim", "cm", "girl", "", "stop", text=None)[0]


def test_what_was_typed_into_a_file_that_is_spoilt_by_now_is_to_be_looked_for(
    asked: Ask, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    usual, spoilt = ask.looks_wrong, tmp_path / "pim.toml"

    def judged(*given: object) -> tuple[str, ...]:
        told = usual(*given)  # type: ignore[arg-type]
        spoilt.write_text("name = \n", encoding="utf-8")
        return told

    monkeypatch.setattr(ask, "looks_wrong", judged)
    assert "look whether what you typed is still in it" in asked("112", "stop")[0]


def test_a_girth_unlike_last_time_or_unlike_other_children_is_told(asked: Ask, tmp_path: Path) -> None:
    said, _ = asked("112", "", "42", "60", "stop")
    assert "! hip: 59.0 cm on 2026-03-01, and 42.0 cm now: is it so?" in said
    assert "! hip: 42.0 cm; girls of about 110.0 cm have" in said
    assert dict(read_person(tmp_path / "pim.toml").measurements)["hip_girth"] == 600.0
    with_mark = asked("112", "", "63", "stop")[0]
    assert "!" not in with_mark


def test_of_the_children_who_were_surveyed_hardly_one_is_unlike_the_others() -> None:
    people = children(four_only=True)[::10]
    girths = ("bust_girth", "waist_girth", "hip_girth")
    told = set()
    for who in people:
        mm = dict(who.measurements)
        told |= {
            who.name for key in girths if looks_wrong(key, {"stature": mm["stature"], key: mm[key]}, who.body, "cm")
        }
    assert len(people) > 150
    assert len(told) <= 0.01 * len(people), told
