"""The real server: whom it lets in, what it never tells, what it does when it is killed, and how jobs end."""

from __future__ import annotations

import gc
import json
import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from output.page.answers import load_answers
from output.page.folder import Folder
from output.page.job_process import _made
from output.page.open_log import open_log
from tests.output.page.running_page import FERRY, RunningPage, copy_of_examples, opened, set_to
from tests.outside.read_pdf import text_of

ROOT = Path(__file__).parents[3]
JSON = "application/json"


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Iterator[RunningPage]:
    """A server for all tests that leave the files as they are."""
    place = tmp_path_factory.mktemp("wardrobe")
    (place / "inside").mkdir()
    (place / "secret.toml").write_text('title = "not hers"\n')
    folder = copy_of_examples(place / "inside")
    (folder / "out.toml").symlink_to(place / "secret.toml")
    (folder / "all").symlink_to(place, target_is_directory=True)
    (folder / ".hidden.toml").write_text('title = "hidden"\n')
    (folder / "pretty.svg").write_text("<svg/>")
    with opened(folder) as running:
        yield running


def test_the_page_and_its_parts_are_given(page: RunningPage) -> None:
    index = page.send("GET", f"/{page.token}/")
    assert (index.status, index.headers["content-type"]) == (200, "text/html; charset=utf-8")
    for name in ("store.js", "vendor/preact-htm.js", "style.css"):
        assert page.send("GET", f"/{page.token}/static/{name}").status == 200
    listed = page.ask("folder").data
    assert {"Oda", "Runa"} <= {each["name"] for each in listed["people"]}
    assert FERRY in {each["file"] for each in listed["garments"]}


def test_every_answer_forbids_what_comes_from_elsewhere(page: RunningPage) -> None:
    answers = [page.send("GET", f"/{page.token}/"), page.ask("folder"), page.ask("look", {"file": FERRY})]
    answers += [page.send("GET", "/"), page.ask("look", {}), page.send("GET", f"/{page.token}/static/none.js")]
    for answer in answers:
        policy = answer.headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["referrer-policy"] == "no-referrer"
        assert "access-control-allow-origin" not in answer.headers
        assert answer.headers["cache-control"] == "no-store"


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1", "localhost", "127.0.0.1:1", "", "127.0.0.1:{port}@evil"])
def test_another_host_is_turned_away(page: RunningPage, host: str) -> None:
    named = host.format(port=page.host.split(":")[1])
    assert page.send("GET", f"/{page.token}/", host=named).status in (400, 421)
    assert page.ask("look", {"file": FERRY}, host=named).status in (400, 421)


def test_localhost_is_this_machine_too(page: RunningPage) -> None:
    host = page.host.replace("127.0.0.1", "localhost")
    assert page.send("GET", f"/{page.token}/", host=host).status == 200
    assert page.ask("look", {"file": FERRY}, host=host, origin=f"http://{host}").status == 200


@pytest.mark.parametrize("token", ["", "x", "{0}x", "{0}%20", "%2e%2e/{0}", "../{0}"])
def test_without_the_token_there_is_nothing(page: RunningPage, token: str) -> None:
    for rest in ("", "api/folder", "static/store.js", "api/events"):
        assert page.send("GET", f"/{token.format(page.token)}/{rest}").status in (307, 404)
    assert page.send("GET", "/").status == 404
    assert page.token not in page.send("GET", "/").body.decode()


@pytest.mark.parametrize("origin", [None, "null", "http://evil.example", "https://{0}", "http://{0}.evil.example", ""])
def test_a_post_from_another_site_is_turned_away(page: RunningPage, origin: str | None) -> None:
    body = json.dumps({"file": FERRY}).encode()
    headers = {"content_type": JSON} | ({} if origin is None else {"origin": origin.format(page.host)})
    for address in ("look", "change", "undo", "new", "make", "bring", "names"):
        assert page.send("POST", f"/{page.token}/api/{address}", body, **headers).status == 403


