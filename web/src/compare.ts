// Two answers side by side: what differs, in plain words.
import type { Report } from './api-types.ts';
import { figure, miredWords, offset } from './notation.ts';
import type { Strings } from './strings/en.ts';

export type Difference = { what: string; a: string; b: string; words: string };

/** Everything that differs and would be noticed, the settings first. */
export function differences(a: Report, b: Report, S: Strings): Difference[] {
  const T = S.compare.things;
  const found: Difference[] = [];
  const text = (what: string, x: string, y: string) => {
    if (x !== y) found.push({ what, a: x, b: y, words: S.compare.from(what, x, y) });
  };
  const number = (
    what: string,
    x: number | null | undefined,
    y: number | null | undefined,
    least: number,
    say: (n: number) => string,
  ) => {
    if (x == null && y == null) return;
    if (x != null && y != null && Math.abs(x - y) < least) return;
    text(what, x == null ? '–' : say(x), y == null ? '–' : say(y));
  };
  const stops = (what: string, x: number | null, y: number | null) => {
    if (x === null || y === null) return number(what, x, y, 0.05, (n) => offset(n, S));
    const d = y - x;
    if (Math.abs(d) < 0.05) return;
    const n = S.stops(Math.round(Math.abs(d) * 10) / 10);
    found.push({
      what,
      a: offset(x, S),
      b: offset(y, S),
      words: d > 0 ? S.compare.brighter(what, n) : S.compare.darker(what, n),
    });
  };
  text(T.aperture, a.told.engraved.aperture, b.told.engraved.aperture);
  text(T.shutter, a.told.engraved.shutter, b.told.engraved.shutter);
  number(T.iso, a.camera.iso, b.camera.iso, 1, (n) => figure(n, S, 0));
  number(T.balance, a.camera.white_balance_k, b.camera.white_balance_k, 50, (n) => `${figure(n, S, 0)} K`);
  number(T.nd, a.camera.nd_stops, b.camera.nd_stops, 0.1, (n) => S.stops(n));
  text(T.power, a.told.engraved.power, b.told.engraved.power);
  number(T.zoom, a.flash.zoom_mm, b.flash.zoom_mm, 1, (n) => figure(n, S, 0));
  text(T.gel, a.colour.gel?.name ?? S.words.none ?? '–', b.colour.gel?.name ?? S.words.none ?? '–');
  number(T.in_hand, a.flash.in_hand_stops, b.flash.in_hand_stops, 0.2, (n) => S.stops(Math.round(n * 10) / 10));
  text(T.surface, a.told.way, b.told.way);
  number(
    T.key,
    a.key.azimuth_deg,
    b.key.azimuth_deg,
    3,
    (n) => `${figure(Math.abs(n), S, 0)}° ${S.words[n < 0 ? 'left' : 'right']}`,
  );
  number(T.height, a.key.elevation_deg, b.key.elevation_deg, 3, (n) => `${figure(n, S, 0)}°`);
  number(T.ratio, a.key.ratio, b.key.ratio, 0.3, (n) => `${figure(n, S)}:1`);
  number(T.cast, a.key.cast.mired, b.key.cast.mired, 5, (n) => miredWords(n, S));
  number(T.softness, a.key.softness, b.key.softness, 0.1, (n) => figure(n, S, 2));
  stops(T.room, a.exposure.ambient_alone_stops, b.exposure.ambient_alone_stops);
  stops(T.flash, a.exposure.flash_alone_stops, b.exposure.flash_alone_stops);
  number(T.sure, a.uncertainty.within_stops, b.uncertainty.within_stops, 0.1, (n) => S.stops(Math.round(n * 10) / 10));
  return found;
}
