"""Renders exported scenes with Mitsuba 3, a general-purpose renderer that shares no code with this project.

    python3 renderer.py REQUEST.json ANSWER.json

The request lists scenes (see mod.rs beside this file). The answer holds, for every scene, the illuminance
at every meter and, where a camera is given, a picture, each with its standard error from independent
repeats. Three channels are carried as plain numbers: nothing here is a colour.
"""

import json
import subprocess
import sys
import time

import numpy as np

TRIAL = """
import drjit as dr, mitsuba as mi
mi.set_variant("llvm_ad_rgb")
assert dr.all(mi.Float([1, 2]) * 2 == mi.Float([2, 4]))
"""


def choose_variant():
    """The vectorised variant where its compiler works, the scalar one elsewhere.

    It is tried in a process of its own, because a compiler of the wrong age ends the process.
    """
    trial = subprocess.run([sys.executable, "-c", TRIAL], capture_output=True)
    return "llvm_ad_rgb" if trial.returncode == 0 else "scalar_rgb"


try:
    import drjit as dr
    import mitsuba as mi
except ImportError as missing:
    sys.exit(f"missing: {missing}")

if __name__ == "__main__":
    mi.set_variant(choose_variant())


def vectorised():
    return not mi.variant().startswith("scalar")


def rgb(values):
    return {"type": "rgb", "value": [float(v) for v in values]}


def flash_dictionary(flash):
    """A point with a beam, as six projectors (fewer where a side is dark) that look through the sides of a cube.

    Each picks its share of the samples by the light that leaves through its side.
    """
    turn = mi.ScalarTransform4f()
    place = np.array(flash["position"])
    projectors = {}
    for number, side in enumerate(flash["sides"]):
        size = side["size"]
        # A projector shines with pi times its picture over the cube of the cosine; the picture has that in it.
        picture = np.fromfile(side["picture"], "<f4").reshape(size, size, 1)
        projectors[f"flash{number}"] = {
            "type": "projector",
            "fov": 90.0,
            "to_world": turn.look_at(
                origin=place.tolist(), target=(place + side["forward"]).tolist(), up=side["up"]
            ),
            "irradiance": {
                "type": "bitmap",
                "bitmap": mi.Bitmap(picture),
                "raw": True,
                "filter_type": "bilinear",
                "wrap_mode": "clamp",
            },
            "sampling_weight": side["light"],
        }
    return projectors


def scene_dictionary(description, reflectance=lambda mesh: rgb(mesh["channels"])):
    """What the renderer needs to build a scene: meshes and sources, without meters and camera."""
    scene = {"type": "scene"}
    for number, mesh in enumerate(description["meshes"]):
        matt = {"type": "diffuse", "reflectance": reflectance(mesh)}
        shape = {
            "type": "ply",
            "filename": mesh["ply"],
            "face_normals": not mesh["smooth"],
            "surface": {"type": "twosided", "bsdf": matt} if mesh["two_sided"] else matt,
        }
        if mesh["luminance"] > 0:
            shape["glow"] = {"type": "area", "radiance": rgb([mesh["luminance"]] * 3)}
        scene[f"mesh{number}"] = shape
    if description["flash"]:
        scene.update(flash_dictionary(description["flash"]))
    return scene


# Half the edge of a probe in metres.
PROBE = 1e-4


def add_probes(scene, meters):
    """A meter is the front of a white matt cube of a fifth of a millimetre, looked at from in front of it.

    Its radiance times pi is the illuminance, direct light from a point included. A cube is made of
    triangles like everything else; a disc square to an axis has no thickness, and rays may miss that.
    """
    turn = mi.ScalarTransform4f()
    for number, meter in enumerate(meters):
        place, normal = np.array(meter["position"]), np.array(meter["normal"])
        up = [0, 0, 1] if abs(normal[2]) < 0.9 else [1, 0, 0]
        middle = place - PROBE * normal
        scene[f"probe{number}"] = {
            "type": "cube",
            "to_world": turn.look_at(origin=middle.tolist(), target=(middle + normal).tolist(), up=up)
            @ turn.scale(PROBE),
            "bsdf": {"type": "diffuse", "reflectance": rgb([1, 1, 1])},
        }


def path_integrator():
    return mi.load_dict({"type": "path", "max_depth": -1, "rr_depth": 8})


