"""What `lyeway plan FILE --json` has to print for a recipe, found a second time from the design's own words."""

from fractions import Fraction

import product
from formula import Formula, load_of
from margin import margin_of
from rows import M_KOH, MOLAR
from split import (Split, WeighedBatter, alone, asked_chance, batter_for_pieces, chance_of, made_from, pieces_to_pipe,
                   reject_prior)
from weigh import grams, weigh


def mould_ml(mould):
    if "box_mm" in mould:
        length, width, height = mould["box_mm"]
        volume = length * width * height / 1000
    elif "cylinder_mm" in mould:
        diameter, height = mould["cylinder_mm"]
        volume = Fraction(3.14159265358979) * diameter * diameter / 4 * height / 1000
    elif "ml" in mould:
        volume = mould["ml"]
    else:
        volume = mould["cavities"] * mould["cavity_ml"]
    return volume * mould.get("fill_percent", Fraction(100)) / 100


class Portion:
    """One portion as weighed: its doses, carriers, fragrance, filled mass, pieces and superfat."""

    def __init__(self, plan, asked, mass):
        self.asked, self.mass, self.g = asked, mass, grams(mass)
        self.technique = asked.get("technique", "pipe" if "pieces" in asked else "pour")
        batter, formula = plan.batter, plan.formula
        recipe, scales = formula.recipe, batter.scales
        self.share = self.g / grams(batter.mass)
        self.oils = self.share * grams(batter.oils_mass)
        self.fragrance, self.colourants, self.carriers = [], [], []
        if asked.get("scented") and recipe.get("scent") != "batter":
            for entry in recipe.get("fragrance", []):
                self.fragrance.append(weigh(scales, entry["fragrance"], load_of(entry, self.oils, self.g)))
        self.in_portion = recipe.get("colour") != "batter"
        self._colour(scales, self.oils if self.in_portion else grams(batter.oils_mass))
        doses = self.fragrance + (self.colourants if self.in_portion else [])
        self.filled = self.g + sum((item.g for item in doses), Fraction(0))
        self.filled += sum((item.g for item, extra in self.carriers if extra), Fraction(0))
        self.volume = float(self.g) / plan.density + self._doses_volume(formula.facts)

    def _colour(self, scales, oils):
        for dose in self.asked.get("colourants", []):
            mass = self._dose(dose, oils)
            item = weigh(scales, dose["colourant"], mass)
            self.colourants.append(item)
            if dose.get("carrier_oil"):
                carrier = weigh(scales, dose["carrier_oil"], mass * dose.get("carrier_ratio", Fraction(2)))
                self.carriers.append((carrier, dose.get("carrier_extra", True)))

    def _dose(self, dose, oils):
        if "parts" in dose:
            parts = sum(other.get("parts", 0) for other in self.asked["colourants"])
            return self._dose(self.asked["blend"], oils) * dose["parts"] / parts
        if "grams" in dose:
            return dose["grams"]
        if "g_per_kg_oils" in dose:
            return dose["g_per_kg_oils"] / 1000 * oils
        return dose["percent_of_portion"] / 100 * self.g

    def superfat(self, plan):
        """Carrier oil is extra, or was kept back from the recipe's own: then it lies in this portion's mass, and what
        was in the jug for all was poorer in that oil by all that was kept back."""
        reserve_mol = sum((plan.mol(item) for item in plan.kept_back()), Fraction(0))
        own_mol = sum((plan.mol(item) for item, _ in self.carriers), Fraction(0))
        # A superfat does not go by the amount: a portion that rounds to nothing has that of the jug.
        of_jug = self.of_jug if self.of_jug or own_mol else 1
        demand = (plan.demand - reserve_mol) * of_jug + own_mol
        return 1 - plan.net_alkali * of_jug / demand if demand else Fraction(0)

    def pour(self, plan):
        """What the portion has of all that was shared out of the jug: water and scent of the whole batter came from
        there too, and the oil that was kept back did not."""
        batter = plan.batter
        reserve = sum((item.g for item in plan.kept_back()), Fraction(0))
        mine = sum((item.g for item, extra in self.carriers if not extra), Fraction(0))
        self.of_jug = (self.g - mine) / (grams(batter.mass) - reserve)
        self.water = self.of_jug * batter.all_water
        scents = [item for item in batter.extras if item.key in plan.formula.facts.fragrances]
        self.fragrance_in_batter = {item.key: item.g * self.of_jug for item in scents}

    def _doses_volume(self, facts):
        volume = sum(float(item.g / facts.fragrances[item.key]["density"]) for item in self.fragrance)
        volume += sum(float(item.g) for item in self.colourants) if self.in_portion else 0.0
        extra_oils = [item for item, extra in self.carriers if extra]
        return volume + sum(float(item.g / product.oil_density(facts, item.key)) for item in extra_oils)

    def fragrance_shares(self):
        cured = product.cured_mass(self.filled, self.water)
        shares = {}
        for key, mass in [(item.key, item.g) for item in self.fragrance] + list(self.fragrance_in_batter.items()):
            share = mass / cured if cured else Fraction(0)  # a portion may round to nothing
            shares[key] = shares.get(key, Fraction(0)) + share
        return shares

    def made(self):
        """Pieces that the portion is expected to make and the numbers of bags for it; None without pieces."""
        wish = self.asked.get("pieces")
        if wish is None:
            return None
        if alone(self.asked):
            _, count, bags = batter_for_pieces(wish)
            return count, {bags}
        return made_from(self.g, wish)

    def pieces(self, plan):
        """What is to be said of its pieces; a kind in several parts is made as often as the scarcest part allows."""
        wish = self.asked.get("pieces")
        if wish is None:
            return None
        kind = wish.get("kind")
        same = [p for p in plan.portions if p is self or (kind and p.asked.get("pieces", {}).get("kind") == kind)]
        made, prior = min(p.made()[0] for p in same), reject_prior(wish)
        return {"wanted": wish["count"], "to_pipe": pieces_to_pipe(wish["count"], asked_chance(wish), prior),
                "chance": chance_of(wish["count"], made, prior), "good": Fraction(prior[1], sum(prior)) * made,
                "bags": self.made()[1], "asked": asked_chance(wish), "mass": wish["mass_g"]}


