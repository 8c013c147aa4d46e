"""The command line as a whole: help, usage, mistakes of our own, and what is not loaded."""

import errno
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from cli import app as command_line
from cli.main import main
from tests.chances import rows, some

LOADED = "import sys; sys.argv = ['lowstow', *sys.argv[1:]]\nfrom cli.main import main\ntry:\n main()\nfinally:\n"
LOADED += " print('LOADED', sorted(sys.modules), file=sys.stderr)"
STARTED = "import sys; sys.argv = ['lowstow', *sys.argv[1:]]\nfrom cli.main import command\ncommand()"
"""As people start it."""


def python(*words: object, cwd: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", LOADED, *map(str, words)], cwd=cwd, capture_output=True, text=True, check=False
    )


@pytest.mark.parametrize("command", command_line.COMMANDS)
def test_every_command_has_help_with_the_exit_codes(run, command):
    found = run(command.__name__, "--help")
    assert found.exit_code == 0
    assert command.__doc__ in found.stdout
    assert "70 our own fault" in " ".join(found.stdout.split())


def test_help_lists_every_command(run):
    found = run("--help")
    assert found.exit_code == 0
    assert all(command.__name__ in found.stdout for command in command_line.COMMANDS)


@pytest.mark.parametrize(
    "words",
    [
        ["chekc"],
        ["check"],
        ["check", "--no-such"],
        ["suggest", "t", "--seed"],
    ],
)
def test_bad_usage_ends_with_2(run, words):
    found = run(*words)
    assert found.exit_code == 2
    assert "Error:" in found.stderr


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("nan", "nan"), ("inf", "inf"), ("x", "x"), ("", "''"), (" ", "' '"), ("0", "0"), ("1e9", "1e9"),
        ("4\n4", "'4\\n4'"), ("9" * 99, f"{'9' * 30}..."),
    ],
)  # fmt: skip
def test_a_number_that_cannot_be_meant_is_one_sentence_that_fits(run, typed, shown):
    found = run("suggest", "t", "--seconds", typed)
    assert (found.exit_code, found.stdout) == (2, "")
    assert found.stderr == f"--seconds: found {shown}; allowed: a number from 0.1 to 86400, such as 14.\n"


def test_all_numbers_that_cannot_be_meant_are_told_at_once(run):
    found = run("suggest", "t", "--seconds", "0.09", "--effort", "x", "--seed", "1.5")
    assert (found.exit_code, found.stdout) == (2, "")
    says = [line.split(";")[0] for line in found.stderr.splitlines()]
    assert says == ["--seconds: found 0.09", "--effort: found x", "--seed: found 1.5"]
    assert "a whole number from 0 to 2147483647" in found.stderr
    assert max(map(len, found.stderr.splitlines())) <= 80


def test_help_and_check_load_no_search(trip, request):
    root = request.config.rootpath
    for words in (["--help"], ["check", trip / "plan.yaml"]):
        found = python(*words, cwd=root)
        assert found.returncode == 0
        loaded = found.stderr.rsplit("LOADED", 1)[1]
        assert "'cli.main'" in loaded
        assert "'ortools" not in loaded
    assert "'models" not in python("--help", cwd=root).stderr


def test_a_mistake_of_our_own_ends_with_70_and_one_sentence(run, trip, monkeypatch):
    def broken(*_):
        raise ZeroDivisionError("a made-up\nmistake")

    monkeypatch.setattr("verifier.check", broken)
    found = run("check", trip / "plan.yaml")
    assert found.exit_code == 70
    assert found.stdout == ""
    assert "Traceback" not in found.stderr
    assert len(found.stderr.splitlines()) == 1
    assert "ZeroDivisionError: a made-up mistake" in found.stderr
    assert "please report" in found.stderr


def test_the_last_net_holds_outside_the_commands_too(monkeypatch, capsys):
    def broken():
        raise RuntimeError("before any command")

    monkeypatch.setattr(command_line, "app", broken)
    with pytest.raises(SystemExit) as ended:
        main()
    assert ended.value.code == 70
    assert "before any command" in capsys.readouterr().err


