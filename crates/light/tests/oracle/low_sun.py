"""Writes checks/low_sun.csv anew: sun and clear sky by an independent package, `pip install pvlib==0.16.1 colour-science==0.4.7`.

The package's version of Bird & Riordan's spectral model says what reaches open ground and upright faces turned to the sun
and away from it, at 122 wavelengths; light and colour temperature are then found with the colour package at 1 nm.

    python3 low_sun.py > ../checks/low_sun.csv
"""

import warnings

warnings.filterwarnings("ignore")

import colour  # noqa: E402
import numpy  # noqa: E402
import pvlib  # noqa: E402

HEIGHTS = (1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5, 6, 6.5, 7, 8, 9, 10, 12, 14, 16, 18, 20, 25, 30, 35, 40, 45, 50, 55, 60)
# 0.15 at 550 nm, with the exponent of rural haze that the model proposes.
HAZE_500_NM, EXPONENT = 0.17, 1.14
WATER_CM, OZONE_ATM_CM, PRESSURE_PA, GROUND = 1.4, 0.3, 101325.0, 0.18
DAY = 94
OBSERVER = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(colour.SpectralShape(360, 830, 1))

HEADER = f"""\
# Sun and clear sky at the sun's mean distance: lux and kelvin on open ground, on an upright face turned to the sun and on one
# turned away from it, both on grey ground. Heights are those of the sun's centre without air.
# pvlib {pvlib.__version__}, spectrl2 (Bird & Riordan 1984, SERI/TR-215-2436): haze {HAZE_500_NM} at 500 nm, exponent {EXPONENT}, water
# {WATER_CM} cm, ozone {OZONE_ATM_CM} atm cm, {PRESSURE_PA / 100:.2f} hPa, ground {GROUND}; refraction of Reda & Andreas at 10 degrees C, air mass of Kasten & Young
# 1989. Colour temperatures by colour-science {colour.__version__} (Ohno 2014, CIE 1931). Made by tests/oracle/low_sun.py.
height_deg,apparent_deg,ground_lx,ground_k,facing_lx,facing_k,away_lx,away_k"""


def light_and_kelvin(wavelengths, power):
    xyz = 683.0 * (numpy.interp(OBSERVER.wavelengths, wavelengths, power)[:, None] * OBSERVER.values).sum(axis=0)
    uv = colour.UCS_to_uv(colour.XYZ_to_UCS(xyz))
    return xyz[1], colour.temperature.uv_to_CCT_Ohno2013(uv, cmfs=OBSERVER)[0]


def main():
    distance = pvlib.irradiance.get_extra_radiation(DAY, method="spencer", solar_constant=1)
    print(HEADER)
    for height in HEIGHTS:
        apparent = height + pvlib.spa.atmospheric_refraction_correction(PRESSURE_PA / 100, 10.0, float(height), 0.5667)
        zenith = 90.0 - apparent
        mass = pvlib.atmosphere.get_relative_airmass(zenith, model="kastenyoung1989")
        row = [f"{height:g}", f"{apparent:.3f}"]
        for tilt, incidence in ((0.0, zenith), (90.0, apparent), (90.0, 180.0 - apparent)):
            found = pvlib.spectrum.spectrl2(
                zenith, incidence, tilt, GROUND, PRESSURE_PA, mass, WATER_CM, OZONE_ATM_CM, HAZE_500_NM,
                dayofyear=DAY, alpha=EXPONENT,
            )
            lux, kelvin = light_and_kelvin(found["wavelength"], found["poa_global"].reshape(-1) / distance)
            row += [f"{lux:.0f}", f"{kelvin:.0f}"]
        print(",".join(row))


main()
