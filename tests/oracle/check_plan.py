#!/usr/bin/env python3
"""Random recipes through the program and through a second implementation that shares nothing with it.

LYEWAY          the program (build/lyeway)
LYEWAY_SEED     seed of the recipes (20)
LYEWAY_ROUNDS   how many recipes (300)
"""

import os
import random
import sys

from compare import compare
from oracle import Plan
from program import Refused, ask, exact, finish, keep
from recipes import Maker
from rows import Facts
from sizes import candidates

SEED = int(os.environ.get("LYEWAY_SEED", "20"))
ROUNDS = int(os.environ.get("LYEWAY_ROUNDS", "300"))


def plan_like(recipe, facts, answer):
    """Our plan; where the size leaves readings, the one nearest to the oils that the program took."""
    size = recipe.get("size", {})
    if "mould" not in size and "pieces" not in size:
        return Plan(recipe, facts)
    theirs = sum(entry["exact_g"] for entry in answer["oils"])
    oils = min(candidates(recipe, facts), key=lambda mass: abs(float(mass) - theirs), default=None)
    return None if oils is None else Plan(recipe, facts, oils)


def main():
    facts, passed, failed = Facts(), 0, 0
    maker = Maker(random.Random(SEED), facts)
    for index in range(ROUNDS):
        recipe = maker.recipe("recipe %d" % index)
        try:
            answer = ask(recipe)
            plan = plan_like(exact(recipe), facts, answer)
            wrong = [] if plan is None else compare(answer, plan)[0]
        except Refused as refusal:
            wrong = [("an answer", str(refusal), "a plan")]
        passed, failed = (passed, failed + 1) if wrong else (passed + 1, failed)
        if wrong:
            print("%s" % keep(recipe, "recipe-%d-%d" % (SEED, index)))
            for figure, theirs, ours in wrong:
                print("    %s: program %s, second way %s" % (figure, theirs, ours))
    return finish(passed, failed)


if __name__ == "__main__":
    sys.exit(main())
