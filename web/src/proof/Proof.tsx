// The proof, large, with controls that develop it again while they move.
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { Aim } from '../aim/Aim.tsx';
import type { Table } from '../api-types.ts';
import { fileName, offset, spelledIn } from '../notation.ts';
import { Dialog, Progress, Trouble } from '../parts.tsx';
import { api } from '../server.ts';
import { answer, asError, ask, asking, download, fresh, name, proof, proofTrouble, prove } from '../shoot.ts';
import type { Strings } from '../strings/en.ts';
import { words } from '../strings/index.ts';
import { Term, Words } from '../term.tsx';
import { asAnswered, exposureAt, type Settings } from './develop.ts';
import type { Layers } from './layers.ts';
import { developerFor, plainAsked } from './plain.ts';
import type { Developer } from './webgl.ts';

/** A canvas that shows layers as the controls stand; drawn once for each frame of the display at most. */
export function Picture(props: {
  layers: Layers | null;
  table: Table | null;
  settings: Settings | null;
  marks: boolean;
  label: string;
  canvas?: (canvas: HTMLCanvasElement | null) => void;
}) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const developer = useRef<Developer | null>(null);
  const due = useRef(0);
  useEffect(() => {
    if (!canvas.current) return;
    developer.current = developerFor(canvas.current, plainAsked());
    canvas.current.dataset.way = developer.current?.way ?? 'none';
    props.canvas?.(canvas.current);
    return () => {
      cancelAnimationFrame(due.current);
      developer.current?.close();
      props.canvas?.(null);
    };
  }, []);
  useEffect(() => {
    if (props.table) developer.current?.setTable(props.table);
  }, [props.table]);
  useEffect(() => {
    if (props.layers) developer.current?.setLayers(props.layers);
  }, [props.layers]);
  useEffect(() => {
    cancelAnimationFrame(due.current);
    due.current = requestAnimationFrame(() => {
      if (props.settings && props.layers && props.table) {
        const from = performance.now();
        developer.current?.draw(props.settings, props.marks);
        if (canvas.current) canvas.current.dataset.drawn = String(Math.round((performance.now() - from) * 10) / 10);
      }
    });
  });
  return <canvas ref={canvas} class="picture" role="img" aria-label={props.label} />;
}

type Dial = 'power' | 'shutter' | 'aperture' | 'iso' | 'gel' | 'balance';
const DIALS: { dial: Dial; term: string }[] = [
  { dial: 'power', term: 'power' },
  { dial: 'shutter', term: 'shutter' },
  { dial: 'aperture', term: 'aperture' },
  { dial: 'iso', term: 'iso' },
  { dial: 'gel', term: 'gel' },
  { dial: 'balance', term: 'balance' },
];

/** What a shoot file calls the flash without a gel. */
const NO_GEL = 'none';

const labelsOf = (table: Table, dial: Dial, S: Strings) => {
  if (dial === 'gel') return table.gels.map((gel) => (gel.name === NO_GEL ? S.proof.noGel : gel.label));
  const { labels } = table.controls[dial];
  // Half seconds have a decimal sign; the marks on the other dials are the same in every language.
  return dial === 'shutter' ? labels.map((label) => spelledIn(label, S)) : labels;
};

/** One control: a slider with a step on each side. */
function Stepper(props: {
  name: string;
  term: string;
  labels: string[];
  at: number;
  home: number;
  set: (n: number) => void;
}) {
  const S = words.value;
  const last = props.labels.length - 1;
  if (last < 1) return null;
  const to = (n: number) => props.set(Math.min(Math.max(n, 0), last));
  return (
    <div class={props.at === props.home ? 'dial' : 'dial moved'}>
      <span class="dial-name">
        <Term k={props.term}>{props.name}</Term>
      </span>
      <button
        type="button"
        class="step"
        aria-label={S.proof.less(props.name)}
        disabled={props.at <= 0}
        onClick={() => to(props.at - 1)}
      >
        −
      </button>
      <input
        type="range"
        min={0}
        max={last}
        step={1}
        value={props.at}
        aria-label={props.name}
        aria-valuetext={props.labels[props.at]}
        onInput={(e) => to(Number(e.currentTarget.value))}
      />
      <button
        type="button"
        class="step"
        aria-label={S.proof.more(props.name)}
        disabled={props.at >= last}
        onClick={() => to(props.at + 1)}
      >
        +
      </button>
      <output>{props.labels[props.at]}</output>
    </div>
  );
}

