// What can be moved on the plan, how it snaps, and which keys of the shoot file a move changes.
import type { Edit, Form, Geometry, Value } from '../api-types.ts';
import { lengthText } from '../notation.ts';

/** A side of the place. */
export type Side = 'left' | 'right' | 'behind camera' | 'behind sitter' | 'ceiling' | 'floor';

export type Thing = {
  id: string;
  what: 'sitter' | 'camera' | 'furniture' | 'board' | 'lamp' | 'flash' | 'opening';
  name: string;
  /** Where it is held: the middle, or for furniture its corner nearest to the left and behind walls. */
  x: number;
  y: number;
  /** Size on the plan, for what is drawn to scale. */
  width: number;
  depth: number;
  height: number;
  /** For openings: the wall that they run along. */
  wall: string | null;
};

/** The sides of the place that are open. Under an open ceiling the walls that are not described are open too. */
export function openSides(form: Form): Side[] {
  const place = (form.place ?? {}) as Record<string, Value | undefined>;
  const open = (value: Value | undefined) => value === 'open';
  const outdoors = open(place.ceiling);
  const walls = [
    ['left', place.left],
    ['right', place.right],
    ['behind camera', place.behind_camera],
    ['behind sitter', place.behind_sitter],
  ] as const;
  return [
    ...walls.filter(([, value]) => open(value) || (outdoors && value === undefined)).map(([side]) => side),
    ...(outdoors ? (['ceiling'] as const) : []),
  ];
}

/** Everything on the plan. */
export function thingsOf(g: Geometry, form: Form, names: { camera: string; flash: string }): Thing[] {
  const at = { width: 0, depth: 0, height: 0, wall: null };
  const things: Thing[] = [];
  g.openings.forEach((o, i) => {
    const p = openingPlace(g, o.wall, o.from_left_end, o.width);
    if (p)
      things.push({ ...at, ...p, id: `opening-${i}`, what: 'opening', name: o.name, width: o.width, wall: o.wall });
  });
  g.furniture.forEach((f, i) => {
    things.push({
      ...at,
      id: `furniture-${i}`,
      what: 'furniture',
      name: f.name,
      x: f.x,
      y: f.y,
      width: f.width,
      depth: f.depth,
      height: f.height,
    });
  });
  g.boards.forEach((b, i) => {
    things.push({ ...at, id: `board-${i}`, what: 'board', name: b.name, x: b.x, y: b.y, width: b.width });
  });
  g.lamps.forEach((l, i) => {
    const from = ambientOf(form, l.name)?.from;
    if (from && typeof from === 'object')
      things.push({ ...at, id: `lamp-${i}`, what: 'lamp', name: l.name, x: l.x, y: l.y, height: l.z });
  });
  if (g.flash && form.ask?.flash && typeof form.ask.flash === 'object')
    things.push({
      ...at,
      id: 'flash',
      what: 'flash',
      name: names.flash,
      x: g.flash.x,
      y: g.flash.y,
      height: g.flash.z,
    });
  things.push({ ...at, id: 'camera', what: 'camera', name: names.camera, x: g.camera.x, y: g.camera.y });
  g.sitters.forEach((s, i) => {
    things.push({ ...at, id: `sitter-${i}`, what: 'sitter', name: s.name, x: s.x, y: s.y });
  });
  return things;
}

const ambientOf = (form: Form, name: string) =>
  ((form.ambient ?? []) as { name?: string; from?: Value }[]).find(
    (a, i) => (a.name ?? (i ? `ambient ${i + 1}` : 'ambient')) === name,
  );

/** The middle of an opening on the plan. Left ends are as seen from inside, looking at the wall. */
export function openingPlace(g: Geometry, wall: string, fromLeftEnd: number, width: number) {
  const { width: W, length: L } = g.room;
  const along = fromLeftEnd + width / 2;
  if (wall === 'left') return { x: 0, y: along };
  if (wall === 'right') return { x: W, y: L - along };
  if (wall === 'behind camera') return { x: W - along, y: 0 };
  if (wall === 'behind sitter') return { x: along, y: L };
  return null;
}

