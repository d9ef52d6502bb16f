// Which way a sitter looks: degrees on the plan against the clock of the shoot file. Pure.

type At = { x: number; y: number };

/** The direction from a sitter to the camera, in degrees: 0 at the wall behind the camera, positive to the camera's right. */
export const toCamera = (sitter: At, camera: At) =>
  (Math.atan2(camera.x - sitter.x, -(camera.y - sitter.y)) * 180) / Math.PI;

/** An angle as at most half a circle to either side. */
export const halfTurn = (angle: number) => {
  const n = (((angle + 180) % 360) + 360) % 360;
  return n === 0 ? 180 : n - 180;
};

/** How far round from the camera a sitter looks, in degrees, positive to the camera's right. */
export const pastCamera = (facing: number, sitter: At, camera: At) => halfTurn(facing - toCamera(sitter, camera));

/** The turn past the camera that looks at a point of the plan; null in the middle of the head. */
export function pastAt(sitter: At, camera: At, point: At): number | null {
  if (Math.hypot(point.x - sitter.x, point.y - sitter.y) < 0.02) return null;
  return pastCamera(toCamera(sitter, point), sitter, camera);
}

/** Draws a turn to the camera or to a whole hour when it is near, else to five degrees; held free, to single degrees. */
export function snappedTurn(past: number, free = false): number {
  if (free) return halfTurn(Math.round(past));
  if (Math.abs(past) <= 6) return 0;
  const hour = Math.round(past / 30) * 30;
  return halfTurn(Math.abs(past - hour) <= 4 ? hour : Math.round(past / 5) * 5);
}

/** A turn by a key, from where it is to the next place on the grid of five degrees. */
export const stepped = (past: number, by: number) => halfTurn(Math.round(past / 5) * 5 + by);

/** The hour of the sitter's clock, the camera at 6, its right at 3: hours and minutes. */
function clockOf(past: number): { hour: number; minute: number } {
  const minutes = ((Math.round((6 - past / 30) * 60) % 720) + 720) % 720;
  return { hour: Math.floor(minutes / 60) || 12, minute: minutes % 60 };
}

/** A turn as the shoot file writes it under `faces`. */
export function facesText(past: number): string {
  const { hour, minute } = clockOf(past);
  if (hour === 6 && minute === 0) return 'camera';
  return minute === 0 ? `${hour} o'clock` : `${hour}:${String(minute).padStart(2, '0')}`;
}

/** The same for reading: hours and minutes, null towards the camera. */
export function facesClock(past: number): string | null {
  const { hour, minute } = clockOf(past);
  return hour === 6 && minute === 0 ? null : minute === 0 ? String(hour) : `${hour}:${String(minute).padStart(2, '0')}`;
}
