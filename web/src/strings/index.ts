// The language of the page: what is remembered, else what the browser prefers.
import { computed, signal } from '@preact/signals';
import { de } from './de.ts';
import { en, type Strings } from './en.ts';

export type { Strings };
export const languages = { en: en as Strings, de };
export type Language = keyof typeof languages;

const REMEMBERED = 'rushlight.language';

function first(): Language {
  try {
    const kept = localStorage.getItem(REMEMBERED);
    if (kept === 'en' || kept === 'de') return kept;
  } catch {
    // A browser that keeps nothing still gets a language.
  }
  return typeof navigator !== 'undefined' && navigator.language?.startsWith('de') ? 'de' : 'en';
}

export const language = signal<Language>(first());

/** The words of the present language. Reading it in a component makes the component follow the language. */
export const words = computed<Strings>(() => languages[language.value]);

export function speak(next: Language): void {
  language.value = next;
  document.documentElement.lang = next;
  try {
    localStorage.setItem(REMEMBERED, next);
  } catch {
    // Then it is asked again next time.
  }
}
