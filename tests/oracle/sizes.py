"""Sizes that the text gives by what the batter has to fill or make: oils found by trial on an exact plan.

Both readings that the words allow are offered where they leave two; a figure has to agree with one of them.
"""

from fractions import Fraction

from oracle import Plan, mould_ml
from split import CUP, batter_for_pieces
from weigh import grams

EXACT = [{"division_g": Fraction(1, 10**6), "capacity_g": Fraction(10**6)}]


def exact_plan(recipe, facts, oils):
    """The plan on a scale without divisions that matter."""
    bare = {key: value for key, value in recipe.items() if key not in ("scales", "size")}
    bare["scales"], bare["size"] = EXACT, {key: value for key, value in recipe["size"].items() if key == "mould"}
    return Plan(bare, facts, oils)


def filled_by_volume(plan):
    return sum(portion.volume for portion in plan.portions)


def filled_by_mass(plan):
    """Grams of batter and doses at the density of the batter."""
    return float(sum(portion.filled for portion in plan.portions)) / plan.density


def solve(recipe, facts, wanted, filled):
    """Oils at which `filled` of the plan is `wanted`, by secants; None where the split does not come out."""
    low, high = Fraction(wanted * 0.4), Fraction(wanted * 0.9)
    at_low, at_high = (exact_plan(recipe, facts, oils) for oils in (low, high))
    for _ in range(12):
        if not at_low.portions or not at_high.portions:
            return None
        left, right = filled(at_low) - wanted, filled(at_high) - wanted
        if abs(right) < 1e-7 or left == right:
            break
        step = Fraction(round(float(high) - right * float(high - low) / (right - left), 9)).limit_denominator(10**9)
        low, high, at_low, at_high = high, step, at_high, exact_plan(recipe, facts, max(step, Fraction(1)))
    return high


def candidates(recipe, facts):
    """Exact grams of oils that a size by mould or pieces may mean."""
    size, formula = recipe["size"], exact_plan(recipe, facts, Fraction(100)).formula
    if "mould" in size:
        wanted = float(mould_ml(size["mould"]))
        found = [solve(recipe, facts, wanted, filled) for filled in (filled_by_volume, filled_by_mass)]
        return [oils for oils in found if oils is not None]
    need = batter_for_pieces(size["pieces"])[0]
    return [formula.oils_for_batter(with_residue(recipe, mass)) for mass in (need + CUP, need)]


def with_residue(recipe, usable):
    """Batter that leaves so much usable after the jug's residue."""
    if "jug_residue_g" in recipe:
        return usable + recipe["jug_residue_g"]
    if "jug_residue_percent" in recipe:
        return usable / (1 - recipe["jug_residue_percent"] / 100)
    return usable + 8 if usable >= 152 else usable / Fraction(95, 100)
