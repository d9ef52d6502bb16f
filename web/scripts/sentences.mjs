// Gathers the sentences of answers for the test of the phrasebook: every kind once, and no more of an answer than that.
//
//   rushlight answer --json shoot.toml > answer.json
//   node scripts/sentences.mjs answer.json ... > tests/sentences.json
import { readFileSync } from 'node:fs';

/** Which sentences stand where in a report, by the book that translates them. */
const GATHER = {
  about: (r) => [r.lines.about],
  chart: (r) => r.chart.map((one) => one.label),
  asked: (r) => r.limits.map((one) => one.asked),
  why: (r) => r.surfaces.map((one) => one.why),
  prefer: (r) => r.alternatives.map((one) => one.prefer),
  notes: (r) => r.notes,
  cautions: (r) => r.cautions,
  mixed: (r) => r.colour.told,
  short: (r) => (r.shortfall ? [r.shortfall.words] : []),
  what: (r) => (r.shortfall ? [...r.shortfall.changes.map((one) => one.what), ...r.shortfall.tried] : []),
  cost: (r) => (r.shortfall?.changes ?? []).map((one) => one.cost),
  then: (r) => (r.shortfall?.changes ?? []).map((one) => one.then),
  sensitive: (r) => r.sensitivities.map((one) => one.what),
  input: (r) => r.uncertainty.parts.map((one) => one.input),
  spread: (r) => r.uncertainty.parts.map((one) => one.spread),
  zone: (r) => r.colour.zones.map((one) => one.name),
  control: (r) => [
    ...r.balance.controls.map((one) => `${one.name}, ${one.step}`),
    ...r.balance.reach.map((one) => one.name),
  ],
  later: (r) => r.balance.later.flatMap((one) => [one.then.words, ...(one.instead ? [one.instead.words] : [])]),
};

const reports = process.argv.slice(2).map((file) => JSON.parse(readFileSync(file, 'utf8')));
const kindOf = (sentence) => sentence.replace(/[+−-]?\d+(\.\d+)?/g, '#');
const all = Object.entries(GATHER).map(([part, of]) => {
  const kinds = new Map();
  for (const sentence of reports.flatMap(of)) if (!kinds.has(kindOf(sentence))) kinds.set(kindOf(sentence), sentence);
  return [part, [...kinds.values()]];
});
process.stdout.write(`${JSON.stringify(Object.fromEntries(all), null, 2)}\n`);
