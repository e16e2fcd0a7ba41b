"""Holds README.md against the program: every `$ pinfold ...` prints what stands below it (a line
`...` stands for lines left out), and every file that is quoted whole is the file.

Run with PINFOLD_PROGRAM and PINFOLD_ROOT set.
"""

import os
import re
import subprocess
import sys

PROGRAM, ROOT = os.environ["PINFOLD_PROGRAM"], os.environ["PINFOLD_ROOT"]


def printed(command):
    """The lines a terminal shows, without blank ones at the end."""
    done = subprocess.run([PROGRAM, *command.split()], cwd=ROOT, text=True, timeout=60,
                          stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    return done.stdout.rstrip().splitlines()


def differs(shown, real):
    """The first shown line that is not where it should be; None if all are."""
    at, loose = 0, False
    for line in shown:
        if line == "...":
            loose = True
            continue
        while loose and at < len(real) and real[at] != line:
            at += 1
        if at >= len(real) or real[at] != line:
            return line
        at, loose = at + 1, False
    return None if loose or at == len(real) else real[at]


def transcripts(text):
    """Each command with the indented lines below it."""
    lines = text.splitlines()
    for start, line in enumerate(lines):
        if not line.startswith("    $ pinfold "):
            continue
        shown = []
        for below in lines[start + 1:]:
            if (below and not below.startswith("    ")) or below.startswith("    $ "):
                break
            shown.append(below[4:])
        yield line[len("    $ pinfold "):], "\n".join(shown).rstrip().splitlines()


with open(os.path.join(ROOT, "README.md"), encoding="utf-8") as file:
    text = file.read()
commands = files = faults = 0
for command, shown in transcripts(text):
    commands += 1
    wrong = differs(shown, printed(command))
    if wrong is not None:
        faults += 1
        print(f"FAULT: pinfold {command}\n    README.md and the program differ at: {wrong}")
for name, quoted in re.findall(r"`(examples/[^`\n]*yaml)`[^\n]*:\n\n```yaml\n(.*?)^```", text,
                               re.M | re.S):
    files += 1
    with open(os.path.join(ROOT, name), encoding="utf-8") as file:
        if file.read() != quoted:
            faults += 1
            print(f"FAULT: {name} is not what README.md quotes")
print(f"{commands} commands and {files} files tried, {faults} faults")
sys.exit(faults > 0 or commands == 0 or files == 0)
