import { describe, expect, it } from 'vitest';
import { facesClock, facesText, pastAt, pastCamera, snappedTurn, stepped, toCamera } from '../src/place/turn.ts';

const sitter = { x: 2.3, y: 4.7 };
const camera = { x: 2.3, y: 2.6 };

describe('which way a sitter looks', () => {
  it('is told from the camera, wherever it stands', () => {
    expect(toCamera(sitter, camera)).toBeCloseTo(0);
    expect(toCamera(sitter, { x: 4.4, y: 2.6 })).toBeCloseTo(45);
    expect(pastCamera(45, sitter, { x: 4.4, y: 2.6 })).toBeCloseTo(0);
    expect(pastCamera(170, sitter, { x: 0.2, y: 2.6 })).toBeCloseTo(-145);
    expect(pastAt(sitter, camera, { x: 5, y: 4.7 })).toBeCloseTo(90);
    expect(pastAt(sitter, camera, { x: 0, y: 4.7 })).toBeCloseTo(-90);
    expect(pastAt(sitter, camera, sitter)).toBeNull();
  });
  it('snaps to the camera and to whole hours, else to five degrees', () => {
    expect([0.4, 5.9, -6, 6.4, 27, 33.9, 36, 48, -58, 179].map((n) => snappedTurn(n))).toEqual([
      0, 0, 0, 5, 30, 30, 35, 50, -60, 180,
    ]);
    expect(snappedTurn(3.4, true)).toBe(3);
  });
  it('goes by keys from where it is', () => {
    expect(stepped(0, 15)).toBe(15);
    expect(stepped(32, -5)).toBe(25);
    expect(stepped(175, 15)).toBe(-170);
  });
  it('is written as the shoot file takes it: the camera at 6, its left at 9, its right at 3', () => {
    expect([0, 90, -90, 180, 30, -30, 15, -15, 10, -5, 165].map(facesText)).toEqual([
      'camera',
      "3 o'clock",
      "9 o'clock",
      "12 o'clock",
      "5 o'clock",
      "7 o'clock",
      '5:30',
      '6:30',
      '5:40',
      '6:10',
      '12:30',
    ]);
    expect([0, 90, 15].map(facesClock)).toEqual([null, '3', '5:30']);
  });
});
