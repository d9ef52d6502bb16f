// The card, the three large lines on a phone, and opening the page to a phone.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { address, answered, asked, oneBrowser, shot } from './browser.mjs';

const { pageOf } = oneBrowser();

test('three lines fill a phone without scrolling, with figures at least 9 mm high', async () => {
  const { page, context, faults } = await pageOf('phone', { hasTouch: true, isMobile: true });
  await page.goto(`${address}/#/lines`);
  await page.locator('.large-line').first().waitFor({ timeout: 120_000 });
  await page.waitForTimeout(300);
  assert.equal(await page.locator('.large-line').count(), 3);
  const fit = await page.evaluate(() => {
    const box = document.querySelector('.large-box');
    const millimetre = 96 / 25.4;
    const context = document.createElement('canvas').getContext('2d');
    const figures = [...document.querySelectorAll('.large-line b')].map((b) => {
      const style = getComputedStyle(b);
      context.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
      const m = context.measureText('4');
      return (m.actualBoundingBoxAscent + m.actualBoundingBoxDescent) / millimetre;
    });
    return {
      over: box.scrollHeight - box.clientHeight,
      wide: document.documentElement.scrollWidth - innerWidth,
      beyond: [...document.querySelectorAll('.large-part')].filter((p) => p.getBoundingClientRect().right > innerWidth)
        .length,
      figures,
    };
  });
  assert.ok(fit.over <= 1, `${fit.over} px of lines are below the edge`);
  assert.ok(fit.wide <= 0 && fit.beyond === 0, 'nothing is cut on the right');
  assert.ok(fit.figures.length >= 6);
  assert.ok(Math.min(...fit.figures) >= 9, `figures are ${Math.min(...fit.figures).toFixed(2)} mm high`);
  for (const button of await page.locator('.large-nav button').all()) {
    const box = await button.boundingBox();
    assert.ok(box.height >= 56 && box.width >= 90, 'buttons are large enough for a cold thumb');
  }
  await shot(page, 'phone-lines');

  const before = await page.locator('.large-line.camera').innerText();
  await page.getByRole('button', { name: 'The light has changed' }).click();
  for (let i = 0; i < 3; i++) await page.getByRole('button', { name: 'A third darker' }).click();
  assert.equal(await page.locator('.light-word').innerText(), '1 stop darker');
  await shot(page, 'phone-light');
  await page.getByRole('button', { name: 'Show the new lines' }).click();
  await page.locator('[data-changed]').waitFor();
  assert.notEqual(await page.locator('.large-line.camera').innerText(), before);
  await shot(page, 'phone-changed');
  assert.deepEqual(faults, []);
  await context.close();
});

test('the card opens by itself and as PDF', async () => {
  const { page, context, faults } = await pageOf();
  await page.goto(address);
  await answered(page);
  await page.goto(`${address}/#/card`);
  const frame = page.frameLocator('.card-frame');
  await frame.locator('body').waitFor();
  assert.ok((await frame.locator('body').innerText()).length > 3);
  await shot(page, 'card');
  if (!process.env.RUSHLIGHT_MOCK) {
    const href = await page.getByText('As PDF').getAttribute('href');
    const kind = await page.evaluate(async (to) => (await fetch(to)).headers.get('content-type'), href);
    assert.equal(kind, 'application/pdf');
  }
  assert.deepEqual(faults, []);
  await context.close();
});

test('the page opens to a phone by a code, and shuts again', async () => {
  const { page, context } = await pageOf();
  await page.goto(`${address}/#/card`);
  await page.getByRole('button', { name: 'Open it to the phone' }).click();
  await page.locator('.qr svg').waitFor();
  const url = await page.locator('.pairing code').innerText();
  assert.match(url, /#pair=[\w-]{6,}/);
  await shot(page, 'phone-open');
  assert.equal((await asked(page, 'GET', '/api/about')).body.phone.open, true);
  await page.getByRole('button', { name: 'Shut it' }).click();
  await page.getByText('It is shut').waitFor();
  assert.equal((await asked(page, 'GET', '/api/about')).body.phone.open, false);
  await context.close();
});

test('a phone pairs by the secret in its address, which then leaves the address', async () => {
  const { page, context } = await pageOf('phone', { hasTouch: true, isMobile: true });
  // The phone's side, with the server's answers played: from this machine every page is "here".
  let paired = null;
  await page.route('**/api/pair*', async (route) => {
    paired = route.request().postDataJSON();
    await route.fulfill({ status: 204 });
  });
  await page.route('**/api/about*', async (route) => {
    const real = await (await route.fetch()).json();
    await route.fulfill({ json: { ...real, you: 'phone' } });
  });
  await page.goto(`${address}/#pair=secret-123`);
  await page.locator('.touch-list').first().waitFor();
  assert.deepEqual(paired, { secret: 'secret-123' });
  assert.equal(new URL(page.url()).hash, '#/phone');
  await shot(page, 'phone-home');
  await page.locator('.touch-list button').first().click();
  await page.locator('.large-page').waitFor();
  await context.close();

  const other = await pageOf('phone');
  await other.page.route('**/api/about*', (route) =>
    route.fulfill({ status: 403, json: { error: { code: 'not_paired', message: 'Not paired.', hint: null } } }),
  );
  await other.page.goto(address);
  await other.page.getByText('This phone is not paired yet.').waitFor();
  await other.context.close();
});
