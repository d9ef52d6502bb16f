import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { asMoved, axis, cut, end, fan, lensOf, level, metAt, spread, tiltTo, toFive, turnTo } from '../src/aim/beam.ts';
import type { Answer, Geometry, HeldBoard } from '../src/api-types.ts';
import { halfTurn } from '../src/place/turn.ts';

const answer = JSON.parse(readFileSync(new URL('./answer.json', import.meta.url), 'utf8')) as Answer['report'];
const g: Geometry = {
  feet: false,
  room: { width: 5.5, length: 7.5, height: 2.4 },
  camera: { x: 2.3, y: 2.6, z: 1.3 },
  sitters: [{ name: 'the cornet player', x: 2.3, y: 4.7, face_height: 1.22, facing_deg: 0 }],
  furniture: [{ name: 'low cupboard', x: 0, y: 5.4, z: 0, width: 0.45, depth: 1.6, height: 0.85 }],
  boards: [{ name: 'screen', x: 4, y: 3, z: 1, width: 1, height: 2 }],
  openings: [],
  lamps: [],
  flash: null,
};
const stand = { flash: { x: 2.3, y: 2.6, z: 1.42 }, lens: 0 };

describe('turn and tilt', () => {
  it('turn from the lens axis, positive to the right of the camera', () => {
    expect(turnTo(stand, 2.3, 7)).toBeCloseTo(0);
    expect(turnTo(stand, 5, 2.6)).toBeCloseTo(90);
    expect(turnTo(stand, 0, 2.6)).toBeCloseTo(-90);
    expect(Math.abs(turnTo(stand, 2.3, 0)!)).toBeCloseTo(180);
    // A lens that looks half right takes the nought along.
    expect(turnTo({ ...stand, lens: 45 }, 2.3, 7)).toBeCloseTo(-45);
    // The worked value of the answer's data: ahead, to camera left and up.
    const at = axis(stand, { azimuth: -45, elevation: 45 });
    expect([at.x, at.y, at.z].map((v) => v * 2)).toEqual([-1, 1, Math.SQRT2].map((v) => expect.closeTo(v)));
  });
  it('agree with an answer of the server', () => {
    // From tests/answer.json: aim_m, flash_m and the first sitter of the band room.
    expect(turnTo(stand, 1.7163, 3.8664)).toBeCloseTo(-24.746, 1);
    expect(tiltTo(stand, Math.hypot(1.7163 - 2.3, 3.8664 - 2.6), 1.8559)).toBeCloseTo(17.359, 1);
  });
  it('are counted from where the lens looked for the answer', () => {
    // From tests/answer.json again: the camera of the band room looks straight ahead.
    const { flash_m, aim_m, turn_deg } = answer.chosen;
    expect(lensOf({ flash_m, aim_m, turn_deg }, g)).toBeCloseTo(0, 1);
    expect(lensOf({ flash_m, aim_m, turn_deg: turn_deg - 30 }, g)).toBeCloseTo(30, 1);
    // Straight up there is no turn; then the sitter says where the camera looks.
    const up = { flash_m, aim_m: { ...flash_m, height: 2.4 }, turn_deg: 0 };
    expect(lensOf(up, { ...g, sitters: [{ ...g.sitters[0]!, x: 4.4 }] })).toBeCloseTo(45);
  });
  it('are told to five degrees', () => {
    expect([17.4, -24.7, 2.4, -2.4, 92.5, -180].map(toFive)).toEqual([15, -25, 0, 0, 95, -180]);
  });
  it('come back from the points that they lead to', () => {
    for (const azimuth of [-170, -91, -24, 0, 33, 90, 179])
      for (const elevation of [-60, -5, 0, 20, 75]) {
        const to = end(g, stand.flash, axis(stand, { azimuth, elevation }));
        expect(turnTo(stand, to.x, to.y)).toBeCloseTo(azimuth, 6);
        expect(tiltTo(stand, Math.hypot(to.x - 2.3, to.y - 2.6), to.z)).toBeCloseTo(elevation, 6);
      }
  });
  it('have no answer on the flash itself, and go straight up behind it', () => {
    expect(turnTo(stand, 2.31, 2.6)).toBeNull();
    expect(tiltTo(stand, 0.01, 1.42)).toBeNull();
    expect(tiltTo(stand, -1, 2)).toBeCloseTo(90);
    expect(tiltTo(stand, -1, 1)).toBeCloseTo(-90);
  });
  it('go on at the other side of half a circle', () => {
    expect([181, -181, 180, -180, 540, 5].map(halfTurn)).toEqual([-179, 179, 180, 180, 180, 5]);
  });
});

