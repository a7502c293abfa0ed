"""A power cut while answering: the process is killed at fifty random moments, and the file is whole every time."""

import os
import subprocess
import sys
from itertools import pairwise

import pytest

#: Forks fifty times. Each child answers and checks as fast as the file can be written, and tells after each write how
#: far it has come; it is killed in the middle of that, and what the file then holds is printed beside what was told.
KILLED = """
import os, random, signal, sys, time, warnings
from offgrid_core.practice import Answer, draw, mark, slot
from offgrid_core.practice.record import Record

warnings.simplefilter("error")
folder, rng, problem = sys.argv[1], random.Random(11), draw(slot("L05-3"))

def answer(told):
    record = Record(folder)
    for count in range(1, 1_000_000):
        record.change("L05-3", lambda entry: entry.typed("spell_wh", Answer(str(count), "Wh")))
        if count % 5 == 1:
            record.change("L05-3", lambda entry: entry.checked(mark(problem, entry.answers)))
        os.write(told, b"%d\\n" % count)

for kill in range(50):
    read, told = os.pipe()
    child = os.fork()
    if not child:
        answer(told)
    os.close(told)
    time.sleep(rng.uniform(0.01, 0.12))
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    heard = b""
    while more := os.read(read, 65536):
        heard += more
    os.close(read)
    entry = Record(folder).entry("L05-3")
    last = int(heard.split()[-1]) if heard else 0
    print(last, entry.answers["spell_wh"].text if entry.answers else 0, len(entry.checks), flush=True)
"""


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork")
def test_the_file_is_whole_after_fifty_kills(tmp_path):
    """It reads without a warning, and holds what was told as done, or the one write that could not be told any more."""
    run = subprocess.run(
        [sys.executable, "-c", KILLED, str(tmp_path)], capture_output=True, text=True, timeout=120, check=False
    )
    assert run.returncode == 0, run.stderr
    rows = [tuple(map(int, line.split())) for line in run.stdout.splitlines()]
    assert len(rows) == 50
    begun = [(told, kept) for told, kept, _ in rows if told]
    assert len(begun) >= 25, "too few had begun to write when they were killed"
    assert {kept - told for told, kept in begun} <= {0, 1}
    assert all(later[2] >= earlier[2] for earlier, later in pairwise(rows)), "a check was lost"
    assert [p.name for p in tmp_path.iterdir() if "damaged" in p.name] == []
