// The same arithmetic as `develop.ts`, in a shader, so that a slider is followed at the rate of the display.
import type { Table } from '../api-types.ts';
import { planeWeights, type Settings } from './develop.ts';
import type { Layers } from './layers.ts';

const MOST_PLANES = 24;
const CURVE_ROW = 1024;

const CORNERS = `#version 300 es
void main() { gl_Position = vec4(vec2[3](vec2(-1, -1), vec2(3, -1), vec2(-1, 3))[gl_VertexID], 0, 1); }`;

const DEVELOP = `#version 300 es
precision highp float; precision highp int; precision highp sampler2DArray; precision highp sampler2D;
uniform sampler2DArray layers; uniform sampler2D curve;
uniform vec4 weights[${MOST_PLANES * 3}];
uniform int planes; uniform int samples; uniform float top; uniform float limit; uniform bool marks; uniform int height;
uniform vec3 multipliers; uniform float cut; uniform mat3 matrix; uniform vec3 paling;
out vec4 shown;
float sampleAt(int i) { return texelFetch(curve, ivec2(i % ${CURVE_ROW}, i / ${CURVE_ROW}), 0).r; }
float curveAt(float level) {
  float at = clamp(level / top, 0.0, 1.0) * float(samples - 1);
  int low = min(int(at), samples - 2);
  return mix(sampleAt(low), sampleAt(low + 1), at - float(low));
}
vec3 encode(vec3 v) {
  v = clamp(v, 0.0, 1.0);
  return mix(1.055 * pow(v, vec3(1.0 / 2.4)) - 0.055, 12.92 * v, vec3(lessThanEqual(v, vec3(0.0031308))));
}
void main() {
  ivec2 at = ivec2(int(gl_FragCoord.x), height - 1 - int(gl_FragCoord.y));
  vec3 raw = vec3(0);
  for (int p = 0; p < planes; p++) {
    vec4 x = texelFetch(layers, ivec3(at, p), 0);
    raw += vec3(dot(weights[p * 3], x), dot(weights[p * 3 + 1], x), dot(weights[p * 3 + 2], x));
  }
  if (marks && any(greaterThanEqual(raw, vec3(limit)))) {
    shown = vec4(vec3((at.x + at.y) % 8 < 4 ? 1.0 : 0.0), 1);
    return;
  }
  vec3 lin = matrix * min(raw * multipliers, vec3(cut));
  float m = max(lin.r, max(lin.g, lin.b));
  if (!(m > 0.0)) { shown = vec4(0, 0, 0, 1); return; }
  float c = curveAt(m);
  vec3 kept = max(lin * (c / m), vec3(0));
  float share = clamp((m - paling.x) / (paling.y - paling.x), 0.0, 1.0);
  shown = vec4(encode(kept + paling.z * share * share * (c - kept)), 1);
}`;

export type Developer = {
  /** "WebGL2" or "plain". */
  readonly way: string;
  setLayers(layers: Layers): void;
  setTable(table: Table): void;
  draw(settings: Settings, marks: boolean): void;
  close(): void;
};