export function Proof() {
  const S = words.value;
  const now = proof.value;
  const shown = answer.value;
  const layers = useSignal<{ of: string; number: number; layers: Layers } | null>(null);
  const table = useSignal<{ of: string; table: Table } | null>(null);
  const settings = useSignal<Settings | null>(null);
  const marks = useSignal(false);
  const large = useSignal(false);
  const aiming = useSignal(false);
  const canvas = useRef<HTMLCanvasElement | null>(null);
  const fetching = useRef('');

  const job = now?.job ?? null;
  const number = job?.picture?.number ?? 0;
  useEffect(() => {
    if (!job || number < 1) return;
    const wanted = `${job.id}/${number}`;
    if (fetching.current === wanted) return;
    fetching.current = wanted;
    void (async () => {
      try {
        const [nextTable, nextLayers] = await Promise.all([
          table.value?.of === job.id ? table.value.table : api.table(job.id),
          api.layers(job.id, number),
        ]);
        // A later picture may have overtaken this one.
        if (fetching.current !== wanted && layers.value?.of === job.id) return;
        if (table.value?.of !== job.id) {
          settings.value = asAnswered(nextTable);
          table.value = { of: job.id, table: nextTable };
        }
        layers.value = { of: job.id, number, layers: nextLayers };
      } catch (error) {
        if (fetching.current === wanted) proofTrouble.value = asError(error);
      }
    })();
  }, [job?.id, number]);
  useEffect(() => {
    aiming.value = false;
  }, [shown?.id]);
  const isFresh = fresh.value;
  useEffect(() => {
    if (shown && isFresh) void prove(shown.id);
  }, [shown?.id, isFresh]);

  const t = table.value?.table ?? null;
  const s = settings.value;
  const home = t ? asAnswered(t) : null;
  const moved = Boolean(s && home && JSON.stringify(s) !== JSON.stringify(home));
  const exposure = t && s ? exposureAt(t, s) : null;
  const label = (dial: Dial) => (t && s ? (labelsOf(t, dial, S)[s[dial]] ?? '') : '');
  const other = layers.value !== null && layers.value.of !== job?.id;
  const old = !fresh.value || other;
  const noise = job?.picture?.noise_percent ?? null;
  const working = job && (job.state === 'working' || job.state === 'waiting');

  const save = () =>
    canvas.current?.toBlob((blob) => {
      if (blob) download(blob, `${fileName(name.value)}-proof.png`);
    }, 'image/png');

  return (
    <section class={aiming.value && shown ? 'proof aiming' : 'proof'} aria-labelledby="proof-title">
      <h2 id="proof-title" class="unseen">
        {S.proof.title}
      </h2>
      {aiming.value && shown ? (
        <Aim of={shown} back={() => (aiming.value = false)} />
      ) : (
        <>
          <div
            class={`frame ${old ? 'old' : ''} ${layers.value ? 'has' : ''}`}
            data-picture={layers.value?.number ?? 0}
            data-finished={job?.state === 'done' && layers.value?.of === job.id && layers.value.number === number}
          >
            <Picture
              layers={layers.value?.layers ?? null}
              table={t}
              settings={s}
              marks={marks.value}
              label={S.proof.alt(shown?.report.told.lines.camera ?? '', shown?.report.told.engraved.power ?? '')}
              canvas={(made) => {
                canvas.current = made;
              }}
            />
            {layers.value ? null : asking.value.is === 'working' || shown ? null : (
              <p class="frame-empty">{S.proof.none}</p>
            )}
            {other ? <p class="frame-old">{S.proof.old}</p> : null}
          </div>
          <div class="under">
            {proofTrouble.value ? (
              <Trouble error={proofTrouble.value} again={() => void ask(true)} />
            ) : working ? (
              <Progress job={job} say={S.proof.making} />
            ) : null}
            <p class="soft honest">
              {noise !== null ? (
                <>
                  <Words>
                    {noise >= 2.5 && working
                      ? S.proof.noise(Math.round(noise))
                      : S.proof.fine(Math.round(noise * 10) / 10)}
                  </Words>{' '}
                </>
              ) : null}
              {layers.value ? S.proof.fullSize : ''}
              {canvas.current?.dataset.way === 'plain' ? ` ${S.proof.plainWay}` : ''}
            </p>
          </div>
          {t && s && home ? (
            <fieldset class="mix" disabled={other}>
              <legend>{S.proof.controls}</legend>
              {DIALS.map(({ dial, term }) => (
                <Stepper
                  key={dial}
                  name={S.proof[dial]}
                  term={term}
                  labels={labelsOf(t, dial, S)}
                  at={s[dial]}
                  home={home[dial]}
                  set={(n) => {
                    settings.value = { ...s, [dial]: n };
                  }}
                />
              ))}
              <div class="ticks">
                <label>
                  <input
                    type="checkbox"
                    checked={s.flash}
                    onChange={(e) => (settings.value = { ...s, flash: e.currentTarget.checked })}
                  />
                  {S.proof.flashOn}
                </label>
                <label>
                  <input
                    type="checkbox"
                    checked={s.ambient}
                    onChange={(e) => (settings.value = { ...s, ambient: e.currentTarget.checked })}
                  />
                  {S.proof.ambientOn}
                </label>
                <label>
                  <input
                    type="checkbox"
                    checked={marks.value}
                    onChange={(e) => (marks.value = e.currentTarget.checked)}
                  />
                  {S.proof.marks} <small class="soft">{S.proof.marksHint}</small>
                </label>
              </div>
              <p class={moved ? 'mix-lines moved' : 'mix-lines'} data-mix>
                {label('aperture')} · {label('shutter')} · {label('iso')} · {label('balance')}
                <br />
                {label('power')} · zoom {shown?.report.flash.zoom_mm ?? ''} · {label('gel')}
                <br />
                {exposure ? (
                  <small>
                    {S.proof.flashPart} {exposure.flash === null ? S.proof.off : offset(exposure.flash, S)} ·{' '}
                    {S.proof.ambientPart} {exposure.ambient === null ? S.proof.off : offset(exposure.ambient, S)} ·{' '}
                    {S.proof.totalPart} {exposure.total === null ? S.proof.off : offset(exposure.total, S)}
                  </small>
                ) : null}
              </p>
              <p class="buttons">
                <button type="button" disabled={!moved} onClick={() => (settings.value = asAnswered(t))}>
                  {S.proof.reset}
                </button>
                <button type="button" class="quiet" onClick={save}>
                  {S.proof.save}
                </button>
                <button type="button" class="quiet" onClick={() => (large.value = true)}>
                  {S.proof.large}
                </button>
                <button type="button" class="quiet" disabled={!fresh.value} onClick={() => (aiming.value = true)}>
                  {S.aim.start}
                </button>
              </p>
            </fieldset>
          ) : null}
          {large.value && canvas.current ? (
            <Dialog title={S.proof.title} wide close={() => (large.value = false)}>
              <div class="frame large">
                <Picture
                  layers={layers.value?.layers ?? null}
                  table={t}
                  settings={s}
                  marks={marks.value}
                  label={S.proof.title}
                />
              </div>
            </Dialog>
          ) : null}
        </>
      )}
    </section>
  );
}
