// Aiming by hand: the head of the flash is turned and tilted on drawings of the place, and the picture follows. Only for looking.
import { useSignal } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { Answer, Geometry, Job, LiveAim, Table } from '../api-types.ts';
import { lengthWords } from '../notation.ts';
import { Progress, Trouble } from '../parts.tsx';
import { Numbers } from '../place/drawn.tsx';
import { openSides } from '../place/plan.ts';
import { asAnswered } from '../proof/develop.ts';
import type { Layers } from '../proof/layers.ts';
import { Picture } from '../proof/Proof.tsx';
import { type ApiError, api, follow } from '../server.ts';
import { asError, understood } from '../shoot.ts';
import type { Strings } from '../strings/index.ts';
import { language, words } from '../strings/index.ts';
import { Above } from './Above.tsx';
import {
  asMoved,
  axis,
  end,
  lensOf,
  type Met,
  metAt,
  type Point,
  type Stand,
  spread,
  type Turned,
  toFive,
} from './beam.ts';
import { Side } from './Side.tsx';

type Wanted = Turned & { zoom: number };
const sameAim = (a: Wanted, b: Wanted) => a.azimuth === b.azimuth && a.elevation === b.elevation && a.zoom === b.zoom;

const SIGNS = { chosen: '●', possible: '○', poor: '∕', unusable: '✕' };
const ZOOMS = [24, 28, 35, 50, 70, 85, 105, 135, 200];

/** The answer's flash in its place, and where the lens looks. */
function standOf(of: Answer, g: Geometry): Stand {
  const { chosen } = of.report;
  const { from_left, from_behind, height } = chosen.flash_m;
  return { flash: { x: from_left, y: from_behind, z: height }, lens: lensOf(chosen, g) };
}

/** What is met, by name; empty where that is not known. */
const metName = (met: Met, S: Strings) =>
  met.is === 'side'
    ? (S.surfaces[met.side] ?? '')
    : met.is === 'open'
      ? S.aim.open
      : met.is === 'unknown'
        ? ''
        : met.name;

/** Where the middle of the beam ends, in words. */
function endWords(met: Met, at: Point, say: (metres: number) => string, S: Strings): string {
  const side = met.is === 'side' ? met.side : null;
  const told = [metName(met, S)];
  if (met.is !== 'open' && side !== 'ceiling' && side !== 'floor') told.push(S.aim.up(say(at.z)));
  if (side && side !== 'left' && side !== 'right') told.push(S.aim.fromLeftWall(say(at.x)));
  if (side && !side.startsWith('behind')) told.push(S.aim.fromCameraWall(say(at.y)));
  return S.aim.meets(told.join(', '));
}

/** The two drawings with what the beam meets below them. */
function Drawings(props: {
  of: Answer;
  turned: Turned;
  zoom: number;
  /** Where the server says that this very aim ends, once it has. */
  told: Point | null;
  go: (next: Partial<Turned>) => void;
}) {
  const S = words.value;
  const { of, turned, told } = props;
  const { chosen, flash, moved_to_m } = of.report;
  const held = chosen.route.by === 'held_board' ? chosen.route : null;
  const place = useMemo(() => asMoved(of.geometry, moved_to_m), [of]);
  // The beam is aimed only while the answer is that of the shoot as it stands.
  const form = understood.value?.form;
  const open = useMemo(() => (form ? openSides(form) : []), [form]);
  const stand = useMemo(() => standOf(of, place), [of, place]);
  const tip = told ?? end(place, stand.flash, axis(stand, turned));
  const met = metAt(place, tip, open, held);
  const half = spread(props.zoom, flash.dress);
  const say = (metres: number) => lengthWords(metres, of.feet, S, 'paced');
  const value = (text: string) => ({ text, heard: [text, metName(met, S)].filter(Boolean).join(', ') });
  // A board stops the beam; people let the rest of it go on.
  const most =
    met.is === 'thing'
      ? Math.hypot(tip.x - stand.flash.x, tip.y - stand.flash.y, tip.z - stand.flash.z)
      : Number.POSITIVE_INFINITY;
  const same = { place, open, stand, turned, end: tip, most, held, help: 'aim-help' };
  return (
    <>
      <div class="aim-views">
        <Above
          {...same}
          half={half.across}
          {...value(S.aim.turnValue(toFive(turned.azimuth)))}
          turn={(azimuth) => props.go({ azimuth })}
        />
        <Numbers of={place} />
        <Side
          {...same}
          half={half.up}
          say={say}
          {...value(S.aim.tiltValue(toFive(turned.elevation)))}
          tilt={(elevation) => props.go({ elevation })}
        />
      </div>
      {met.is === 'unknown' ? null : (
        <p class="aim-meets" data-meets>
          {endWords(met, tip, say, S)}
        </p>
      )}
    </>
  );
}

export function Aim({ of, back }: { of: Answer; back: () => void }) {
  const S = words.value;
  const chosen = of.report.chosen;
  const home = {
    azimuth: Math.round(chosen.turn_deg),
    elevation: Math.round(chosen.tilt_deg),
    zoom: of.report.flash.zoom_mm,
  };
  const job = useSignal<Job | null>(null);
  const error = useSignal<ApiError | null>(null);
  const table = useSignal<Table | null>(null);
  const layers = useSignal<Layers | null>(null);
  const told = useSignal<{ asked: Wanted; aim: LiveAim | null } | null>(null);
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

  // The words of an aim are those of the language that it was asked in.
  useEffect(() => {
    wanted.current = { ...wanted.current };
    void look();
  }, [language.value]);

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
        told.value = { asked, aim: seen.aim };
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
  const now = told.value?.aim ?? null;
  const toldEnd = told.value && sameAim(told.value.asked, at.value) ? (now?.target ?? null) : null;
  const verdict = now?.verdict;
  return (
    <div class="aim" data-aim={job.value?.state}>
      <div class={`frame ${layers.value ? 'has' : ''}`}>
        <Picture
          layers={layers.value}
          table={t}
          settings={t ? asAnswered(t) : null}
          marks={false}
          label={now ? now.words : S.aim.title}
        />
      </div>
      <div class="mix">
        <h3>{S.aim.title}</h3>
        <p class="aim-status">
          {now ? (
            <>
              {S.aim.power}: <strong>{now.power}</strong>
              {verdict ? (
                <>
                  {' · '}
                  <span class="whole-part">
                    {SIGNS[verdict]} {S.reasons.verdict[verdict]}
                  </span>
                </>
              ) : null}
            </>
          ) : null}
        </p>
        {error.value ? <Trouble error={error.value} again={() => again.value++} /> : null}
        {job.value?.state !== 'done' && !error.value ? <Progress job={job.value} say={S.aim.ready} /> : null}
        <Drawings of={of} turned={at.value} zoom={at.value.zoom} told={toldEnd} go={go} />
        {now ? (
          <div class="aim-told" aria-live="polite">
            <p class="aim-words">{now.words}</p>
            {now.why ? <p>{now.why}</p> : null}
            <p class="soft">{S.aim.levelExposure}</p>
          </div>
        ) : null}
        <p class="soft" id="aim-help">
          {S.aim.help} {S.aim.fives} {S.aim.edge} {S.aim.lead}
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
