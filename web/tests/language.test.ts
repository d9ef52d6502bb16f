import { readFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Answer, Job } from '../src/api-types.ts';
import { api, follow, spoken } from '../src/server.ts';
import { answer, pinned } from '../src/shoot.ts';
import { language } from '../src/strings/index.ts';

const report = JSON.parse(readFileSync(new URL('./answer.json', import.meta.url), 'utf8')) as Answer['report'];
const told = (id: string, in_: 'en' | 'de') =>
  ({
    id,
    feet: false,
    geometry: { sitters: [] },
    report: { ...report, told: { ...report.told, language: in_ } },
  }) as unknown as Answer;

/** What was asked for, and how each answer is given. */
const asked: string[] = [];
beforeEach(() => {
  language.value = 'en';
  asked.length = 0;
  vi.stubGlobal('fetch', async (path: string) => {
    asked.push(path);
    const url = new URL(path, 'http://here');
    const id = url.pathname.split('/').at(-1) ?? '';
    return new Response(JSON.stringify(told(id, url.searchParams.get('lang') as 'en' | 'de')));
  });
});
afterEach(() => {
  vi.unstubAllGlobals();
  answer.value = null;
  pinned.value = null;
  language.value = 'en';
});

describe('the language of the page', () => {
  it('goes along with every request', async () => {
    expect(spoken('/api/answers/a')).toBe('/api/answers/a?lang=en');
    language.value = 'de';
    expect(spoken('/api/proofs/a/layers?picture=2')).toBe('/api/proofs/a/layers?picture=2&lang=de');
    await api.map('a');
    expect(asked).toEqual(['/api/answers/a/map?lang=de']);
  });

  it('has the words of the answers on the page asked for again', async () => {
    answer.value = told('a', 'en');
    pinned.value = { answer: told('b', 'en'), text: 'the pinned text', setUp: 1 };
    language.value = 'de';
    await vi.waitFor(() => expect(pinned.value?.answer.report.told.language).toBe('de'));
    expect(answer.value?.report.told.language).toBe('de');
    expect(answer.value?.id).toBe('a');
    expect(pinned.value).toMatchObject({ answer: { id: 'b' }, text: 'the pinned text', setUp: 1 });
    expect(asked.sort()).toEqual(['/api/answers/a?lang=de', '/api/answers/b?lang=de']);
  });

  it('leaves an answer alone that has come in between', async () => {
    answer.value = told('a', 'en');
    language.value = 'de';
    answer.value = told('c', 'de');
    await vi.waitFor(() => expect(asked).toHaveLength(1));
    await new Promise((go) => setTimeout(go));
    expect(answer.value?.id).toBe('c');
  });

  it('is that of the stages of work, also when it changes under way', async () => {
    const streams: { url: string; closed: boolean; onmessage?: (e: { data: string }) => void }[] = [];
    vi.stubGlobal(
      'EventSource',
      class {
        closed = false;
        onmessage?: (e: { data: string }) => void;
        url: string;
        constructor(url: string) {
          this.url = url;
          streams.push(this);
        }
        close() {
          this.closed = true;
        }
      },
    );
    const job = (state: Job['state']) =>
      ({ id: 'j', kind: 'answer', state, ahead: 0, stage: null, fraction: null, picture: null, error: null }) as Job;
    const end = follow(job('working'), () => {}, new AbortController().signal);
    language.value = 'de';
    expect(streams.map((s) => [s.url, s.closed])).toEqual([
      ['/api/jobs/j/events?lang=en', true],
      ['/api/jobs/j/events?lang=de', false],
    ]);
    streams[1]?.onmessage?.({ data: JSON.stringify(job('done')) });
    expect((await end).state).toBe('done');
    expect(streams[1]?.closed).toBe(true);
    language.value = 'en';
    expect(streams).toHaveLength(2);
  });
});