@pytest.mark.parametrize("kind", [None, "text/plain", "application/x-www-form-urlencoded", "multipart/form-data", ""])
def test_what_a_form_sends_is_turned_away(page: RunningPage, kind: str | None) -> None:
    headers = {"origin": f"http://{page.host}"} | ({} if kind is None else {"content_type": kind})
    assert page.send("POST", f"/{page.token}/api/look", b"{}", **headers).status == 415


@pytest.mark.parametrize("method", ["PUT", "DELETE", "OPTIONS", "PATCH", "TRACE"])
def test_nothing_else_is_done(page: RunningPage, method: str) -> None:
    assert page.send(method, f"/{page.token}/api/look").status == 405


def test_too_much_is_turned_away_whatever_length_it_says(page: RunningPage) -> None:
    much = b'{"file":"' + b"x" * 300_000 + b'"}'
    headers = {"origin": f"http://{page.host}", "content_type": JSON}
    path = f"/{page.token}/api/look"
    assert page.send("POST", path, much, **headers).status == 413
    chunked = b"".join(b"%x\r\n%s\r\n" % (len(part), part) for part in (much[:150_000], much[150_000:])) + b"0\r\n\r\n"
    assert page.send("POST", path, chunked, transfer_encoding="chunked", **headers).status == 413
    assert page.send("POST", path, b"{}", **headers, content_length="9" * 400).status in (400, 413)
    assert page.send("POST", path, b"[" * 100_000, **headers).status == 400
    assert page.send("POST", path, b"nonsense", **headers).status == 400
    assert page.send("POST", path, b"[]", **headers).status == 400
    assert page.ask("look", {"file": FERRY}).status == 200


HOSTILE = [
    *("../secret.toml", "/etc/passwd", "garments/../../secret.toml", "out.toml", "all/secret.toml", ".hidden.toml"),
    *("..\\secret.toml", "garments/ferry-dress.toml\x00", "pretty.svg", "", ".", "a" * 5000 + ".toml", "\ud800.toml"),
    *(".trueseam/undo.sqlite", "garments//ferry-dress.toml/../../../secret.toml", "file:///etc/passwd.toml"),
]


@pytest.mark.parametrize("name", HOSTILE)
def test_no_name_leads_out_of_the_folder(page: RunningPage, name: str) -> None:
    for address in ("look", "try", "change", "undo", "redo", "make", "walk", "flat"):
        given = {"file": name, "edits": [set_to(["title"], "x")], "what": "dxf", "words": "x", "version": ""}
        answer = page.ask(address, given)
        assert answer.status in (400, 404), (address, answer.body)
        assert "not hers" not in answer.body.decode()
        assert "sentence" in answer.data
    assert (page.folder.parent / "secret.toml").read_text() == 'title = "not hers"\n'


@pytest.mark.parametrize(
    "path", ["../serve.py", "..%2fserve.py", "%2e%2e/serve.py", "/etc/passwd", "vendor/../../app.py"]
)
def test_no_address_leads_out_of_what_is_shipped(page: RunningPage, path: str) -> None:
    answer = page.send("GET", f"/{page.token}/static/{path}")
    assert answer.status == 404
    assert b"import" not in answer.body


def test_what_is_linked_from_elsewhere_or_hidden_is_not_listed(page: RunningPage) -> None:
    told = page.ask("folder").body.decode()
    assert "not hers" not in told
    assert "hidden" not in told


@pytest.mark.parametrize("given", [{"file": 3}, {"file": FERRY, "edits": 3}, {"file": FERRY, "have": 3, "edits": [1]}])
def test_what_makes_no_sense_is_said_in_a_sentence(page: RunningPage, given: object) -> None:
    answer = page.ask("try", given)
    assert answer.status in (400, 404)
    assert answer.data["sentence"].endswith(".")


