#!/usr/bin/env python3
"""What must not change, and what must change in step, when a recipe is changed: the program against itself.

Environment as in check_plan.py.
"""

import copy
import os
import random
import sys
from fractions import Fraction

from program import Refused, ask, exact, finish, keep
from recipes import Maker
from rows import Facts

SEED = int(os.environ.get("LYEWAY_SEED", "21"))
ROUNDS = int(os.environ.get("LYEWAY_ROUNDS", "60"))
FINE = [{"division_g": 0.001, "capacity_g": 100000}]


def near(mine, theirs, tolerance):
    return abs(mine - theirs) <= tolerance + 1e-9 * abs(mine)


def figures(plan):
    """What does not depend on the order in which oils are named."""
    superfat = plan["superfat"]
    result = {"batter": plan["batter_g"], "water": plan["water_g"], "volume": plan["batter_ml"]}
    result["iodine"] = plan["iodine_value"]
    result.update({"alkali %s" % entry["kind"]: entry["exact_g"] for entry in plan["alkali"]})
    result.update({"superfat": superfat["rounded"], "likely": superfat["likely"][0], "worst": superfat["worst"][0]})
    result.update({"portion %d" % i: entry["batter_g"] for i, entry in enumerate(plan["portions"])})
    return result


def differing(first, second, tolerance):
    return [(name, value, second.get(name)) for name, value in first.items()
            if second.get(name) is None or not near(value, second[name], tolerance)]


def order_of_oils(recipe, rng):
    """Fine scales: on coarse ones a tie goes to the earlier oil, as it should."""
    recipe = dict(recipe, scales=FINE)
    shuffled = dict(recipe, oils=rng.sample(recipe["oils"], len(recipe["oils"])))
    # Ties of the last milligram may fall otherwise: no figure moves by more than two of them.
    return differing(figures(ask(recipe)), figures(ask(shuffled)), 0.011)


def scaled(recipe, factor):
    """Every mass of a recipe and of its scales times a factor: the same batch in larger grams."""
    recipe = copy.deepcopy(recipe)
    for oil in recipe["oils"]:
        if "grams" in oil:
            oil["grams"] *= factor
    for entry in recipe.get("additives", []):
        if "grams" in entry:
            entry["grams"] *= factor
    recipe["size"] = {"oils_g": recipe["size"]["oils_g"] * factor}
    recipe["scales"] = [{key: value * factor for key, value in scale.items()} for scale in recipe["scales"]]
    return recipe


def scale_of_everything(recipe, rng):
    """Masses in proportion, shares unmoved. Pieces and losses in grams would not scale, so portions are left out."""
    left_out = ("portions", "fragrance", "scent", "jug_residue_g")
    base = {key: value for key, value in recipe.items() if key not in left_out}
    base["size"] = {"oils_g": 800}
    base["scales"] = [{"division_g": 1, "capacity_g": 5000}, {"division_g": 0.25, "capacity_g": 200}]
    factor = rng.choice([2, 4, 8])
    small, large = ask(base), ask(scaled(base, factor))
    wrong = []
    for name in ("batter_g", "water_g"):
        if not near(small[name] * factor, large[name], 1e-6):
            wrong.append((name, small[name] * factor, large[name]))
    for mine, his in zip(small["oils"] + small["alkali"], large["oils"] + large["alkali"]):
        if not near(mine["rounded_g"] * factor, his["rounded_g"], 1e-5):
            wrong.append((mine.get("oil", mine.get("kind")), mine["rounded_g"] * factor, his["rounded_g"]))
    for name in ("rounded", "chance_lye_heavy_percent", "mostly_share"):
        if not near(small["superfat"][name], large["superfat"][name], 1e-9):
            wrong.append((name, small["superfat"][name], large["superfat"][name]))
    for name in ("likely", "worst"):
        if small["superfat"][name] != large["superfat"][name]:
            wrong.append((name, small["superfat"][name], large["superfat"][name]))
    return wrong


def oil_of_nothing(recipe, rng):
    """An oil of 0 % adds nothing."""
    if "percent" not in recipe["oils"][0]:
        return []
    unused = next(key for key in ("maize", "sesame") if key not in [oil["oil"] for oil in recipe["oils"]])
    more = dict(recipe, oils=recipe["oils"] + [{"oil": unused, "percent": 0}])
    return differing(figures(ask(recipe)), figures(ask(more)), 1e-9)


def size_given_on_the_line(recipe, rng):
    """--oils and --batter are the sizes of the file given another way."""
    wrong = []
    for option, name in (("--oils", "oils_g"), ("--batter", "batter_g")):
        mass = rng.choice([640, 1234.5])
        by_option = ask(recipe, option, "%g" % mass)
        by_file = ask(dict({k: v for k, v in recipe.items()}, size={name: mass}))
        if by_option != by_file and "mould" not in recipe.get("size", {}):
            wrong += differing(figures(by_file), figures(by_option), 0) or [(option, "another plan", "the file's")]
    return wrong


def batter_of_oils(recipe, rng):
    """A batter found from oils gives those oils back, within what rounding did to the batter."""
    recipe = dict(recipe, scales=FINE, size={"oils_g": 750})
    whole = ask(recipe)
    if "solution-weak" in {finding["code"] for finding in whole["findings"]}:
        return []
    back = ask(dict(recipe, size={"batter_g": whole["batter_g"]}))
    return [] if near(sum(oil["exact_g"] for oil in back["oils"]), 750, 0.02) else [("oils", 750, back["oils_g"])]


def splitting_an_oil(recipe, rng):
    """An oil on two lines is one oil: alkali and the worst case by its value do not move."""
    first = recipe["oils"][0]
    unit = "percent" if "percent" in first else "grams"
    half = {**first, unit: first[unit] / 2}
    split = dict(recipe, scales=FINE, oils=[half, dict(half)] + recipe["oils"][1:])
    one, two = figures(ask(dict(recipe, scales=FINE))), figures(ask(split))
    return differing({k: one[k] for k in one if k.startswith(("alkali", "iodine", "likely", "worst"))}, two, 0.011)


CHANGES = (order_of_oils, scale_of_everything, oil_of_nothing, size_given_on_the_line, batter_of_oils, splitting_an_oil)


def main():
    rng, passed, failed = random.Random(SEED), 0, 0
    maker = Maker(random.Random(SEED), Facts())
    for index in range(ROUNDS):
        recipe = maker.recipe("change %d" % index)
        recipe.pop("mould", None)
        portions = [portion for portion in recipe.get("portions", []) if "layer_mm" not in portion]
        recipe["portions"] = portions or [{"name": "all", "rest": True}]
        for change in CHANGES:
            try:
                wrong = change(recipe, rng)
            except Refused as refusal:
                wrong = [("an answer", "a plan", str(refusal))]
            passed, failed = (passed, failed + 1) if wrong else (passed + 1, failed)
            if wrong:
                print("%s %s: %s" % (change.__name__, keep(recipe, "change-%d-%d" % (SEED, index)), wrong[:4]))
    return finish(passed, failed)


if __name__ == "__main__":
    sys.exit(main())
