// A stand-in for the server while it is being written. Not shipped.

import { existsSync, readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join } from 'node:path';
import { parse, stringify } from 'smol-toml';

const port = Number(process.env.PORT ?? 4778);
const fixtures = process.env.FIXTURES ?? '/work/tmp/fixtures';
const examples = process.env.EXAMPLES ?? '/work/main/examples';
const dist = new URL('../dist/', import.meta.url).pathname;
const read = (f) => readFileSync(f, 'utf8');
const base = read(join(examples, 'band-room.toml')).replace(
  'shoot = "Band room"',
  'shoot = "Brass band, winter concert"',
);
const demo = `${base}
[[setup]]
name = "Cornet, band room"

[[setup]]
name = "Nine in rows"
[setup.ask]
aperture = "f/5.6"
key = "loop"
evenness = "1/3 stop"

[[setup]]
name = "Drummer, moving"
[setup.ask]
aperture = "f/4"
key = "split"

[[setup]]
name = "Bandstand at dusk"

[[setup]]
name = "The old dog"
`;
let n = 1;
const docs = { shoots: new Map(), bags: new Map(), places: new Map() };
const put = (kind, id, name, text, removed = false) => {
  const d = docs[kind].get(id) ?? { id, versions: [] };
  d.versions.push({ id, name, version: d.versions.length + 1, saved_at: new Date().toISOString(), text, removed });
  docs[kind].set(id, d);
  return d.versions.at(-1);
};
put('shoots', 'demo', 'Brass band, winter concert', demo);
const num = (s, d = 0) => (typeof s === 'string' ? Number(/-?[\d.]+/.exec(s)?.[0] ?? d) : d);
function formOf(file, i) {
  const s = file.setup?.[i] ?? {};
  const { setup, ...common } = file;
  return {
    form: { ...common, ...Object.fromEntries(Object.entries(s).filter(([k]) => k !== 'name')) },
    owned: Object.keys(s).filter((k) => k !== 'name'),
  };
}
function geometry(form) {
  const [l, w, h] = String(form.place.room)
    .match(/[\d.]+/g)
    .map(Number);
  return {
    feet: false,
    room: { width: w, length: l, height: h },
    camera: { x: num(form.camera.from_left), y: num(form.camera.from_behind), z: num(form.camera.height, 1.6) },
    sitters: form.sitter.map((s, i) => ({
      name: s.name ?? `sitter ${i + 1}`,
      x: num(s.from_left),
      y: num(s.from_behind),
      face_height: num(s.face_height, 1.6),
      facing_deg: 0,
    })),
    furniture: (form.place.furniture ?? []).map((f) => {
      const [a, b, c] = f.size.match(/[\d.]+/g).map(Number);
      return { name: f.name, x: num(f.from_left), y: num(f.from_behind), z: 0, width: a, depth: b, height: c };
    }),
    boards: [],
    openings: (form.place.opening ?? []).map((o) => {
      const [a, b] = o.size.match(/[\d.]+/g).map(Number);
      return {
        name: o.name,
        wall: o.wall,
        from_left_end: num(o.from_left_end),
        from_floor: 0,
        width: a,
        height: b,
        kind: o.kind,
      };
    }),
    lamps: [],
    flash: null,
  };
}
function understand(text, i) {
  try {
    const file = parse(text);
    const setUps = file.setup?.length ? file.setup.map((s) => ({ name: s.name })) : [{ name: file.shoot ?? 'shoot' }];
    const at = Math.min(i, setUps.length - 1);
    const { form, owned } = formOf(file, at);
    return {
      text,
      set_ups: setUps,
      set_up: at,
      ok: true,
      problems: [],
      warnings: ['The lens is taken as given.'],
      summary: ['One sitter in a room.'],
      form,
      owned,
      drawing: null,
      geometry: geometry(form),
    };
  } catch (e) {
    return {
      text,
      set_ups: [{ name: 'shoot' }],
      set_up: 0,
      ok: false,
      problems: [
        {
          line: e.line ?? 1,
          column: e.column ?? 1,
          message: String(e.message).split('\n')[0],
          why: 'The line is not in the notation.',
          remedy: 'Write key = "value".',
        },
      ],
      warnings: [],
      summary: [],
      form: {},
      owned: [],
      drawing: null,
      geometry: null,
    };
  }
}
function edit(text, i, edits) {
  const file = parse(text);
  for (const { path, value } of edits) {
    let at = file;
    const s = file.setup?.[i];
    if (s && (path[0] === 'ask' || path[0] in s)) {
      at = s;
      if (path[0] === 'ask' && !s.ask) s.ask = structuredClone(file.ask ?? {});
    }
    for (let k = 0; k < path.length - 1; k++) at = at[path[k]] ??= typeof path[k + 1] === 'number' ? [] : {};
    const last = path.at(-1);
    if (value === null) Array.isArray(at) ? at.splice(last, 1) : delete at[last];
    else at[last] = value;
  }
  return stringify(file);
}
const names = ['band-room', 'dining-room', 'noon-sun', 'band-room', 'dining-room'];
const answers = new Map();
function answerOf(id) {
  const { text, set_up } = answers.get(id);
  const which = names[set_up];
  const report = JSON.parse(read(join(fixtures, `${which}.answer.json`)));
  const form = formOf(parse(text), set_up).form;
  if (form.ask?.aperture === 'f/5.6')
    report.lines.camera = report.lines.camera.replace(/f\/[\d.]+/, (report.camera.aperture = 'f/5.6'));
  let changes = [];
  if (set_up === 3) {
    report.shortfall = {
      words: 'The flash is 1.3 stops short: full power through the umbrella gives f/2.5, and 1 stop in hand was asked.',
      binding: report.limits.slice(0, 1),
      tried: ['zoom 200: no help, the umbrella spreads it all the same'],
      changes: [
        {
          what: 'aperture f/2.5 instead of f/4',
          cost: 'less is sharp: about 9 cm',
          then: 'f/2.5 · 1/200 · ISO 400, flash 1/2',
          amount: 1.3,
          unit: 'stops',
          effort: 1,
        },
        {
          what: 'come 0.8 m nearer with the umbrella',
          cost: 'the light falls off faster',
          then: 'flash 1/2 -0.3',
          amount: 0.8,
          unit: 'm',
          effort: 2,
        },
      ],
    };
    report.flash.in_hand_stops = 0.1;
    report.cautions = ['Wind: hold the umbrella instead of standing it.'];
    changes = report.shortfall.changes.map((c, k) => ({
      what: c.what,
      cost: c.cost,
      then: c.then,
      text: k ? null : edit(text, set_up, [{ path: ['ask', 'aperture'], value: 'f/2.5' }]),
    }));
  }
  const g = geometry(form);
  report.map.cells = [];
  return {
    id,
    report,
    drawing: read(join(fixtures, `${which}.drawing.svg`)),
    chart: '<svg xmlns="http://www.w3.org/2000/svg"/>',
    feet: false,
    text: `${report.lines.camera}\n${report.lines.flash}\n${report.lines.aim}\n`,
    shoot_text: text,
    set_up,
    geometry: g,
    changes,
  };
}
const jobs = new Map();
const half = (v) => {
  if (v <= 0) return 0;
  const e = Math.floor(Math.log2(v));
  if (e < -14) return Math.round(v / 2 ** -24);
  return ((e + 15) << 10) + Math.min(1023, Math.round((v / 2 ** e - 1) * 1024));
};
const madeLayers = new Map();
function layers(...a) { const k = a.join(); if (!madeLayers.has(k)) madeLayers.set(k, layersOf(...a)); return madeLayers.get(k); }
function layersOf(width, noise, planes, aim = 0) {
  const height = Math.round(width * 1.5);
  const out = Buffer.alloc(16 + width * height * planes * 8);
  out.writeUInt32LE(0x31594c52, 0);
  out.writeUInt32LE(width, 4);
  out.writeUInt32LE(height, 8);
  out.writeUInt32LE(planes, 12);
  const lx = planes === 1 ? Math.sin(aim) : -0.6;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const u = (x / width - 0.5) * 3.4,
        v = (y / height - 0.42) * 4.6;
      const r2 = u * u * 1.35 + v * v;
      let skin = 0,
        shade = 0;
      if (r2 < 1) {
        const nz = Math.sqrt(1 - r2);
        shade = Math.max(0, lx * u + -0.5 * v + 0.6 * nz);
        skin = 1;
      } else if (v > 0.9 && Math.abs(u) < 1.5) {
        shade = 0.25 * Math.max(0, 1 - Math.abs(u + 0.5) / 2.4);
        skin = 0.5;
      } else shade = 0.12 + 0.1 * (0.5 - u / 3.4);
      const g = 1 + noise * (Math.random() - 0.5);
      const at = 16 + (y * width + x) * 8;
      for (let p = 0; p < planes; p++)
        for (let c = 0; c < 4; c++) {
          const band = planes === 1 ? c / 2 : (p * 4 + c) / 15;
          const refl = skin === 1 ? 0.25 + 0.45 * band : skin ? 0.1 + 0.12 * (1 - band) : 0.5;
          const light = (p < 4 && planes > 1) || planes === 1 ? shade * 0.9 : 0.16 * (skin ? 0.9 : 1.1);
          out.writeUInt16LE(half(refl * light * g), at + p * width * height * 8 + c * 2);
        }
    }
  return out;
}
const thirds = (labels, at, dir) => ({ labels, factors: labels.map((_, i) => 2 ** (((i - at) / 3) * dir)), at });
const rows = [0, 1, 2].map((k) =>
  Array.from({ length: 16 }, (_, b) => Math.exp(-(((b / 15 - (0.8 - k * 0.35)) / 0.2) ** 2)) / 5.6),
);
const temps = Array.from({ length: 31 }, (_, i) => 2500 + i * 200);
const table = (planes) => ({
  lights:
    planes === 1
      ? [{ name: 'flash', is_flash: true, first_plane: 0, planes: 1 }]
      : [
          { name: 'flash', is_flash: true, first_plane: 0, planes: 4 },
          { name: 'ceiling tubes', is_flash: false, first_plane: 4, planes: 1 },
        ],
  gels: [
    { name: 'no gel', label: 'no gel', weights: rows, loss_stops: 0 },
    {
      name: '1/2 CTO',
      label: '1/2 CTO, +81',
      weights: rows.map((r, k) => r.map((w) => w * [0.95, 0.7, 0.45][k])),
      loss_stops: 0.5,
    },
  ],
  controls: {
    power: thirds(['1/128', '1/64', '1/32', '1/16', '1/16 +0.3', '1/16 +0.7', '1/8', '1/4', '1/2', '1/1'], 3, 1.5),
    shutter: thirds(
      ['1/200', '1/160', '1/125', '1/100', '1/80', '1/60', '1/50', '1/40', '1/30', '1/25', '1/20', '1/15'],
      5,
      1,
    ),
    aperture: thirds(['f/2.8', 'f/3.2', 'f/3.5', 'f/4', 'f/4.5', 'f/5', 'f/5.6', 'f/6.3', 'f/7.1', 'f/8'], 3, -1),
    iso: thirds(
      [
        'ISO 100',
        'ISO 125',
        'ISO 160',
        'ISO 200',
        'ISO 250',
        'ISO 320',
        'ISO 400',
        'ISO 500',
        'ISO 640',
        'ISO 800',
        'ISO 1600',
      ],
      6,
      1,
    ),
    gel: { at: 0 },
    balance: {
      labels: temps.map((t) => `${t} K`),
      at: 12,
      multipliers: temps.map((t) => [Math.sqrt(t / 4900) * 1.1, 1, Math.sqrt(4900 / t) * 1.5]),
      cut: temps.map(() => 1.4),
      matrices: temps.map(() => [1.1, -0.05, -0.05, -0.05, 1.1, -0.05, -0.03, -0.07, 1.1]),
    },
  },
  curve: {
    top: 8,
    values: Array.from({ length: 2049 }, (_, i) => {
      const x = (i / 2048) * 8;
      return ((1.12 * x) / (x + 0.18)) * (x / (x + 0.02)) * 0.95;
    }),
  },
  paling: { from: 0.7, to: 3, most: 0.8 },
  exposure: { flash_stops: -0.3, ambient_stops: -1.9 }, sensor_limit: 1.404,
});
function startJob(kind, payload) {
  const id = `${kind[0]}${n++}`;
  const job = {
    id,
    kind,
    state: 'working',
    ahead: 0,
    stage: 'trying every aim',
    fraction: 0.1,
    picture: null,
    error: null,
  };
  jobs.set(id, { job, payload, heard: new Set() });
  const tell = (x) => {
    Object.assign(job, x);
    for (const r of jobs.get(id).heard) {
      r.write(`data: ${JSON.stringify(job)}\n\n`);
      if (['done', 'failed', 'stopped'].includes(job.state)) r.end();
    }
  };
  jobs.get(id).tell = tell;
  if (kind === 'answer') {
    answers.set(id, payload);
    setTimeout(() => tell({ stage: 'asking the referee', fraction: 0.6 }), 150);
    setTimeout(() => tell({ state: 'done', fraction: 1 }), 300);
  }
  if (kind === 'live') setTimeout(() => tell({ state: 'done' }), 200);
  if (kind === 'proof') {
    const w = payload.width ?? 512;
    const h = (x) => Math.round(x * 1.5);
    setTimeout(
      () =>
        tell({
          stage: 'painting',
          picture: { number: 1, width: w / 4, height: h(w / 4), noise_percent: 18 },
          fraction: 0.2,
        }),
      100,
    );
    setTimeout(() => tell({ picture: { number: 2, width: w, height: h(w), noise_percent: 6 }, fraction: 0.5 }), 600);
    setTimeout(
      () => tell({ state: 'done', picture: { number: 3, width: w, height: h(w), noise_percent: 2 }, fraction: 1 }),
      1500,
    );
  }
  return job;
}
let phone = { open: false, url: null, paired: 0 };
const CSP =
  "default-src 'self'; img-src 'self' data: blob:; style-src 'self'; script-src 'self'; connect-src 'self'; frame-src 'self'";
