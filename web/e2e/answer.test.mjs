// The conversation: ask, answer, reasons, what is short, two answers compared, undo, two languages.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { address, answered, oneBrowser, openCopy, proved, saved, shot } from './browser.mjs';

const { made, pageOf } = oneBrowser();

const fill = (page, label) => page.locator(`.fill-in[aria-label^="${label}"]`);

test('the first start opens a finished demo, and tells every term', async () => {
  const { page, context, faults, strangers } = await pageOf();
  await page.goto(address);
  await answered(page);
  const sentence = await page.locator('.sentence').first().innerText();
  assert.match(sentence, /^Light .+ in .+, .+ from .+, .+, ratio .+, the room .+, skin .+, at .+, with .+ in hand\./s);
  const lines = await page.locator('.now .lines dd').allInnerTexts();
  assert.equal(lines.length, 3);
  assert.match(lines[0], /f\/[\d.]+ · (1\/\d+|[\d.]+ s) · ISO \d+/);
  assert.match(lines[1], /zoom \d+/);
  assert.ok(lines[2].length > 10);
  assert.equal(await page.locator('.now .drawing svg').count(), 2);
  assert.match(await page.locator('[data-voice]').innerText(), /The answer is there/);
  // Each term of the sentence has its line, on hover and on focus.
  const terms = page.locator('.sentence .term');
  assert.ok((await terms.count()) >= 3);
  for (let i = 0; i < (await terms.count()); i++) {
    await terms.nth(i).focus();
    assert.ok((await page.locator('.term-shown').innerText()).length > 20);
  }
  await page.locator('.sentence .term').first().hover();
  assert.ok(await page.locator('.term-shown').isVisible());
  await page.keyboard.press('Escape');
  assert.deepEqual(faults, []);
  assert.deepEqual(strangers, []);
  await context.close();
});

test('a fill-in is chosen by keyboard alone, re-answers, and can be undone', async () => {
  const { page, context, faults } = await pageOf();
  made.push(await openCopy(page, 'test: ask by keyboard'));
  await answered(page);
  const aperture = fill(page, 'aperture');
  const first = await page.locator('.now').getAttribute('data-answer');
  await aperture.focus();
  await page.keyboard.press('Enter');
  await page.waitForSelector('.choices');
  await page.keyboard.press('Escape');
  assert.equal(await page.locator('.choices').count(), 0);
  assert.equal(await page.evaluate(() => document.activeElement?.classList.contains('fill-in')), true);
  await page.keyboard.press('Enter');
  await page.locator('.choices [aria-pressed=true]').waitFor();
  const chosen = await page.locator('.choices [aria-pressed=true]').innerText();
  assert.match(chosen, /f\/4/);
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.querySelector('.fill-in[aria-label^="aperture"]')?.textContent === 'f/5.6');
  await answered(page);
  assert.notEqual(await page.locator('.now').getAttribute('data-answer'), first);
  assert.match(await page.locator('.now .lines dd').first().innerText(), /^f\/5\.6/);
  await saved(page);
  await page.locator('main').focus();
  await page.keyboard.press('Control+z');
  await page.waitForFunction(() => document.querySelector('.fill-in[aria-label^="aperture"]')?.textContent === 'f/4');
  await page.keyboard.press('Control+Shift+z');
  await page.waitForFunction(() => document.querySelector('.fill-in[aria-label^="aperture"]')?.textContent === 'f/5.6');
  // In one's own words, in the notation of the file.
  await aperture.click();
  await page.fill('.choices input', 'f/4');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.querySelector('.fill-in[aria-label^="aperture"]')?.textContent === 'f/4');
  await answered(page);
  assert.equal(await page.locator('.now').getAttribute('data-answer'), first);
  // Another wish, and back.
  await fill(page, 'Another wish').click();
  await page.getByRole('button', { name: 'gel', exact: true }).click();
  await page.locator('.choices .choice', { hasText: 'none' }).click();
  await page.waitForFunction(() => document.querySelector('.also')?.textContent?.includes('none'));
  await fill(page, 'gel').click();
  await page.getByRole('button', { name: 'Drop this wish' }).click();
  await page.waitForFunction(() => !document.querySelector('.also')?.textContent?.includes('none'));
  assert.deepEqual(faults, []);
  await context.close();
});

test('the reasons open one by one', async () => {
  const { page, context, faults } = await pageOf();
  made.push(await openCopy(page, 'test: reasons'));
  await answered(page);
  for (const name of [
    'asked',
    'map',
    'surfaces',
    'alternatives',
    'colour',
    'energy',
    'unsure',
    'sensitive',
    'referee',
    'notes',
    'whole',
  ]) {
    const part = page.locator(`[data-fold=${name}]`);
    if ((await part.getAttribute('open')) === null) await part.locator('summary').click();
    await part.locator('.fold-in').waitFor();
    assert.ok((await part.locator('.fold-in').innerText()).length > 10, name);
  }
  await page.locator('[data-fold=map] svg').waitFor();
  assert.ok((await page.locator('[data-fold=map] .cell').count()) > 50);
  const tip = page.locator('[data-fold=map] .cell').first();
  assert.equal(await tip.locator('.tip').evaluate((n) => getComputedStyle(n).visibility), 'hidden');
  await tip.dispatchEvent('pointerover');
  const rows = await page.locator('[data-fold=chart] tr').count();
  assert.ok(rows >= 4);
  await shot(page, 'reasons', true);
  assert.deepEqual(faults, []);
  await context.close();
});