describe('the end of the beam', () => {
  const at = (azimuth: number, elevation: number) => end(g, stand.flash, axis(stand, { azimuth, elevation }));
  it('is on the first wall, the ceiling, the floor or a piece of furniture', () => {
    expect(metAt(g, at(-90, 0))).toEqual({ is: 'side', side: 'left' });
    expect(metAt(g, at(90, 0))).toEqual({ is: 'side', side: 'right' });
    expect(metAt(g, at(0, 0))).toEqual({ is: 'side', side: 'behind sitter' });
    expect(metAt(g, at(180, 0))).toEqual({ is: 'side', side: 'behind camera' });
    expect(metAt(g, at(10, 80))).toEqual({ is: 'side', side: 'ceiling' });
    expect(metAt(g, at(10, -80))).toEqual({ is: 'side', side: 'floor' });
    const low = end(g, stand.flash, { x: -0.5, y: 0.83, z: -0.24 });
    expect(metAt(g, low)).toEqual({ is: 'thing', name: 'low cupboard' });
    expect(low.x).toBeCloseTo(0.45);
  });
  it('knows boards, people and the open by what the server says', () => {
    expect(metAt(g, { x: 4.1, y: 3.02, z: 1.2 })).toEqual({ is: 'thing', name: 'screen' });
    expect(metAt(g, { x: 2.35, y: 4.55, z: 1.2 })).toEqual({ is: 'sitter', name: 'the cornet player' });
    expect(metAt(g, { x: -12, y: 3, z: 4 })).toEqual({ is: 'open' });
    expect(metAt(g, at(-90, 0), ['left', 'ceiling'])).toEqual({ is: 'open' });
    expect(metAt(g, { x: 1, y: 3, z: 1 })).toEqual({ is: 'unknown' });
    const held: HeldBoard = {
      by: 'held_board',
      board: 0,
      name: 'white board',
      centre_m: { from_left: 1.1, from_behind: 3, height: 1.2 },
      normal: [1, 0, 0],
      to_face_m: 1,
    };
    expect(metAt(g, { x: 1, y: 3, z: 1 }, [], held)).toEqual({ is: 'thing', name: 'white board' });
  });
  it('spreads as far as the zoom is wide, and no further than the walls', () => {
    expect(spread(50, 'bare').across).toBeCloseTo(19.8, 1);
    expect(spread(50, 'bare').up).toBeCloseTo(13.5, 1);
    expect(spread(50, 'umbrella')).toEqual({ across: 60, up: 60 });
    const level = { azimuth: -90, elevation: 0 };
    const across = fan(g, stand, level, 20, 'across');
    expect(across.every((p) => Math.abs(p.x) < 1e-9)).toBe(true);
    // From behind the flash's left to its right: the first ray goes to the left of the beam, nearer to the camera's wall.
    expect(across[0]!.y).toBeCloseTo(2.6 - 2.3 * Math.tan((20 * Math.PI) / 180));
    expect(across.at(-1)!.y).toBeCloseTo(2.6 + 2.3 * Math.tan((20 * Math.PI) / 180));
    const upright = fan(g, stand, level, 10, 'upright');
    expect(upright.at(-1)!.z).toBeCloseTo(1.42 + 2.3 * Math.tan((10 * Math.PI) / 180));
    expect(fan(g, stand, level, 20, 'across', 1)[0]!.x).toBeCloseTo(1.3);
  });
});

describe('the section', () => {
  it('is cut along the beam', () => {
    expect(level(stand, 90)).toEqual({ x: 1, y: expect.closeTo(0) });
    expect(cut(stand.flash, { x: -1, y: 0 }, { x: 0, y: 0, width: 5.5, depth: 7.5 })).toEqual([-3.2, 2.3]);
    expect(cut(stand.flash, { x: -1, y: 0 }, g.furniture[0]!)).toBeNull();
    expect(cut({ x: 2.3, y: 6 }, { x: -1, y: 0 }, g.furniture[0]!)![0]).toBeCloseTo(1.85);
  });
  it('has the sitter where the answer has them stand', () => {
    expect(asMoved(g, null)).toBe(g);
    expect(asMoved(g, { from_left: 2, from_behind: 4.5 }).sitters[0]).toMatchObject({
      x: 2,
      y: 4.5,
      face_height: 1.22,
    });
  });
});
