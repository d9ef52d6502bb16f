// The shoot file as text, with what cannot be read told by its line.
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { fileName } from './notation.ts';
import { download, name, replaceText, text, understood } from './shoot.ts';
import { words } from './strings/index.ts';

export function ShootFile() {
  const S = words.value;
  const now = understood.value;
  const typed = useSignal(text.value);
  const area = useRef<HTMLTextAreaElement>(null);
  const gutter = useRef<HTMLDivElement>(null);
  const pause = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  // A change from elsewhere (undo, a plan moved in another window of the page) shows unless typing goes on.
  useEffect(() => {
    if (!pause.current) typed.value = text.value;
  }, [text.value]);
  const send = () => {
    clearTimeout(pause.current);
    pause.current = undefined;
    if (typed.value !== text.value) void replaceText(typed.value);
  };
  useEffect(() => send, []);
  const lines = typed.value.split('\n');
  const bad = new Set(now?.problems.map((p) => p.line));
  const goTo = (line: number) => {
    const box = area.current;
    if (!box) return;
    const from = lines.slice(0, line - 1).reduce((n, l) => n + l.length + 1, 0);
    box.focus();
    box.setSelectionRange(from, from + (lines[line - 1]?.length ?? 0));
    box.scrollTop = (line - 4) * (box.scrollHeight / Math.max(lines.length, 1));
  };
  return (
    <div class="two file-page">
      <section class="sheet" aria-labelledby="file-title">
        <h2 id="file-title">{S.file.title}</h2>
        <p class="soft">{S.file.lead}</p>
        <div class="text-box">
          <div class="gutter" ref={gutter} aria-hidden="true">
            {lines.map((_, i) => (
              <span class={bad.has(i + 1) ? 'bad' : ''}>
                {bad.has(i + 1) ? '▲' : ''}
                {i + 1}
              </span>
            ))}
          </div>
          <textarea
            ref={area}
            aria-label={S.file.label}
            lang="en"
            spellcheck={false}
            autocapitalize="off"
            wrap="off"
            value={typed.value}
            aria-invalid={now ? !now.ok : undefined}
            onInput={(e) => {
              typed.value = e.currentTarget.value;
              clearTimeout(pause.current);
              pause.current = setTimeout(send, 500);
            }}
            onBlur={send}
            onScroll={(e) => {
              if (gutter.current) gutter.current.scrollTop = e.currentTarget.scrollTop;
            }}
          />
        </div>
        <p class="buttons">
          <button
            type="button"
            class="quiet"
            onClick={() =>
              download(new Blob([text.value], { type: 'application/toml' }), `${fileName(name.value)}.toml`)
            }
          >
            {S.file.download}
          </button>
        </p>
      </section>
      <section class="sheet" aria-live="polite">
        {now ? (
          <>
            <h2>{now.ok ? `✓ ${S.file.fine}` : `▲ ${S.file.problems(now.problems.length)}`}</h2>
            <ul class="problems">
              {now.problems.map((p) => (
                <li>
                  {p.line === null ? null : (
                    <button type="button" class="quiet" onClick={() => goTo(p.line as number)}>
                      {S.file.line(p.line)}
                    </button>
                  )}
                  <p>
                    <strong>{p.message}</strong>
                  </p>
                  {p.why ? (
                    <p>
                      <span class="soft">{S.file.why}:</span> {p.why}
                    </p>
                  ) : null}
                  {p.remedy ? (
                    <p>
                      <span class="soft">{S.file.remedy}:</span> {p.remedy}
                    </p>
                  ) : null}
                </li>
              ))}
            </ul>
            {now.warnings.length ? (
              <>
                <h3>{S.file.assumed}</h3>
                <ul class="notes">
                  {now.warnings.map((w) => (
                    <li>{w}</li>
                  ))}
                </ul>
              </>
            ) : null}
            {now.summary.length ? (
              <>
                <h3>{S.file.understood}</h3>
                <ul class="notes">
                  {now.summary.map((w) => (
                    <li>{w}</li>
                  ))}
                </ul>
              </>
            ) : null}
          </>
        ) : null}
      </section>
    </div>
  );
}
