// What every browser test needs: a browser, a page at one of three sizes, the check of axe, and pictures to look at.
import { mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { after, before } from 'node:test';
import { chromium } from 'playwright-core';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Address of the server that is tested. */
export const address = (process.env.RUSHLIGHT_URL ?? 'http://127.0.0.1:4777').replace(/\/$/, '');

export const SIZES = {
  phone: { width: 360, height: 740 },
  tablet: { width: 820, height: 1180 },
  desktop: { width: 1440, height: 900 },
};

const launch = () =>
  chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--use-gl=angle',
      '--use-angle=swiftshader',
      '--enable-unsafe-swiftshader',
    ],
  });

/**
 * One browser for all tests of a file. `made` holds the shoots that they make, which go when the file is done, with
 * whatever `also` finds.
 */
export function oneBrowser(also = async () => []) {
  const one = { made: [], pageOf: (size, options) => pageOf(one.browser, size, options) };
  before(async () => {
    one.browser = await launch();
  });
  after(async () => {
    const { page, context } = await one.pageOf();
    await page.goto(address);
    await tidy(page, [...one.made, ...(await also(page))]);
    await context.close();
    await one.browser.close();
  });
  return one;
}

/** A fresh page of one size. It notes every error of the console and every request that leaves the server. */
async function pageOf(browser, size = 'desktop', options = {}) {
  const context = await browser.newContext({
    viewport: SIZES[size],
    locale: 'en-GB',
    reducedMotion: 'reduce',
    bypassCSP: false,
    ...options,
  });
  const page = await context.newPage();
  // How long a busy machine takes decides nothing.
  page.setDefaultTimeout(60_000);
  const faults = [];
  const strangers = [];
  page.on('console', (m) => {
    if (m.type() === 'error') faults.push(m.text());
  });
  page.on('pageerror', (e) => faults.push(String(e)));
  page.on('request', (r) => {
    const to = new URL(r.url());
    if (!['blob:', 'data:', 'about:'].includes(to.protocol) && to.origin !== address) strangers.push(r.url());
  });
  return { context, page, faults, strangers };
}

/** Waits until the answer to the present ask is there. */
export const answered = (page) => page.waitForSelector('.now[data-fresh=true]', { timeout: 120_000 });

/** Waits for the first picture of the proof. */
export const proved = (page) =>
  page.waitForFunction(() => Number(document.querySelector('.frame')?.getAttribute('data-picture')) > 0, null, {
    timeout: 120_000,
  });

/** What axe finds wrong, as lines to read. */
export async function faultsByAxe(page) {
  // Through the debugger, so that the page's own content security policy stays as it is.
  const session = await page.context().newCDPSession(page);
  await session.send('Runtime.evaluate', { expression: axe });
  const { result } = await session.send('Runtime.evaluate', {
    expression: `axe.run(document, { resultTypes: ['violations'], rules: { 'color-contrast-enhanced': { enabled: true } },
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] , iframes: false })
      .then((r) => JSON.stringify(r.violations.map((v) => v.id + ': ' + v.help + ' — ' +
        v.nodes.slice(0, 4).map((n) => n.html.slice(0, 160) + ' ' + (n.any[0]?.message ?? n.all[0]?.message ?? '')).join(' | '))))`,
    awaitPromise: true,
    returnByValue: true,
  });
  await session.detach();
  return JSON.parse(result.value);
}

/** A picture of the page, if a folder for pictures is named. */
export async function shot(page, name, whole = false) {
  const folder = process.env.RUSHLIGHT_SHOTS;
  if (!folder) return;
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`), fullPage: whole });
}

/**
 * Opens the page on a shoot of its own: a copy of the demo with a name that no other test uses, so that tests do not meet.
 * `change` may alter its text first.
 */
export async function openCopy(page, name, change = (text) => text) {
  await firstOpened(page);
  const shoots = (await asked(page, 'GET', '/api/shoots')).body;
  const demo = shoots.find((s) => /^brass band, winter concert/i.test(s.name)) ?? shoots[0];
  const { text } = (await asked(page, 'GET', `/api/shoots/${demo.id}`)).body;
  const made = (await asked(page, 'POST', '/api/shoots', { name, text: change(text) })).body;
  await openOn(page, made.id, name);
  return made.id;
}

/**
 * Goes to the page and waits until its first shoot is open: the page remembers that one as it opens it, and must not do so
 * after a test has named another.
 */
export async function firstOpened(page) {
  await page.goto(`${address}/`);
  await page.waitForFunction(() => document.querySelector('.shoot-name input')?.value);
}

/** Opens a shoot on a page that has opened another. */
export async function openOn(page, id, name) {
  await page.evaluate((last) => localStorage.setItem('rushlight.last-shoot', last), id);
  await page.goto('about:blank');
  await page.goto(`${address}/`);
  await page.waitForFunction((wanted) => document.querySelector('.shoot-name input')?.value === wanted, name);
}

/** Asks the server from within the page. */
export const asked = (page, method, path, body) =>
  page.evaluate(
    async ([method, path, body]) => {
      const answer = await fetch(path, {
        method,
        ...(method === 'GET'
          ? {}
          : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body ?? {}) }),
      });
      const text = await answer.text();
      return { status: answer.status, body: text ? JSON.parse(text) : null };
    },
    [method, path, body],
  );

/** Waits until everything is saved. */
export const saved = (page) => page.waitForSelector('[data-saving=saved]');

/** Removes the shoots that tests have made. */
async function tidy(page, ids) {
  for (const id of ids) {
    const now = await asked(page, 'GET', `/api/shoots/${id}`);
    if (now.status === 200)
      await page.evaluate(
        (path) => fetch(path, { method: 'DELETE', headers: { 'content-type': 'application/json' } }),
        `/api/shoots/${id}?based_on=${now.body.version}`,
      );
  }
}
