"""`trueseam new person` at a keyboard: a pseudo-terminal, the whole command, answers as people type them."""

from __future__ import annotations

import os
import select
import subprocess
import sys
import time
from pathlib import Path

import pytest

from drafting.body.terms import limits
from drafting.reading.files import load_toml
from drafting.reading.units import least_text, most_text
from output.command.new import body_meant

pty = pytest.importorskip("pty", reason="pseudo-terminals are had on Unix only")

_PATIENCE = 20.0
"""Seconds until a question must have come, on a machine with other work."""


def typed(folder: Path, *answers: str) -> tuple[int, str]:
    """The status of the command and all it said, each answer typed once its question stands there."""
    ours, theirs = pty.openpty()
    own = "import fcntl, sys, termios; fcntl.ioctl(0, termios.TIOCSCTTY, 0)"  # so that Ctrl-C reaches it
    command = [sys.executable, "-c", f"{own}; from output.command import main; sys.exit(main())"]
    command += ["new", "person", "wren.toml"]
    where = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[3]), "TERM": "dumb"}
    process = subprocess.Popen(
        command, stdin=theirs, stdout=theirs, stderr=theirs, cwd=folder, env=where, start_new_session=True
    )
    os.close(theirs)
    said = ""
    try:
        for answer in answers:
            said += heard(ours, until=") ")
            press(ours, answer)
        said += heard(ours, until=None)
        return process.wait(_PATIENCE), said
    finally:
        process.kill()
        process.wait()
        os.close(ours)


def press(end: int, keys: str) -> None:
    """Types it. Ctrl-C a moment later: Python sees one that comes just before input() reads with the next key only."""
    if keys == "\x03":
        time.sleep(0.3)
    os.write(end, keys.encode())


def heard(end: int, *, until: str | None) -> str:
    """What comes until a question stands there, or (None) until the command is gone."""
    got, last = b"", time.monotonic() + _PATIENCE
    while time.monotonic() < last:
        ready, _, _ = select.select([end], [], [], 0.2)
        try:
            piece = os.read(end, 65536) if ready else None
        except OSError:  # how Linux says that the other end is closed
            break
        if piece == b"":
            break
        got += piece or b""
        if until is not None and got.endswith(until.encode()):  # what is typed too soon is kept for it
            break
    return got.decode()


def test_answers_in_her_own_words_are_understood_and_others_asked_for_again(tmp_path: Path) -> None:
    answers = ("Wren", "furlongs", "inches", "a horse", "my daughter", "5' 1/2", "400", "30", "26 1/2", "")
    status, said = typed(tmp_path, *(f"{answer}\n" for answer in answers))
    assert status == 0
    table = load_toml(tmp_path / "wren.toml")
    assert (table["name"], table["unit"], table["body"]) == ("Wren", "in", "girl")
    assert table["measurements"] == {"height": "5' 1/2", "chest": 30, "waist": "26 1/2"}
    assert '"furlongs" is not understood here. Answer cm, inches or mm.' in said
    assert '"a horse" is not understood here. Answer woman, girl or boy' in said
    assert "Height, in inches?" in said
    low, high = limits("girl")["bust_girth"]
    span = f"from {least_text(low, 'in')} to {most_text(high, 'in')}"
    assert f"That would be 400 in, expected is a length {span}. If 400 mm was meant, type that." in said


@pytest.mark.parametrize(
    ("whose", "body"), [("me", "woman"), ("my wife", "woman"), ("Son", "boy"), ("a girl's", "girl")]
)
def test_whose_body_it_is_may_be_said_by_who_she_is(whose: str, body: str) -> None:
    """As it is understood once it is typed: the daughter above is typed."""
    assert body_meant(whose) == body


def test_the_end_of_typing_leaves_a_question_out_and_a_stop_leaves_everything(tmp_path: Path) -> None:
    status, _ = typed(tmp_path, "Wren\n", "\x04", "\x04", "\x04", "\x04", "\x04", "\x04")
    assert status == 0
    assert load_toml(tmp_path / "wren.toml")["unit"] == "cm"
    (tmp_path / "wren.toml").unlink()
    status, said = typed(tmp_path, "Wren\n", "\x03")
    assert status == 130
    assert "Traceback" not in said
    assert list(tmp_path.iterdir()) == []
