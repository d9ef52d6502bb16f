// A drawing that is also a slider: pressed or dragged with the hand, or turned by the arrow keys.
import type { ComponentChildren, RefObject } from 'preact';
import { useRef } from 'preact/hooks';
import { halfTurn } from '../place/turn.ts';

export function Turner(props: {
  svg: RefObject<SVGSVGElement | null>;
  name: string;
  kind: 'above' | 'side';
  box: { x: number; y: number; width: number; height: number };
  fontSize: number;
  value: number;
  min: number;
  max: number;
  /** Whether the value goes on at the other end, as a turn does. */
  round?: boolean;
  /** The value in words; `heard` says more to those who do not see the drawing. */
  text: string;
  heard: string;
  help: string;
  /** The value that a point of the drawing stands for; null where it stands for none. */
  valueAt: (x: number, y: number) => number | null;
  set: (value: number) => void;
  children: ComponentChildren;
}) {
  const dragging = useRef(false);
  const { box } = props;
  const follow = (e: PointerEvent) => {
    const inverse = props.svg.current?.getScreenCTM()?.inverse();
    if (!inverse) return;
    const at = new DOMPoint(e.clientX, e.clientY).matrixTransform(inverse);
    const value = props.valueAt(at.x, at.y);
    if (value !== null) props.set(Math.round(Math.min(Math.max(value, props.min), props.max)));
  };
  const over = () => {
    dragging.current = false;
  };
  return (
    <figure class={`aim-view ${props.kind}`}>
      <figcaption id={`aim-${props.kind}`}>{props.name}</figcaption>
      <svg
        ref={props.svg}
        class="drawn"
        viewBox={`${box.x} ${box.y} ${box.width} ${box.height}`}
        style={{ fontSize: `${props.fontSize}px` }}
        role="slider"
        tabindex={0}
        aria-labelledby={`aim-${props.kind}`}
        aria-describedby={props.help}
        aria-valuemin={props.min}
        aria-valuemax={props.max}
        aria-valuenow={props.value}
        aria-valuetext={props.heard}
        onPointerDown={(e) => {
          if (e.button !== 0) return;
          e.preventDefault();
          e.currentTarget.focus();
          e.currentTarget.setPointerCapture(e.pointerId);
          dragging.current = true;
          follow(e);
        }}
        onPointerMove={(e) => {
          if (dragging.current) follow(e);
        }}
        onPointerUp={over}
        onPointerCancel={over}
        onKeyDown={(e) => {
          const step = e.shiftKey ? 1 : 5;
          const way = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[e.key];
          if (!way) return;
          e.preventDefault();
          const next = props.value + way * step;
          props.set(props.round ? halfTurn(next) : Math.min(Math.max(next, props.min), props.max));
        }}
      >
        {props.children}
      </svg>
      <output>{props.text}</output>
    </figure>
  );
}

/** Where the beam ends, as something to take hold of. */
export function Handle({ x, y, unit }: { x: number; y: number; unit: number }) {
  return (
    <g class="beam-handle">
      <circle cx={x} cy={y} r={unit * 2.7} />
      <circle cx={x} cy={y} r={unit * 0.9} class="beam-point" />
    </g>
  );
}

/** The path through points of a drawing. */
export const pathOf = (points: { x: number; y: number }[]) =>
  points.map((p, i) => `${i ? 'L' : 'M'}${Math.round(p.x * 1e3) / 1e3} ${Math.round(p.y * 1e3) / 1e3}`).join('');
