// A sentence with blanks in it, made into something that finds its like and says the same in German.

/** A sentence of the server with `{blanks}`, and its German. A blank is a kind, with a digit where there are two of it. */
export type Form = readonly [english: string, german: string];

/** What may stand in a blank, as a pattern, and how it is said; null where it turns out to be something else. */
export type Blank = { pattern: string; say: (found: string, how: string) => string | null };

/** The German of a sentence, or null for one that it does not know. */
export type Reader = (sentence: string) => string | null;

const BLANK = /\{([a-z]+\d?)(?:\.(\w+))?\}/;
const literal = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** Text and blanks of a form by turns: the text, the blank's name, how it is to be said, the text … */
const pieces = (side: string) => side.split(BLANK);

export function reader([english, german]: Form, blankOf: (kind: string) => Blank): Reader {
  const names: string[] = [];
  const pattern = pieces(english)
    .map((piece, i) => {
      if (i % 3 === 0) return literal(piece ?? '');
      if (i % 3 === 2) return '';
      names.push(piece!);
      return `(${blankOf(kindOf(piece!)).pattern})`;
    })
    .join('');
  const shape = new RegExp(`^${pattern}$`);
  const out = pieces(german);
  return (sentence) => {
    const found = shape.exec(sentence);
    if (!found) return null;
    let said = '';
    for (let i = 0; i < out.length; i += 3) {
      said += out[i] ?? '';
      const name = out[i + 1];
      if (name === undefined) continue;
      const word = blankOf(kindOf(name)).say(found[names.indexOf(name) + 1] ?? '', out[i + 2] ?? '');
      if (word === null) return null;
      said += word;
    }
    return said;
  };
}

const kindOf = (name: string) => name.replace(/\d$/, '');

/** The blanks of one side of a form, so that a test can see that both sides have the same. */
export const blanksIn = (side: string) => pieces(side).filter((_, i) => i % 3 === 1);
