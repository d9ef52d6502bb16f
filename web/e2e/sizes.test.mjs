// Every part of the page at three sizes: nothing wrong by axe (contrast of 7:1 among it), nothing cut off, nothing fetched
// from anywhere else.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { address, answered, faultsByAxe, oneBrowser, proved, shot } from './browser.mjs';

const { pageOf } = oneBrowser();

for (const size of ['phone', 'tablet', 'desktop']) {
  test(`at the size of a ${size}`, async () => {
    const { page, context, faults, strangers } = await pageOf(size);
    await page.goto(address);
    await answered(page);
    await proved(page);
    for (const view of ['', 'place', 'bag', 'file', 'card', 'shoots', 'lines', 'phone']) {
      await page.goto(`${address}/#/${view}`);
      await page.waitForTimeout(250);
      if (view === 'place')
        await page.evaluate(() =>
          document.querySelectorAll('.item').forEach((d) => {
            d.open = true;
          }),
        );
      if (view === '')
        await page.evaluate(() =>
          document.querySelectorAll('.fold').forEach((d) => {
            d.open = true;
          }),
        );
      if (view === '') await page.locator('[data-fold=map] svg').waitFor();
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(wide <= 0, `${view || 'answer'} is ${wide} px too wide`);
      assert.deepEqual(await faultsByAxe(page), [], `${view || 'answer'} at ${size}`);
      await shot(page, `${size}-${view || 'answer'}`, true);
    }
    await page.goto(`${address}/#/`);
    await page.locator('.fill-in').nth(2).click();
    await page.locator('.choices').waitFor();
    const box = await page.locator('.choices').boundingBox();
    assert.ok(box.x >= 0 && box.x + box.width <= page.viewportSize().width, 'the choice is on the screen');
    assert.deepEqual(await faultsByAxe(page), [], `a choice at ${size}`);
    await shot(page, `${size}-choice`);
    assert.deepEqual(faults, []);
    assert.deepEqual(strangers, []);
    await context.close();
  });
}

test('with the keyboard alone every control is reached, and the focus is seen', async () => {
  const { page, context } = await pageOf();
  await page.goto(address);
  await answered(page);
  await proved(page);
  const seen = new Set();
  for (let i = 0; i < 60; i++) {
    await page.keyboard.press('Tab');
    const at = await page.evaluate(() => {
      const e = document.activeElement;
      const style = getComputedStyle(e);
      return {
        name: e.getAttribute('aria-label') ?? e.textContent?.trim().slice(0, 30),
        seen: style.outlineStyle !== 'none' || style.boxShadow !== 'none',
      };
    });
    assert.ok(at.seen, `focus is not seen on "${at.name}"`);
    seen.add(at.name);
  }
  for (const wanted of ['Skip to the page', 'DE Deutsch']) assert.ok(seen.has(wanted), `${wanted} is reached`);
  assert.ok(
    [...seen].some((name) => /^pattern of the key/.test(name ?? '')),
    'the fill-ins are reached',
  );
  await context.close();
});
