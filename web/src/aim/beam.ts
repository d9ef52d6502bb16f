// Where a beam goes: turn and tilt against points of the place, and what its middle meets. Metres and degrees, as in the API.
import type { Geometry, HeldBoard } from '../api-types.ts';
import type { Side } from '../place/plan.ts';
import { halfTurn } from '../place/turn.ts';

export type Point = { x: number; y: number; z: number };
/** Turn from the lens axis, seen from above and positive to the camera's right, and tilt above level. */
export type Turned = { azimuth: number; elevation: number };
/** From where a head is turned, and against which bearing: that of the lens axis, clockwise from the wall behind the sitter. */
export type Stand = { flash: Point; lens: number };
export type Dress = 'bare' | 'dome' | 'bounce_card' | 'umbrella' | 'softbox';

/** What the middle of a beam meets: a side of the room, a thing or a person in it, or nothing that is known. */
export type Met =
  | { is: 'side'; side: Side }
  | { is: 'thing' | 'sitter'; name: string }
  | { is: 'open' }
  | { is: 'unknown' };

type At = { from_left: number; from_behind: number };

/** Less than this over the floor, in metres, is straight up or down: the answer's lengths are told to a tenth of a millimetre. */
const STEEP = 0.02;

const rad = (deg: number) => (deg * Math.PI) / 180;
const deg = (radians: number) => (radians * 180) / Math.PI;
/** Clockwise seen from above, 0 straight away from the wall behind the camera. */
const bearing = (x: number, y: number) => (Math.hypot(x, y) < 1e-6 ? 0 : deg(Math.atan2(x, y)));

/** Bearing of the lens axis: the answer says how far its own aim is turned from it. */
export function lensOf(aim: { flash_m: At; aim_m: At; turn_deg: number }, g: Geometry): number {
  const [dx, dy] = [aim.aim_m.from_left - aim.flash_m.from_left, aim.aim_m.from_behind - aim.flash_m.from_behind];
  if (Math.hypot(dx, dy) > STEEP) return halfTurn(bearing(dx, dy) - aim.turn_deg);
  // A head that points straight up or down has no turn; the camera looks at the sitter.
  const { camera } = g;
  const sitter = g.sitters[0] ?? { x: camera.x, y: g.room.length };
  return bearing(sitter.x - camera.x, sitter.y - camera.y);
}

/** A turn or tilt as the third line says it: to five degrees, as well as a hand can set it. */
export const toFive = (degrees: number) => Math.sign(degrees) * Math.round(Math.abs(degrees) / 5) * 5 || 0;

/** Level unit vector in which a head looks that is turned so. */
export function level(stand: Stand, azimuth: number): { x: number; y: number } {
  const at = rad(stand.lens + azimuth);
  return { x: Math.sin(at), y: Math.cos(at) };
}

/** Unit vector along the middle of the beam. */
export function axis(stand: Stand, { azimuth, elevation }: Turned): Point {
  const flat = level(stand, azimuth);
  const out = Math.cos(rad(elevation));
  return { x: flat.x * out, y: flat.y * out, z: Math.sin(rad(elevation)) };
}

/** The turn that looks at a point seen from above; null on the flash itself, where every turn would do. */
export function turnTo(stand: Stand, x: number, y: number): number | null {
  const [dx, dy] = [x - stand.flash.x, y - stand.flash.y];
  return Math.hypot(dx, dy) < 0.03 ? null : halfTurn(bearing(dx, dy) - stand.lens);
}

/** The tilt that looks at a point so far out and so high; what lies behind the flash counts as straight above or below. */
export function tiltTo(stand: Stand, out: number, height: number): number | null {
  const up = height - stand.flash.z;
  return Math.hypot(out, up) < 0.03 ? null : deg(Math.atan2(up, Math.max(out, 0)));
}

/** Half the width of the beam where it is about a stop weaker than in its middle, across and up. */
export function spread(zoom: number, dress: Dress): { across: number; up: number } {
  // A dome, an umbrella and a softbox throw light like a matt lamp: half as much at 60 degrees.
  if (dress === 'dome' || dress === 'umbrella' || dress === 'softbox') return { across: 60, up: 60 };
  // A zoom is named for the lens whose frame of 36 by 24 mm it fills.
  return { across: deg(Math.atan(18 / zoom)), up: deg(Math.atan(12 / zoom)) };
}

/** Where a ray enters a box between two corners; null if it does not, or begins inside. */
function enters(from: Point, way: Point, low: Point, high: Point): number | null {
  let [near, far] = [-Infinity, Infinity];
  for (const k of ['x', 'y', 'z'] as const) {
    if (Math.abs(way[k]) < 1e-9) {
      if (from[k] < low[k] || from[k] > high[k]) return null;
      continue;
    }
    const [a, b] = [(low[k] - from[k]) / way[k], (high[k] - from[k]) / way[k]];
    near = Math.max(near, Math.min(a, b));
    far = Math.min(far, Math.max(a, b));
  }
  return near > 1e-6 && near < far ? near : null;
}

/** How far a ray goes to the walls, the ceiling or the floor. */
function toWalls(g: Geometry, from: Point, way: Point): number {
  const size = { x: g.room.width, y: g.room.length, z: g.room.height };
  const ways = (['x', 'y', 'z'] as const).map((k) =>
    way[k] > 1e-9 ? (size[k] - from[k]) / way[k] : way[k] < -1e-9 ? -from[k] / way[k] : Infinity,
  );
  return Math.max(Math.min(...ways), 0);
}

