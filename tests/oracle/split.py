"""Sections 5, 6, 8: the batter as weighed, its portions, their doses and pieces."""

from fractions import Fraction
from functools import lru_cache
from math import ceil, floor, sqrt
from statistics import NormalDist

from weigh import MICRO, down, grams, hamilton, micro, nearest, pick, scales_of, weigh, weigh_oils

CUP, BAG_FILL, BAG_LOSS = 4, 175, 15  # g: colour cup; fill; first squeeze 3 and residue 12
WITHIN, BETWEEN = 0.15, 0.05
CLASS = {"simple": (2, 24), "flower": (3, 22)}
FIRST_TIME = (4, 16)


class WeighedBatter:
    """Everything of a formula as the scales read it."""

    def __init__(self, formula, exact):
        recipe = formula.recipe
        self.scales = scales_of(recipe)
        self.oils = weigh_oils(self.scales, formula.keys, exact.oil, formula.by_percent)
        self.additives = [(weigh(self.scales, key, mass), fact) for key, mass, fact in exact.additives]
        self.liquids = [(weigh(self.scales, key, mass), fact) for key, mass, fact in exact.liquids]
        self.alkali, self.alkali_g = {}, {}
        for kind in formula.kinds:
            item = weigh(self.scales, kind, exact.solution.get(kind, exact.alkali[kind]), down)
            self.alkali[kind] = item
            self.alkali_g[kind] = item.g * (formula.solution[kind] or 1)
        self.water = weigh(self.scales, "water", max(exact.plain, Fraction(0)))
        self.oils_mass = sum(item.mass for item in self.oils)
        self.lye_water = self.water.g + sum(item.g - self.alkali_g[k] for k, item in self.alkali.items())
        self.lye_water += sum(item.g * fact["water"] for item, fact in self.liquids)
        self.all_water = self.lye_water + sum(item.g * fact["water"] for item, fact in self.additives)
        parts = self.oils + [item for item, _ in self.additives + self.liquids] + list(self.alkali.values())
        alone = sum(item.mass for item in parts + [self.water])
        doses = formula.in_batter(grams(self.oils_mass), grams(alone))
        self.extras = [weigh(self.scales, key, mass) for key, mass in doses]
        self.mass = alone + sum(item.mass for item in self.extras)
        total = sum(self.alkali_g.values())
        self.strength = total / (total + self.all_water) if total + self.all_water else Fraction(0)


def reject_prior(pieces):
    return FIRST_TIME if pieces.get("first_time") else CLASS[pieces.get("class", "simple")]


def good_distribution(count, prior):
    """P(good = 0 .. count): good of a beta-binomial whose rejects have Beta(a, b), by the ratio of neighbours."""
    a, b = (Fraction(value) for value in prior)
    reject = Fraction(1)  # P(no reject) = prod (b + i) / (a + b + i)
    for i in range(count):
        reject *= (b + i) / (a + b + i)
    chances = [Fraction(0)] * (count + 1)
    for k in range(count + 1):
        chances[count - k] = reject
        if k < count:
            reject *= Fraction(count - k, k + 1) * (a + k) / (b + count - k - 1)
    return chances


def chance_of(wanted, count, prior):
    return sum(good_distribution(count, prior)[int(wanted):]) if count >= wanted else Fraction(0)


@lru_cache(maxsize=None)
def pieces_to_pipe(wanted, chance, prior):
    count = int(wanted)
    while chance_of(wanted, count, prior) < chance:
        count += 1
    return count


def shared_pieces(portions):
    """Each portion's pieces; those of one kind are parts of it and share one number, that of the most demanding."""
    wishes = [portion.get("pieces") for portion in portions]
    result = []
    for wish in wishes:
        same = [other for other in wishes if other and wish and wish.get("kind") and other.get("kind") == wish["kind"]]
        if len(same) > 1:
            wish = dict(wish, count=max(other["count"] for other in same),
                        chance_percent=max(100 * asked_chance(other) for other in same),
                        first_time=any(other.get("first_time") for other in same),
                        **{"class": "flower" if any(other.get("class") == "flower" for other in same) else "simple"})
        result.append(wish)
    return result


def alone(portion):
    """Pieces are all that the portion asks for."""
    return "pieces" in portion and not any(name in portion for name in ("percent", "grams", "layer_mm", "rest"))


def asked_chance(pieces):
    return pieces.get("chance_percent", Fraction(90)) / 100


