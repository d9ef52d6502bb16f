// The shoot that is open: its text, what was understood of it, its saved document, and the answer that belongs to it.
import { batch, computed, effect, signal } from '@preact/signals';
import type { About, Answer, Doc, Edit, Job, Understood, Vocabulary } from './api-types.ts';
import { History } from './history.ts';
import { ApiError, api, follow } from './server.ts';
import { language } from './strings/index.ts';

export const about = signal<About | null>(null);
export const vocabulary = signal<Vocabulary | null>(null);
/** The document as it was last saved or read. */
export const doc = signal<Doc | null>(null);
export const name = signal('');
export const text = signal('');
export const setUp = signal(0);
export const understood = signal<Understood | null>(null);
/** Whether the lengths of the shoot are in feet. */
export const inFeet = computed(() => understood.value?.geometry?.feet ?? answer.value?.feet ?? false);
/** What went wrong outside of saving and answering, in sentences. */
export const trouble = signal<ApiError | null>(null);

export type Saving =
  | { is: 'saved' | 'unsaved' | 'saving' }
  | { is: 'failed'; error: ApiError }
  | { is: 'conflict'; theirs: Doc; later: boolean };
export const saving = signal<Saving>({ is: 'saved' });

const history = new History();
export const canUndo = signal(false);
export const canRedo = signal(false);
const steps = () => {
  canUndo.value = history.canUndo;
  canRedo.value = history.canRedo;
};

const LAST = 'rushlight.last-shoot';
const remembered = () => {
  try {
    return localStorage.getItem(LAST);
  } catch {
    return null;
  }
};
const remember = (id: string) => {
  try {
    localStorage.setItem(LAST, id);
  } catch {
    // Then the first shoot of the list is opened next time.
  }
};

/** Any failure as something that can be shown. */
export const asError = (error: unknown): ApiError =>
  error instanceof ApiError
    ? error
    : new ApiError(0, { code: 'ours', message: error instanceof Error ? error.message : String(error), hint: null });

/** Runs something and shows what goes wrong. */
export async function trying<T>(what: () => Promise<T>): Promise<T | null> {
  try {
    const result = await what();
    trouble.value = null;
    return result;
  } catch (error) {
    trouble.value = asError(error);
    return null;
  }
}

/** Opens the shoot that was open last, or the first there is (on the first start: the demo). */
export async function start(): Promise<void> {
  await trying(async () => {
    const now = await api.about();
    about.value = now;
    const [words, shoots] = await Promise.all([api.vocabulary(), api.list('shoots')]);
    vocabulary.value = words;
    const last = remembered();
    const first = shoots.find((s) => s.id === last) ?? shoots[0];
    if (first) await open(first.id);
    else location.hash = '#/shoots';
  });
}

/** Opens a shoot, after what was changed in the one before is saved. */
export async function open(id: string, at = 0): Promise<void> {
  await saveNow();
  const read = await api.read('shoots', id);
  history.clear();
  steps();
  remember(id);
  batch(() => {
    doc.value = read;
    name.value = read.name;
    saving.value = { is: 'saved' };
    understood.value = null;
    text.value = read.text;
    setUp.value = at;
    dropAnswer();
  });
  await settle(await api.understand(read.text, at), false);
}

/** Takes a new understanding as the present one. */
async function settle(next: Understood, record: boolean): Promise<void> {
  const changed = next.text !== text.value;
  batch(() => {
    if (record && changed) history.record({ text: text.value, setUp: setUp.value });
    text.value = next.text;
    setUp.value = next.set_up;
    understood.value = next;
    steps();
  });
  if (changed) saveSoon();
  if (next.ok) void ask();
  else stopAsking();
}

// Edits are sent one after the other, each on the text that the one before has made.
let queue: Promise<unknown> = Promise.resolve();
const inTurn = <T>(what: () => Promise<T>): Promise<T | null> => {
  const turn = queue.then(() => trying(what));
  queue = turn;
  return turn;
};

/** Changes the text by edits; comments and order stay. */
export const edit = (edits: Edit[]) => inTurn(async () => settle(await api.edit(text.value, setUp.value, edits), true));

/** Gives the set-up a part of its own, as a copy of the common one. */
export const makeOwn = (part: string) =>
  inTurn(async () => settle(await api.edit(text.value, setUp.value, [], [part]), true));

/** Puts a bag or a place that was kept by itself into the shoot. */
export const takePart = (kind: 'bags' | 'places', part: string) =>
  inTurn(async () => settle(await api.take(text.value, setUp.value, kind, part), true));

