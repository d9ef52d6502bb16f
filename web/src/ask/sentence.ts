// The ask as a sentence: which words stand still, which are terms of the trade, and which can be changed.
import type { Edit, Form, Value, Vocabulary } from '../api-types.ts';
import { spelledIn } from '../notation.ts';
import type { Strings } from '../strings/en.ts';

/** The wishes in the sentence itself. */
export const FIRST = [
  'sitter',
  'place',
  'key',
  'from',
  'softness',
  'ratio',
  'ambient',
  'skin',
  'aperture',
  'in_hand',
] as const;
/** The wishes that stand behind it when they are wished. */
export const MORE = [
  'flash',
  'gel',
  'shutter',
  'iso',
  'depth',
  'white_balance',
  'tint',
  'colour',
  'evenness',
  'background',
  'fill',
  'recycle',
  'sitter_may_move',
  'zone',
] as const;
export type Wish = (typeof FIRST)[number] | (typeof MORE)[number];

export type Piece =
  | { is: 'text'; text: string }
  | { is: 'term'; term: string; text: string }
  | { is: 'fill'; wish: Wish; text: string };

/**
 * Takes a sentence apart. `{wish}` is a fill-in, `[term|words]` are words with an explanation; the words of a term may hold
 * a fill-in, which then stands by itself.
 */
export function takeApart(sentence: string): ({ text: string } | { term: string; text: string } | { fill: string })[] {
  return sentence
    .split(/(\{\w+\}|\[[^\]]+\])/)
    .filter((part) => part !== '')
    .map((part) => {
      if (part.startsWith('{')) return { fill: part.slice(1, -1) };
      if (part.startsWith('[')) {
        const [term = '', text = ''] = part.slice(1, -1).split('|');
        return text.startsWith('{') ? { fill: text.slice(1, -1) } : { term, text };
      }
      return { text: part };
    });
}

/** Stops as a wish writes them, in words: "-2 stops" as "2 stops down". Other words come back untouched. */
export function stopsWords(value: string, S: Strings): string {
  const signed = /^([+\-−])\s*([\d./]+)\s*stops?$/i.exec(value);
  const worded = /^([\d./]+)\s*stops?\s*(down|under|below|darker|up|over|above|brighter)$/i.exec(value);
  const plainStops = /^([\d./]+)\s*stops?$/i.exec(value);
  if (signed) return signed[1] === '+' ? S.stopsUp(signed[2]!) : S.stopsDown(signed[2]!);
  if (worded) return /down|under|below|darker/i.test(worded[2]!) ? S.stopsDown(worded[1]!) : S.stopsUp(worded[1]!);
  if (plainStops) {
    const n = plainStops[1]!;
    return Number.isNaN(Number(n)) ? S.partOfStop(n) : S.stops(Number(n));
  }
  return spelledIn(value, S);
}

/** How large a room may be said to be. */
export const roomHint = (feet: boolean) => (feet ? '18 x 14 x 8 ft' : '5.5 x 4.4 x 2.6 m');

/** How a wish may be written, in the unit of its shoot; undefined where there is no usual way. */
export function hintOf(wish: Wish, feet: boolean, S: Strings): string | undefined {
  switch (wish) {
    case 'sitter':
      return S.ask.nameHint;
    case 'place':
      return S.ask.roomHint(roomHint(feet));
    case 'depth':
      return feet ? '1 ft' : '0.3 m';
    case 'sitter_may_move':
      return feet ? '1 ft 6 in' : '0.5 m';
    default:
      return S.ask.hint[wish];
  }
}

const degrees = (value: Value) => String(value).replace(/ ?deg$/, '°');

/** A value of the shoot file in the words of the page. */
export function shownValue(value: Value, S: Strings): string {
  if (typeof value === 'string') return S.words[value] ?? stopsWords(value, S);
  if (typeof value === 'number' || typeof value === 'boolean') return String(value);
  if (Array.isArray(value)) return value.map((v) => shownValue(v, S)).join(', ');
  if ('azimuth' in value) return S.ask.angles(degrees(value.azimuth), degrees(value.elevation ?? '20 deg'));
  if ('at' in value) return `${String(value.name)} ${stopsWords(String(value.at), S)}`;
  if ('from_left' in value) return S.ask.standsAt;
  return Object.values(value).map(String).join(' ');
}

/** What stands in a fill-in. */
export function shownWish(wish: Wish, form: Form, S: Strings): string {
  const ask = (form.ask ?? {}) as Record<string, Value>;
  if (wish === 'sitter') {
    const sitters = (form.sitter ?? []) as { name?: string }[];
    if (sitters.length > 1) return S.ask.sitters(sitters.length);
    return sitters[0]?.name ?? S.ask.someone;
  }
  if (wish === 'place') {
    const size = spelledIn(String(form.place?.room ?? '').replaceAll(' x ', ' × '), S);
    return form.place?.ceiling === 'open' ? S.ask.outdoors(size) : S.ask.room(size);
  }
  const value = ask[wish];
  if (value === undefined || value === null) {
    // "loop from left" says the side too.
    if (wish === 'from' && typeof ask.key === 'string') {
      const side = / from (left|right)$/.exec(ask.key)?.[1];
      if (side) return S.words[side] ?? side;
    }
    return S.ask.unset[wish as keyof Strings['ask']['unset']] ?? S.ask.free;
  }
  if (wish === 'key' && typeof value === 'string') return value.replace(/ from (left|right)$/, '');
  return shownValue(value, S);
}

