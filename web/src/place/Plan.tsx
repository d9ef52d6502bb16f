// The plan from above, in metres. Everything that stands in the room can be dragged, or moved by the arrow keys.
import { useSignal } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { Form, Geometry } from '../api-types.ts';
import { lengthWords } from '../notation.ts';
import { edit } from '../shoot.ts';
import { words } from '../strings/index.ts';
import { aroundOf, Floor, Numbers, numberOf, Shape, useMetresPerPixel } from './drawn.tsx';
import { fromLeftEnd, kept, moveEdits, openSides, type Snap, snapped, type Thing, thingsOf } from './plan.ts';
import { facesClock, facesText, pastAt, pastCamera, snappedTurn, stepped, toCamera } from './turn.ts';

/** How far before the middle of a head its handle is, in sizes of a sign. */
const NOSE = 8.4;
const NOSE_IN_CROWD = 3.7;

type Move = { thing: Thing; snap: Snap; moved: boolean };

export function Plan({ geometry: g, form }: { geometry: Geometry; form: Form }) {
  const S = words.value;
  const { width: W, length: L } = g.room;
  const things = useMemo(
    () => thingsOf(g, form, { camera: S.place.camera, flash: S.place.flash }),
    [g, form, S.place.camera, S.place.flash],
  );
  const move = useSignal<Move | null>(null);
  const said = useSignal('');
  const svg = useRef<SVGSVGElement>(null);
  const grip = useRef<{ dx: number; dy: number } | null>(null);
  /** A sitter who is being turned: how far past the camera they look. */
  const turn = useSignal<{ of: number; past: number } | null>(null);
  const turning = useRef(false);
  const writing = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const turnWriting = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  // A move stays on the screen until the shoot file has it, and one that is still to be written stays too.
  useEffect(() => {
    if (!grip.current && writing.current === undefined) move.value = null;
    if (!turning.current && turnWriting.current === undefined) turn.value = null;
  }, [g]);

  const margin = aroundOf(g);
  const pixel = useMetresPerPixel(svg, W + 2 * margin, L + 2 * margin);
  // Names stay readable where the plan is small.
  const unit = Math.max(Math.max(W, L) / 100, pixel * 3.9);
  const up = (y: number) => L - y;
  const length = (n: number) => lengthWords(n, g.feet, S);
  const place = (e: PointerEvent) => {
    const inverse = svg.current?.getScreenCTM()?.inverse();
    if (!inverse) return null;
    const p = new DOMPoint(e.clientX, e.clientY).matrixTransform(inverse);
    return { x: p.x, y: up(p.y) };
  };
  const now = (thing: Thing) => (move.value?.thing.id === thing.id ? { ...thing, ...move.value.snap } : thing);
  const tell = (thing: Thing, at: Snap) => {
    const words =
      thing.what === 'opening'
        ? S.place.alongWall(
            thing.name,
            length(fromLeftEnd(g, thing, at.x, at.y)),
            S.words[thing.wall ?? ''] ?? thing.wall ?? '',
          )
        : S.place.at(thing.name, length(at.x), length(at.y));
    const lines = [at.toX, at.toY].filter((v): v is string => v !== null);
    said.value = [words, ...(lines.length ? [S.place.snapped([...new Set(lines)].join(', '))] : [])].join(', ');
  };
  const put = (thing: Thing, x: number, y: number, free: boolean) => {
    const inside = kept(g, thing, x, y);
    const snap = free
      ? { ...inside, toX: null, toY: null }
      : snapped(g, thing, things, inside.x, inside.y, { middle: S.place.snapMiddle, wall: S.place.snapWall });
    const held =
      thing.what === 'opening' ? { ...inside, toX: null, toY: null } : { ...snap, ...kept(g, thing, snap.x, snap.y) };
    move.value = { thing, snap: held, moved: true };
    tell(thing, held);
  };
  const write = () => {
    writing.current = undefined;
    const m = move.value;
    if (m?.moved) void edit(moveEdits(g, form, m.thing, m.snap.x, m.snap.y));
  };

  const sitterNow = (i: number) => {
    const thing = things.find((t) => t.id === `sitter-${i}`);
    return thing ? now(thing) : g.sitters[i]!;
  };
  const cameraNow = () => {
    const thing = things.find((t) => t.id === 'camera');
    return thing ? now(thing) : g.camera;
  };
  const pastOf = (i: number) =>
    turn.value?.of === i ? turn.value.past : pastCamera(g.sitters[i]!.facing_deg, g.sitters[i]!, g.camera);
  const looksWords = (past: number) => {
    const clock = facesClock(past);
    if (clock === '12') return S.place.looksAway;
    return clock === null ? S.place.looksAtCamera : S.place.looksAt(clock, Math.round(Math.abs(past)), past > 0);
  };
  const turnTo = (of: number, past: number) => {
    turn.value = { of, past };
    said.value = `${g.sitters[of]!.name}: ${looksWords(past)}`;
  };
  const writeTurn = () => {
    turnWriting.current = undefined;
    const t = turn.value;
    if (t) void edit([{ path: ['sitter', t.of, 'faces'], value: facesText(t.past) }]);
  };
  const onTurnKey = (of: number) => (e: KeyboardEvent) => {
    const way = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[e.key];
    if (!way) return;
    e.preventDefault();
    turnTo(of, stepped(pastOf(of), way * (e.shiftKey ? 5 : 15)));
    clearTimeout(turnWriting.current);
    turnWriting.current = setTimeout(writeTurn, 350);
  };

  const steps = { big: g.feet ? 0.1016 : 0.1, small: g.feet ? 0.0127 : 0.01 };
  const onKey = (thing: Thing) => (e: KeyboardEvent) => {
    const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[e.key];
    if (!way) return;
    e.preventDefault();
    const step = e.shiftKey ? steps.small : steps.big;
    const at = now(thing);
    put(thing, Math.round((at.x + way[0]! * step) * 1e4) / 1e4, Math.round((at.y + way[1]! * step) * 1e4) / 1e4, true);
    clearTimeout(writing.current);
    writing.current = setTimeout(write, 350);
  };

  const held = move.value;
  const facingOf = (i: number) =>
    turn.value?.of === i ? turn.value.past + toCamera(sitterNow(i), cameraNow()) : g.sitters[i]?.facing_deg;
  const noses = g.sitters.map((_, i) => {
    const { x, y } = sitterNow(i);
    const facing = ((facingOf(i) ?? 0) * Math.PI) / 180;
    const before = (far: number) => ({
      x: x + Math.sin(facing) * unit * far,
      y: up(y - Math.cos(facing) * unit * far),
    });
    // In a crowd the handle stays close to its own nose.
    const free = before(NOSE);
    const crowded = g.sitters.some(
      (_, n) => n !== i && Math.hypot(sitterNow(n).x - free.x, up(sitterNow(n).y) - free.y) < unit * 6,
    );
    return {
      turned: facingOf(i) ?? 0,
      far: crowded ? NOSE_IN_CROWD : NOSE,
      ...(crowded ? before(NOSE_IN_CROWD) : free),
    };
  });
  // As large as a finger likes, unless another handle is near.
  const reachOf = (i: number) => {
    const { x, y } = noses[i]!;
    const others = [
      ...things
        .filter((t) => t.id !== `sitter-${i}` && t.what !== 'furniture' && t.what !== 'opening')
        .map((t) => Math.hypot(now(t).x - x, up(now(t).y) - y) - unit * (noses[i]!.far === NOSE ? 4 : 1.9)),
      ...noses.filter((n) => n !== noses[i]).map((n) => Math.hypot(n.x - x, n.y - y) / 2),
    ];
    return Math.max(Math.min(unit * 4.4, ...others), unit * 1.2);
  };
  const sitter = things.find((t) => t.id === 'sitter-0');
  const camera = things.find((t) => t.id === 'camera');
  const apart = sitter && camera ? Math.hypot(now(sitter).x - now(camera).x, now(sitter).y - now(camera).y) : null;
  return (
    <div class="plan">
      <svg
        ref={svg}
        class="drawn"
        viewBox={`${-margin} ${-margin} ${W + 2 * margin} ${L + 2 * margin}`}
        role="group"
        aria-label={S.place.plan}
        style={{ fontSize: `${unit * 3.2}px` }}
        onPointerMove={(e) => {
          const at = place(e);
          if (turning.current && turn.value && at) {
            const past = pastAt(sitterNow(turn.value.of), cameraNow(), at);
            if (past !== null) turnTo(turn.value.of, snappedTurn(past, e.altKey));
            return;
          }
          if (!grip.current || !held || !at) return;
          put(held.thing, at.x + grip.current.dx, at.y + grip.current.dy, e.altKey);
        }}
        onPointerUp={() => {
          if (grip.current) write();
          if (turning.current) writeTurn();
          grip.current = null;
          turning.current = false;
        }}
        onPointerCancel={() => {
          grip.current = null;
          move.value = null;
          turning.current = false;
          turn.value = null;
        }}
      >
        <Floor of={g} margin={margin} open={openSides(form)} />
        {sitter && camera && apart !== null ? (
          <path
            d={`M${now(camera).x} ${up(now(camera).y)}L${now(sitter).x} ${up(now(sitter).y)}`}
            class="plan-between"
          />
        ) : null}
        {held?.moved && held.thing.what !== 'opening' ? (
          <Distances at={held.snap} width={W} length={L} say={length} unit={unit} />
        ) : null}
        {held?.snap.toX ? <path d={`M${held.snap.x} 0V${L}`} class="plan-snap" /> : null}
        {held?.snap.toY ? <path d={`M0 ${up(held.snap.y)}H${W}`} class="plan-snap" /> : null}
        {things.map((thing) => {
          const at = now(thing);
          return (
            <g
              key={thing.id}
              class={`thing ${thing.what} ${held?.thing.id === thing.id ? 'held' : ''}`}
              data-thing={thing.id}
              role="button"
              tabindex={0}
              aria-roledescription={S.place.plan}
              aria-label={
                thing.what === 'opening'
                  ? S.place.alongWall(
                      thing.name,
                      length(fromLeftEnd(g, thing, at.x, at.y)),
                      S.words[thing.wall ?? ''] ?? thing.wall ?? '',
                    )
                  : S.place.at(thing.name, length(at.x), length(at.y))
              }
              aria-describedby="plan-help"
              onKeyDown={onKey(thing)}
              onPointerDown={(e) => {
                const from = place(e);
                if (!from || e.button !== 0) return;
                e.preventDefault();
                (e.currentTarget as SVGGElement).focus();
                svg.current?.setPointerCapture(e.pointerId);
                grip.current = { dx: at.x - from.x, dy: at.y - from.y };
                move.value = { thing, snap: { x: at.x, y: at.y, toX: null, toY: null }, moved: false };
              }}
            >
              <Shape
                thing={at}
                up={up}
                unit={unit}
                number={numberOf(g, thing)}
                facing={thing.what === 'sitter' ? facingOf(Number(thing.id.slice(7))) : undefined}
              />
            </g>
          );
        })}
        {noses.map((nose, i) => (
          <g
            class={`nose ${turn.value?.of === i ? 'held' : ''}`}
            data-turn={i}
            role="slider"
            tabindex={0}
            aria-label={S.place.looks(g.sitters[i]!.name)}
            aria-valuemin={-180}
            aria-valuemax={180}
            aria-valuenow={Math.round(pastOf(i))}
            aria-valuetext={looksWords(pastOf(i))}
            aria-describedby="turn-help"
            onKeyDown={onTurnKey(i)}
            onPointerDown={(e) => {
              if (e.button !== 0) return;
              e.preventDefault();
              (e.currentTarget as SVGGElement).focus();
              svg.current?.setPointerCapture(e.pointerId);
              turning.current = true;
              turn.value = { of: i, past: pastOf(i) };
            }}
          >
            <Nose {...nose} unit={unit} reach={reachOf(i)} />
          </g>
        ))}
      </svg>
      <Numbers of={g} />
      <p class="plan-said" aria-live="polite" data-said>
        {said.value || (sitter && apart !== null ? S.place.between(length(apart), S.place.camera, sitter.name) : '')}
      </p>
      <p id="plan-help" class="soft">
        {g.feet ? S.place.planHelpFeet : S.place.planHelp}
      </p>
      <p id="turn-help" class="soft">
        {S.place.turnHelp}
      </p>
    </div>
  );
}

