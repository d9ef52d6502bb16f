"""Works out colours with an independent package, for the test beside this file.

Reads a request as JSON from standard input: rows of spectral power at 5 nm from `first_nm`, and pairs of such
rows, a light and the same light behind a gel. Writes as JSON, for each spectrum, X and Z over Y, colour temperature
and Duv; for each pair the shift in mired and the light that passes.
"""

import json
import sys
import warnings

warnings.filterwarnings("ignore")

import colour  # noqa: E402
import numpy  # noqa: E402

OBSERVER = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(colour.SpectralShape(360, 830, 1))


def tristimulus(values, first_nm):
    """XYZ at 1 nm; the package puts its own smooth curve through the rows."""
    wavelengths = first_nm + 5 * numpy.arange(len(values))
    light = colour.SpectralDistribution(dict(zip(wavelengths.tolist(), values)))
    # Beyond the rows nothing is known, and both programs keep the last value.
    light = light.align(OBSERVER.shape, extrapolator_kwargs={"method": "Constant"})
    return (light.values[:, None] * OBSERVER.values).sum(axis=0)


def described(xyz):
    uv = colour.UCS_to_uv(colour.XYZ_to_UCS(xyz))
    temperature, duv = colour.temperature.uv_to_CCT_Ohno2013(uv, cmfs=OBSERVER)
    return {
        "x_over_y": float(xyz[0] / xyz[1]),
        "z_over_y": float(xyz[2] / xyz[1]),
        "kelvin": float(temperature),
        "duv": float(duv),
    }


def main():
    request = json.load(sys.stdin)
    first_nm = request["first_nm"]
    spectra = [described(tristimulus(row, first_nm)) for row in request["spectra"]]
    pairs = []
    for bare, behind in request["pairs"]:
        before, after = (tristimulus(row, first_nm) for row in (bare, behind))
        shift = 1e6 / described(after)["kelvin"] - 1e6 / described(before)["kelvin"]
        pairs.append({"mired": shift, "passes": float(after[1] / before[1])})
    json.dump({"version": colour.__version__, "spectra": spectra, "pairs": pairs}, sys.stdout)


main()
