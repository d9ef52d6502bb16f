import { describe, expect, it } from 'vitest';
import type { Form, Geometry } from '../src/api-types.ts';
import { fromLeftEnd, kept, moveEdits, openingPlace, openSides, snapped, thingsOf } from '../src/place/plan.ts';

const g: Geometry = {
  feet: false,
  room: { width: 5.5, length: 7.5, height: 2.4 },
  camera: { x: 2.3, y: 2.6, z: 1.3 },
  sitters: [{ name: 'the cornet player', x: 2.3, y: 4.7, face_height: 1.22, facing_deg: 0 }],
  furniture: [{ name: 'cupboard', x: 3.9, y: 7, z: 0, width: 1.2, depth: 0.5, height: 1.9 }],
  boards: [],
  openings: [
    { name: 'door', wall: 'behind camera', from_left_end: 4.2, from_floor: 0, width: 0.9, height: 2, kind: 'doorway' },
  ],
  lamps: [{ name: 'bulb', x: 1, y: 1, z: 2 }],
  flash: null,
};
const form: Form = {
  ambient: [
    { name: 'tubes', from: 'all round' },
    { name: 'bulb', from: { from_left: '1 m', from_behind: '1 m', height: '2 m' } },
  ],
  ask: {},
};
const things = thingsOf(g, form, { camera: 'camera', flash: 'flash' });
const thing = (id: string) => things.find((t) => t.id === id)!;
const words = { middle: 'middle', wall: 'wall' };

describe('the plan', () => {
  it('counts the left end of each wall as seen from inside', () => {
    expect(openingPlace(g, 'behind camera', 4.2, 0.9)!.x).toBeCloseTo(0.85);
    expect(openingPlace(g, 'behind sitter', 1, 1)).toEqual({ x: 1.5, y: 7.5 });
    expect(openingPlace(g, 'left', 1, 1)).toEqual({ x: 0, y: 1.5 });
    expect(openingPlace(g, 'right', 1, 1)).toEqual({ x: 5.5, y: 6 });
    for (const wall of ['left', 'right', 'behind camera', 'behind sitter']) {
      const at = openingPlace(g, wall, 1.3, 0.9)!;
      expect(fromLeftEnd(g, { ...thing('opening-0'), wall }, at.x, at.y)).toBeCloseTo(1.3);
    }
  });
  it('knows the sides that have no wall', () => {
    expect(openSides({ place: { left: 'open', right: 'brick' } })).toEqual(['left']);
    expect(openSides({ place: { ceiling: 'open', left: 'brick', right: 'open' } })).toEqual([
      'right',
      'behind camera',
      'behind sitter',
      'ceiling',
    ]);
    expect(openSides({})).toEqual([]);
  });
  it('keeps things in the room', () => {
    expect(kept(g, thing('sitter-0'), -3, 99)).toEqual({ x: 0.1, y: 7.4 });
    const corner = kept(g, thing('furniture-0'), 99, 99);
    expect([corner.x, corner.y]).toEqual([4.3, 7]);
  });
  it('snaps to what is near, else to five centimetres', () => {
    expect(snapped(g, thing('sitter-0'), things, 2.34, 4.02, words)).toEqual({
      x: 2.3,
      y: 4,
      toX: 'camera',
      toY: null,
    });
    expect(snapped(g, thing('sitter-0'), things, 2.73, 5.123, words)).toEqual({
      x: 2.75,
      y: 5.1,
      toX: 'middle',
      toY: null,
    });
    expect(snapped(g, thing('furniture-0'), things, 0.05, 3, words)).toMatchObject({ x: 0, toX: 'wall' });
  });
  it('writes moves in the notation of the file', () => {
    expect(moveEdits(g, form, thing('sitter-0'), 2.05, 4.5)).toEqual([
      { path: ['sitter', 0, 'from_left'], value: '2.05 m' },
      { path: ['sitter', 0, 'from_behind'], value: '4.50 m' },
    ]);
    expect(moveEdits(g, form, thing('lamp-0'), 1.5, 2)).toEqual([
      { path: ['ambient', 1, 'from'], value: { from_left: '1.50 m', from_behind: '2.00 m', height: '2 m' } },
    ]);
    expect(moveEdits({ ...g, feet: true }, form, thing('camera'), 0.3048 * 6.5, 3.048)).toEqual([
      { path: ['camera', 'from_left'], value: '6 ft 6 in' },
      { path: ['camera', 'from_behind'], value: '10 ft' },
    ]);
  });
});
