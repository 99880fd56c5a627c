"""What `lyeway plan FILE --json` has to print for a recipe, found a second time from the design's own words."""

from fractions import Fraction

import product
from formula import Formula, load_of
from margin import margin_of
from rows import M_KOH, MOLAR
from split import Split, WeighedBatter, asked_chance, batter_for_pieces, chance_of, made_from, pieces_to_pipe, reject_prior
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
        self.water = self.share * batter.all_water
        self.fragrance_in_batter = {e.key: e.g * self.share for e in batter.extras if e.key in formula.facts.fragrances}
        self.superfat = self._superfat(plan)
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
            return self._dose(self.asked["blend"], oils) * dose["parts"] / sum(d.get("parts", 0) for d in self.asked["colourants"])
        if "grams" in dose:
            return dose["grams"]
        if "g_per_kg_oils" in dose:
            return dose["g_per_kg_oils"] / 1000 * oils
        return dose["percent_of_portion"] / 100 * self.g

    def _superfat(self, plan):
        demand, net = plan.demand * self.share, plan.net_alkali * self.share
        for item, extra in self.carriers:
            if extra:
                demand += item.g * plan.formula.sap_of(item.key) / 1000 / M_KOH
        return 1 - net / demand if demand else Fraction(0)

    def _doses_volume(self, facts):
        volume = sum(float(item.g / facts.fragrances[item.key]["density"]) for item in self.fragrance)
        volume += sum(float(item.g) for item in self.colourants) if self.in_portion else 0.0
        return volume + sum(float(item.g / product.oil_density(facts, item.key)) for item, extra in self.carriers if extra)

    def fragrance_shares(self):
        cured = product.cured_mass(self.filled, self.water)
        shares = {}
        for key, mass in [(item.key, item.g) for item in self.fragrance] + list(self.fragrance_in_batter.items()):
            shares[key] = shares.get(key, Fraction(0)) + mass / cured
        return shares

    def pieces(self):
        """(wanted, to pipe, chance, expected good, bags), or None."""
        wish = self.asked.get("pieces")
        if wish is None:
            return None
        prior = reject_prior(wish)
        need = pieces_to_pipe(wish["count"], asked_chance(wish), prior)
        alone = not any(name in self.asked for name in ("percent", "grams", "layer_mm", "rest"))
        made, bags = (need, {batter_for_pieces(wish)[2]}) if alone else made_from(self.g, wish)
        good = Fraction(prior[1], sum(prior)) * made
        return {"wanted": wish["count"], "to_pipe": need, "chance": chance_of(wish["count"], made, prior),
                "good": good, "bags": bags, "asked": asked_chance(wish)}


class Plan:
    """`oils` replaces the exact grams of oils, where an earlier answer is taken over (a size that the text gives only in
    outline: a mould, a number of pieces)."""

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
            self.limits = sorted(limit for blend in shares for limit in product.limits(self.formula.facts, entries, blend))
            self.allergens = product.allergens(self.formula.facts, self.worst_shares)
