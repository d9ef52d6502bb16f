// The sentences of an answer, which the server makes in English, in German: found in a phrasebook, whole or not at all.
import type { Strings } from './en.ts';
import { BLANKS } from './phrases/blanks.ts';
import * as changes from './phrases/changes.ts';
import { chart } from './phrases/chart.ts';
import * as doubts from './phrases/doubts.ts';
import { type Blank, type Form, type Reader, reader } from './phrases/form.ts';
import * as limits from './phrases/limits.ts';
import * as notes from './phrases/notes.ts';
import * as parts from './phrases/parts.ts';
import * as why from './phrases/why.ts';
import type { Spoken } from './spoken.ts';

/** Every part of an answer has a book of its own, so that a name in one is not taken for a phrase of another. */
export const BOOKS = { chart, ...doubts, ...limits, ...why, ...notes, ...changes, ...parts } satisfies Record<
  string,
  Form[]
>;
export type Part = keyof typeof BOOKS;

/** Blanks in which several phrases of a book stand in a row, with what joins them in English and in German. */
const ROWS: Record<string, [book: Part, english: string, german: string]> = {
  misses: ['missed', ', and ', ' und '],
  reasons: ['reason', '; ', '; '],
  moves: ['move', ' and ', ' und '],
  steps: ['step', ', ', ', '],
};

const readers = new Map<Part, Reader>();

/** A whole book as one reader; it is made when it is first needed. */
function bookOf(part: Part): Reader {
  const known = readers.get(part);
  if (known) return known;
  const all = BOOKS[part].map((form) => reader(form, blankOf));
  const made: Reader = (sentence) => {
    for (const one of all) {
      const said = one(sentence);
      if (said !== null) return said;
    }
    return null;
  };
  readers.set(part, made);
  return made;
}

function row([book, english, german]: [Part, string, string]): Blank {
  return {
    pattern: '.+?',
    say: (found) => {
      const all = found.split(english).map(bookOf(book));
      return all.includes(null) ? null : all.join(german);
    },
  };
}

/** Quotation marks within quotation marks are single. */
const quoted = (words: string) => `„${words.replaceAll('„', '‚').replaceAll('“', '‘')}“`;

/** A blank is one of the plain kinds, a row of phrases, or a phrase of the book that it is called after. */
export function blankOf(kind: string): Blank {
  const plain = BLANKS[kind];
  if (plain) return plain;
  const several = ROWS[kind];
  if (several) return row(several);
  if (!(kind in BOOKS)) throw new Error(`a phrase has a blank of no kind: ${kind}`);
  return {
    pattern: '.+?',
    say: (found, how) => {
      const said = bookOf(kind as Part)(found);
      return said !== null && how === 'quoted' ? quoted(said) : said;
    },
  };
}

/**
 * Words made of whole phrases, one behind another; null unless each of them is known. They are taken apart first, for a
 * name may be anything, and would hold the next sentence too.
 */
function phrases(words: string, read: Reader): string | null {
  for (const joint of words.matchAll(/\. |; /g)) {
    const head = read(words.slice(0, joint.index));
    const tail = head === null ? null : phrases(words.slice(joint.index + 2), read);
    if (tail !== null) return head + joint[0] + tail;
  }
  return read(words);
}

// A page draws the same few sentences again and again, and live aiming makes ever new ones.
const heard = new Map<string, string | null>();
const MOST_HEARD = 1000;

function inGerman(sentence: string, part: Part): string | null {
  const key = `${part}: ${sentence}`;
  const before = heard.get(key);
  if (before !== undefined) return before;
  const stop = sentence.endsWith('.') ? '.' : '';
  const said = phrases(sentence.slice(0, sentence.length - stop.length), bookOf(part));
  if (heard.size >= MOST_HEARD) heard.clear();
  heard.set(key, said === null ? null : said + stop);
  return heard.get(key) ?? null;
}

/** A sentence of the server in the language of the page if the phrasebook has it, else as it is. */
export function german(sentence: string, S: Strings, part: Part): Spoken {
  const said = S.code === 'de' ? inGerman(sentence, part) : null;
  return said === null ? { text: sentence, lang: 'en' } : { text: said, lang: S.code };
}
