"""Random recipes that the exchange format allows, all its features mixed. Same seed, same recipes."""

PUBLISHED = ["olive", "coconut", "palm", "castor", "shea-butter", "sunflower", "rapeseed-low-erucic", "cocoa-butter",
             "lard", "tallow-beef", "babassu", "almond-sweet", "rice-bran", "beeswax", "stearic-acid", "butterfat",
             "jojoba", "flaxseed", "tamanu", "palm-kernel", "avocado"]
OWN_NAMES = ["House blend", "Old jar", "Neighbour's fat"]
COLOURANTS = ["titanium-dioxide", "chromium-oxide-green", "ultramarine-blue", "turmeric", "spirulina", "mica-carmine",
              "kaolin", "activated-charcoal", "madder-root"]
FRAGRANCES = ["lavender", "lemongrass", "clove-bud", "rose-otto", "peppermint", "ylang", "orange-sweet",
              "basil-estragole", "wintergreen", "cassia", "cedarwood-atlas", "geranium", "neroli"]
SCALES = [[(1, 5000)], [(1, 5000), (0.01, 200)], [(1, 5000), (0.1, 500), (0.01, 100)], [(0.1, 3000)],
          [(5, 20000), (0.5, 1000)], [(2, 10000), (0.01, 300)], [(1, 600), (0.1, 200)]]
PURITY = [97, 99.1, [98, 99.5], [97, 100], {"nominal": 99, "range": [98, 100]}]
KOH_PURITY = [90, 85.5, [88, 92], {"nominal": 90, "range": [85, 92]}]