def heard(page: RunningPage, until: Any) -> list[Any]:
    """What the server tells by itself, from now on until something is told."""
    import http.client

    told: list[Any] = []
    to = http.client.HTTPConnection("127.0.0.1", int(page.host.split(":")[1]), timeout=60)
    to.request("GET", f"/{page.token}/api/events")
    got = to.getresponse()
    assert got.headers["content-type"].startswith("text/event-stream")
    while line := got.readline():
        if line == b": hello\n":
            until.begun()
        elif line.startswith(b"data: "):
            told.append(json.loads(line[6:]))
            if until.over(told[-1]):
                break
    to.close()
    return told


class Jobs:
    """Begins jobs once somebody listens, and waits until each has ended."""

    def __init__(self, page: RunningPage, *asked: dict[str, Any], stop: bool = False) -> None:
        self.page, self.asked, self.stop = page, asked, stop
        self.open: set[str] = set()

    def begun(self) -> None:
        for each in self.asked:
            answer = self.page.ask("make", each)
            assert answer.status == 200, answer.body
            self.open.add(answer.data["job"])
            if self.stop:
                self.page.ask("stop", answer.data)

    def over(self, told: Any) -> bool:
        if told.get("job", {}).get("state") in ("done", "failed", "stopped"):
            self.open.discard(told["job"]["id"])
        return not self.open


def test_files_are_made_told_of_and_kept(page: RunningPage) -> None:
    whats = {"print-at-home": b"%PDF", "dxf": b"  0"}  # a report: test_hard_days_in_browser.py
    skirt = "garments/small.toml"
    (page.folder / skirt).write_text(
        'title = "Small"\nwearer = "../people/oda.toml"\n[[block]]\nname = "skirt"\nlength = "50 cm"\n'
    )
    front = {"file": skirt, "options": {"pieces": ["skirt front"]}}
    told = heard(page, Jobs(page, *({"what": what, **front} for what in whats)))
    jobs = [each for each in told if "job" in each]
    shares = [each["job"]["share"] for each in jobs if each["job"]["state"] == "working"]
    assert 0.0 in shares
    assert any(share > 0 for share in shares)
    done = {each["job"]["what"]: each["job"] for each in jobs if each["job"]["state"] == "done"}
    assert done.keys() == whats.keys()
    for what, begins in whats.items():
        made = page.ask(f"made/{done[what]['id']}")
        assert made.body.lstrip().lower().startswith(begins.strip().lower())
        assert made.headers["content-disposition"] == f'attachment; filename="{done[what]["name_of"]}"'
    (page.folder / skirt).unlink()
    assert page.ask("made/none").status == 404
    assert page.ask("made/..%2f..%2fsecret").status == 404


def test_sizes_are_printed_over_each_other_all_or_some(page: RunningPage) -> None:
    nest = "garments/bakehouse-nest.toml"
    (page.folder / nest).write_text(
        'title = "Nest"\n[sizes]\nnest = [84, 88, 92]\n[[block]]\nname = "skirt"\nlength = "40 cm"\n'
    )
    texts = []
    for sizes in ([], ["84", "92"], ["88"]):
        asked = {"folder": str(page.folder), "file": nest, "what": "copy-shop", "options": {"sizes": sizes}}
        name, content = _made(asked, lambda _doing, _share: None)  # as the process of a job does it, but in this one
        assert name == "bakehouse-nest-copy-shop.pdf"
        texts.append(" ".join(text_of(content)))
    assert ["sizes 84, 88, 92" in texts[0], "sizes 84, 92" in texts[1], "sizes" in texts[2]] == [True, True, False]
    assert page.ask("make", {"file": nest, "what": "dxf", "options": {"sizes": [3]}}).status == 400
    (page.folder / nest).unlink()


def test_a_job_is_stopped_and_one_that_cannot_be_done_says_why(page: RunningPage) -> None:
    told = heard(page, Jobs(page, {"file": FERRY, "what": "lay"}, stop=True))
    states = [each["job"]["state"] for each in told if "job" in each]
    assert [each for each in states if each != "working"] == ["stopped"]
    told = heard(page, Jobs(page, {"file": "people/oda.toml", "what": "dxf"}))
    assert told[-1]["job"]["state"] == "failed"
    assert "expected a garment file" in told[-1]["job"]["sentences"][0]
    assert page.ask("make", {"file": FERRY, "what": "a cake"}).status == 400


