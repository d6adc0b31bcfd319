# SPDX-License-Identifier: GPL-3.0-or-later
"""A modelled season, exported, read in the diary's place, restored on one computer and, as a
backup, on another: both then say the same, with the same ids, and use the same plan."""
import contextlib
import json
import os
import pathlib
import shutil
import sqlite3
import subprocess
import sys
import tempfile

CARPACE = os.path.abspath(sys.argv[1])


def computer(folder, name):
    where = dict(os.environ, LC_ALL="C.UTF-8")
    for part in ("STATE", "CONFIG", "DATA"):
        where[f"XDG_{part}_HOME"] = str(folder / name / part.lower())
    return where


def run(where, *words, status=0):
    done = subprocess.run([CARPACE, *words], env=where, stdin=subprocess.DEVNULL, capture_output=True, text=True,
                          timeout=120, check=False)
    assert done.returncode == status, (words, done.returncode, done.stderr)
    return done.stdout if status == 0 else done.stderr


def decided(text):
    return [line.split("  ", 2)[-1] for line in text.splitlines() if line.startswith("  ")]


def move(folder):
    one, two = computer(folder, "one"), computer(folder, "two")
    season, backup = str(folder / "season.json"), str(folder / "backup")

    run(one, "rehearse", "two-halves", "--player", "sensitive", "--days", "28", "--seed", "3", "--export", season)
    lines = [json.loads(line) for line in pathlib.Path(season).read_text("utf-8").splitlines()]
    assert lines[0]["version"] == 2 and len(lines[0]["diary"]) == 32, lines[0]
    assert [line["name"] for line in lines if line["kind"] == "plan"] == ["Two halves"]
    # written over only where that is asked for, as is advised
    again = ["rehearse", "two-halves", "--player", "sensitive", "--days", "28", "--seed", "3", "--export", season]
    assert "write over it with --force" in run(one, *again, status=1)
    run(one, *again, "--force")
    lines = [json.loads(line) for line in pathlib.Path(season).read_text("utf-8").splitlines()]
    # in the diary's place, and nothing is kept of it
    page = run(one, "report", "--from", season, "--format", "text")
    assert "Nothing was recorded" not in page and "2 Mar" in page, page[:400]
    assert decided(run(one, "why", "--from", season))
    assert "Nothing is recorded" in run(one, "diary")
    # restored, and from there as a backup
    run(one, "restore", season)
    run(one, "backup", backup)
    run(two, "restore", backup)
    assert "a diary here already" in run(two, "restore", season, status=1)
    for words in (["diary", "--format", "csv"], ["why"], ["export", "--format", "fhir"], ["plan", "show"]):
        assert run(one, *words) == run(two, *words), words
    assert "* two-halves" in run(two, "plan", "list")
    # a backup comes through a pipe, too, as an export does: it is read once
    three, pipe = computer(folder, "three"), folder / "pipe"
    os.mkfifo(pipe)
    with subprocess.Popen(["cp", backup, pipe]):
        run(three, "restore", str(pipe))
    assert run(one, "diary", "--format", "csv") == run(three, "diary", "--format", "csv")
    # of a diary that was cut off, what is still in its log beside it is read
    with contextlib.closing(sqlite3.connect(folder / "two/state/carpace/diary.sqlite")) as diary:
        diary.execute("PRAGMA journal_mode = WAL")
        diary.execute("PRAGMA wal_autocheckpoint = 0")
        diary.execute("INSERT INTO day_note SELECT max (day), 'still in the log' FROM day_sum")
        diary.commit()
        for end in ("", "-wal"):
            shutil.copyfile(folder / f"two/state/carpace/diary.sqlite{end}", folder / f"copy{end}")
    assert "still in the log" in run(two, "diary", "--from", str(folder / "copy"), "--format", "csv")
    ids = [entry["resource"]["id"] for entry in json.loads(run(two, "export", "--format", "fhir"))["entry"]]
    assert len(ids) > 50 and len(set(ids)) == len(ids) and max(map(len, ids)) <= 64
    assert all(i.startswith(lines[0]["diary"] + "-") for i in ids)
    uids = [[line for line in run(where, "calendar", "--at", "18:00").splitlines() if line.startswith("UID")] for where in (one, two)]
    assert uids[0] and uids[0] == uids[1] and len(set(uids[0])) == len(uids[0]), uids
    # another player's
    run(one, "rehearse", "two-halves", "--player", "steady", "--days", "3", "--export", str(folder / "other.json"))
    assert "another player's diary" in run(two, "import", str(folder / "other.json"), status=1)
    print(len(lines), "lines,", len(ids), "ids")


with tempfile.TemporaryDirectory(prefix="carpace-moved-") as name:
    move(pathlib.Path(name))