def film_dictionary(width, height):
    return {
        "type": "hdrfilm",
        "width": width,
        "height": height,
        "pixel_format": "rgb",
        "component_format": "float32",
        "rfilter": {"type": "box"},
    }


# Distance from which a probe is looked at, and the pixels of that look: each is an independent repeat.
LOOK_FROM = 3e-4
LOOKS = 32


def probe_camera(meter):
    turn = mi.ScalarTransform4f()
    place, normal = np.array(meter["position"]), np.array(meter["normal"])
    up = [0, 0, 1] if abs(normal[2]) < 0.9 else [1, 0, 0]
    return mi.load_dict(
        {
            "type": "perspective",
            "fov": 1.0,
            "near_clip": 1e-5,
            "far_clip": 1.0,
            "to_world": turn.look_at(
                origin=(place + LOOK_FROM * normal).tolist(), target=place.tolist(), up=up
            ),
            "film": film_dictionary(LOOKS, LOOKS),
            "sampler": {"type": "independent"},
        }
    )


def read_meters(description, samples):
    meters = description["meters"]
    dictionary = scene_dictionary(description)
    add_probes(dictionary, meters)
    scene = mi.load_dict(dictionary)
    integrator = path_integrator()
    readings = []
    for number, meter in enumerate(meters):
        look = mi.render(
            scene, sensor=probe_camera(meter), integrator=integrator, spp=samples, seed=1 + number
        )
        mean, error = mean_and_error(np.pi * np.array(look, dtype=np.float64).reshape(-1, 3))
        readings.append({"name": meter["name"], "mean": mean.tolist(), "standard_error": error.tolist()})
    return readings


def mean_and_error(repeats):
    repeats = np.array(repeats)
    error = repeats.std(axis=0, ddof=1) / np.sqrt(len(repeats))
    return repeats.mean(axis=0), error


def camera_dictionary(camera):
    turn = mi.ScalarTransform4f()
    return {
        "type": "perspective",
        "fov": camera["vertical_field_degrees"],
        "fov_axis": "y",
        "near_clip": 0.01,
        "to_world": turn.look_at(origin=camera["position"], target=camera["look_at"], up=[0, 0, 1]),
        "film": film_dictionary(camera["width"], camera["height"]),
        "sampler": {"type": "independent"},
    }


def take_picture(description, samples, repeats):
    dictionary = scene_dictionary(description)
    dictionary["camera"] = camera_dictionary(description["camera"])
    scene = mi.load_dict(dictionary)
    integrator = path_integrator()
    pictures = [
        np.array(mi.render(scene, integrator=integrator, spp=samples, seed=1 + seed), dtype=np.float64)
        for seed in range(repeats)
    ]
    mean, error = mean_and_error(pictures)
    return {"mean": mean.ravel().tolist(), "standard_error": error.ravel().tolist()}


def reflectances_kept(values):
    """What the renderer makes of three numbers given as a reflectance: they must come back untouched."""
    surface = mi.load_dict({"type": "diffuse", "reflectance": rgb(values)})
    at = dr.zeros(mi.SurfaceInteraction3f)
    at.wi = mi.Vector3f(0, 0, 1)
    return np.ravel(np.array(surface.eval(mi.BSDFContext(), at, mi.Vector3f(0, 0, 1))) * np.pi).tolist()


def main(request_path, answer_path):
    with open(request_path) as file:
        request = json.load(file)
    effort = request["effort"]["vectorised" if vectorised() else "scalar"]
    asked = request["reflectances"]
    answer = {"renderer": f"mitsuba {mi.__version__}", "variant": mi.variant(), "scenes": []}
    answer["reflectances"] = reflectances_kept(asked)
    for description in request["scenes"]:
        begun = time.perf_counter()
        scene = {"name": description["name"]}
        scene["meters"] = read_meters(description, effort["meter_samples"])
        scene["meter_seconds"] = time.perf_counter() - begun
        if description["camera"]:
            scene["picture"] = take_picture(description, effort["picture_samples"], effort["picture_repeats"])
        scene["seconds"] = time.perf_counter() - begun
        answer["scenes"].append(scene)
    with open(answer_path, "w") as file:
        json.dump(answer, file)


if __name__ == "__main__":
    main(*sys.argv[1:])