def test_a_change_by_hand_is_told(page: RunningPage) -> None:
    class Hand:
        def begun(self) -> None:
            (page.folder / "garments" / "new-one.toml").write_text('title = "New"\nwearer = "../people/oda.toml"\n')

        def over(self, told: Any) -> bool:
            return "garments/new-one.toml" in told.get("changed", ())

    assert heard(page, Hand())
    (page.folder / "garments" / "new-one.toml").unlink()


@pytest.mark.skipif(os.name == "nt", reason="kills as only POSIX has them")
def test_killed_while_she_works_nothing_that_was_answered_is_lost(tmp_path: Path) -> None:
    folder = copy_of_examples(tmp_path)
    answered = threading.Event()
    with opened(folder) as running:
        version = running.look()["version"]
        state = running.change(version, set_to(["title"], "First"))
        threading.Timer(0.05, lambda: (answered.wait(), running.process.send_signal(signal.SIGKILL))).start()
        last = 0
        for number in range(1000):
            try:
                state = running.change(state["version"], set_to(["title"], f"Title {number}"), words=f"title {number}")
            except OSError:
                break
            assert state["written"]
            last = number
            answered.set()
    with opened(folder) as running:
        state = running.look()
        title = state["parts"]["head"]["title"]
        assert title in (f"Title {last}", f"Title {last + 1}")
        assert state["parts"]["head"]["undo"] == title.lower()
        for _ in range(int(title.split()[1]) + 2):
            state = running.ask("undo", {"file": FERRY}).data
    assert (folder / FERRY).read_bytes() == (ROOT / "examples" / FERRY).read_bytes()


def test_it_ends_with_ctrl_c_while_a_page_listens(tmp_path: Path) -> None:
    with opened(copy_of_examples(tmp_path)) as running:

        class Wait:
            def begun(self) -> None:
                running.process.send_signal(signal.SIGINT)

            def over(self, _told: Any) -> bool:
                return False

        begun = time.monotonic()
        heard(running, Wait())
        running.process.wait(timeout=20)
        assert time.monotonic() - begun < 15
        assert running.process.returncode == 0


def test_a_folder_that_is_none_is_refused_in_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "dress.toml").write_text("")
    for name in ("none", "dress.toml"):
        words = [sys.executable, "-m", "output.command", "open", str(tmp_path / name), "--no-browser"]
        done = subprocess.run(words, capture_output=True, text=True, check=False)
        assert done.returncode == 2
        assert "expected a folder" in done.stderr


def test_what_lies_in_circles_is_cleared_away_while_it_runs(tmp_path: Path) -> None:
    folder = Folder.at(copy_of_examples(tmp_path))
    opened_log = open_log(folder)
    gc.disable()
    try:
        load_answers(folder, opened_log)
        assert gc.isenabled()
    finally:
        gc.enable()
        opened_log.log.close()


def test_the_address_is_told_and_the_page_given_before_the_engine_is_loaded() -> None:
    code = (
        "import sys; import output.command.run_command, output.command.open_page, output.page.serve; "
        "early = [name for name in ('blocks', 'drafting.checks', 'starlette', 'uvicorn') if name in sys.modules]; "
        "import output.page.server; "
        "print(early, [name for name in ('blocks', 'drafting.checks', 'tomlkit', 'numpy') if name in sys.modules])"
    )
    said = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True).stdout
    assert said == "[] []\n"


def test_no_other_command_loads_the_server() -> None:
    code = (
        "import sys; from output.command import main; main(['check', 'examples/garments/slipway-skirt.toml']); "
        "print([name for name in ('starlette', 'uvicorn', 'tomlkit', 'sqlite3', 'asyncio') if name in sys.modules])"
    )
    said = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True).stdout
    assert said.splitlines()[-1] == "[]"