/** The handle before a nose that turns the head; the arrows beside it only where there is room. */
function Nose(props: { x: number; y: number; turned: number; far: number; unit: number; reach: number }) {
  const { unit, far } = props;
  const close = far < NOSE;
  const size = unit * (close ? 0.9 : 1.5);
  const tip = (side: 1 | -1) => `M${side * unit * 3.2} 0l${-side * unit * 1.1} ${-unit * 0.9}v${unit * 1.8}z`;
  return (
    <g transform={`translate(${props.x} ${props.y}) rotate(${-props.turned})`}>
      <circle cx="0" cy="0" r={props.reach} class="reach" />
      {close ? null : <path d={`M0 ${-size}V${-unit * (far - 3.4)}`} class="stem" />}
      <circle cx="0" cy="0" r={size} class="knob" />
      {close ? null : <path d={tip(1) + tip(-1)} class="ways" />}
    </g>
  );
}

function Distances(props: { at: Snap; width: number; length: number; say: (n: number) => string; unit: number }) {
  const { at, length, say, unit } = props;
  const y = length - at.y;
  return (
    <g class="plan-distances" aria-hidden="true">
      <path d={`M0 ${y}H${at.x}M${at.x} ${y}V${length}`} />
      <text x={at.x / 2} y={y - unit * 1.2} text-anchor="middle">
        {say(at.x)}
      </text>
      <text x={at.x + unit * 1.2} y={(y + length) / 2}>
        {say(at.y)}
      </text>
    </g>
  );
}
