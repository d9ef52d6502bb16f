// Small pieces that several pages share: dialogs, sections that open, drawings from the server, progress.
import type { ComponentChildren } from 'preact';
import { useEffect, useId, useLayoutEffect, useRef } from 'preact/hooks';
import type { Job } from './api-types.ts';
import type { ApiError } from './server.ts';
import { words } from './strings/index.ts';

/** A window over the page. Escape closes it; the focus goes in and comes back. */
export function Dialog(props: {
  title: string;
  close: () => void;
  wide?: boolean;
  kind?: string;
  children: ComponentChildren;
}) {
  const box = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const dialog = box.current;
    if (dialog && !dialog.open) dialog.showModal();
    return () => dialog?.close();
  }, []);
  return (
    <dialog
      ref={box}
      class={`window ${props.wide ? 'wide' : ''} ${props.kind ?? ''}`}
      aria-labelledby={id}
      onCancel={(e) => {
        e.preventDefault();
        props.close();
      }}
      onClick={(e) => {
        if (e.target === box.current) props.close();
      }}
      onKeyDown={(e) => {
        if (e.key === 'Escape') e.stopPropagation();
      }}
    >
      <div class="window-in">
        <div class="window-head">
          <h2 id={id}>{props.title}</h2>
          <button type="button" class="quiet" onClick={props.close}>
            {words.value.error.close}
          </button>
        </div>
        {props.children}
      </div>
    </dialog>
  );
}

/** A section under a heading that opens and closes. */
export function Fold(props: {
  title: ComponentChildren;
  name: string;
  open?: boolean;
  onOpen?: () => void;
  aside?: ComponentChildren;
  children: ComponentChildren;
}) {
  return (
    <details
      class="fold"
      data-fold={props.name}
      open={props.open}
      onToggle={(e) => {
        if ((e.currentTarget as HTMLDetailsElement).open) props.onOpen?.();
      }}
    >
      <summary>
        <h3>{props.title}</h3>
        {props.aside ? <span class="aside">{props.aside}</span> : null}
      </summary>
      <div class="fold-in">{props.children}</div>
    </details>
  );
}

let drawings = 0;
const KEPT_OUT = new Set(['script', 'foreignobject', 'style', 'iframe', 'image', 'a', 'animate', 'set', 'use']);

/**
 * Reads an SVG drawing of the server into nodes of this page: names made unique, nothing that runs or loads, and no style
 * text, which the page's policy forbids. Null if it is no drawing.
 */
export function adoptDrawing(svg: string): SVGSVGElement | null {
  // Style text goes before it is parsed: the policy would complain of it even in a document that is never shown.
  const parsed = new DOMParser().parseFromString(svg.replace(/<style[\s>][\s\S]*?<\/style>/gi, ''), 'image/svg+xml');
  const root = parsed.documentElement;
  if (root.nodeName !== 'svg' || parsed.querySelector('parsererror')) return null;
  const mark = `d${++drawings}-`;
  for (const node of [root, ...root.querySelectorAll('*')]) {
    if (KEPT_OUT.has(node.nodeName.toLowerCase())) {
      node.remove();
      continue;
    }
    for (const { name, value } of [...node.attributes]) {
      if (name.startsWith('on') || name === 'style' || name.endsWith('href')) node.removeAttribute(name);
      else if (name === 'id') node.setAttribute('id', mark + value);
      else if (name === 'aria-labelledby' || name === 'aria-describedby')
        node.setAttribute(
          name,
          value
            .split(/\s+/)
            .map((v) => mark + v)
            .join(' '),
        );
      else if (value.includes('url(#')) node.setAttribute(name, value.replaceAll('url(#', `url(#${mark}`));
    }
  }
  return document.importNode(root, true) as unknown as SVGSVGElement;
}

/** The two views of a drawing: cut where their headings stand; the whole if it is built otherwise. */
export function viewsOf(drawing: SVGSVGElement): { above: string; side: string } | null {
  const [x = 0, y = 0, w = 0, h = 0] = (drawing.getAttribute('viewBox') ?? '').split(/[\s,]+/).map(Number);
  const heads = drawing.querySelectorAll('.view-title');
  if (heads.length < 2 || !w || !h) return null;
  const at = (n: number, k: string) => Number(heads[n]!.getAttribute(k));
  const cut = at(1, 'x') - 24;
  const top = Math.min(at(0, 'y'), at(1, 'y')) - 24;
  if (!(cut > x) || !(top >= y)) return null;
  return { above: `${x} ${top} ${cut - x} ${y + h - top}`, side: `${cut} ${top} ${x + w - cut} ${y + h - top}` };
}

