// Aiming by hand: two dials turn and tilt the head of the flash, and the picture follows. Only for looking.
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { Answer, Job, LiveAim, Table } from './api-types.ts';
import { Progress, Trouble } from './parts.tsx';
import { asAnswered } from './proof/develop.ts';
import type { Layers } from './proof/layers.ts';
import { Picture } from './proof/Proof.tsx';
import { type ApiError, api, follow } from './server.ts';
import { asError } from './shoot.ts';
import { words } from './strings/index.ts';

const ZOOMS = [24, 28, 35, 50, 70, 85, 105, 135, 200];
const rad = (deg: number) => (deg * Math.PI) / 180;

/** A dial with one hand; dragged, or turned by the arrow keys. */
function Dial(props: {
  name: string;
  help: string;
  value: number;
  min: number;
  max: number;
  text: string;
  /** Angle on the screen of a value, clockwise from 12 o'clock, and back. */
  toScreen: (value: number) => number;
  fromScreen: (angle: number) => number;
  set: (value: number) => void;
  plan: 'above' | 'side';
}) {
  const dragging = useRef(false);
  const turn = (e: PointerEvent) => {
    const box = (e.currentTarget as Element).getBoundingClientRect();
    const angle =
      (Math.atan2(e.clientX - box.left - box.width / 2, -(e.clientY - box.top - box.height / 2)) * 180) / Math.PI;
    props.set(Math.round(Math.min(Math.max(props.fromScreen(angle), props.min), props.max)));
  };
  const angle = rad(props.toScreen(props.value));
  const x = 100 + 78 * Math.sin(angle);
  const y = 100 - 78 * Math.cos(angle);
  const spread = 0.16;
  const at = (a: number, r: number) => `${100 + r * Math.sin(a)} ${100 - r * Math.cos(a)}`;
  return (
    <div class="aim-dial">
      <span class="dial-name" id={`dial-${props.plan}`}>
        {props.name}
      </span>
      <svg
        viewBox="0 0 200 200"
        role="slider"
        tabindex={0}
        aria-labelledby={`dial-${props.plan}`}
        aria-valuemin={props.min}
        aria-valuemax={props.max}
        aria-valuenow={props.value}
        aria-valuetext={props.text}
        onPointerDown={(e) => {
          e.currentTarget.setPointerCapture(e.pointerId);
          dragging.current = true;
          turn(e);
        }}
        onPointerMove={(e) => {
          if (dragging.current) turn(e);
        }}
        onPointerUp={() => {
          dragging.current = false;
        }}
        onPointerCancel={() => {
          dragging.current = false;
        }}
        onKeyDown={(e) => {
          const step = e.shiftKey ? 1 : 5;
          const way = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[e.key];
          if (!way) return;
          e.preventDefault();
          props.set(Math.min(Math.max(props.value + way * step, props.min), props.max));
        }}
      >
        <circle cx="100" cy="100" r="88" class="dial-face" />
        {Array.from({ length: 24 }, (_, i) => {
          const a = rad(i * 15);
          return <path d={`M${at(a, i % 6 ? 84 : 80)}L${at(a, 88)}`} class="dial-tick" />;
        })}
        {props.plan === 'above' ? (
          <path d="M100 12V28" class="dial-home" />
        ) : (
          <path d="M30 100H170" class="dial-level" />
        )}
        <path d={`M100 100L${at(angle - spread, 74)}L${at(angle + spread, 74)}Z`} class="dial-beam" />
        <path d={`M100 100L${x} ${y}`} class="dial-hand" />
        <circle cx={x} cy={y} r="11" class="dial-knob" />
        <path d="M100 93l7 7-7 7-7-7z" class="dial-flash" />
      </svg>
      <output>{props.text}</output>
    </div>
  );
}