/** Takes a whole new text. */
export const replaceText = (next: string, at?: number) =>
  inTurn(async () => {
    const to = at ?? setUp.value;
    // What is typed is kept at once, whether or not it can be read.
    const read = await api.understand(next, to);
    await settle(read, true);
  });

export const goToSetUp = (n: number) =>
  inTurn(async () => {
    const read = await api.understand(text.value, n);
    batch(() => {
      setUp.value = read.set_up;
      understood.value = read;
    });
    if (read.ok) void ask();
    else stopAsking();
  });

const step = (to: (now: { text: string; setUp: number }) => { text: string; setUp: number } | null) =>
  inTurn(async () => {
    const moment = to({ text: text.value, setUp: setUp.value });
    steps();
    if (!moment) return;
    const read = await api.understand(moment.text, moment.setUp);
    await settle(read, false);
  });
export const undo = () => step((now) => history.undo(now));
export const redo = () => step((now) => history.redo(now));

// Saving: a moment after the last change; never over a newer version.
let timer: ReturnType<typeof setTimeout> | undefined;
export function saveSoon(): void {
  if (saving.value.is !== 'conflict') saving.value = { is: 'unsaved' };
  clearTimeout(timer);
  timer = setTimeout(() => void saveNow(), 700);
}

let underWay: Promise<void> | null = null;
/** Saves what is not saved yet. */
export async function saveNow(): Promise<void> {
  clearTimeout(timer);
  if (underWay) await underWay;
  const now = doc.value;
  if (!now || saving.value.is === 'saved' || saving.value.is === 'conflict') return;
  const sent = { text: text.value, name: name.value };
  if (now.text === sent.text && now.name === sent.name) {
    saving.value = { is: 'saved' };
    return;
  }
  saving.value = { is: 'saving' };
  underWay = (async () => {
    try {
      const kept = await api.save('shoots', now.id, sent.name, sent.text, now.version);
      if (doc.value?.id !== kept.id) return;
      doc.value = { ...kept, text: sent.text, name: sent.name };
      saving.value = { is: text.value === sent.text && name.value === sent.name ? 'saved' : 'unsaved' };
    } catch (error) {
      const failed = asError(error);
      const theirs =
        failed.theirs ?? (failed.status === 409 ? await api.read('shoots', now.id).catch(() => null) : null);
      saving.value =
        failed.status === 409 && theirs ? { is: 'conflict', theirs, later: false } : { is: 'failed', error: failed };
    }
  })();
  await underWay;
  underWay = null;
  if (saving.value.is === 'unsaved') saveSoon();
}

export function rename(next: string): void {
  if (!next.trim() || next === name.value) return;
  name.value = next.trim();
  saveSoon();
}

/** The way out of a conflict: both versions stay. */
export const keepMineAsNew = (as: string) =>
  trying(async () => {
    const made = await api.create('shoots', as, text.value);
    remember(made.id);
    batch(() => {
      doc.value = made;
      name.value = made.name;
      saving.value = { is: 'saved' };
    });
  });
export const takeTheirs = () =>
  trying(async () => {
    const state = saving.value;
    if (state.is !== 'conflict') return;
    batch(() => {
      history.record({ text: text.value, setUp: setUp.value });
      doc.value = state.theirs;
      name.value = state.theirs.name;
      text.value = state.theirs.text;
      saving.value = { is: 'saved' };
    });
    await settle(await api.understand(state.theirs.text, setUp.value), false);
  });

// The answer.
export type Asking =
  | { is: 'none' }
  | { is: 'working'; job: Job | null }
  | { is: 'done' }
  | { is: 'failed'; error: ApiError }
  | { is: 'stopped' };
export const asking = signal<Asking>({ is: 'none' });
/** The newest answer there is; while another is worked out, it is the old one. */
export const answer = signal<Answer | null>(null);
/** Whether `answer` belongs to the ask as it stands. */
export const fresh = computed(() => asking.value.is === 'done');
/** Counts answers as they arrive, for the voice of the page. */
export const arrivals = signal(0);
export const pinned = signal<{ answer: Answer; text: string; setUp: number } | null>(null);

/** The newest job of a proof, with the answer it belongs to. */
export const proof = signal<{ answer: string; job: Job } | null>(null);
export const proofTrouble = signal<ApiError | null>(null);

let asked = new AbortController();
let askedFor = '';

function stopAsking(): void {
  asked.abort();
  askedFor = '';
  asking.value = { is: 'none' };
}

