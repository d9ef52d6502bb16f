// The plan from above, in metres. Everything that stands in the room can be dragged, or moved by the arrow keys.
import { useSignal } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { Form, Geometry } from '../api-types.ts';
import { lengthWords } from '../notation.ts';
import { edit } from '../shoot.ts';
import { words } from '../strings/index.ts';
import { aroundOf, Floor, Shape, useMetresPerPixel } from './drawn.tsx';
import { fromLeftEnd, kept, moveEdits, type Snap, snapped, type Thing, thingsOf } from './plan.ts';

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
  const writing = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  // A move stays on the screen until the shoot file has it.
  useEffect(() => {
    if (!grip.current) move.value = null;
  }, [g]);

  const margin = aroundOf(g);
  const pixel = useMetresPerPixel(svg, W + 2 * margin, L + 2 * margin);
  // Names stay readable where the plan is small.
  const unit = Math.max(Math.max(W, L) / 100, pixel * 3.9);
  const up = (y: number) => L - y;
  const length = (n: number) => lengthWords(n, g.feet);
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
    const m = move.value;
    if (m?.moved) void edit(moveEdits(g, form, m.thing, m.snap.x, m.snap.y));
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
          if (!grip.current || !held || !at) return;
          put(held.thing, at.x + grip.current.dx, at.y + grip.current.dy, e.altKey);
        }}
        onPointerUp={() => {
          if (grip.current) write();
          grip.current = null;
        }}
        onPointerCancel={() => {
          grip.current = null;
          move.value = null;
        }}
      >
        <Floor of={g} margin={margin} />
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
                facing={thing.what === 'sitter' ? g.sitters[Number(thing.id.slice(7))]?.facing_deg : undefined}
              />
            </g>
          );
        })}
      </svg>
      <p class="plan-said" aria-live="polite" data-said>
        {said.value || (sitter && apart !== null ? S.place.between(length(apart), S.place.camera, sitter.name) : '')}
      </p>
      <p id="plan-help" class="soft">
        {g.feet ? S.place.planHelpFeet : S.place.planHelp}
      </p>
    </div>
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