const types = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.woff2': 'font/woff2',
  '.svg': 'image/svg+xml',
  '.txt': 'text/plain',
};
const vocabulary = {
  surfaces: [
    ['white paint', 0.8],
    ['fresh white paint', 0.87],
    ['cream', 0.71],
    ['brick', 0.17],
    ['pine', 0.35],
    ['pale wood', 0.47],
    ['grey carpet', 0.16],
    ['white card', 0.87],
    ['dark wood', 0.06],
    ['light grey', 0.5],
  ].map(([name, reflectance]) => ({ name, reflectance, meaning: name })),
  usual_lights: [
    { name: 'living room evening', reading: 'EV 5.5', colour: '2850 K' },
    { name: 'office', reading: 'EV 7.5', colour: '4000 K' },
  ],
  patterns: [
    ['flat', [0, 15], [0, 20]],
    ['butterfly', [0, 10], [25, 50]],
    ['loop', [25, 45], [20, 45]],
    ['Rembrandt', [45, 65], [35, 55]],
    ['side', [30, 60], [15, 20]],
    ['split', [80, 100], [0, 30]],
  ].map(([name, azimuth, elevation]) => ({ name, azimuth, elevation })),
  skins: ['very light', 'light', 'intermediate', 'tan', 'brown', 'dark'],
  hairs: ['short', 'bob', 'bald'],
  hair_colours: ['black', 'brown'],
  eyes: ['brown', 'blue'],
  cloths: ['black', 'navy'],
  clothes: ['jersey', 'uniform'],
  figures: ['woman', 'man', 'person'],
  builds: ['slim', 'medium'],
  gels: [
    { name: 'full CTO', straw: '+167, 1.1', amber: '+159, 0.85' },
    { name: '1/2 CTO', straw: '+81, 0.5', amber: '+109, 0.5' },
  ],
  illuminants: ['FL2'],
  lamps: [{ name: '60 W bulb', lumen: 806 }],
  opening_kinds: ['window', 'doorway'],
  weathers: ['clear'],
  flash_kinds: ['small', 'medium', 'large'],
  looks: [{ name: 'dramatic', stops: -2 }],
};
createServer((req, res) => {
  const url = new URL(req.url, 'http://x');
  const chunks = [];
  req.on('data', (c) => chunks.push(c));
  req.on('end', () => {
    const raw = Buffer.concat(chunks);
    const body = (req.headers['content-type'] ?? '').includes('json') && raw.length ? JSON.parse(raw) : {};
    const json = (x, s = 200) => {
      res.writeHead(s, { 'content-type': 'application/json' });
      res.end(JSON.stringify(x));
    };
    const fail = (s, code, message, extra = {}) => json({ error: { code, message, hint: 'Look again.' }, ...extra }, s);
    const p = url.pathname.split('/').slice(1);
    if (p[0] !== 'api') {
      const f = join(dist, url.pathname === '/' ? 'index.html' : url.pathname);
      if (!existsSync(f)) return fail(404, 'not_found', 'Nothing here.');
      res.writeHead(200, {
        'content-type': types[extname(f)] ?? 'application/octet-stream',
        'content-security-policy': CSP,
      });
      return res.end(readFileSync(f));
    }
    const [, a, b, c, d] = p;
    if (a === 'about')
      return json({ version: '0', phone, you: url.searchParams.has('phone') ? 'phone' : 'here', storage: 'memory' });
    if (a === 'vocabulary') return json(vocabulary);
    if (a === 'understand') return json(understand(body.text, body.set_up));
    if (a === 'edit') return json(understand(edit(body.text, body.set_up, body.edits), body.set_up));
    if (a === 'take') { const f = parse(body.text); Object.assign(f, parse(body.part)); return json(understand(stringify(f), body.set_up)); }
    if (a === 'give') { const f = parse(body.text); const k = body.kind === 'bags' ? 'bag' : 'place'; return json({ text: stringify({ [k]: f[k] }) }); }
    if (a === 'begin') return json(understand(base.replace(/shoot = .*/, `shoot = "${body.title}"`), 0));
    if (a === 'scan') return json({ text: '[place]\nroom = "6.0 x 5.0 x 2.5 m"\n', told: ['A room of 6.0 x 5.0 m.'] });
    if (a === 'answers' && !b) return json(startJob('answer', body), 202);
    if (a === 'answers') {
      if (c === 'map') return json({ svg: read(join(fixtures, `${names[answers.get(b).set_up]}.map.svg`)), cells: [] });
      if (c === 'light-changed')
        return json({
          camera: `f/4 · 1/${Math.round(60 * 2 ** body.stops)} · ISO 400 · 4900 K M1`,
          flash: '1/16 · zoom 200 · no gel · 4 stops in hand',
          words: 'shutter only',
          possible: true,
        });
      if (c === 'card.html') {
        res.writeHead(200, { 'content-type': 'text/html' });
        return res.end('<!doctype html><title>Card</title><h1>Card</h1>');
      }
      return json(answerOf(b));
    }
    if (a === 'proofs' && !b) return json(startJob('proof', body), 202);
    if (a === 'proofs' && c === 'table') return json(table(5));
    if (a === 'proofs' && c === 'layers') {
      const { payload } = jobs.get(b);
      const k = Number(url.searchParams.get('picture'));
      return res.end(layers((payload.width ?? 512) / (k === 1 ? 4 : 1), [0, 0.6, 0.2, 0.05][k], 5));
    }
    if (a === 'live' && !b) return json(startJob('live', body), 202);
    if (a === 'live' && c === 'table') return json(table(1));
    if (a === 'live' && c === 'aim') {
      const az = Number(url.searchParams.get('azimuth'));
      res.setHeader(
        'x-aim',
        JSON.stringify({
          words: `head turned ${az} deg`,
          target: { x: 0, y: 0, z: 0 },
          flash: { x: 0, y: 0, z: 0 },
          power: '1/8',
          stops_below_full: 3,
          azimuth_deg: az,
          elevation_deg: 10,
          verdict: 'possible',
          why: null,
        }),
      );
      return res.end(layers(256, 0, 1, (az * Math.PI) / 180));
    }
    if (a === 'jobs') {
      const j = jobs.get(b);
      if (!j) return fail(404, 'not_found', 'No such job.');
      if (req.method === 'DELETE') {
        if (j.job.state === 'working') j.tell({ state: 'stopped' });
        res.writeHead(204);
        return res.end();
      }
      if (c !== 'events') return json(j.job);
      res.writeHead(200, { 'content-type': 'text/event-stream' });
      res.write(`data: ${JSON.stringify(j.job)}\n\n`);
      if (['done', 'failed', 'stopped'].includes(j.job.state)) return res.end();
      j.heard.add(res);
      res.on('close', () => j.heard.delete(res));
      return;
    }
    if (a === 'phone') {
      if (req.method === 'DELETE') {
        phone = { open: false, url: null, paired: 0 };
        res.writeHead(204);
        return res.end();
      }
      phone = { open: true, url: 'http://192.168.1.20:4780', paired: 0 };
      return json({
        url: 'http://192.168.1.20:4780/#pair=abc-123',
        qr: '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><path d="M1 1h3v3h-3zM6 1h3v3h-3zM1 6h3v3h-3z"/></svg>',
        minutes: 5,
      });
    }
    if (a === 'pair') {
      if (body.secret !== 'abc-123') return fail(403, 'forbidden', 'This secret is not known.');
      res.writeHead(204);
      return res.end();
    }
    if (a === 'import')
      return json({
        taken: [{ kind: 'shoots', ...put('shoots', `s${n++}`, 'Brought in', raw.toString()) }],
        refused: [],
      });
    if (a === 'export') {
      res.writeHead(200, { 'content-type': 'application/zip' });
      return res.end(Buffer.from('PK'));
    }
    if (a in docs) {
      const all = docs[a];
      if (!b) {
        if (req.method === 'POST') return json(put(a, `${a[0]}${n++}`, body.name, body.text), 201);
        return json(
          [...all.values()]
            .map((x) => x.versions.at(-1))
            .filter((x) => url.searchParams.get('removed') === 'true' || !x.removed)
            .map(({ text, ...x }) => x),
        );
      }
      const it = all.get(b);
      if (!it) return fail(404, 'not_found', 'No such document.');
      const last = it.versions.at(-1);
      if (c === 'versions') return json(d ? it.versions[d - 1] : it.versions.map(({ text, id, ...x }) => x));
      if (c === 'restore') {
        const v = it.versions[body.version - 1];
        return json(put(a, b, v.name, v.text));
      }
      if (req.method === 'PUT') {
        if (body.based_on !== last.version) return fail(409, 'conflict', 'Another window saved it.', { theirs: last });
        return json(put(a, b, body.name, body.text));
      }
      if (req.method === 'DELETE') {
        put(a, b, last.name, last.text, true);
        res.writeHead(204);
        return res.end();
      }
      return json(last);
    }
    fail(404, 'not_found', 'No such thing.');
  });
}).listen(port, () => console.log(`mock on ${port}`));