function dropAnswer(): void {
  stopAsking();
  answer.value = null;
  proof.value = null;
  proofTrouble.value = null;
}

export function stopAnswer(): void {
  asked.abort();
  askedFor = '';
  asking.value = { is: 'stopped' };
}

/**
 * Has something worked out and follows it to its end. Two windows that ask the same share one job: when the other one stops it,
 * it is asked for again.
 */
async function work(begin: () => Promise<Job>, tell: (job: Job) => void, stop: AbortSignal): Promise<Job> {
  for (let again = 0; ; again++) {
    const job = await begin();
    if (stop.aborted) {
      void api.stop(job.id);
      throw new DOMException('stopped', 'AbortError');
    }
    const end = await follow(job, tell, stop);
    if (end.state !== 'stopped' || again === 4) return end;
    await new Promise((go) => setTimeout(go, 400));
  }
}

/** Works out the answer to the ask as it stands, and then its proof. */
export async function ask(again = false): Promise<void> {
  const wanted = `${setUp.value}\n${text.value}`;
  if (wanted === askedFor && !again) return;
  asked.abort();
  asked = new AbortController();
  const { signal: stop } = asked;
  askedFor = wanted;
  asking.value = { is: 'working', job: null };
  try {
    const end = await work(
      () => api.startAnswer(text.value, setUp.value),
      (j) => {
        if (!stop.aborted && j.state !== 'done') asking.value = { is: 'working', job: j };
      },
      stop,
    );
    if (end.state === 'failed') throw new ApiError(0, end.error ?? { code: 'ours', message: '', hint: null });
    if (end.state === 'stopped') {
      askedFor = '';
      asking.value = { is: 'stopped' };
      return;
    }
    const read = await readAnswer(end.id);
    if (stop.aborted) return;
    batch(() => {
      answer.value = read;
      asking.value = { is: 'done' };
      arrivals.value++;
    });
  } catch (error) {
    if (stop.aborted) return;
    askedFor = '';
    asking.value = { is: 'failed', error: asError(error) };
  }
}

/** An answer in the language that the page has when it arrives. */
async function readAnswer(id: string): Promise<Answer> {
  const asked = language.peek();
  const read = await api.answer(id);
  return asked === language.peek() ? read : readAnswer(id);
}

/**
 * Asks again for the words of all that is shown. They are made from data that the server keeps, so nothing is worked out
 * anew; an answer that is not kept any more is.
 */
async function reword(): Promise<void> {
  const [shown, held] = [answer.peek(), pinned.peek()];
  const [read, now, pin] = await Promise.all([
    doc.peek() ? api.understand(text.peek(), setUp.peek()) : null,
    shown ? readAnswer(shown.id).catch(() => null) : null,
    held ? readAnswer(held.answer.id).catch(() => null) : null,
  ]);
  batch(() => {
    if (read && read.text === text.peek()) understood.value = read;
    if (now && answer.peek()?.id === now.id) answer.value = now;
    if (pin && pinned.peek()?.answer.id === pin.id && held) pinned.value = { ...held, answer: pin };
  });
  if (shown && !now && fresh.peek()) void ask(true);
}

let spoken = language.peek();
effect(() => {
  const next = language.value;
  if (next === spoken) return;
  spoken = next;
  void inTurn(reword);
});

/** The widest proof that this screen can show, in steps so that a small change of the window asks for nothing new. */
function proofWidth(): number {
  const most = Math.min(window.innerWidth, 640) * Math.min(window.devicePixelRatio || 1, 2);
  return most <= 480 ? 384 : most <= 800 ? 512 : 768;
}

/** Has the proof of an answer made, unless it is being made. Only the part of the page that shows it asks for it: it takes the whole machine. */
export async function prove(id: string): Promise<void> {
  const now = proof.value;
  if (now?.answer === id && now.job.state !== 'stopped' && now.job.state !== 'failed') return;
  const { signal: stop } = asked;
  proofTrouble.value = null;
  try {
    const end = await work(
      () => api.startProof(id, proofWidth()),
      (j) => {
        if (!stop.aborted) proof.value = { answer: id, job: j };
      },
      stop,
    );
    if (end.state === 'failed' && !stop.aborted)
      proofTrouble.value = new ApiError(0, end.error ?? { code: 'ours', message: '', hint: null });
  } catch (error) {
    if (!stop.aborted) proofTrouble.value = asError(error);
  }
}

/** A file for the photographer's own disk. */
export function download(what: Blob, as: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(what);
  link.download = as;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
