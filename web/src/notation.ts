// Numbers as the trade writes them. Nothing is computed here but the spelling.
import type { Strings } from './strings/en.ts';

/** A number with at most so many decimals, with a true minus sign and the point that is said. */
export function plain(n: number, decimals = 1, point = '.'): string {
  const fixed = n.toFixed(decimals);
  const text = fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed;
  return (Number(text) === 0 ? '0' : text).replace('-', '−').replace('.', point);
}

/** A number as the page writes it. */
export const figure = (n: number, S: Strings, decimals = 1) => plain(n, decimals, S.decimal);

/** A number with its sign, unless it is nought. */
export function signed(n: number, S: Strings, decimals = 1): string {
  const text = figure(n, S, decimals);
  return n > 0 && text !== '0' ? `+${text}` : text;
}

/** What is written in the notation of the trade, with the decimal sign of the page; f-numbers keep the point of the dial. */
export const spelledIn = (notation: string, S: Strings) => notation.replace(/(?<!f\/\d*)(?<=\d)\.(?=\d)/g, S.decimal);

/** Stops with their sign and the word that goes with it: "−1.3 darker". */
export function offset(stops: number | null, S: Strings): string {
  if (stops === null) return '–';
  const rounded = Math.round(stops * 10) / 10;
  if (rounded === 0) return `±0, ${S.reasons.even}`;
  return `${rounded > 0 ? '+' : '−'}${figure(Math.abs(rounded), S)} ${rounded > 0 ? S.signs.brighter : S.signs.darker}`;
}

/** A length in the unit of the shoot: to the decimetre as it is paced out, or to the centimetre as it is measured. */
function spelled(metres: number, feet: boolean, paced: boolean, point: string): string {
  if (!feet) {
    // What is sent has no digits beyond a tenth of a millimetre, so a half may come a little short of one.
    const whole = Math.round(metres * (paced ? 10 : 100) + 1e-6);
    return `${(whole / (paced ? 10 : 100)).toFixed(paced ? 1 : 2).replace('.', point)} m`;
  }
  const inches = metres / 0.0254;
  // A tape is read closer below three feet.
  const near = paced && inches >= 36 ? Math.round(inches) : Math.round(inches * 2) / 2;
  const whole = Math.floor(near / 12);
  const rest = near - whole * 12;
  return [...(whole ? [`${whole} ft`] : []), ...(rest || !whole ? [`${plain(rest, 1, point)} in`] : [])].join(' ');
}

/** A length for reading, in the unit of its shoot and with the decimal sign of the page. */
export const lengthWords = (metres: number, feet: boolean, S: Strings, how: 'measured' | 'paced' = 'measured') =>
  spelled(metres, feet, how === 'paced', S.decimal).replace('-', '−');

/** A length as the shoot file takes it. */
export const lengthText = (metres: number, feet: boolean) => spelled(metres, feet, false, '.');

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