def batter_for_pieces(pieces):
    """(grams for the pieces with the chance and the bags' losses, pieces, bags); the cup's residue not counted."""
    count = pieces_to_pipe(pieces["count"], asked_chance(pieces), reject_prior(pieces))
    mean = float(pieces["mass_g"])
    z = NormalDist().inv_cdf(float(asked_chance(pieces)))
    mass = count * mean + z * sqrt(count * (WITHIN * mean) ** 2 + (count * BETWEEN * mean) ** 2)
    bags = ceil(mass / (BAG_FILL - BAG_LOSS) - 1e-12)
    return Fraction(mass + BAG_LOSS * bags), count, bags


def made_from(batter_g, pieces):
    """Pieces that so much batter is expected to make, and the numbers of bags that put most of it into pieces."""
    inside, best, bags = batter_g - CUP, Fraction(0), {0, 1}
    for count in range(1, ceil(batter_g / BAG_FILL) + 2):
        mass = min(inside - BAG_LOSS * count, Fraction((BAG_FILL - BAG_LOSS) * count))
        if mass > best:
            best, bags = mass, set()
        if mass == best > 0:
            bags.add(count)
    return floor(best / pieces["mass_g"]), bags


class Split:
    """Portions of the usable batter. `stop` is the finding that makes the split invalid, None without."""

    def __init__(self, recipe, batter, per_layer_mm):
        self.asked = [dict(portion) for portion in recipe.get("portions") or [{"name": None, "rest": True}]]
        for portion, wish in zip(self.asked, shared_pieces(self.asked)):
            if wish:
                portion["pieces"] = wish
        self.batter = batter
        total = grams(batter.mass)
        if "jug_residue_g" in recipe:
            self.residue = recipe["jug_residue_g"]
        elif "jug_residue_percent" in recipe:
            self.residue = recipe["jug_residue_percent"] / 100 * total
        else:
            self.residue = min(Fraction(8), total / 20)
        self.usable_exact = total - self.residue
        self.fixed = [self._fixed(portion, per_layer_mm) for portion in self.asked]
        self.stop = None
        self._share_out()

    @staticmethod
    def _fixed(portion, per_layer_mm):
        """Grams of a portion that asks for an amount, else None."""
        if "grams" in portion:
            return portion["grams"]
        if "layer_mm" in portion:
            return portion["layer_mm"] * per_layer_mm
        if alone(portion):
            return batter_for_pieces(portion["pieces"])[0] + CUP
        return None

    def _exact_parts(self, usable):
        percents = [portion.get("percent", Fraction(0)) / 100 * usable for portion in self.asked]
        rests = [index for index, portion in enumerate(self.asked) if portion.get("rest")]
        left = usable - sum(mass for mass in self.fixed if mass is not None) - sum(percents)
        parts = [fixed if fixed is not None else part for fixed, part in zip(self.fixed, percents)]
        for index in rests:
            parts[index] = left / len(rests)
        return parts, left, bool(rests)

    def _share_out(self):
        if sum(portion.get("percent", Fraction(0)) for portion in self.asked) > 100:
            self.stop = "portions-over"
            return
        parts, left, has_rest = self._exact_parts(self.usable_exact)
        if left < 0:
            self.stop = "portions-short"
            self.missing = -left
            return
        largest = max(parts + ([left] if not has_rest else []))
        self.division = pick(self.batter.scales, largest)[0].division
        usable = down(micro(self.usable_exact), self.division)
        fixed = {i: nearest(micro(mass), self.division) for i, mass in enumerate(self.fixed) if mass is not None}
        self.fixed = [grams(fixed[i]) if i in fixed else None for i in range(len(parts))]
        parts, left, has_rest = self._exact_parts(grams(usable))
        sharing = [i for i in range(len(parts)) if i not in fixed]
        remains = usable - sum(fixed.values())
        weights = [parts[i] for i in sharing]
        self.names = [portion["name"] for portion in self.asked]
        self.asked_of = list(self.asked)
        # Rounding alone can leave a last division over where percents and amounts take all: it is then nobody's.
        if not has_rest and left > Fraction(self.division, 2 * MICRO):
            weights.append(left)
            self.names.append("leftover")
            self.asked_of.append({"name": "leftover"})
        shared = hamilton(weights, remains, self.division) if sum(weights) > 0 else [0] * len(weights)
        self.mass = [fixed.get(i, 0) for i in range(len(parts))] + [0] * (len(self.names) - len(parts))
        for i, mass in zip(sharing + list(range(len(parts), len(self.names))), shared):
            self.mass[i] = mass
        self.left_in_jug = self.batter.mass - sum(self.mass)
