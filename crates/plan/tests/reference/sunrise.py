"""Sunrise and sunset from the PyPI package `ephem` as check values. Run: python sunrise.py > sunrise.json"""
import calendar
import json

import ephem

rows = []
for lat in (-55.0, -33.9, 0.0, 20.0, 38.9, 47.3, 60.0):
    for lon in (-28.4, 11.7, 0.0):
        for month in range(1, 13, 2):
            date = f"2026-{month:02}-15"
            observer = ephem.Observer()
            observer.lat, observer.lon = str(lat), str(lon)
            observer.pressure, observer.horizon = 0, "-0:34"
            # Start from the place's own midnight, so that the events belong to that day.
            observer.date = ephem.Date(f"2026/{month:02}/15 00:00") - lon / 360.0
            sun = ephem.Sun()
            rise = calendar.timegm(observer.next_rising(sun).datetime().timetuple())
            set_ = calendar.timegm(observer.next_setting(sun).datetime().timetuple())
            rows.append({"lat": lat, "lon": lon, "date": date, "rise_unix_s": rise, "set_unix_s": set_})
print("[\n" + ",\n".join(json.dumps(r) for r in rows) + "\n]")
