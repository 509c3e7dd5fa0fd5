"""`lowport content check`: the content's problems in one list, or what was found."""

import re
import shutil
import subprocess
import sys

from app.settings import ROOT


def lowport(*words):
    command = [sys.executable, "-m", "app.cli", "content", "check", *map(str, words)]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)


def test_sound_content_is_counted_and_graded():
    done = lowport()
    assert done.returncode == 0, done.stderr
    lines = done.stdout.splitlines()
    assert re.fullmatch(r"8 modules, \d+ steps, \d+ questions, 0 problems", lines[-1])
    grades = [float(found.group(1)) for line in lines if (found := re.search(r"grade (.+)$", line))]
    assert len(grades) == 8
    assert all(0 < grade <= 8 for grade in grades)
    spanish = [
        int(found.group(1)) for line in lines if (found := re.search(r"INFLESZ (\d+)", line))
    ]
    assert len(spanish) == 8
    assert all(score >= 55 for score in spanish)


def test_problems_are_listed_and_the_exit_says_so(tmp_path):
    folder = tmp_path / "content"
    shutil.copytree(ROOT / "content", folder)
    (folder / "modules" / "shutdown" / "checklist.yaml").unlink()
    lesson = folder / "modules" / "port-setting" / "lesson.en.md"
    lesson.write_text(lesson.read_text().replace("minutes:", "minuets:", 1))
    done = lowport(folder)
    assert done.returncode == 1
    assert done.stdout == ""
    said = done.stderr.splitlines()
    assert "modules/shutdown/checklist.yaml:1: file: is missing" in said
    assert "modules/port-setting/lesson.en.md:5: minuets: is not a known key" in said
    assert said[-1] == "3 problems in the content."
    assert "Traceback" not in done.stderr


def test_a_folder_that_is_not_there_is_wrong_usage(tmp_path):
    assert lowport(tmp_path / "nowhere").returncode == 2
