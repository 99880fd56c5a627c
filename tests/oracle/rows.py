"""The reference tables as this check reads them: straight from the tab-separated files, on its own.

Numbers are exact fractions (what the file prints is what is meant); percents of the files become shares.
"""

import os
from fractions import Fraction

HERE = os.path.dirname(os.path.abspath(__file__))
FOLDER = os.environ.get("LYEWAY_REFERENCE", os.path.join(HERE, "..", "..", "schema", "reference"))

M_NAOH = Fraction("39.99677")  # g/mol, from the CIAAW standard atomic weights
M_KOH = Fraction("56.10530")
MOLAR = {"NaOH": M_NAOH, "KOH": M_KOH}
M_WATER = Fraction("18.015")


def table(name):
    """Rows of a table as dicts by column; lines that begin with # are comments."""
    with open(os.path.join(FOLDER, name + ".tsv"), encoding="utf-8") as file:
        lines = [line.rstrip("\n").split("\t") for line in file if line.strip() and not line.startswith("#")]
    return [dict(zip(lines[0], line + [""] * (len(lines[0]) - len(line)))) for line in lines[1:]]


def number(text, otherwise=None):
    """The exact value of a cell; `otherwise` where the cell holds none."""
    try:
        return Fraction(text.strip())
    except ValueError:
        return otherwise


def percent(text, otherwise=None):
    value = number(text, None)
    return otherwise if value is None else value / 100


class Facts:
    """Every table this check needs, by key."""

    def __init__(self):
        self.acids = {row["key"]: row for row in table("fatty_acid_constants")}
        self.oils = {row["key"]: self._oil(row) for row in table("oils")}
        for row in table("fatty_acids"):
            self.oils[row["key"]]["acids"] = self._acids(row)
        self.additives = {row["key"]: self._additive(row) for row in table("additives")}
        self.liquids = {row["key"]: self._liquid(row) for row in table("liquids")}
        self.colourants = {row["key"]: row["high_ph_behaviour"] for row in table("colourants")}
        self.allergens = {row["key"]: row["inci_label"] for row in table("allergens_eu")}
        self.limits = {row["key"]: self._limit(row) for row in table("fragrance_limits")}
        self.fragrances = {row["key"]: self._fragrance(row) for row in table("essential_oils")}
        self._lye_tables()

    @staticmethod
    def _oil(row):
        return {"key": row["key"], "sap": tuple(number(row[c]) for c in ("sap_lo", "sap_nominal", "sap_hi")),
                "iodine": (number(row["iodine_lo"]), number(row["iodine_hi"])),
                "density": number(row["density_g_ml"]), "temp": number(row["density_temp_c"], Fraction(20)), "acids": None}

    def _acids(self, row):
        typical = {key: number(row.get(key + "_typ", ""), Fraction(0)) for key in self.acids}
        return {key: value / sum(typical.values()) for key, value in typical.items() if value}

    @staticmethod
    def _additive(row):
        molar, active = number(row["molar_mass_g_mol"]), number(row["active_share"], Fraction(1))
        equivalents = number(row["hydroxide_equiv_per_mol"], Fraction(0))
        return {"acid": active * equivalents / molar if molar else Fraction(0), "density": number(row["density_g_ml"]),
                "water": number(row["water_share"], Fraction(0)), "fat": number(row["fat_share"], Fraction(0)),
                "fat_oil": row["fat_oil_key"].strip(), "usual": (percent(row["usual_lo_percent_oils"]),
                                                                 percent(row["usual_hi_percent_oils"]))}

    @staticmethod
    def _liquid(row):
        return {"acid": number(row["acid_mol_per_kg"], Fraction(0)) / 1000, "water": number(row["water_share"]),
                "fat": number(row["fat_share"], Fraction(0)), "fat_oil": row["fat_oil_key"].strip(),
                "sugar": number(row["sugar_share"], Fraction(0))}

    def _limit(self, row):
        caps = [cap for cap in (percent(row["cat9_max_pct"]), percent(row["eu_max_rinse_off_pct"])) if cap is not None]
        label = row["inci_label"]
        allergen = row["key"] if row["key"] in self.allergens else None
        if allergen is None and row["kind"] != "phototoxic":
            allergen = next((key for key, name in self.allergens.items() if name == label), None)
        return {"cap": min(caps) if caps else None, "seen": row["confidence"] == "sourced", "allergen": allergen,
                "unknown": not caps and row["cat9_max_pct"].strip() == "-"}

    @staticmethod
    def _fragrance(row):
        parts = {}
        for part in row["constituents_pct_lo_hi"].split(";"):
            if "=" in part:
                key, span = part.split("=")
                parts[key.strip()] = percent(span.split("-")[-1])
        middle = (number(row["density20_lo_g_ml"], Fraction(1)) + number(row["density20_hi_g_ml"], Fraction(1))) / 2
        allergen = row["oil_allergen_key"].strip()
        return {"parts": parts, "density": middle, "allergen": None if allergen in ("-", "") else allergen,
                "fast": row["batter_behaviour"]}

    def _lye_tables(self):
        self.density = {}
        for row in table("lye_solution_density"):
            if "PREFERRED" in row["source"]:
                column = self.density.setdefault((row["solute"], float(row["temp_c"])), {})
                column[float(row["mass_percent"]) / 100] = float(row["density_g_ml"])
        self.heat = {"NaOH": {}, "KOH": {}}
        self.capacity = {"NaOH": {}, "KOH": {}}
        self.boiling = {"NaOH": {}, "KOH": {}}
        for row in table("lye_solution_heat"):
            self._heat_row(row)

    def _heat_row(self, row):
        section, solute, quantity = row["section"], row["solute"], row["quantity"]
        if section.startswith("2") and "Circ. 500" not in quantity:
            self.heat[solute][float(row["mol_water_per_mol"])] = float(row["value"]) * 1000
        elif section.startswith("3") and quantity == "specific heat of solution" and float(row["temp_c"]) == 60:
            self.capacity[solute].setdefault(float(row["mass_percent"]) / 100, float(row["value"]))
        elif section.startswith("5"):
            self.boiling[solute].setdefault(float(row["mass_percent"]) / 100, float(row["value"]))


def interpolate(points, x):
    """Straight lines between the points of a dict, flat beyond its ends."""
    xs = sorted(points)
    if x <= xs[0]:
        return points[xs[0]]
    for left, right in zip(xs, xs[1:]):
        if x <= right:
            return points[left] + (points[right] - points[left]) * (x - left) / (right - left)
    return points[xs[-1]]
