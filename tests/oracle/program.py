"""Runs the program, and keeps what a failure needs to be seen again."""

import json
import os
import subprocess
import sys
from fractions import Fraction

ROOT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..")
PROGRAM = os.environ.get("LYEWAY", os.path.join(ROOT, "build", "lyeway"))
KEPT = os.path.join(ROOT, "build", "oracle")


class Refused(Exception):
    """The program did not answer with a plan; the message is what it said."""


def ask(recipe, *options):
    """The plan of one recipe, given on standard input."""
    text = json.dumps({"lyeway": 1, "recipes": [recipe]})
    if not os.access(PROGRAM, os.X_OK):
        sys.exit("%s is not there: run make first, or name the program in LYEWAY" % os.path.relpath(PROGRAM))
    command = [PROGRAM, "plan", "-", "--json", *options]
    done = subprocess.run(command, input=text, capture_output=True, text=True, timeout=30)
    if done.returncode != 0:
        raise Refused("exit status %d: %s" % (done.returncode, done.stderr.strip()))
    return json.loads(done.stdout)


def exact(recipe):
    """The recipe with every number as the fraction that its text means."""
    return json.loads(json.dumps(recipe), parse_float=Fraction, parse_int=Fraction)


def keep(recipe, name):
    os.makedirs(KEPT, exist_ok=True)
    path = os.path.join(KEPT, name + ".json")
    with open(path, "w", encoding="utf-8") as file:
        json.dump({"lyeway": 1, "recipes": [recipe]}, file, indent=1)
    return os.path.relpath(path, ROOT)


def finish(passed, failed):
    print("%d passed, %d failed" % (passed, failed))
    return 1 if failed or not passed else 0
