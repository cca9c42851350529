"""Heights between the posts of two invented tiles: read and placed on the globe by GDAL (through rasterio), then
between four posts by numpy.

    python -m venv v && v/bin/pip install numpy rasterio && v/bin/python heights.py > heights.json

The tiles are not written out: their heights follow from row and column by `post`, which the test repeats.
"""

import json
import os
import tempfile

import numpy
import rasterio


def post(row, column):
    """An invented hilly country in whole metres, from 40 to 1239 m; some below the sea."""
    return (row * 37 + column * 91 + (row // 7) * (column // 11)) % 1200 - 40 * ((row + column) % 3 == 0)


def main():
    out = {"rasterio": rasterio.__version__, "gdal": rasterio.__gdal_version__, "tiles": []}
    random = numpy.random.default_rng(4)
    for name, side, lat, lon in [("S03W030", 1201, -3, -30), ("N12E007", 3601, 12, 7)]:
        rows, columns = numpy.mgrid[0:side, 0:side]
        grid = post(rows, columns).astype(">i2")
        with tempfile.TemporaryDirectory() as folder:
            path = os.path.join(folder, name + ".hgt")
            grid.tofile(path)
            with rasterio.open(path) as tile:
                assert tile.width == side and tile.nodata == -32768
                read = tile.read(1)
                assert (read == grid).all()
                inverse = ~tile.transform
        places = []
        for lon_share, lat_share in random.random((40, 2)).tolist() + [[0, 0], [1, 1], [0, 1], [0.5, 0.5]]:
            x, y = lon + lon_share, lat + lat_share
            # GDAL counts pixels by their edges: a post is the middle of a pixel.
            column, row = inverse * (x, y)
            column, row = min(max(column - 0.5, 0), side - 1), min(max(row - 0.5, 0), side - 1)
            c, r = min(int(column), side - 2), min(int(row), side - 2)
            u, v = column - c, row - r
            four = read[r : r + 2, c : c + 2].astype(float)
            height = (1 - v) * ((1 - u) * four[0, 0] + u * four[0, 1]) + v * ((1 - u) * four[1, 0] + u * four[1, 1])
            places.append([x, y, round(float(height), 6)])
        out["tiles"].append({"name": name, "side": side, "places": places})
    print(json.dumps(out, indent=1))


main()