/** A developer that draws on the canvas by WebGL2, or null where that cannot be had. */
export function webglDeveloper(canvas: HTMLCanvasElement): Developer | null {
  const gl = canvas.getContext('webgl2', { alpha: false, antialias: false, preserveDrawingBuffer: true });
  if (!gl) return null;
  const shader = (kind: number, source: string) => {
    const made = gl.createShader(kind);
    if (!made) return null;
    gl.shaderSource(made, source);
    gl.compileShader(made);
    return gl.getShaderParameter(made, gl.COMPILE_STATUS) ? made : null;
  };
  const program = gl.createProgram();
  const corners = shader(gl.VERTEX_SHADER, CORNERS);
  const pixels = shader(gl.FRAGMENT_SHADER, DEVELOP);
  if (!program || !corners || !pixels) return null;
  gl.attachShader(program, corners);
  gl.attachShader(program, pixels);
  gl.linkProgram(program);
  if (!gl.getProgramParameter(program, gl.LINK_STATUS)) return null;
  gl.useProgram(program);
  const place = (name: string) => gl.getUniformLocation(program, name);
  const still = (target: number) => {
    gl.texParameteri(target, gl.TEXTURE_MIN_FILTER, gl.NEAREST);
    gl.texParameteri(target, gl.TEXTURE_MAG_FILTER, gl.NEAREST);
    gl.texParameteri(target, gl.TEXTURE_WRAP_S, gl.CLAMP_TO_EDGE);
    gl.texParameteri(target, gl.TEXTURE_WRAP_T, gl.CLAMP_TO_EDGE);
  };
  let table: Table | null = null;
  let planes = 0;
  let layersTexture: WebGLTexture | null = null;
  let curveTexture: WebGLTexture | null = null;
  gl.uniform1i(place('layers'), 0);
  gl.uniform1i(place('curve'), 1);
  return {
    way: 'WebGL2',
    setLayers(layers) {
      if (layers.planes > MOST_PLANES) throw new Error(`More than ${MOST_PLANES} planes`);
      gl.deleteTexture(layersTexture);
      layersTexture = gl.createTexture();
      gl.activeTexture(gl.TEXTURE0);
      gl.bindTexture(gl.TEXTURE_2D_ARRAY, layersTexture);
      still(gl.TEXTURE_2D_ARRAY);
      gl.pixelStorei(gl.UNPACK_ALIGNMENT, 2);
      gl.texImage3D(
        gl.TEXTURE_2D_ARRAY,
        0,
        gl.RGBA16F,
        layers.width,
        layers.height,
        layers.planes,
        0,
        gl.RGBA,
        gl.HALF_FLOAT,
        layers.halves,
      );
      planes = layers.planes;
      canvas.width = layers.width;
      canvas.height = layers.height;
      gl.viewport(0, 0, layers.width, layers.height);
      gl.uniform1i(place('height'), layers.height);
    },
    setTable(next) {
      table = next;
      const values = next.curve.values;
      const rows = Math.ceil(values.length / CURVE_ROW);
      const padded = new Float32Array(rows * CURVE_ROW);
      padded.set(values);
      gl.deleteTexture(curveTexture);
      curveTexture = gl.createTexture();
      gl.activeTexture(gl.TEXTURE1);
      gl.bindTexture(gl.TEXTURE_2D, curveTexture);
      still(gl.TEXTURE_2D);
      gl.pixelStorei(gl.UNPACK_ALIGNMENT, 4);
      gl.texImage2D(gl.TEXTURE_2D, 0, gl.R32F, CURVE_ROW, rows, 0, gl.RED, gl.FLOAT, padded);
      gl.uniform1i(place('samples'), values.length);
      gl.uniform1f(place('top'), next.curve.top);
      gl.uniform1f(place('limit'), next.sensor_limit);
      gl.uniform3f(place('paling'), next.paling.from, next.paling.to, next.paling.most);
    },
    draw(s, marks) {
      if (!table || !layersTexture) return;
      const weights = planeWeights(table, s);
      const b = table.controls.balance;
      const [m0 = 1, m1 = 1, m2 = 1] = b.multipliers[s.balance] ?? [];
      gl.uniform4fv(place('weights'), weights.subarray(0, MOST_PLANES * 12));
      gl.uniform1i(place('planes'), Math.min(planes, weights.length / 12, MOST_PLANES));
      gl.uniform3f(place('multipliers'), m0, m1, m2);
      gl.uniform1f(place('cut'), b.cut[s.balance] ?? 1);
      // The table's matrices go row by row, as `transpose` says.
      gl.uniformMatrix3fv(place('matrix'), true, b.matrices[s.balance] ?? [1, 0, 0, 0, 1, 0, 0, 0, 1]);
      gl.uniform1i(place('marks'), marks ? 1 : 0);
      gl.drawArrays(gl.TRIANGLES, 0, 3);
    },
    close() {
      gl.deleteTexture(layersTexture);
      gl.deleteTexture(curveTexture);
      gl.deleteProgram(program);
    },
  };
}
