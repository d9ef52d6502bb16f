// Two windows saved the same shoot: nothing is overwritten, and the photographer says which goes on.
import { useSignal } from '@preact/signals';
import { whenWords } from './notation.ts';
import { Dialog } from './parts.tsx';
import { keepMineAsNew, name, saving, takeTheirs, text } from './shoot.ts';
import { words } from './strings/index.ts';

/** Which lines are in one text only; good enough to see what differs in a file of a hundred lines. */
export function onlyIn(a: string, b: string): Set<number> {
  const others = new Map<string, number>();
  for (const line of b.split('\n')) others.set(line, (others.get(line) ?? 0) + 1);
  const only = new Set<number>();
  a.split('\n').forEach((line, i) => {
    const left = others.get(line) ?? 0;
    if (left > 0) others.set(line, left - 1);
    else only.add(i);
  });
  return only;
}

/** The lines that differ, each with its two neighbours; `null` where lines are left out. */
export function aroundDifferences(own: string, marked: Set<number>, near = 2): ({ at: number; line: string } | null)[] {
  const shown: ({ at: number; line: string } | null)[] = [];
  own.split('\n').forEach((line, at) => {
    const close = [...marked].some((m) => Math.abs(m - at) <= near);
    if (close) shown.push({ at, line });
    else if (shown.length && shown.at(-1) !== null) shown.push(null);
  });
  return shown;
}

function Side({ title, own, other }: { title: string; own: string; other: string }) {
  const marked = onlyIn(own, other);
  return (
    <div>
      <h3>{title}</h3>
      <pre class="whole" lang="en" tabIndex={0} aria-label={title}>
        {aroundDifferences(own, marked).map((one) =>
          one === null ? (
            '  …\n'
          ) : (
            <span class={marked.has(one.at) ? 'differs' : ''}>
              {marked.has(one.at) ? '▸ ' : '  '}
              {one.line}
              {'\n'}
            </span>
          ),
        )}
      </pre>
    </div>
  );
}

export function Conflict() {
  const S = words.value;
  const state = saving.value;
  const both = useSignal(false);
  if (state.is !== 'conflict' || state.later) return null;
  return (
    <Dialog title={S.conflict.title} wide={both.value} close={() => (saving.value = { ...state, later: true })}>
      <p>{S.conflict.lead(state.theirs.name, whenWords(state.theirs.saved_at, S))}</p>
      {both.value ? (
        <div class="pair">
          <Side title={S.conflict.here} own={text.value} other={state.theirs.text} />
          <Side title={S.conflict.there} own={state.theirs.text} other={text.value} />
        </div>
      ) : null}
      <p class="buttons">
        <button type="button" onClick={() => void keepMineAsNew(S.conflict.mineName(name.value))}>
          {S.conflict.mine}
        </button>
        <button type="button" onClick={() => void takeTheirs()}>
          {S.conflict.theirs}
        </button>
        <button type="button" class="quiet" aria-pressed={both.value} onClick={() => (both.value = !both.value)}>
          {S.conflict.both}
        </button>
        <button type="button" class="quiet" onClick={() => (saving.value = { ...state, later: true })}>
          {S.conflict.later}
        </button>
      </p>
    </Dialog>
  );
}
