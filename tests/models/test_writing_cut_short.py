"""A process that is killed, or a disk that is full, while a file is written: the old file or the new one, whole."""

import subprocess
import sys
import textwrap
import time
from pathlib import Path

ENDLESS = """
import sys
from pathlib import Path
from models.writing import replace_whole
n = 0
while True:
    n += 1
    replace_whole(Path(sys.argv[1]), f"{n}\\n" * 20000)
    if n == 1:
        print("begun", flush=True)
"""

NO_ROOM = """
import resource, signal, sys
from pathlib import Path
from models.writing import replace_whole
# No file may grow beyond 50 000 bytes: the system itself refuses in the middle of writing, as on a full disk.
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (50000, 50000))
try:
    replace_whole(Path(sys.argv[1]), "new" * 100000)
except OSError as problem:
    print(problem.errno)
"""


def started(program: str, path: Path) -> "subprocess.Popen[str]":
    command = [sys.executable, "-c", textwrap.dedent(program), str(path)]
    return subprocess.Popen(command, stdout=subprocess.PIPE, text=True)


def test_a_killed_process_leaves_a_whole_file(tmp_path):
    path = tmp_path / "plan.yaml"
    for wait_ms in (2, 13):
        process = started(ENDLESS, path)
        assert process.stdout is not None
        assert process.stdout.readline() == "begun\n"
        time.sleep(wait_ms / 1000)
        process.kill()
        process.wait()
        process.stdout.close()
        lines = path.read_text().splitlines()
        assert len(lines) == 20000
        assert len(set(lines)) == 1


def test_a_disk_without_room_keeps_the_old_file(tmp_path):
    path = tmp_path / "plan.yaml"
    path.write_text("old")
    process = started(NO_ROOM, path)
    told, _ = process.communicate()
    assert int(told) > 0
    assert path.read_text() == "old"
    assert [entry.name for entry in tmp_path.iterdir()] == ["plan.yaml"]
