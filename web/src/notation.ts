// Numbers as the trade writes them. Nothing is computed here but the spelling.
import type { Strings } from './strings/en.ts';

/** A number with at most so many decimals, with a true minus sign and the point that is said. */
export function plain(n: number, decimals = 1, point = '.'): string {
  const fixed = n.toFixed(decimals);
  const text = fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed;
  return (Number(text) === 0 ? '0' : text).replace('-', '−').replace('.', point);
}

/** Stops with their sign and the word that goes with it: "−1.3 darker". */
export function offset(stops: number | null, S: Strings): string {
  if (stops === null) return '–';
  const rounded = Math.round(stops * 10) / 10;
  if (rounded === 0) return `±0, ${S.reasons.even}`;
  return `${rounded > 0 ? '+' : '−'}${plain(Math.abs(rounded), 1, S.decimal)} ${rounded > 0 ? S.signs.brighter : S.signs.darker}`;
}

/** A length for reading: metres with centimetres, or feet and inches. */
export function lengthWords(metres: number, feet: boolean): string {
  if (!feet) return `${(Math.round(metres * 100) / 100).toFixed(2)} m`;
  const inches = Math.round((metres / 0.3048) * 24) / 2;
  const whole = Math.floor(inches / 12);
  const rest = inches - whole * 12;
  return rest ? `${whole} ft ${plain(rest)} in` : `${whole} ft`;
}

/** To the decimetre; the server rounds a half up, whose digits beyond a tenth of a millimetre are not sent. */
export const toDecimetre = (metres: number) => Math.round(metres * 10 + 1e-6) / 10;

/** A length as it is paced out: to the decimetre, or to the inch, and to half of one where a tape is read closer. */
export function lengthAbout(metres: number, feet: boolean, S: Strings): string {
  if (!feet) return `${toDecimetre(metres).toFixed(1).replace('.', S.decimal)} m`;
  const inches = metres / 0.0254;
  const near = inches < 36 ? Math.round(inches * 2) / 2 : Math.round(inches);
  const whole = Math.floor(near / 12);
  const rest = near - whole * 12;
  return [...(whole ? [`${whole} ft`] : []), ...(rest || !whole ? [`${plain(rest)} in`] : [])].join(' ');
}

/** A length as the shoot file takes it. */
export const lengthText = (metres: number, feet: boolean) => lengthWords(metres, feet).replace('−', '-');

/** Colour shift in words: "9 mired warmer". */
export function miredWords(mired: number | null, S: Strings): string {
  if (mired === null) return '–';
  const n = Math.round(Math.abs(mired));
  if (n === 0) return S.reasons.even;
  return mired > 0 ? S.reasons.warm(n) : S.reasons.cold(n);
}

/** A day and time for reading, in the language of the page. */
export function whenWords(iso: string, S: Strings): string {
  const date = new Date(iso);
  return Number.isNaN(date.getTime())
    ? iso
    : new Intl.DateTimeFormat(S.code === 'en' ? 'en-GB' : S.code, { dateStyle: 'medium', timeStyle: 'short' }).format(
        date,
      );
}

/** A name that a file may have everywhere. */
export const fileName = (name: string) =>
  `${
    name
      .trim()
      .replace(/[^\p{L}\p{N} _.-]+/gu, '')
      .replace(/\s+/g, '-') || 'shoot'
  }`.toLowerCase();