class Plan:
    """`oils`: the exact grams of oils where they were found elsewhere (sizes.py)."""

    def __init__(self, recipe, facts, oils=None):
        self.recipe = recipe
        self.formula = Formula(recipe, facts)
        self.oils = self._size() if oils is None else oils
        self.exact = self.formula.at(self.oils)
        self.batter = WeighedBatter(self.formula, self.exact)
        self.margin = margin_of(self.formula, self.batter).summary()
        self.demand, self.net_alkali = self._moles()
        self.volume = product.batter_volume(self.formula, self.batter)
        self.density = float(grams(self.batter.mass)) / self.volume
        self.split = Split(recipe, self.batter, self._per_layer())
        self.portions = []
        if self.split.stop is None:
            self.portions = [Portion(self, a, m) for a, m in zip(self.split.asked_of, self.split.mass)]
        for portion in self.portions:
            portion.pour(self)
        self._fragrance()

    def _size(self):
        size = self.recipe.get("size", {})
        if "oils_g" in size:
            return size["oils_g"]
        if "batter_g" in size:
            return self.formula.oils_for_batter(size["batter_g"])
        if not size:
            return self.formula.entered
        return None

    def _moles(self):
        """Nominal demand of the fats and alkali not taken by acid, in mol, from rounded masses."""
        formula, batter = self.formula, self.batter
        demand = sum(item.g * sap[1] / 1000 / M_KOH for item, sap in zip(batter.oils, formula.sap))
        acid = Fraction(0)
        for item, fact in batter.additives + batter.liquids:
            acid += item.g * fact["acid"]
            demand += item.g * fact["fat"] * formula.demand_of_fat(fact["fat_oil"])
        alkali = sum(batter.alkali_g[k] * formula.purity[k][1] / MOLAR[k] for k in formula.kinds)
        return demand, alkali - acid

    def kept_back(self):
        """Carriers that are the recipe's own oil."""
        return [item for portion in self.portions for item, extra in portion.carriers if not extra]

    def mol(self, carrier):
        """Hydroxide that a carrier oil would take up."""
        return carrier.g * self.formula.sap_of(carrier.key) / 1000 / M_KOH

    def _per_layer(self):
        mould = self.recipe.get("size", {}).get("mould", self.recipe.get("mould", {}))
        if "box_mm" not in mould:
            return Fraction(0)
        return Fraction(mould["box_mm"][0] * mould["box_mm"][1]) / 1000 * Fraction(self.density)

    def _fragrance(self):
        entries = self.recipe.get("fragrance", [])
        scented = [p for p in self.portions if p.fragrance or p.fragrance_in_batter]
        self.worst_shares, self.limits, self.allergens, self.fragrance_g = {}, [], {}, {}
        for entry in entries:
            key = entry["fragrance"]
            self.fragrance_g[key] = sum((i.g for p in self.portions for i in p.fragrance if i.key == key), Fraction(0))
            self.fragrance_g[key] += sum((i.g for i in self.batter.extras if i.key == key), Fraction(0))
        if scented:
            shares = [portion.fragrance_shares() for portion in scented]
            self.worst_shares = max(shares, key=lambda blend: sum(blend.values()))
            facts = self.formula.facts
            self.limits = sorted(limit for blend in shares for limit in product.limits(facts, entries, blend))
            self.allergens = product.allergens(self.formula.facts, self.worst_shares)