class Maker:
    def __init__(self, random, facts):
        self.random, self.facts = random, facts

    def chance(self, percent):
        return self.random.random() * 100 < percent

    def some(self, lo, hi, digits=1):
        return round(self.random.uniform(lo, hi), digits)

    def shares(self, count, total=100):
        """Whole or half percents that sum to the total exactly."""
        cuts = sorted(self.random.sample(range(1, 2 * total), count - 1))
        return [(b - a) / 2 for a, b in zip([0] + cuts, cuts + [2 * total])]

    def recipe(self, name):
        random = self.random
        recipe = {"name": name, "oils": self.oils(), "superfat_percent": random.choice([0, 2, 3, 5, 5, 5, 6.5, 8, 15])}
        if self.chance(30):
            recipe["purpose"] = random.choice(["skin", "shaving", "cleaning", "liquid"])
        self.size(recipe)
        self.alkali(recipe)
        self.water(recipe)
        self.additives(recipe)
        if self.chance(75):
            recipe["scales"] = self.scales()
        if self.chance(40):
            recipe["jug_residue_g"] = random.choice([0, 5, 8, 12.5, 20])
        elif self.chance(15):
            recipe["jug_residue_percent"] = random.choice([1, 2.5])
        if self.chance(60):
            recipe["fragrance"] = self.fragrance()
        if self.chance(75):
            recipe["portions"] = self.portions(recipe)
        if "fragrance" in recipe and self.chance(10):
            recipe["scent"] = "batter"
        if self.chance(6):
            self.coloured_whole(recipe)
        return recipe

    def coloured_whole(self, recipe):
        """Colour in the batter before the split: doses of the whole."""
        recipe["colour"] = "batter"
        for portion in recipe.get("portions", []):
            portion.pop("blend", None)
            if "colourants" in portion:
                names = [dose["colourant"] for dose in portion["colourants"]]
                portion["colourants"] = [{"colourant": name, "g_per_kg_oils": 3} for name in names]

    def oils(self):
        random = self.random
        names = random.sample(PUBLISHED, random.randint(1, 6))
        if len(names) > 2 and self.chance(8):
            names[-1] = names[0]
        if self.chance(15):
            names[-1] = random.choice(OWN_NAMES)
        percent = self.chance(65)
        amounts = self.shares(len(names)) if percent else [self.some(3, 600) for _ in names]
        oils = []
        for name, amount in zip(names, amounts):
            oil = {"oil": name, "percent" if percent else "grams": amount}
            if name in OWN_NAMES or (names.count(name) == 1 and name != "butterfat" and self.chance(12)):
                self.own_value(oil)
            oils.append(oil)
        if percent and len(oils) > 1 and self.chance(5):
            oils.append({"oil": next(name for name in PUBLISHED if name not in names), "percent": 0})
        return oils

    def own_value(self, oil):
        fact = self.facts.oils.get(oil["oil"])
        middle = float(fact["sap"][1]) if fact else self.random.choice([190.5, 205, 188, 140])
        value = round(middle * self.random.choice([0.99, 1, 1.01, 1.12]), 1)
        oil["sap"] = value
        if self.chance(60):
            oil["sap_range"] = [round(value - self.some(0, 5), 1), round(value + self.some(0, 5), 1)]

    def size(self, recipe):
        by_grams = "grams" in recipe["oils"][0]
        kind = self.random.choices(["none", "oils", "batter", "mould", "pieces"], [3 if by_grams else 0, 6, 3, 2, 1])[0]
        if kind == "oils":
            recipe["size"] = {"oils_g": self.random.choice([1000, 200, 190, 453.6, 750.5, 2500, self.some(60, 3000)])}
        elif kind == "batter":
            recipe["size"] = {"batter_g": self.random.choice([1500, 999.9, self.some(150, 4000)])}
        elif kind == "mould":
            recipe["size"] = {"mould": self.mould()}
        elif kind == "pieces":
            recipe["size"] = {"pieces": dict(self.pieces(), mass_g=self.some(5, 30))}
        if kind != "mould" and self.chance(12):
            recipe["mould"] = self.mould()

    def mould(self):
        mould = self.random.choice([{"box_mm": [250, 90, 70]}, {"box_mm": [310.5, 76, 55]}, {"cylinder_mm": [80, 250]},
                                    {"ml": 1200}, {"cavities": 12, "cavity_ml": 95.5}])
        mould = dict(mould)
        if self.chance(50):
            mould["fill_percent"] = self.random.choice([80, 95, 90.5])
        return mould

    def pieces(self):
        pieces = {"count": self.random.choice([6, 12, 24, 40]), "mass_g": self.some(0.9, 7)}
        if self.chance(60):
            pieces["class"] = self.random.choice(["simple", "flower"])
        if self.chance(15):
            pieces["first_time"] = True
        if self.chance(25):
            pieces["chance_percent"] = self.random.choice([80, 95, 66.5])
        return pieces

    def alkali(self, recipe):
        if self.chance(35):
            return
        alkali = {}
        if self.chance(40):
            alkali["potassium_percent"] = self.random.choice([100, 10, 60, 33.3, 5])
        if self.chance(60):
            alkali["naoh_purity_percent"] = self.random.choice(PURITY)
        if self.chance(40):
            alkali["koh_purity_percent"] = self.random.choice(KOH_PURITY)
        if self.chance(15):
            alkali["naoh_solution_percent"] = self.random.choice([50, 45, 33])
        if self.chance(8):
            alkali["koh_solution_percent"] = self.random.choice([50, 45])
        recipe["alkali"] = alkali

    def water(self, recipe):
        random = self.random
        water = random.choice([{"strength_percent": random.choice([33, 28, 25, 30.5, 40, 38, 22, 45, 55])},
                               {"ratio": random.choice([2, 1.8, 2.5, 1.5, 3])},
                               {"percent_of_oils": random.choice([38, 30, 33.3])}])
        if self.chance(25):
            water["temp_c"] = random.choice([5, 10, 25, 40])
        if self.chance(25):
            names = random.sample(sorted(set(self.facts.liquids) - {"water"}), random.choice([1, 1, 2]))
            water["liquids"] = [{"liquid": name, "percent_of_water": random.choice([10, 25, 50, 100]) / len(names)}
                                for name in names]
        recipe["water"] = water

    def additives(self, recipe):
        if self.chance(55):
            return
        entries = []
        for name in self.random.sample(sorted(self.facts.additives), self.random.choice([1, 1, 2, 3])):
            if self.chance(75):
                entries.append({"additive": name, "percent_of_oils": self.random.choice([0.1, 0.5, 1, 1.5, 3])})
            else:
                entries.append({"additive": name, "grams": self.some(0.5, 20)})
        recipe["additives"] = entries

    def scales(self):
        entries = []
        for division, capacity in self.random.choice(SCALES):
            entry = {"division_g": division, "capacity_g": capacity}
            if self.chance(20):
                entry["accuracy_g"] = self.random.choice([division, 2 * division])
            if self.chance(20):
                entry["vessel_g"] = self.random.choice([30, 55.5]) if capacity < 400 else 150
            entries.append(entry)
        return entries

    def fragrance(self):
        certified, entries = self.chance(25), []
        kind = self.random.choices(["percent_of_oils", "percent_of_batter", "g_per_kg_oils"], [6, 2, 2])[0]
        for name in self.random.sample(FRAGRANCES, self.random.choice([1, 1, 1, 2, 3])):
            entry = {"fragrance": name, kind: self.some(3, 40) if kind == "g_per_kg_oils" else self.some(0.2, 4)}
            if certified:
                entry.update(limit_percent=self.random.choice([0.5, 2, 5.5, 12]), limit_from="supplier's certificate")
            entries.append(entry)
        return entries

    def portions(self, recipe):
        random = self.random
        count = random.choice([1, 2, 2, 3, 3, 4])
        portions = []
        shares = self.shares(count, random.choice([100, 100, 80, 95]))
        rests = random.choice([0, 1, 1, 1, 2])
        for index in range(count):
            portion = {"name": "part %d" % (index + 1)}
            if index >= count - rests:
                portion["rest"] = True
            elif self.chance(15):
                portion["grams"] = self.some(20, 120)
            elif self.chance(12):
                portion["pieces"] = dict(self.pieces(), kind="kind %d" % index, mass_g=self.some(0.5, 3))
            elif "box_mm" in recipe.get("size", {}).get("mould", recipe.get("mould", {})) and self.chance(20):
                portion["layer_mm"] = random.choice([5, 8, 12])
            else:
                portion["percent"] = shares[index]
            if "pieces" not in portion and self.chance(20):
                portion["pieces"] = dict(self.pieces(), kind="kind %d" % index)
            if self.chance(60):
                portion["scented"] = self.chance(80)
            if self.chance(30):
                portion["technique"] = random.choice(["pour", "swirl", "layer", "pipe", "mould"])
            if self.chance(60):
                portion["colourants"] = self.colourants()
                if self.chance(12):
                    self.blend(portion)
            portions.append(portion)
        if self.chance(12):
            self.same_kind(portions)
        if self.chance(10):
            self.reserved(recipe, portions)
        if self.chance(4):
            portions[0] = {"name": portions[0]["name"], "percent": 100}
            portions.append({"name": "too much", "percent": 20})
        return portions

    @staticmethod
    def same_kind(portions):
        """Portions with pieces become parts of one kind."""
        for portion in portions:
            if "pieces" in portion:
                portion["pieces"]["kind"] = "blossom"

    def reserved(self, recipe, portions):
        """Colourants dispersed in some of the recipe's own oils, where there is enough of them."""
        amounts = [(line["oil"], line.get("percent", line.get("grams"))) for line in recipe["oils"]]
        least = sum(amount for _, amount in amounts) / 10
        enough = [oil for oil, amount in amounts if oil in self.facts.oils and amount >= least]
        if not enough:
            return
        for portion in [portions[-1]] + [other for other in portions[:-1] if self.chance(50)]:
            dose = {"colourant": "kaolin", "g_per_kg_oils": 5, "carrier_oil": self.random.choice(enough)}
            portion.pop("blend", None)
            portion["colourants"] = [dict(dose, carrier_ratio=self.random.choice([2, 3, 4]), carrier_extra=False)]

    def blend(self, portion):
        """The portion's colourants as parts of one blend."""
        for dose in portion["colourants"]:
            for kind in ("g_per_kg_oils", "grams", "percent_of_portion"):
                dose.pop(kind, None)
            dose["parts"] = self.random.choice([1, 2, 3.5])
        portion["blend"] = self.random.choice([{"g_per_kg_oils": 6}, {"grams": 3.3}, {"percent_of_portion": 0.7}])

    def colourants(self):
        doses = []
        for name in self.random.sample(COLOURANTS, self.random.choice([1, 1, 2, 3])):
            kind = self.random.choice(["g_per_kg_oils", "g_per_kg_oils", "grams", "percent_of_portion"])
            amounts = {"grams": self.some(0.2, 3), "percent_of_portion": self.some(0.1, 0.8),
                       "g_per_kg_oils": self.random.choice([2, 4, 5, 7.5])}
            dose = {"colourant": name, kind: amounts[kind]}
            if self.chance(25):
                dose.update(carrier_oil=self.random.choice(["castor", "sunflower", "olive"]),
                            carrier_ratio=self.random.choice([1, 2, 3]))
            doses.append(dose)
        return doses
