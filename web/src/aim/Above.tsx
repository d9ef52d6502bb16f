// Turning the head on the place from above.
import { useMemo, useRef } from 'preact/hooks';
import type { Geometry, HeldBoard } from '../api-types.ts';
import { aroundOf, Floor, numberOf, Shape, useMetresPerPixel } from '../place/drawn.tsx';
import { type Side, type Thing, thingsOf } from '../place/plan.ts';
import { words } from '../strings/index.ts';
import { axis, fan, end as meets, type Point, type Stand, type Turned, turnTo } from './beam.ts';
import { Handle, pathOf, Turner } from './Turner.tsx';

export function Above(props: {
  place: Geometry;
  /** Sides without a wall. */
  open: Side[];
  stand: Stand;
  turned: Turned;
  /** Half the width of the beam across. */
  half: number;
  /** Where the middle of the beam ends. */
  end: Point;
  /** How far the beam goes at most. */
  most: number;
  held: HeldBoard | null;
  text: string;
  heard: string;
  help: string;
  turn: (azimuth: number) => void;
}) {
  const S = words.value;
  const { place: g, stand, turned, half, end } = props;
  const { width: W, length: L } = g.room;
  const svg = useRef<SVGSVGElement>(null);
  const margin = aroundOf(g);
  const box = { x: -margin, y: -margin, width: W + 2 * margin, height: L + 2 * margin };
  const pixel = useMetresPerPixel(svg, box.width, box.height);
  const unit = Math.max(Math.max(W, L) / 100, pixel * 3.9);
  const up = (y: number) => L - y;
  const { flash } = stand;
  const apart = Math.hypot(g.camera.x - flash.x, g.camera.y - flash.y);
  const together = apart < unit * 4;
  const things = useMemo(
    () => thingsOf(g, {}, { camera: together ? S.aim.cameraAndFlash : S.place.camera, flash: S.place.flash }),
    [g, together, S],
  );
  const own: Thing = {
    id: 'flash',
    what: 'flash',
    name: apart < unit * 14 ? '' : S.place.flash,
    x: flash.x,
    y: flash.y,
    width: 0,
    depth: 0,
    height: 0,
    wall: null,
  };
  const inRoom = (p: { x: number; y: number }) => ({
    x: Math.min(Math.max(p.x, 0), W),
    y: up(Math.min(Math.max(p.y, 0), L)),
  });
  const from = inRoom(flash);
  const rays = fan(g, stand, turned, half, 'across', props.most).map(inRoom);
  const tip = inRoom(end);
  // Turns are counted from where the lens looks.
  const nought = inRoom(meets(g, flash, axis(stand, { azimuth: 0, elevation: 0 })));
  return (
    <Turner
      svg={svg}
      kind="above"
      name={S.aim.turn}
      box={box}
      fontSize={unit * 3.2}
      value={turned.azimuth}
      min={-180}
      max={180}
      round
      text={props.text}
      heard={props.heard}
      help={props.help}
      valueAt={(x, y) => turnTo(stand, x, up(y))}
      set={props.turn}
    >
      <Floor of={g} margin={margin} open={props.open} />
      <path d={pathOf([from, nought])} class="plan-between" />
      <path d={`${pathOf([from, ...rays])}Z`} class="beam-wedge" />
      {things.map((thing) => (
        <g key={thing.id} class={`thing ${thing.what}`}>
          <Shape
            thing={thing}
            up={up}
            unit={unit}
            number={numberOf(g, thing)}
            facing={thing.what === 'sitter' ? g.sitters[Number(thing.id.slice(7))]?.facing_deg : undefined}
          />
        </g>
      ))}
      {props.held ? <Held board={props.held} up={up} unit={unit} /> : null}
      <path d={pathOf([from, tip])} class="beam-middle" />
      <g class="thing flash">
        <Shape thing={own} up={up} unit={unit} />
        {together || own.name ? null : (
          // Beside the flash, since the camera is close by.
          <text
            x={flash.x + unit * (flash.x < g.camera.x ? -3.4 : 3.4)}
            y={up(flash.y) + unit}
            text-anchor={flash.x < g.camera.x ? 'end' : 'start'}
            class="plan-name"
          >
            {S.place.flash}
          </text>
        )}
      </g>
      <Handle {...tip} unit={unit} />
    </Turner>
  );
}

/** The board that a helper holds in the answer: a sign of its place and where it faces, since the answer does not say its size. */
function Held(props: { board: HeldBoard; up: (y: number) => number; unit: number }) {
  const { board, unit } = props;
  const { from_left: x, from_behind: y } = board.centre_m;
  const [nx, ny] = board.normal;
  if (nx === undefined || ny === undefined) return null;
  const flat = Math.hypot(nx, ny) || 1;
  const [dx, dy] = [(-ny / flat) * 0.35, (nx / flat) * 0.35];
  const at = props.up(y);
  return (
    <g class="thing board">
      <path d={`M${x - dx} ${at + dy}L${x + dx} ${at - dy}`} class="leaf" />
      <text x={x} y={at - unit * 4} text-anchor="middle" class="plan-name" lang="en">
        {board.name}
      </text>
    </g>
  );
}
