// The plan from above, in metres. Everything that stands in the room can be dragged, or moved by the arrow keys.
import { useSignal } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { Form, Geometry } from '../api-types.ts';
import { lengthWords } from '../notation.ts';
import { edit } from '../shoot.ts';
import { words } from '../strings/index.ts';
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

  const margin = Math.max(W, L) * 0.075 + 0.25;
  const unit = Math.max(W, L) / 100;
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
        <rect x={0} y={0} width={W} height={L} class="plan-room" />
        <Grid width={W} length={L} step={g.feet ? 0.3048 * 3 : 1} />
        <text x={W / 2} y={-margin * 0.45} class="plan-wall">
          {S.field.behind_sitter}
        </text>
        <text x={W / 2} y={L + margin * 0.72} class="plan-wall">
          {S.field.behind_camera}
        </text>
        <text transform={`translate(${-margin * 0.5} ${L / 2}) rotate(-90)`} class="plan-wall">
          {S.field.left}
        </text>
        <text transform={`translate(${W + margin * 0.5} ${L / 2}) rotate(90)`} class="plan-wall">
          {S.field.right}
        </text>
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

function Grid({ width, length, step }: { width: number; length: number; step: number }) {
  const lines: string[] = [];
  for (let x = step; x < width; x += step) lines.push(`M${x} 0V${length}`);
  for (let y = step; y < length; y += step) lines.push(`M0 ${length - y}H${width}`);
  return <path d={lines.join('')} class="plan-grid" />;
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

function Shape({
  thing,
  up,
  unit,
  facing,
}: {
  thing: Thing;
  up: (y: number) => number;
  unit: number;
  facing?: number;
}) {
  const { x } = thing;
  const y = up(thing.y);
  const name = (dx: number, dy: number, anchor: 'start' | 'middle' | 'end' = 'middle') => (
    <text x={x + dx} y={y + dy} text-anchor={anchor} class="plan-name" lang="en">
      {thing.name}
    </text>
  );
  switch (thing.what) {
    case 'furniture':
      return (
        <>
          <rect x={x} y={y - thing.depth} width={thing.width} height={thing.depth} class="solid" />
          <text
            x={x + thing.width / 2}
            y={y - thing.depth / 2 + unit}
            text-anchor="middle"
            class="plan-name small"
            lang="en"
          >
            {thing.name}
          </text>
        </>
      );
    case 'opening': {
      const along = thing.wall === 'left' || thing.wall === 'right';
      const t = unit * 2.4;
      return (
        <>
          <rect
            x={along ? x - t / 2 : x - thing.width / 2}
            y={along ? y - thing.width / 2 : y - t / 2}
            width={along ? t : thing.width}
            height={along ? thing.width : t}
            class="gap"
          />
          {name(
            thing.wall === 'left' ? unit * 2.5 : thing.wall === 'right' ? -unit * 2.5 : 0,
            thing.wall === 'behind camera' ? -unit * 2.4 : thing.wall === 'behind sitter' ? unit * 5 : unit,
            thing.wall === 'left' ? 'start' : thing.wall === 'right' ? 'end' : 'middle',
          )}
        </>
      );
    }
    case 'board':
      return (
        <>
          <circle cx={x} cy={y} r={Math.max(thing.width / 2, unit * 2)} class="reach" />
          <path d={`M${x - thing.width / 2} ${y}H${x + thing.width / 2}`} class="leaf" />
          {name(0, unit * 5)}
        </>
      );
    case 'lamp':
      return (
        <>
          <circle cx={x} cy={y} r={unit * 2.6} class="lamp" />
          <path
            d={`M${x - unit * 1.8} ${y - unit * 1.8}l${unit * 3.6} ${unit * 3.6}m0 ${-unit * 3.6}l${-unit * 3.6} ${unit * 3.6}`}
            class="lamp"
          />
          {name(0, unit * 6)}
        </>
      );
    case 'flash':
      return (
        <>
          <path
            d={`M${x} ${y - unit * 2.6}l${unit * 2.6} ${unit * 2.6}l${-unit * 2.6} ${unit * 2.6}l${-unit * 2.6} ${-unit * 2.6}z`}
            class="flash"
          />
          {name(0, unit * 6)}
        </>
      );
    case 'camera':
      return (
        <>
          <circle cx={x} cy={y} r={unit * 4} class="grip" />
          <rect x={x - unit * 2.6} y={y - unit * 1.2} width={unit * 5.2} height={unit * 3.6} class="solid-light" />
          <rect x={x - unit * 1.1} y={y - unit * 2.8} width={unit * 2.2} height={unit * 2} class="solid-light" />
          {name(0, unit * 6.4)}
        </>
      );
    case 'sitter': {
      // The nose shows which way they look: 0 at the wall behind the camera, positive to the camera's right.
      const turn = -Math.round(facing ?? 0);
      return (
        <>
          <circle cx={x} cy={y} r={unit * 4} class="grip" />
          <g transform={`translate(${x} ${y}) rotate(${turn})`}>
            <ellipse cx="0" cy="0" rx={unit * 3.6} ry={unit * 1.9} class="shoulders" />
            <circle cx="0" cy="0" r={unit * 1.9} class="solid-light" />
            <path d={`M${-unit} ${unit * 1.5}L0 ${unit * 3.2}L${unit} ${unit * 1.5}Z`} class="solid-light" />
          </g>
          {name(0, -unit * 4.6)}
        </>
      );
    }
  }
}
