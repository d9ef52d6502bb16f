// The plain way of drawing a proof, for browsers without WebGL2 and for anyone who adds ?plain to the address.
import type { Table } from '../api-types.ts';
import { developAll } from './develop.ts';
import type { Layers } from './layers.ts';
import { type Developer, webglDeveloper } from './webgl.ts';

function plainDeveloper(canvas: HTMLCanvasElement): Developer | null {
  const context = canvas.getContext('2d', { alpha: false });
  if (!context) return null;
  let layers: Layers | null = null;
  let table: Table | null = null;
  let picture: ImageData | null = null;
  return {
    way: 'plain',
    setLayers(next) {
      layers = next;
      canvas.width = next.width;
      canvas.height = next.height;
      picture = context.createImageData(next.width, next.height);
    },
    setTable(next) {
      table = next;
    },
    draw(settings, marks) {
      if (!layers || !table || !picture) return;
      developAll(layers, table, settings, marks, picture.data);
      context.putImageData(picture, 0, 0);
    },
    close() {
      layers = picture = table = null;
    },
  };
}

/** The fastest developer that this browser allows; a canvas serves one developer only. */
export function developerFor(canvas: HTMLCanvasElement, plain: boolean): Developer | null {
  return (plain ? null : webglDeveloper(canvas)) ?? plainDeveloper(canvas);
}

/** Whether the address asks for the plain way. */
export const plainAsked = () => new URLSearchParams(location.search).has('plain');