/** The whole ask. */
export function sentence(form: Form, S: Strings): Piece[] {
  return takeApart(S.ask.one).map((part): Piece => {
    if ('fill' in part) return { is: 'fill', wish: part.fill as Wish, text: shownWish(part.fill as Wish, form, S) };
    return 'term' in part ? { is: 'term', ...part } : { is: 'text', ...part };
  });
}

/** The wishes of the second row that this ask has. */
export const wished = (form: Form): Wish[] => MORE.filter((wish) => form.ask?.[wish] !== undefined);

export type Choice = { value: string | null; label: string; note?: string; means?: string };

const fixed = (values: string[], S: Strings): Choice[] =>
  values.map((value) => ({ value, label: shownValue(value, S) }));

/** What can be chosen from the list of a fill-in; whatever else can be typed. */
export function choices(wish: Wish, form: Form, vocabulary: Vocabulary | null, S: Strings, feet: boolean): Choice[] {
  const free: Choice = { value: null, label: wish === 'ratio' ? S.ask.ratioFree : S.ask.free };
  switch (wish) {
    case 'key':
      return (vocabulary?.patterns ?? []).map((p) => {
        const means = S.terms[p.name.toLowerCase()];
        return {
          value: p.name,
          label: p.name,
          note: S.ask.keyAngles(p.azimuth.join('–'), p.elevation.join('–')),
          ...(means ? { means } : {}),
        };
      });
    case 'from':
      return fixed(['left', 'right', 'either'], S);
    case 'softness':
      return fixed(['soft', 'hard', 'any'], S);
    case 'ratio':
      return [...fixed(['2:1', '3:1', '4:1', '8:1'], S), free];
    case 'ambient':
      return fixed(['-1 stop', '-2 stops', '-3 stops', 'natural', 'out', 'any'], S);
    case 'skin':
      return fixed(['neutral', 'within 25 mired', 'any'], S);
    case 'aperture':
      return [...fixed(['f/2', 'f/2.8', 'f/4', 'f/5.6', 'f/8'], S), free];
    case 'in_hand':
      return fixed(['0.3 stops', '1 stop', '2 stops'], S);
    case 'shutter':
      return [...fixed(['1/60', '1/100', '1/125', '1/160', '1/200'], S), free];
    case 'iso':
      return [...fixed(['ISO 100', 'ISO 200', 'ISO 400', 'ISO 800'], S), free];
    case 'depth':
      return [...fixed(feet ? ['4 in', '1 ft', '3 ft'] : ['0.1 m', '0.3 m', '1 m'], S), free];
    case 'evenness':
      return fixed(['1/3 stop', '1/2 stop'], S);
    case 'background':
      return fixed(['same', '-1 stop', '-2 stops'], S);
    case 'fill':
      return fixed(['same', '-1 stop', '-2 stops'], S);
    case 'recycle':
      return fixed(['0.5 s', '1 s', '2 s'], S);
    case 'white_balance':
      return [...fixed(['3200 K', '4000 K', '5000 K', '5600 K', '6500 K'], S), free];
    case 'tint':
      return fixed(['M2', 'M1', '0', 'G1', 'G2'], S);
    case 'colour':
      return fixed(['neutral', 'ambient blue', 'match the lamps', 'skin warm by 35 mired', 'room warm by 40 mired'], S);
    case 'gel':
      return [
        ...fixed(['none'], S),
        ...((form.bag?.gels ?? []) as string[]).map((value) => ({ value, label: value })),
        free,
      ];
    case 'flash':
      return fixed(['on camera', 'anywhere'], S);
    case 'sitter_may_move':
      return fixed(feet ? ['1 ft', '1 ft 6 in', '3 ft'] : ['0.3 m', '0.5 m', '1 m'], S);
    case 'zone':
      return ((form.zone ?? []) as { name?: string }[]).flatMap(({ name }) =>
        name
          ? ['normal', '-1 stop', '-2 stops'].map((at) => ({
              value: `${name} at ${at}`,
              label: `${name} ${stopsWords(at, S)}`,
            }))
          : [],
      );
    default:
      return [];
  }
}

/** The change of the shoot file that a choice means; null takes the wish back. */
export function editFor(wish: Wish, value: string | null, form: Form): Edit[] {
  const text = value?.trim() ?? '';
  if (wish === 'sitter') return [{ path: ['sitter', 0, 'name'], value: text || null }];
  if (wish === 'place') return text ? [{ path: ['place', 'room'], value: text.replaceAll('×', 'x') }] : [];
  if (wish === 'zone' && text) {
    const [name = '', at = 'normal'] = text.split(/ at /);
    return [{ path: ['ask', 'zone'], value: { name, at } }];
  }
  const edits: Edit[] = [{ path: ['ask', wish], value: text || null }];
  // A side chosen by itself takes the place of the one in "loop from left".
  if (wish === 'from' && typeof form.ask?.key === 'string' && / from (left|right)$/.test(form.ask.key)) {
    edits.push({ path: ['ask', 'key'], value: form.ask.key.replace(/ from (left|right)$/, '') });
  }
  // Aperture and depth are two ways of asking the same thing.
  if (text && wish === 'depth' && form.ask?.aperture) edits.push({ path: ['ask', 'aperture'], value: null });
  if (text && wish === 'aperture' && form.ask?.depth) edits.push({ path: ['ask', 'depth'], value: null });
  return edits;
}