def test_stopping_by_hand_is_a_sentence(run, trip, monkeypatch):
    def stopped(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr("verifier.check", stopped)
    found = run("check", trip / "plan.yaml")
    assert found.exit_code == 4
    assert "nothing was written" in found.stderr


def test_a_key_while_it_starts_ends_it_without_a_word(monkeypatch, capfd):
    def stopped():
        raise KeyboardInterrupt

    monkeypatch.setattr(command_line, "run", stopped)
    with pytest.raises(SystemExit) as ended:
        main()
    assert ended.value.code == 130
    assert capfd.readouterr() == ("", "")


@pytest.mark.parametrize(("words", "code"), rows([(["schema"], 0), (["check", "no such file"], 2), (["find"], 2)], 1))
def test_all_of_it_is_told_before_the_process_ends(request, words, code):
    command = [sys.executable, "-c", f"{STARTED}; print('never told')", *words]
    found = subprocess.run(command, cwd=request.config.rootpath, capture_output=True, text=True, check=False)
    assert found.returncode == code
    if code:
        assert (found.stdout, found.stderr[-1]) == ("", "\n")
    else:
        assert list(json.loads(found.stdout)) == ["vehicle", "gear", "trip", "plan", "rulebook"]


AT_ONCE = """
import importlib.abc, os, signal, sys

class Key(importlib.abc.MetaPathFinder):
    # The key comes while the module of the given name is looked for.
    def find_spec(self, name, path=None, target=None):
        if name == sys.argv[1]:
            os.kill(os.getpid(), signal.SIGINT)

sys.meta_path.insert(0, Key())
signal.signal(signal.SIGINT, signal.default_int_handler)  # what runs in the background of a shell may have it ignored
from cli.main import command
command()
"""


@pytest.mark.parametrize("module", some(["typer", "cli.app", "cli.codes", "cli.commands.weigh"], 2))
def test_a_key_while_modules_are_loaded_shows_no_traceback(request, module):
    found = subprocess.run(
        [sys.executable, "-c", AT_ONCE, module],
        cwd=request.config.rootpath,
        capture_output=True,
        text=True,
        check=False,
    )
    assert (found.returncode, found.stdout, found.stderr) == (130, "", "")


def test_a_file_that_was_to_be_read_is_not_told_as_unwritten(run, trip, monkeypatch):
    def closed(*_):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), "closed/trip.yaml")

    monkeypatch.setattr("models.reading.read_plan", closed)
    found = run("check", trip / "plan.yaml")
    assert (found.exit_code, found.stderr) == (2, "closed/trip.yaml: permission denied.\n")


def test_a_reader_that_leaves_is_no_mistake(request):
    process = subprocess.Popen(
        [sys.executable, "-c", STARTED, "schema"],
        cwd=request.config.rootpath,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    process.stdout.close()
    _, errors = process.communicate()
    assert process.returncode == 141
    assert "mistake" not in errors
    assert "Traceback" not in errors


@pytest.mark.long
def test_no_output_at_all_is_no_mistake_of_ours(trip, request):
    """As in a shell with `>&-`: the command runs, and its code tells the verdict."""
    closed = STARTED.replace("import sys;", "import sys; sys.stdout = None;")
    words = ["check", str(trip / "plan.yaml")]
    found = subprocess.run(
        [sys.executable, "-c", closed, *words], cwd=request.config.rootpath, capture_output=True, text=True, check=False
    )
    assert (found.returncode, found.stderr) == (0, "")


FULL_DISK = """
import resource, signal, sys
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
# No file may grow beyond so many bytes: the system itself refuses in the middle, as on a full disk.
resource.setrlimit(resource.RLIMIT_FSIZE, (600, 600))
sys.argv = ['lowstow', *sys.argv[1:]]
from cli.main import command
command()
"""


def on_a_full_disk(out: Path, cwd: Path, *words: object) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-B", "-c", FULL_DISK, *map(str, words)]
    # Without a buffer the interpreter itself takes a part that was written for the whole.
    usual = {name: value for name, value in os.environ.items() if name != "PYTHONUNBUFFERED"}
    with out.open("w") as stream:
        return subprocess.run(
            command, cwd=cwd, env=usual, stdout=stream, stderr=subprocess.PIPE, text=True, check=False
        )


@pytest.mark.parametrize("words", some([["check", "plan.yaml"], ["--help"], ["schema"]], 1), ids=lambda words: words[0])
def test_output_that_finds_no_room_is_one_sentence(trip, request, words):
    asked = [trip / word if word.endswith(".yaml") else word for word in words]
    found = on_a_full_disk(trip / "out.txt", request.config.rootpath, *asked)
    assert found.returncode == 2
    assert len(found.stderr.splitlines()) == 1
    assert found.stderr.startswith("The output could not be written: ")


@pytest.mark.long
@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
def test_a_sentence_that_finds_no_room_leaves_the_code(trip, request):
    with Path("/dev/full").open("w") as full:
        found = subprocess.run(
            [sys.executable, "-c", STARTED, "check", str(trip / "nope.yaml")],
            cwd=request.config.rootpath, stdout=subprocess.PIPE, stderr=full, text=True, check=False,
        )  # fmt: skip
    assert (found.returncode, found.stdout) == (2, "")


@pytest.mark.long
def test_a_page_that_finds_no_room_leaves_the_old_one(trip, request):
    page = trip / "sheet.html"
    page.write_text("<!doctype html>the old page")
    out = trip / "out.txt"
    out.touch()
    before = sorted(file.name for file in trip.iterdir())
    found = on_a_full_disk(out, request.config.rootpath, "sheet", trip / "plan.yaml", "-o", page)
    assert found.returncode == 2
    assert found.stderr.startswith(f"{page}: ")
    assert found.stderr.endswith("; nothing was written.\n")
    assert page.read_text() == "<!doctype html>the old page"
    assert sorted(file.name for file in trip.iterdir()) == before