/** A view without the empty margins of the sheet that it was drawn on. The drawing must be on the page. */
function tightened(drawing: SVGSVGElement, box: string): string {
  const [x = 0, y = 0, w = 0, h = 0] = box.split(' ').map(Number);
  const frame = drawing.getBoundingClientRect();
  const scale = w / frame.width;
  if (!Number.isFinite(scale)) return box;
  let [left, top, right, bottom] = [x + w, y + h, x, y];
  for (const node of drawing.querySelectorAll('path,rect,circle,ellipse,line,text')) {
    if (node.closest('defs')) continue;
    const r = node.getBoundingClientRect();
    const at = { l: x + (r.left - frame.left) * scale, t: y + (r.top - frame.top) * scale };
    const to = { r: at.l + r.width * scale, b: at.t + r.height * scale };
    const middle = { x: (at.l + to.r) / 2, y: (at.t + to.b) / 2 };
    // The ground of the sheet, and whatever belongs to the other view, would show at the edges.
    if (to.r - at.l > w * 1.01 || middle.x < x || middle.x > x + w || middle.y < y || middle.y > y + h) {
      if (!node.closest('[clip-path]') || middle.x < x || middle.x > x + w) node.remove();
      continue;
    }
    // What is clipped to the room says nothing of its extent.
    if (node.closest('[clip-path]')) continue;
    if (at.l < x || to.r > x + w || at.t < y || to.b > y + h) continue;
    left = Math.min(left, at.l);
    top = Math.min(top, at.t);
    right = Math.max(right, to.r);
    bottom = Math.max(bottom, to.b);
  }
  if (right <= left || bottom <= top) return box;
  const round = (n: number) => Math.round(n * 10) / 10;
  return [left - 6, top - 6, right - left + 12, bottom - top + 12].map(round).join(' ');
}

/** A drawing of the server in this page, or one view of it. */
export function Drawing({ svg, view, label }: { svg: string; view?: 'above' | 'side'; label?: string }) {
  const place = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const node = adoptDrawing(svg);
    if (!node || !place.current) return;
    const box = view ? viewsOf(node)?.[view] : undefined;
    if (view && !box && view === 'side') {
      place.current.replaceChildren();
      return;
    }
    if (box) node.setAttribute('viewBox', box);
    node.removeAttribute('width');
    node.removeAttribute('height');
    if (label) {
      node.removeAttribute('aria-labelledby');
      node.setAttribute('aria-label', label);
    }
    place.current.replaceChildren(node);
    if (box) node.setAttribute('viewBox', tightened(node, box));
  }, [svg, view, label]);
  return <div class="drawing" ref={place} />;
}

/** How far a job is, in words and as a bar. */
export function Progress({ job, say }: { job: Job | null; say: string }) {
  const S = words.value;
  const behind = job && job.state === 'waiting' && job.ahead > 0;
  const now = behind ? S.answer.waiting(job.ahead) : (job?.stage ?? say);
  return (
    <div class="progress">
      <span>{now} …</span>
      <progress aria-label={say} max={1} value={job?.fraction ?? undefined} />
    </div>
  );
}

/** What went wrong, why, and what to do. */
export function Trouble({ error, again, close }: { error: ApiError; again?: () => void; close?: () => void }) {
  const S = words.value;
  const far = error.code === 'unreachable';
  return (
    <div class="trouble" role="alert">
      <p>
        <strong>{far ? S.error.unreachable : error.message}</strong>
      </p>
      {far ? <p>{S.error.unreachableHint}</p> : error.hint ? <p>{error.hint}</p> : null}
      <p class="buttons">
        {again ? (
          <button type="button" onClick={again}>
            {S.error.again}
          </button>
        ) : null}
        {close ? (
          <button type="button" class="quiet" onClick={close}>
            {S.error.close}
          </button>
        ) : null}
      </p>
    </div>
  );
}
