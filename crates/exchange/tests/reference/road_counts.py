"""Counts roads in an open-map extract with pyosmium, by the same rule data as ours: the numbers in road_real_data.rs.

Run with osmium and pyproj in a virtual environment: python road_counts.py rules/roads/open-map-defaults.toml FILE...
"""

import sys
import tomllib

import osmium
import pyproj

GEOD = pyproj.Geod(ellps="WGS84")


class Roads(osmium.SimpleHandler):
    def __init__(self, rules):
        super().__init__()
        self.classes = {word for word in rules["words"]["class"]["value"] if not word.endswith("*")}
        pairs = lambda key: [tuple(p.split("=")) for p in rules["open_map"][key]["value"]]
        self.leave_out, self.keep = pairs("leave_out"), pairs("keep_anyway")
        self.ways = self.nodes = 0
        self.metres = 0.0
        self.box = [999.0, 999.0, -999.0, -999.0]

    def way(self, way):
        if way.tags.get("highway") not in self.classes:
            return
        has = lambda pairs: any(way.tags.get(key) == value for key, value in pairs)
        if has(self.leave_out) and not has(self.keep):
            return
        points = [(n.location.lon, n.location.lat) for n in way.nodes if n.location.valid()]
        self.ways += 1
        self.nodes += len(points)
        for lon, lat in points:
            west, south, east, north = self.box
            self.box = [min(west, lon), min(south, lat), max(east, lon), max(north, lat)]
        self.metres += GEOD.line_length([p[0] for p in points], [p[1] for p in points])


with open(sys.argv[1], "rb") as file:
    rule_set = tomllib.load(file)
for name in sys.argv[2:]:
    roads = Roads(rule_set)
    roads.apply_file(name, locations=True)
    print(name, "ways", roads.ways, "nodes", roads.nodes, "metres", round(roads.metres), "box", roads.box)
