// Where an answer points the flash, as data that any language can make a sentence of. Pure.
import type { Answer, ChosenReport } from './api-types.ts';

/** The sides of a room by the names that the server gives them. */
const SIDE_OF = {
  'left wall': 'left',
  'right wall': 'right',
  'wall behind the camera': 'behind camera',
  'wall behind the sitter': 'behind sitter',
  ceiling: 'ceiling',
  floor: 'floor',
} as const;
export type Side = (typeof SIDE_OF)[keyof typeof SIDE_OF];

export const sideOf = (name: string): Side | null => (SIDE_OF as Record<string, Side>)[name] ?? null;

export type Pointing = {
  arrow: string;
  way:
    | { is: 'direct' }
    | { is: 'standing'; name: string }
    /** A board on an hour of the clock, so far from the face, and its middle so far above the eyes. */
    | { is: 'held'; name: string; hour: number; half: boolean; toFace: number; aboveEyes: number }
    /** A side of the room, how high up, and how far ahead of the camera; null where it does not help. */
    | { is: 'bounce'; side: Side; corner: Side | null; up: number | null; ahead: number | null };
  /** To the nearest five degrees, positive to the camera's right; `round` for a head turned right round. */
  turn: number | 'round';
  tilt: number;
  flagged: boolean;
};

const toFive = (degrees: number) => Math.sign(degrees) * Math.round(Math.abs(degrees) / 5) * 5;

function arrowOf(turn: number, tilt: number): string {
  const up = tilt > 35;
  if (Math.abs(turn) > 150) return up ? '⤒' : '↓';
  if (turn < -20) return up ? '↖' : '←';
  if (turn > 20) return up ? '↗' : '→';
  return '↑';
}

function wayOf(chosen: ChosenReport, eyes: number | null): Pointing['way'] | null {
  const { route, surface, board, aim_m, flash_m, light_from_clock } = chosen;
  if (route === 'direct') return { is: 'direct' };
  if (route === 'standing') return { is: 'standing', name: surface };
  if (route === 'held_board') {
    const height = board?.centre_m.height;
    if (!board || board.to_face_m === null || height == null || light_from_clock === null || eyes === null) return null;
    const halves = Math.round(light_from_clock * 2);
    return {
      is: 'held',
      name: board.name,
      hour: Math.floor(halves / 2) % 12 || 12,
      half: halves % 2 === 1,
      toFace: board.to_face_m,
      aboveEyes: height - eyes,
    };
  }
  const side = sideOf(surface);
  const corner = chosen.corner_with === null ? null : sideOf(chosen.corner_with);
  const { from_behind: at, height } = aim_m;
  if (!side || (chosen.corner_with !== null && !corner) || at === null || height === null) return null;
  if (flash_m.from_behind === null) return null;
  return {
    is: 'bounce',
    side,
    corner,
    up: side === 'ceiling' || side === 'floor' ? null : height,
    ahead: side === 'left' || side === 'right' || side === 'ceiling' ? at - flash_m.from_behind : null,
  };
}

/** What the third line of an answer says; `eyes` is their height above the floor. Null where a piece of it is not told. */
export function pointingOf(chosen: ChosenReport, eyes: number | null): Pointing | null {
  const { turn_deg: turn, tilt_deg: tilt } = chosen;
  const way = wayOf(chosen, eyes);
  if (!way || turn === null || tilt === null) return null;
  const turned = toFive(turn);
  return {
    arrow: arrowOf(turn, tilt),
    way,
    turn: Math.abs(turned) > 172 ? 'round' : turned,
    tilt: toFive(tilt),
    flagged: chosen.flagged,
  };
}

/** Height of the eyes that an answer's boards are measured from. */
export const eyesOf = (of: Answer) => of.geometry.sitters[0]?.face_height ?? null;
