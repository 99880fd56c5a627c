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
        self.acids = {row["key"]: {"iodine": number(row["iodine_factor"]),
                                   "oxidisability": number(row["oxidisability"])} for row in table("acids")}
        self.oils = {row["key"]: self._oil(row) for row in table("oils")}
        for row in table("oil_acids"):
            self.oils[row["oil"]]["acids"] = self._acids(row)
        self.additives = {row["key"]: self._additive(row) for row in table("additives")}
        self.liquids = {row["key"]: self._liquid(row) for row in table("liquids")}
        self.colourants = {row["key"]: row["behaviour"] for row in table("colourants")}
        self.swatches = {row["key"]: self._swatch(row) for row in table("colourants")}
        practice = {row["member"]: row["value"] for row in table("practice")}
        self.plain = tuple(int(practice["plain_" + channel]) for channel in ("red", "green", "blue"))
        self.allergens = {row["key"]: (row["inci"], percent(row["threshold_percent"])) for row in table("allergens")}
        self.limits = {row["key"]: self._limit(row) for row in table("fragrance_limits")}
        self.fragrances = {row["key"]: self._fragrance(row) for row in table("fragrances")}
        self.density, self.capacity, self.boiling, self.heat = {}, {}, {}, {}
        for row in table("lye_density"):
            column = self.density.setdefault((row["alkali"], float(row["temp_c"])), {})
            column[float(row["percent"]) / 100] = float(row["density_g_ml"])
        for row in table("lye_heat_capacity"):
            if float(row["temp_c"]) == 60:
                self.capacity.setdefault(row["alkali"], {})[float(row["percent"]) / 100] = float(row["heat_capacity"])
        for row in table("lye_boiling"):
            self.boiling.setdefault(row["alkali"], {})[float(row["percent"]) / 100] = float(row["boils_c"])
        for row in table("lye_heat"):
            self.heat.setdefault(row["alkali"], {})[float(row["water_mol"])] = float(row["heat_kj_mol"]) * 1000
        self.solid = {row["alkali"]: float(row["heat_capacity"]) for row in table("lye_solid")}

    @staticmethod
    def _oil(row):
        return {"sap": tuple(number(row[c]) for c in ("sap_lo", "sap_nominal", "sap_hi")),
                "iodine": (number(row["iodine_lo"]), number(row["iodine_hi"])),
                "density": number(row["density_g_ml"]), "temp": number(row["density_temp_c"], Fraction(20)),
                "acids": None}

    def _acids(self, row):
        """Typical shares: the number before the range in brackets."""
        typical = {key: number(row.get(key, "").split("(")[0], Fraction(0)) for key in self.acids}
        return {key: value / sum(typical.values()) for key, value in typical.items() if value}

    @staticmethod
    def _additive(row):
        molar, active = number(row["molar_mass_g_mol"]), number(row["active_share"], Fraction(1))
        equivalents = number(row["equivalents"], Fraction(0))
        return {"acid": active * equivalents / molar if molar else Fraction(0), "density": number(row["density_g_ml"]),
                "water": number(row["water_share"], Fraction(0)), "fat": number(row["fat_share"], Fraction(0)),
                "fat_oil": row["fat_oil"].strip()}

    @staticmethod
    def _liquid(row):
        return {"acid": number(row["acid_mol_per_kg"], Fraction(0)) / 1000, "water": number(row["water_share"]),
                "fat": number(row["fat_share"], Fraction(0)), "fat_oil": row["fat_oil"].strip(),
                "sugar": number(row["sugar_share"], Fraction(0))}

    @staticmethod
    def _swatch(row):
        cured = bytes.fromhex(row["swatch"].strip()[1:])
        fresh = bytes.fromhex(row["swatch_fresh"].strip()[1:]) or cured
        return {"cured": cured, "fresh": fresh, "whitens": row["whitens"].strip() == "yes",
                "middle": (number(row["dose_lo_g_per_kg"]) + number(row["dose_hi_g_per_kg"])) / 2}

    def _limit(self, row):
        """The stricter of the two caps, and whether it was read in a source."""
        caps = [(percent(row[name + "_percent"]), row[name + "_standing"] == "seen") for name in ("ifra", "eu")]
        cap, seen = min((pair for pair in caps if pair[0] is not None), default=(None, False))
        allergen = next((key for key, (inci, _) in self.allergens.items() if inci == row["inci"]), None)
        return {"cap": cap, "seen": seen, "allergen": allergen}

    @staticmethod
    def _fragrance(row):
        parts = {}
        for part in row["constituents"].split(";"):
            if "=" in part:
                key, span = part.split("=")
                parts[key.strip()] = percent(span.split("-")[-1])
        middle = (number(row["density_lo_g_ml"], Fraction(1)) + number(row["density_hi_g_ml"], Fraction(1))) / 2
        return {"parts": parts, "density": middle, "allergen": row["oil_allergen"].strip() or None,
                "fast": row["acceleration"]}


def interpolate(points, x):
    """Straight lines between the points of a dict, flat beyond its ends."""
    xs = sorted(points)
    if x <= xs[0]:
        return points[xs[0]]
    for left, right in zip(xs, xs[1:]):
        if x <= right:
            return points[left] + (points[right] - points[left]) * (x - left) / (right - left)
    return points[xs[-1]]