/** The point that a ray meets: the room or its furniture. Boards and people are left to the server, who knows their form. */
export function end(g: Geometry, from: Point, way: Point, most = Infinity): Point {
  let far = Math.min(toWalls(g, from, way), most);
  for (const f of g.furniture) {
    const high = { x: f.x + f.width, y: f.y + f.depth, z: f.z + f.height };
    const hit = enters(from, way, f, high);
    if (hit !== null && hit < far) far = hit;
  }
  return { x: from.x + way.x * far, y: from.y + way.y * far, z: from.z + way.z * far };
}

/**
 * Where the rays of the beam's middle sheet end, from one edge to the other: the sheet that lies across, or the upright one.
 * `most` is how far the middle goes at most, for a board that only the server sees; it is taken to stop the whole beam.
 */
export function fan(
  g: Geometry,
  stand: Stand,
  turned: Turned,
  half: number,
  sheet: 'across' | 'upright',
  most = Infinity,
): Point[] {
  const middle = axis(stand, turned);
  const flat = level(stand, turned.azimuth);
  const tilt = rad(turned.elevation);
  // To the right of the middle for the sheet that lies across, above it for the upright one.
  const beside =
    sheet === 'across'
      ? { x: flat.y, y: -flat.x, z: 0 }
      : { x: -flat.x * Math.sin(tilt), y: -flat.y * Math.sin(tilt), z: Math.cos(tilt) };
  const STEPS = 24;
  return Array.from({ length: STEPS + 1 }, (_, i) => {
    const a = rad(half * ((2 * i) / STEPS - 1));
    const [along, aside] = [Math.cos(a), Math.sin(a)];
    const way = {
      x: middle.x * along + beside.x * aside,
      y: middle.y * along + beside.y * aside,
      z: middle.z * along + beside.z * aside,
    };
    return end(g, stand.flash, way, most / along);
  });
}

/** What a point that a beam meets belongs to; `open` are the sides without a wall, `held` a board that a helper holds. */
export function metAt(g: Geometry, at: Point, open: Side[] = [], held: HeldBoard | null = null): Met {
  const { width: W, length: L, height: H } = g.room;
  const near = (a: number, b: number) => Math.abs(a - b) < 0.006;
  if (Math.min(at.x, at.y, at.z, W - at.x, L - at.y, H - at.z) < -0.02) return { is: 'open' };
  const sides: [Side, boolean][] = [
    ['left', near(at.x, 0)],
    ['right', near(at.x, W)],
    ['behind camera', near(at.y, 0)],
    ['behind sitter', near(at.y, L)],
    ['ceiling', near(at.z, H)],
    ['floor', near(at.z, 0)],
  ];
  const side = sides.find(([, met]) => met);
  if (side) return open.includes(side[0]) ? { is: 'open' } : { is: 'side', side: side[0] };
  const within = (v: number, from: number, size: number) => v > from - 0.006 && v < from + size + 0.006;
  const piece = g.furniture.find(
    (f) => within(at.x, f.x, f.width) && within(at.y, f.y, f.depth) && within(at.z, f.z, f.height),
  );
  if (piece) return { is: 'thing', name: piece.name };
  const board = g.boards.find(
    (b) => Math.hypot(at.x - b.x, at.y - b.y) < b.width / 2 + 0.02 && Math.abs(at.z - b.z) < b.height / 2 + 0.02,
  );
  if (board) return { is: 'thing', name: board.name };
  const sitter = g.sitters.find((s) => Math.hypot(at.x - s.x, at.y - s.y) < 0.45);
  if (sitter) return { is: 'sitter', name: sitter.name };
  if (held) {
    const { from_left: x, from_behind: y, height: z } = held.centre_m;
    if (Math.hypot(at.x - x, at.y - y, at.z - z) < 0.9) return { is: 'thing', name: held.name };
  }
  return { is: 'unknown' };
}

/** The place of an answer with its first sitter where the answer has them stand. */
export function asMoved(g: Geometry, moved: { from_left: number; from_behind: number } | null): Geometry {
  const [first, ...others] = g.sitters;
  if (!first || !moved) return g;
  return { ...g, sitters: [{ ...first, x: moved.from_left, y: moved.from_behind }, ...others] };
}

/** Where an upright plane through the flash cuts a box, from and to, along its level direction; null where it does not. */
export function cut(
  from: { x: number; y: number },
  way: { x: number; y: number },
  box: { x: number; y: number; width: number; depth: number },
): [number, number] | null {
  let [near, far] = [-Infinity, Infinity];
  for (const [k, low, size] of [
    ['x', box.x, box.width],
    ['y', box.y, box.depth],
  ] as const) {
    if (Math.abs(way[k]) < 1e-9) {
      if (from[k] < low || from[k] > low + size) return null;
      continue;
    }
    const [a, b] = [(low - from[k]) / way[k], (low + size - from[k]) / way[k]];
    near = Math.max(near, Math.min(a, b));
    far = Math.min(far, Math.max(a, b));
  }
  return near < far ? [near, far] : null;
}
