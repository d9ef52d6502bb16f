"""Says where sun and moon stand with an independent package and a measured ephemeris, for the test beside this folder.

Reads a request as JSON from standard input: `moments` with seconds of universal time since 1970, latitude, longitude,
height, and the air's pressure and temperature; `days` with the beginning of a day likewise; and `levels`, heights of the
sun's centre in degrees.
Writes as JSON where sun and moon stand at each moment, and when in each day the sun passes each level.
"""

import json
import sys
import warnings

warnings.filterwarnings("ignore")

import skyfield  # noqa: E402
from skyfield import almanac  # noqa: E402
from skyfield.api import Loader, wgs84  # noqa: E402
from skyfield_data import get_skyfield_data_path  # noqa: E402

LOAD = Loader(get_skyfield_data_path())
# The table of the Earth's turn that comes with the package: nothing is fetched.
TIMESCALE = LOAD.timescale(builtin=True)
PLANETS = LOAD("de421.bsp")
EARTH, SUN, MOON = (PLANETS[name] for name in ("earth", "sun", "moon"))
EPOCH_JULIAN = 2440587.5
MINUTE_S = 60.0


def at(seconds):
    """Universal time by the Earth's turn: a coming leap second is nobody's to know."""
    return TIMESCALE.ut1_jd(EPOCH_JULIAN + seconds / 86400.0)


def site(asked):
    return EARTH + wgs84.latlon(asked["latitude"], asked["longitude"], elevation_m=asked["height"])


def seen(observer, body, time):
    return observer.at(time).observe(body).apparent()


def moment(asked):
    time, observer = at(asked["seconds"]), site(asked)
    sun_there = seen(observer, SUN, time)
    sun, moon = sun_there.altaz(), seen(observer, MOON, time).altaz()
    lifted = sun_there.altaz(temperature_C=asked["celsius"], pressure_mbar=asked["pressure"])
    from_the_middle = EARTH.at(time).observe(MOON)
    return {
        "azimuth": float(sun[1].degrees),
        "elevation": float(sun[0].degrees),
        "lifted": float(lifted[0].degrees),
        "moon_azimuth": float(moon[1].degrees),
        "moon_elevation": float(moon[0].degrees),
        "moon_lit": float(from_the_middle.apparent().fraction_illuminated(SUN)),
        "moon_km": float(from_the_middle.distance().km),
    }


def day(asked, levels):
    observer = site(asked)
    first, last = at(asked["seconds"]), at(asked["seconds"] + 86400.0)
    found = []
    for level in levels:
        for rising, find in ((True, almanac.find_risings), (False, almanac.find_settings)):
            times, real = find(observer, SUN, first, last, horizon_degrees=level)
            for time, crosses in zip(times, real):
                if crosses:
                    # By the same clock as the moments that are asked for.
                    seconds = (time.whole - EPOCH_JULIAN) * 86400.0 + (time.ut1_fraction * 86400.0)
                    before, after = (
                        float(seen(observer, SUN, at(seconds + later)).altaz()[0].degrees)
                        for later in (-MINUTE_S, MINUTE_S)
                    )
                    found.append({
                        "level": level,
                        "rising": rising,
                        "seconds": float(seconds),
                        "degrees_per_hour": (after - before) * 30.0,
                    })
    return found


def main():
    request = json.load(sys.stdin)
    answer = {
        "version": skyfield.__version__,
        "moments": [moment(asked) for asked in request["moments"]],
        "days": [day(asked, request["levels"]) for asked in request["days"]],
    }
    json.dump(answer, sys.stdout)


main()