export function Aim({ of, back }: { of: Answer; back: () => void }) {
  const S = words.value;
  const chosen = of.report.chosen;
  const home = {
    azimuth: Math.round(chosen.turn_deg ?? 0),
    elevation: Math.round(chosen.tilt_deg ?? 0),
    zoom: of.report.flash.zoom_mm ?? 50,
  };
  const job = useSignal<Job | null>(null);
  const error = useSignal<ApiError | null>(null);
  const table = useSignal<Table | null>(null);
  const layers = useSignal<Layers | null>(null);
  const told = useSignal<LiveAim | null>(null);
  const at = useSignal(home);
  const asking = useRef(false);
  const wanted = useRef(home);
  const over = useRef(false);
  const again = useSignal(0);

  useEffect(() => {
    const stop = new AbortController();
    over.current = false;
    error.value = null;
    void (async () => {
      try {
        const made = await api.startLive(of.id);
        const end = await follow(made, (j) => (job.value = j), stop.signal);
        if (end.state !== 'done') throw new Error(end.error?.message ?? S.aim.failed);
        table.value = await api.liveTable(end.id);
        await look();
      } catch (e) {
        if (!stop.signal.aborted) error.value = asError(e);
      }
    })();
    return () => {
      over.current = true;
      stop.abort();
    };
  }, [of.id, again.value]);

  // One question at a time; the newest wish is asked next, so that the picture follows without a queue.
  const look = async () => {
    if (asking.current || job.value?.state !== 'done' || over.current) return;
    asking.current = true;
    try {
      let asked: typeof home | null = null;
      while (asked !== wanted.current && !over.current) {
        asked = wanted.current;
        const seen = await api.liveAim(job.value.id, asked);
        layers.value = seen.layers;
        told.value = seen.aim;
        error.value = null;
      }
    } catch (e) {
      error.value = asError(e);
    } finally {
      asking.current = false;
    }
  };
  const go = (next: Partial<typeof home>) => {
    at.value = wanted.current = { ...at.value, ...next };
    void look();
  };
  const t = table.value;
  const zooms = ZOOMS.includes(home.zoom) ? ZOOMS : [...ZOOMS, home.zoom].sort((a, b) => a - b);
  const verdict = told.value?.verdict;
  return (
    <div class="aim" data-aim={job.value?.state}>
      <div class={`frame ${layers.value ? 'has' : ''}`}>
        <Picture
          layers={layers.value}
          table={t}
          settings={t ? asAnswered(t) : null}
          marks={false}
          label={told.value?.words ?? S.aim.title}
        />
      </div>
      <div class="mix">
        <h3>{S.aim.title}</h3>
        {told.value ? (
          <div class="aim-told" aria-live="polite">
            <p class="aim-words" lang="en">
              {told.value.words}
            </p>
            <p>
              {S.aim.power}: <strong>{told.value.power}</strong>
              {verdict ? (
                <>
                  {' · '}
                  {verdict === 'chosen' ? '●' : verdict === 'possible' ? '○' : verdict === 'poor' ? '∕' : '✕'}{' '}
                  {S.reasons.verdict[verdict]}
                </>
              ) : null}
            </p>
            {told.value.why ? <p lang="en">{told.value.why}</p> : null}
            <p class="soft">{S.aim.levelExposure}</p>
          </div>
        ) : null}
        {error.value ? <Trouble error={error.value} again={() => again.value++} /> : null}
        {job.value?.state !== 'done' && !error.value ? <Progress job={job.value} say={S.aim.ready} /> : null}
        <div class="aim-dials">
          <Dial
            name={S.aim.turn}
            help={S.aim.help}
            plan="above"
            value={at.value.azimuth}
            min={-180}
            max={180}
            text={S.aim.turnValue(at.value.azimuth)}
            toScreen={(v) => v}
            fromScreen={(a) => a}
            set={(azimuth) => go({ azimuth })}
          />
          <Dial
            name={S.aim.tilt}
            help={S.aim.help}
            plan="side"
            value={at.value.elevation}
            min={-90}
            max={90}
            text={S.aim.tiltValue(at.value.elevation)}
            toScreen={(v) => 90 - v}
            fromScreen={(a) => 90 - Math.abs(a)}
            set={(elevation) => go({ elevation })}
          />
        </div>
        <p class="soft">
          {S.aim.help} {S.aim.lead}
        </p>
        <label class="dial">
          <span class="dial-name">{S.aim.zoom}</span>
          <select value={String(at.value.zoom)} onChange={(e) => go({ zoom: Number(e.currentTarget.value) })}>
            {zooms.map((z) => (
              <option value={String(z)}>{z}</option>
            ))}
          </select>
        </label>
        <p class="buttons">
          <button type="button" onClick={back}>
            {S.aim.back}
          </button>
        </p>
      </div>
    </div>
  );
}
