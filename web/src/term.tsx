// A term of the trade with its explanation in one line, on touch, hover or focus.
import { signal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import { takeApart } from './ask/sentence.ts';
import { type Language, words } from './strings/index.ts';
import { german, type Part } from './strings/phrases.ts';

const shown = signal<{ id: string; term: string; x: number; y: number; above: boolean } | null>(null);

function show(id: string, term: string, at: Element): void {
  const box = at.getBoundingClientRect();
  const above = box.top > 120;
  shown.value = {
    id,
    term,
    x: Math.max(12, Math.min(box.left, window.innerWidth - 312)),
    y: above ? box.top - 8 : box.bottom + 8,
    above,
  };
}
const hide = (id: string) => {
  if (shown.value?.id === id) shown.value = null;
};

/** The words of a term; what they mean shows beside them. */
export function Term({ k, children }: { k: string; children: ComponentChildren }) {
  const id = useId();
  const meaning = words.value.terms[k];
  if (!meaning) return <>{children}</>;
  return (
    <button
      type="button"
      class="term"
      aria-describedby={`${id}-means`}
      onMouseEnter={(e) => show(id, k, e.currentTarget)}
      onMouseLeave={() => hide(id)}
      onFocus={(e) => show(id, k, e.currentTarget)}
      onBlur={() => hide(id)}
      onClick={(e) => show(id, k, e.currentTarget)}
      onKeyDown={(e) => {
        if (e.key === 'Escape' && shown.value) {
          e.stopPropagation();
          hide(id);
        }
      }}
    >
      {children}
      <span id={`${id}-means`} class="unseen" hidden>
        {meaning}
      </span>
    </button>
  );
}

/** The one place where explanations appear. */
export function TermShown() {
  const now = shown.value;
  if (!now) return null;
  return (
    <div
      class={`term-shown ${now.above ? 'above' : ''}`}
      role="tooltip"
      style={{ left: `${now.x}px`, top: `${now.y}px` }}
      data-term={now.term}
    >
      {words.value.terms[now.term]}
    </div>
  );
}

// The words by which the engine's sentences name terms, the longer before the shorter.
const ENGLISH: [RegExp, string][] = [
  [/\bin hand\b/, 'in_hand'],
  [/\bmired\b/, 'mired'],
  [/\bDuv\b/, 'duv'],
  [/\bspill\b/, 'spill'],
  [/\bsync\b/, 'sync'],
  [/\b(?:bounce|bounces)\b/, 'bounce'],
  [/\bcast\b/, 'cast'],
  [/\bCTO\b/, 'cto'],
  [/\bCTB\b/, 'ctb'],
  [/\bgel\b/, 'gel'],
  [/\bND\b/, 'nd'],
  [/\bambient\b/, 'ambient'],
  [/\btint\b/, 'tint'],
  [/\bkey\b/, 'key'],
  [/\bwhite balance\b/, 'balance'],
  [/\bstops?\b/, 'stop'],
  [/\bzoom\b/, 'zoom'],
];
const GERMAN: [RegExp, string][] = [
  [/\bReserve\b/, 'in_hand'],
  [/\bMired\b/, 'mired'],
  [/\bDuv\b/, 'duv'],
  [/\bStreulicht\b/, 'spill'],
  [/\bSynchronzeit\b/, 'sync'],
  [/\bzurückgeworfenen Licht\b/, 'bounce'],
  [/\bFarbstich\b/, 'cast'],
  [/\bCTO\b/, 'cto'],
  [/\bCTB\b/, 'ctb'],
  [/\bFolie\b/, 'gel'],
  [/\bND\b/, 'nd'],
  [/\b[Vv]orhandene[ns]? Licht\b/, 'ambient'],
  [/\bFarbstich-Regler\b/, 'tint'],
  [/\bHauptlicht\b/, 'key'],
  [/\b(?:Weißa|A)bgleich\b/, 'balance'],
  [/(?<=\d )Blenden?\b/, 'stop'],
  [/\bzoom\b/i, 'zoom'],
];
const NAMED: Record<Language, [RegExp, string][]> = { en: ENGLISH, de: GERMAN };

/** A sentence of the engine, in the language of the page where the phrasebook has it. */
export function Told({ part, children }: { part: Part; children: string }) {
  const { text, lang } = german(children, words.value, part);
  return <span lang={lang}>{text}</span>;
}

/** The same, with the first of each few terms explained. */
export function Said({ part, children, most = 2 }: { part: Part; children: string; most?: number }) {
  const { text, lang } = german(children, words.value, part);
  const named = NAMED[lang as Language];
  const pieces: ComponentChildren[] = [];
  let rest = text;
  const used = new Set<string>();
  while (used.size < most) {
    let first: { at: number; text: string; term: string } | null = null;
    for (const [pattern, term] of named) {
      if (used.has(term)) continue;
      const hit = pattern.exec(rest);
      if (hit && (!first || hit.index < first.at)) first = { at: hit.index, text: hit[0], term };
    }
    if (!first) break;
    used.add(first.term);
    pieces.push(rest.slice(0, first.at), <Term k={first.term}>{first.text}</Term>);
    rest = rest.slice(first.at + first.text.length);
  }
  pieces.push(rest);
  return <span lang={lang}>{pieces}</span>;
}

/** A sentence of the page itself, in which `[term|words]` marks words with an explanation. */
export function Words({ children }: { children: string }) {
  return (
    <>
      {takeApart(children).map((part) =>
        'term' in part ? <Term k={part.term}>{part.text}</Term> : 'text' in part ? part.text : null,
      )}
    </>
  );
}
