"""Synthetic grid in a state-plane system in US survey feet, with its longitude and latitude by PROJ (pyproj).

The points are a plain grid inside the system's area of use, no road's coordinates. Writes road_projection.json beside
this file. Run with pyproj in a virtual environment: python road_projection.py
"""

import json
import pathlib

import pyproj

SYSTEMS = {
    # Transverse Mercator, GRS 80, US survey feet, as ESRI software writes it.
    "transverse_mercator_us_feet": (
        'PROJCS["NAD_1983_StatePlane_New_York_Central_FIPS_3102_Feet",GEOGCS["GCS_North_American_1983",'
        'DATUM["D_North_American_1983",SPHEROID["GRS_1980",6378137.0,298.257222101]],PRIMEM["Greenwich",0.0],'
        'UNIT["Degree",0.0174532925199433]],PROJECTION["Transverse_Mercator"],'
        'PARAMETER["False_Easting",820208.3333333333],PARAMETER["False_Northing",0.0],'
        'PARAMETER["Central_Meridian",-76.58333333333333],PARAMETER["Scale_Factor",0.9999375],'
        'PARAMETER["Latitude_Of_Origin",40.0],UNIT["Foot_US",0.3048006096012192]]',
        [(x, y) for x in (700000.0, 820000.0, 950000.0) for y in (900000.0, 1100000.0, 1400000.0)],
    ),
    # Lambert conformal conic, GRS 80, US survey feet.
    "lambert_us_feet": (
        'PROJCS["NAD_1983_StatePlane_Ohio_North_FIPS_3401_Feet",GEOGCS["GCS_North_American_1983",'
        'DATUM["D_North_American_1983",SPHEROID["GRS_1980",6378137.0,298.257222101]],PRIMEM["Greenwich",0.0],'
        'UNIT["Degree",0.0174532925199433]],PROJECTION["Lambert_Conformal_Conic"],'
        'PARAMETER["False_Easting",1968500.0],PARAMETER["False_Northing",0.0],'
        'PARAMETER["Central_Meridian",-82.5],PARAMETER["Standard_Parallel_1",40.43333333333333],'
        'PARAMETER["Standard_Parallel_2",41.7],PARAMETER["Latitude_Of_Origin",39.66666666666666],'
        'UNIT["Foot_US",0.3048006096012192]]',
        [(x, y) for x in (1500000.0, 2100000.0) for y in (200000.0, 600000.0)],
    ),
    # Universal Transverse Mercator, metres, southern hemisphere.
    "utm_south": (
        'PROJCS["WGS_1984_UTM_Zone_56S",GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",'
        'SPHEROID["WGS_1984",6378137.0,298.257223563]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]],'
        'PROJECTION["Transverse_Mercator"],PARAMETER["False_Easting",500000.0],'
        'PARAMETER["False_Northing",10000000.0],PARAMETER["Central_Meridian",153.0],'
        'PARAMETER["Scale_Factor",0.9996],PARAMETER["Latitude_Of_Origin",0.0],UNIT["Meter",1.0]]',
        [(x, y) for x in (300000.0, 600000.0) for y in (6200000.0, 6900000.0)],
    ),
}


def main() -> None:
    out = {"by": f"pyproj {pyproj.__version__}, PROJ {pyproj.proj_version_str}", "systems": []}
    for name, (wkt, points) in SYSTEMS.items():
        crs = pyproj.CRS.from_wkt(wkt)
        # To the system's own longitude and latitude: NAD83 is taken as WGS 84, as everywhere in open road data.
        to_degrees = pyproj.Transformer.from_crs(crs, crs.geodetic_crs, always_xy=True)
        rows = [[x, y, *to_degrees.transform(x, y)] for x, y in points]
        out["systems"].append({"name": name, "wkt": wkt, "x_y_lon_lat": rows})
    path = pathlib.Path(__file__).with_suffix(".json")
    path.write_text(json.dumps(out, indent=1) + "\n")


main()
