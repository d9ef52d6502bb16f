// "Start my own": from ten fill-ins to a shoot of one's own.
import { useSignal } from '@preact/signals';
import type { StartForm, Vocabulary } from './api-types.ts';
import { FillIn } from './ask/Ask.tsx';
import { takeApart } from './ask/sentence.ts';
import { figure } from './notation.ts';
import { Dialog } from './parts.tsx';
import { api } from './server.ts';
import { open, trying, vocabulary } from './shoot.ts';
import { words } from './strings/index.ts';
import { Term } from './term.tsx';

/** The way to a shoot of one's own; `quiet` where something else comes first. */
export function StartOwn({ quiet = false }: { quiet?: boolean }) {
  const S = words.value;
  const beginning = useSignal(false);
  return (
    <>
      <button type="button" class={quiet ? 'quiet' : ''} onClick={() => (beginning.value = true)}>
        + {S.shoots.begin}
      </button>
      {beginning.value ? <Begin close={() => (beginning.value = false)} /> : null}
    </>
  );
}

const LIST: Partial<Record<keyof StartForm, (v: Vocabulary, dark: string) => { value: string; label: string }[]>> = {
  length: () => ['4 m', '5.5 m', '7 m', '10 m'].map((value) => ({ value, label: value })),
  width: () => ['3.5 m', '4.5 m', '5.5 m', '8 m'].map((value) => ({ value, label: value })),
  ceiling: () => ['2.4 m', '2.6 m', '3 m', '4 m'].map((value) => ({ value, label: value })),
  sitter_distance: () => ['1.5 m', '2 m', '2.5 m', '3 m'].map((value) => ({ value, label: value })),
  wall: (v) =>
    v.surfaces.slice(0, 24).map((s) => ({ value: s.name, label: s.name, note: figure(s.reflectance, words.value, 2) })),
  ceiling_surface: (v) =>
    v.surfaces.slice(0, 30).map((s) => ({ value: s.name, label: s.name, note: figure(s.reflectance, words.value, 2) })),
  skin: (v) => v.skins.map((value) => ({ value, label: value })),
  light: (v, dark) => [
    { value: 'dark', label: dark },
    ...v.usual_lights.map((l) => ({ value: l.name, label: l.name, note: l.reading })),
  ],
  look: (v) => v.patterns.map((p) => ({ value: p.name, label: p.name })),
};

/** One sentence with ten fill-ins. */
function Begin({ close }: { close: () => void }) {
  const S = words.value;
  const form = useSignal<StartForm>({
    title: S.begin.titleValue,
    length: '5.5 m',
    width: '4.5 m',
    ceiling: '2.5 m',
    wall: 'white paint',
    ceiling_surface: 'white paint',
    sitter_distance: '2 m',
    skin: 'intermediate',
    light: 'living room evening',
    look: 'loop',
  });
  return (
    <Dialog title={S.begin.title} wide kind="sentence-window" close={close}>
      <p class="soft">{S.begin.lead}</p>
      <p class="sentence">
        {takeApart(S.begin.one).map((part) => {
          if (!('fill' in part)) return 'term' in part ? <Term k={part.term}>{part.text}</Term> : part.text;
          const key = part.fill as keyof StartForm;
          const v = vocabulary.value;
          const value = form.value[key];
          return (
            <FillIn
              key={key}
              label={S.begin.field[key] ?? key}
              text={key === 'light' && value === 'dark' ? S.begin.dark : value}
              items={v ? (LIST[key]?.(v, S.begin.dark) ?? []) : []}
              current={value}
              typed={value}
              take={(next) => {
                if (next) form.value = { ...form.value, [key]: next };
              }}
            />
          );
        })}
      </p>
      <p class="buttons">
        <button
          type="button"
          onClick={() =>
            void trying(async () => {
              const begun = await api.begin(form.value);
              const made = await api.create('shoots', form.value.title, begun.text);
              close();
              await open(made.id);
              location.hash = '#/';
            })
          }
        >
          {S.begin.go}
        </button>
      </p>
    </Dialog>
  );
}
