// A term of the trade with its explanation in one line, on touch, hover or focus.
import { signal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import { takeApart } from './ask/sentence.ts';
import { words } from './strings/index.ts';

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