test('two answers stand side by side with their differences in words', async () => {
  const { page, context, faults } = await pageOf();
  made.push(await openCopy(page, 'test: compare'));
  await answered(page);
  await page.getByRole('button', { name: 'Pin this answer' }).click();
  await fill(page, 'aperture').click();
  await page.locator('.choice', { hasText: 'f/5.6' }).click();
  await page.waitForFunction(() => document.querySelectorAll('.pair .lines').length === 2);
  await answered(page);
  const words = await page.locator('.differences').innerText();
  assert.match(words, /Aperture: f\/4, now f\/5\.6/);
  await page.locator('.compare').scrollIntoViewIfNeeded();
  await shot(page, 'compare');
  await page.getByRole('button', { name: 'Back to the pinned ask' }).click();
  await page.waitForFunction(() => document.querySelector('.fill-in[aria-label^="aperture"]')?.textContent === 'f/4');
  await page.getByRole('button', { name: 'Let go of the pin' }).click();
  assert.deepEqual(faults, []);
  await context.close();
});

test('an ask that cannot be met says what is short, and a change can be taken', async () => {
  const { page, context, faults } = await pageOf();
  // Far too little light: a stop in hand at f/11 and ISO 100 from a small flash.
  made.push(
    await openCopy(page, 'test: short', (text) =>
      text
        .replaceAll(/aperture = "f\/[\d.]+"/g, 'aperture = "f/16"\niso = "ISO 100"')
        .replace('kind = "medium"', 'kind = "small"'),
    ),
  );
  await answered(page);
  await page.locator('[data-short]').waitFor();
  assert.match(await page.locator('[data-short]').innerText(), /what is missed/i);
  await shot(page, 'short', true);
  const take = page.getByRole('button', { name: 'Take this change' }).first();
  if (await take.count()) {
    const before = await page.locator('.now').getAttribute('data-answer');
    await take.click();
    await page.waitForFunction(
      (was) => document.querySelector('.now[data-fresh=true]')?.getAttribute('data-answer') !== was,
      before,
    );
  } else assert.fail('no change can be taken');
  assert.deepEqual(faults, []);
  await context.close();
});

/** The words of the answer and of its reasons, all of them opened. */
async function wordsOfAnswer(page) {
  const folds = page.locator('.reasons summary, .below summary');
  for (let i = 0; i < (await folds.count()); i++)
    if (!(await folds.nth(i).evaluate((s) => s.closest('details').open))) await folds.nth(i).click();
  return (await page.locator('.answer, .below').allInnerTexts()).join('\n');
}
/** Words that every English answer has, and that no name in the demo has. */
const ENGLISH = /\b(?:stops?|about|above|turned|walls?|which|flash|either)\b/i;

test('set-ups are walked through, and German is remembered', async () => {
  const { page, context, faults } = await pageOf();
  made.push(await openCopy(page, 'test: German'));
  await answered(page);
  assert.match(await wordsOfAnswer(page), ENGLISH);
  await page.getByRole('button', { name: 'Deutsch' }).click();
  assert.match(await page.locator('.sentence').first().innerText(), /^Beleuchte .+Reserve/s);
  assert.equal(await page.evaluate(() => document.documentElement.lang), 'de');
  // The words of the answer are asked for again; the answer stays the same, and so does the notation of the trade.
  const answer = await page.locator('.now').getAttribute('data-answer');
  await page.locator('.now[lang=de]').waitFor();
  assert.equal(await page.locator('.now').getAttribute('data-answer'), answer);
  const third = page.locator('.now .lines .where dd');
  assert.match(await third.innerText(), /Blitzkopf/);
  assert.doesNotMatch(await third.innerText(), /\b(?:head|turned|tilt|held|bounce)\b/);
  assert.match(await page.locator('.now .lines dd').first().innerText(), /^f\/[\d.]+ · /);
  await page.reload();
  await page.locator('.sentence').first().waitFor();
  assert.match(await page.locator('.sentence').first().innerText(), /^Beleuchte/);
  await answered(page);
  assert.doesNotMatch(await wordsOfAnswer(page), ENGLISH);
  const setUps = page.locator('.set-ups li button');
  if ((await setUps.count()) > 1) {
    await setUps.nth(1).click();
    await page.waitForFunction(
      () => document.querySelector('.set-ups li:nth-child(2) button')?.getAttribute('aria-current') === 'step',
    );
  }
  await proved(page).catch(() => undefined);
  await shot(page, 'german');
  assert.deepEqual(faults, []);
  await context.close();
});
