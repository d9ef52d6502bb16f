import { en, type Strings } from './en.ts';
export const de: Strings = en;
