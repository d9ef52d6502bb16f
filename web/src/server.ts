// Talking to the server: one function for each thing that can be asked, and one kind of error with sentences to show.
import { effect } from '@preact/signals';
import type {
  About,
  Answer,
  Doc,
  Edit,
  Imported,
  Job,
  Kind,
  LightChanged,
  Listed,
  LiveAim,
  PartText,
  PhoneOpened,
  Refusal,
  RoomMap,
  Scanned,
  StartForm,
  Table,
  Understood,
  Vocabulary,
} from './api-types.ts';
import { type Layers, readLayers } from './proof/layers.ts';
import { language } from './strings/index.ts';

/** A refusal or failure, in sentences for the person who can act. */
export class ApiError extends Error {
  readonly code: string;
  readonly hint: string | null;
  readonly status: number;
  /** The newer version that stands in the way of a save. */
  readonly theirs: Doc | null;
  constructor(status: number, refusal: Refusal, theirs: Doc | null = null) {
    super(refusal.message);
    this.code = refusal.code;
    this.hint = refusal.hint;
    this.status = status;
    this.theirs = theirs;
  }
}

async function refused(answer: Response): Promise<ApiError> {
  try {
    const body = (await answer.json()) as { error: Refusal; theirs?: Doc };
    return new ApiError(answer.status, body.error, body.theirs ?? null);
  } catch {
    return new ApiError(answer.status, { code: 'ours', message: `${answer.status} ${answer.statusText}`, hint: null });
  }
}

/** An address below which the server answers in the language of the page. */
export const spoken = (path: string) => `${path}${path.includes('?') ? '&' : '?'}lang=${language.peek()}`;

/** Windows take turns at the server; each has a name of its own. */
const WINDOW = Math.random().toString(36).slice(2);

async function call(method: string, path: string, body?: unknown, signal?: AbortSignal): Promise<Response> {
  let answer: Response;
  const bytes = body instanceof Blob || body instanceof ArrayBuffer;
  try {
    answer = await fetch(spoken(path), {
      method,
      signal: signal ?? null,
      ...(method === 'GET'
        ? {}
        : {
            headers: {
              'content-type': bytes ? 'application/octet-stream' : 'application/json',
              'x-rushlight-window': WINDOW,
            },
            body: bytes ? (body as BodyInit) : JSON.stringify(body ?? {}),
          }),
    });
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') throw error;
    throw new ApiError(0, { code: 'unreachable', message: '', hint: null });
  }
  if (!answer.ok) throw await refused(answer);
  return answer;
}

const json = async <T>(method: string, path: string, body?: unknown, signal?: AbortSignal): Promise<T> =>
  (await (await call(method, path, body, signal)).json()) as T;

const query = (numbers: Record<string, number>) =>
  new URLSearchParams(Object.entries(numbers).map(([k, v]) => [k, String(v)])).toString();