/** How far an opening at a place on the plan is from the left end of its wall. */
export function fromLeftEnd(g: Geometry, thing: Thing, x: number, y: number): number {
  const { width: W, length: L } = g.room;
  const along = thing.wall === 'left' ? y : thing.wall === 'right' ? L - y : thing.wall === 'behind camera' ? W - x : x;
  const span = thing.wall === 'left' || thing.wall === 'right' ? L : W;
  return Math.min(Math.max(along - thing.width / 2, 0), Math.max(span - thing.width, 0));
}

/** A thing kept inside the room; openings stay on their wall. */
export function kept(g: Geometry, thing: Thing, x: number, y: number): { x: number; y: number } {
  const { width: W, length: L } = g.room;
  const least = thing.what === 'sitter' || thing.what === 'camera' ? 0.1 : 0;
  if (thing.what === 'opening') {
    return openingPlace(g, thing.wall ?? '', fromLeftEnd(g, thing, x, y), thing.width) ?? { x: thing.x, y: thing.y };
  }
  return {
    x: Math.min(Math.max(x, least), Math.max(W - thing.width * (thing.what === 'furniture' ? 1 : 0) - least, least)),
    y: Math.min(Math.max(y, least), Math.max(L - thing.depth - least, least)),
  };
}

export type Snap = { x: number; y: number; toX: string | null; toY: string | null };

/** Draws a moved thing into line with others, the middle of the room, or for furniture a wall, when it comes near. */
export function snapped(
  g: Geometry,
  thing: Thing,
  things: Thing[],
  x: number,
  y: number,
  words: { middle: string; wall: string },
  reach = 0.08,
): Snap {
  const { width: W, length: L } = g.room;
  const linesX: [number, string][] = [[W / 2, words.middle]];
  const linesY: [number, string][] = [[L / 2, words.middle]];
  if (thing.what === 'furniture') {
    linesX.splice(0, 1, [0, words.wall], [W - thing.width, words.wall]);
    linesY.splice(0, 1, [0, words.wall], [L - thing.depth, words.wall]);
  } else {
    for (const other of things) {
      if (other.id === thing.id || other.what === 'furniture' || other.what === 'opening') continue;
      linesX.push([other.x, other.name]);
      linesY.push([other.y, other.name]);
    }
  }
  const nearest = (at: number, lines: [number, string][]) =>
    lines.filter(([to]) => Math.abs(to - at) <= reach).sort((a, b) => Math.abs(a[0] - at) - Math.abs(b[0] - at))[0];
  const nx = nearest(x, linesX);
  const ny = nearest(y, linesY);
  const grid = (n: number) => Math.round(n * 20) / 20;
  return { x: nx ? nx[0] : grid(x), y: ny ? ny[0] : grid(y), toX: nx?.[1] ?? null, toY: ny?.[1] ?? null };
}

/** The change of the shoot file that a move means. */
export function moveEdits(g: Geometry, form: Form, thing: Thing, x: number, y: number): Edit[] {
  const m = (n: number) => lengthText(n, g.feet);
  const index = Number(thing.id.split('-')[1] ?? 0);
  const both = (path: (string | number)[]): Edit[] => [
    { path: [...path, 'from_left'], value: m(x) },
    { path: [...path, 'from_behind'], value: m(y) },
  ];
  switch (thing.what) {
    case 'sitter':
      return both(['sitter', index]);
    case 'camera':
      return both(['camera']);
    case 'furniture':
      return both(['place', 'furniture', index]);
    case 'board':
      return both(['place', 'board', index]);
    case 'opening':
      return [{ path: ['place', 'opening', index, 'from_left_end'], value: m(fromLeftEnd(g, thing, x, y)) }];
    case 'flash':
      return [{ path: ['ask', 'flash'], value: { ...(form.ask.flash as object), from_left: m(x), from_behind: m(y) } }];
    case 'lamp': {
      const all = (form.ambient ?? []) as { name?: string; from?: Value }[];
      const lamp = ambientOf(form, thing.name);
      const at = lamp ? all.indexOf(lamp) : -1;
      if (at < 0 || typeof lamp?.from !== 'object') return [];
      return [
        { path: ['ambient', at, 'from'], value: { ...(lamp.from as object), from_left: m(x), from_behind: m(y) } },
      ];
    }
  }
}