export const api = {
  about: () => json<About>('GET', '/api/about'),
  vocabulary: () => json<Vocabulary>('GET', '/api/vocabulary'),

  list: (kind: Kind) => json<Listed[]>('GET', `/api/${kind}`),
  /** Those that were removed, and can be brought back. */
  listRemoved: async (kind: Kind) =>
    (await json<Listed[]>('GET', `/api/${kind}?removed=true`)).filter((one) => one.removed),
  create: (kind: Kind, name: string, text: string) => json<Doc>('POST', `/api/${kind}`, { name, text }),
  read: (kind: Kind, id: string) => json<Doc>('GET', `/api/${kind}/${id}`),
  save: (kind: Kind, id: string, name: string, text: string, based_on: number) =>
    json<Doc>('PUT', `/api/${kind}/${id}`, { name, text, based_on }),
  remove: (kind: Kind, id: string, based_on: number) => call('DELETE', `/api/${kind}/${id}?based_on=${based_on}`),
  versions: (kind: Kind, id: string) => json<Listed[]>('GET', `/api/${kind}/${id}/versions`),
  version: (kind: Kind, id: string, n: number) => json<Doc>('GET', `/api/${kind}/${id}/versions/${n}`),
  restore: (kind: Kind, id: string, version: number, based_on: number) =>
    json<Doc>('POST', `/api/${kind}/${id}/restore`, { version, based_on }),
  importFile: (file: File) => json<Imported>('POST', `/api/import?name=${encodeURIComponent(file.name)}`, file),

  understand: (text: string, set_up: number) => json<Understood>('POST', '/api/understand', { text, set_up }),
  edit: (text: string, set_up: number, edits: Edit[], make_own: string[] = []) =>
    json<Understood>('POST', '/api/edit', { text, set_up, edits, make_own }),
  /** Puts a kept bag or place into a shoot, remarks and all. */
  take: (text: string, set_up: number, kind: 'bags' | 'places', part: string) =>
    json<Understood>('POST', '/api/take', { text, set_up, kind, part }),
  /** Takes the bag or the place of a shoot out, to be kept by itself. */
  give: (text: string, set_up: number, kind: 'bags' | 'places') =>
    json<PartText>('POST', '/api/give', { text, set_up, kind }),
  begin: (form: StartForm) => json<Understood>('POST', '/api/begin', form),
  scan: (file: File, turned: number) =>
    json<Scanned>('POST', `/api/scan?name=${encodeURIComponent(file.name)}&turned=${turned}`, file),

  startAnswer: (text: string, set_up: number) => json<Job>('POST', '/api/answers', { text, set_up }),
  startProof: (answer: string, width: number) => json<Job>('POST', '/api/proofs', { answer, width }),
  startLive: (answer: string) => json<Job>('POST', '/api/live', { answer }),
  job: (id: string) => json<Job>('GET', `/api/jobs/${id}`),
  stop: (id: string) => call('DELETE', `/api/jobs/${id}`).catch(() => undefined),
  answer: (id: string) => json<Answer>('GET', `/api/answers/${id}`),
  map: (id: string) => json<RoomMap>('GET', `/api/answers/${id}/map`),
  lightChanged: (id: string, stops: number) =>
    json<LightChanged>('POST', `/api/answers/${id}/light-changed`, { stops }),

  table: (job: string) => json<Table>('GET', `/api/proofs/${job}/table`),
  layers: async (job: string, picture: number): Promise<Layers> =>
    readLayers(await (await call('GET', `/api/proofs/${job}/layers?picture=${picture}`)).arrayBuffer()),
  liveTable: (job: string) => json<Table>('GET', `/api/live/${job}/table`),
  liveAim: async (job: string, at: { azimuth: number; elevation: number; zoom: number }, signal?: AbortSignal) => {
    const answer = await call('GET', `/api/live/${job}/aim?${query(at)}`, undefined, signal);
    return { aim: headerJson<LiveAim>(answer.headers.get('x-aim')), layers: readLayers(await answer.arrayBuffer()) };
  },

  openPhone: () => json<PhoneOpened>('POST', '/api/phone'),
  shutPhone: () => call('DELETE', '/api/phone'),
  pair: (secret: string) => call('POST', '/api/pair', { secret }),
};

/** Headers hold bytes: what was sent as UTF-8 arrives a byte a letter, and some servers escape it. */
export function headerJson<T>(value: string | null): T | null {
  if (!value) return null;
  try {
    const bytes = Uint8Array.from(value, (c) => c.charCodeAt(0));
    const text = /[^\u0000-\u007f]/.test(value) ? new TextDecoder().decode(bytes) : value;
    return JSON.parse(text.startsWith('%') ? decodeURIComponent(text) : text) as T;
  } catch {
    return null;
  }
}

/**
 * Follows a job until it ends. `tell` is called with each news of it; the promise ends with the last one. Aborting `signal`
 * stops the job on the server too. Where the stream breaks, the job is asked about once a second instead. When the page
 * changes its language, it listens anew in the other one.
 */
export function follow(job: Job, tell: (job: Job) => void, signal: AbortSignal): Promise<Job> {
  const ended = (j: Job) => j.state === 'done' || j.state === 'failed' || j.state === 'stopped';
  return new Promise((resolve, reject) => {
    let last = job;
    tell(job);
    if (ended(job)) return resolve(job);
    let stream: EventSource | undefined;
    let asking: ReturnType<typeof setInterval> | undefined;
    let hush = () => {};
    const close = () => {
      hush();
      stream?.close();
      clearInterval(asking);
      signal.removeEventListener('abort', abort);
    };
    const abort = () => {
      close();
      api.stop(job.id);
      reject(new DOMException('stopped', 'AbortError'));
    };
    const news = (j: Job) => {
      last = j;
      tell(j);
      if (ended(j)) {
        close();
        resolve(j);
      }
    };
    if (signal.aborted) return abort();
    signal.addEventListener('abort', abort);
    const broken = () => {
      stream?.close();
      asking ??= setInterval(
        () =>
          api.job(job.id).then(news, (error) => {
            close();
            reject(error);
          }),
        1000,
      );
      if (ended(last)) close();
    };
    hush = effect(() => {
      const events = `/api/jobs/${job.id}/events?lang=${language.value}`;
      if (asking) return;
      stream?.close();
      stream = new EventSource(events);
      stream.onmessage = (event) => news(JSON.parse(event.data as string) as Job);
      stream.onerror = broken;
    });
  });
}
