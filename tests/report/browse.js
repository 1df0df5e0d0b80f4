// Opens a page in Chromium as people would and prints what it finds as JSON; the judging is done in
// test_browser.py. usage: node browse.js FILE.html, NODE_MODULES in the environment.
'use strict';

const {createRequire} = require('module');
const {pathToFileURL} = require('url');
const {chromium} = createRequire(process.env.NODE_MODULES + '/')('playwright-core');

const ARGUMENTS = ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
  '--disable-background-networking', '--disable-component-update', '--disable-sync'];
// Paper between margins of 12 mm, in CSS pixels of 1/96 in.
const PAPER = {A4: {width: 186, height: 273}, Letter: {width: 191.9, height: 255.4}};
const pixels = (mm) => Math.floor(mm / 25.4 * 96);

// Runs inside the page: contrast of every text, after WCAG 2.1's relative luminance.
function contrasts() {
  const channel = (c) => (c /= 255) <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  const luminance = ([r, g, b]) => 0.2126 * channel(r) + 0.7152 * channel(g) + 0.0722 * channel(b);
  const numbers = (colour) => (colour.match(/[\d.]+/g) || []).map(Number);
  const found = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const element = node.parentElement;
    if (!node.textContent.trim() || element.closest('script,title,desc')) continue;
    const style = getComputedStyle(element);
    const drawn = element.closest('svg');
    const front = numbers(drawn ? style.fill : style.color);
    let back = null;
    for (let at = element; at && !drawn && !back; at = at.parentElement) {
      const colour = numbers(getComputedStyle(at).backgroundColor);
      if (colour.length === 3 || colour[3] > 0) back = colour;
    }
    back = back || [255, 255, 255];  // lettering of drawings has a white rim
    const [low, high] = [luminance(front), luminance(back)].sort((a, b) => a - b);
    found.push({text: node.textContent.trim().slice(0, 40), ratio: (high + 0.05) / (low + 0.05),
      opaque: front.length === 3 || front[3] === 1});
  }
  return found;
}

// Runs inside the page: what does not fit into the width there is.
function overflows() {
  const wide = [];
  const root = document.documentElement;
  for (const element of [root, ...document.querySelectorAll('main *:not(svg *)')]) {
    const box = element.getBoundingClientRect();
    // A rounding of one pixel is no overflow; inline elements have no client width of their own.
    const spills = element.clientWidth > 0 && element.scrollWidth > element.clientWidth + 1;
    if (spills || box.right > root.clientWidth + 1 || box.left < -1) {
      wide.push([element.tagName, element.className, element.textContent.slice(0, 40), box.right,
        element.scrollWidth, element.clientWidth]);
    }
  }
  return wide;
}

// Runs inside the page: boxes of the lettering of each drawing that is shown, in mm on paper.
function lettering() {
  const shown = [...document.querySelectorAll('svg')].filter((svg) => svg.getBoundingClientRect().width > 0);
  return shown.map((svg) => {
    const paper = svg.getBoundingClientRect();
    const scale = svg.viewBox.baseVal.width / paper.width;
    return {
      is_bar: svg.classList.contains('bar'), width: svg.viewBox.baseVal.width, height: svg.viewBox.baseVal.height,
      boxes: [...svg.querySelectorAll('text')].map((text) => {
        const box = text.getBoundingClientRect();
        return [text.textContent, (box.left - paper.left) * scale, (box.top - paper.top) * scale,
          (box.right - paper.left) * scale, (box.bottom - paper.top) * scale];
      }),
    };
  });
}

function outline() {
  const headings = [...document.querySelectorAll('h1,h2,h3,h4')];
  const named = (svg) => Boolean((svg.getAttribute('aria-label') || '').trim()) || (svg.getAttribute('aria-labelledby') || '').split(' ')
    .map((id) => document.getElementById(id)).every((one) => one && svg.contains(one) && one.textContent);
  const ids = [...document.querySelectorAll('[id]')].map((one) => one.id);
  return {
    title: document.title, language: document.documentElement.lang,
    headings: headings.map((one) => [Number(one.tagName[1]), one.textContent]),
    drawings: [...document.querySelectorAll('svg')].map((svg) => [svg.getAttribute('role'), named(svg)]),
    twice: ids.filter((id, at) => ids.indexOf(id) !== at),
    broken: [...document.querySelectorAll('a[href^="#"]')].map((one) => one.hash.slice(1))
      .filter((id) => !document.getElementById(id)),
    source: (document.getElementById('source') || {}).textContent,
    text: document.body.innerText, scripts: document.scripts.length,
    foreign: document.querySelectorAll('main b,main i,main u,main img,main iframe,main script,main style:not(svg style)').length,
    rowBreaks: [...document.querySelectorAll('tr')].map((one) => getComputedStyle(one).breakInside),
  };
}

// Tab from the top through the page; Enter on each fold opens it, Enter again closes it.
async function keyboard(page) {
  const folds = await page.locator('details').count();
  const opened = new Set();
  const outlines = [];
  await page.evaluate(() => document.querySelectorAll('details').forEach((one, i) => { one.dataset.n = i; }));
  for (let presses = 0; presses < 3 * folds + 60; presses++) {
    await page.keyboard.press('Tab');
    const at = await page.evaluate(() => {
      const active = document.activeElement;
      return active.tagName === 'SUMMARY' ? Number(active.parentElement.dataset.n) : -1;
    });
    if (at < 0 || opened.has(at)) continue;
    outlines.push(await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle));
    await page.keyboard.press('Enter');
    const isOpen = await page.evaluate(() => document.activeElement.parentElement.open);
    const hasText = await page.evaluate(() => document.activeElement.parentElement.lastElementChild
      .getBoundingClientRect().height > 0);
    if (isOpen && hasText) opened.add(at);
    await page.keyboard.press('Enter');
  }
  return {folds, opened: opened.size, outlines};
}

// Tab reaches each button and list; the arrow keys change the case that is drawn.
async function controls(page) {
  const all = await page.locator('main button, main select').count();
  const reached = new Set();
  const folds = await page.locator('details').count();
  await page.evaluate(() => {
    document.querySelectorAll('main button, main select').forEach((one, i) => { one.dataset.c = i; });
    document.activeElement.blur();
  });
  for (let presses = 0; presses < folds + 60; presses++) {
    await page.keyboard.press('Tab');
    const at = await page.evaluate(() => document.activeElement.dataset.c);
    if (at !== undefined) reached.add(at);
  }
  const labelled = await page.evaluate(() => [...document.querySelectorAll('main button, main select')]
    .every((one) => (one.labels && one.labels.length ? one.labels[0].textContent : one.textContent).trim()));
  return {all, reached: reached.size, labelled};
}

async function cases(page) {
  const seen = [];
  const look = () => page.evaluate(() => [...document.querySelectorAll('figure.case')]
    .filter((one) => one.getBoundingClientRect().height > 0).map((one) => [one.dataset.case, one.querySelector('svg').textContent]));
  const list = page.locator('main select');
  const count = await page.locator('figure.case').count();
  seen.push(await look());
  if (await list.count() > 0) {
    await list.focus();
    for (let i = 1; i < count; i++) {
      await page.keyboard.press('ArrowDown');
      seen.push(await look());
    }
    await page.keyboard.press('Home');
  }
  return {count, seen, names: await page.locator('main select option').allTextContents()};
}

// The view is turned there and back, tipped until it looks straight down, and given up again.
async function turning(page) {
  const press = (name) => page.locator('main button', {hasText: name}).click();
  const circles = (kind) => page.evaluate((which) => [...document.querySelectorAll(which)]
    .filter((one) => one.getBoundingClientRect().width > 0)
    .map((one) => [Number(one.getAttribute('cx')), Number(one.getAttribute('cy'))]), kind);
  const shown = () => page.evaluate(() => ['.turned', '.case'].map((kind) => [...document.querySelectorAll(`figure${kind}`)]
    .filter((one) => one.getBoundingClientRect().height > 0).length));
  const found = {drawn: await circles('.case circle.joint')};
  await press('Turn right');
  await page.keyboard.press('ArrowLeft');
  found.home = await circles('.turned circle');
  found.label = await page.evaluate(() => document.querySelector('.turned svg').getAttribute('aria-label'));
  found.turned = await shown();
  found.letters = await page.evaluate(() => [...document.querySelectorAll('.turned text')].map((one) => {
    const box = one.getBBox();
    return [one.textContent, box.x, box.y, box.x + box.width, box.y + box.height];
  }));
  for (let i = 0; i < 6; i++) await page.keyboard.press('ArrowUp');
  found.above = await circles('.turned circle');
  found.droop = await page.evaluate(() => document.querySelectorAll('.turned .droop').length);
  await press('Back to the drawn view');
  found.back = await shown();
  return found;
}

// Runs inside the page: how wide each template comes out, and how wide it says it is, mm.
function templates() {
  return [...document.querySelectorAll('.true svg')].map((svg) => [
    svg.getBoundingClientRect().width * 25.4 / 96, parseFloat(svg.getAttribute('width'))]);
}

async function printed(page, name) {
  const size = PAPER[name];
  await page.emulateMedia({media: 'print'});
  await page.setViewportSize({width: pixels(size.width), height: pixels(size.height)});
  const found = {};
  for (const open of [false, true]) {
    await page.evaluate((is) => document.querySelectorAll('details').forEach((one) => { one.open = is; }), open);
    const height = await page.evaluate(() => document.documentElement.scrollHeight);
    const tallest = await page.evaluate(() => Math.max(...[...document.querySelectorAll('tr:not(.fold),figure,li')]
      .map((one) => one.getBoundingClientRect().height)));
    const path = `${process.argv[2]}.${name}-${open ? 'open' : 'closed'}.pdf`;
    const pdf = (await page.pdf({path, format: name, printBackground: true, preferCSSPageSize: true})).toString('latin1');
    found[open ? 'open' : 'closed'] = {
      path, templates: await page.evaluate(templates), wide: await page.evaluate(overflows), height, tallest, page: pixels(size.height),
      pages: (pdf.match(/\/Type\s*\/Page\b(?!s)/g) || []).length, box: pdf.match(/\/MediaBox\s*\[([^\]]*)\]/)[1],
    };
  }
  await page.emulateMedia({media: 'screen'});
  return found;
}

async function main() {
  const address = pathToFileURL(process.argv[2]).href;
  const browser = await chromium.launch({executablePath: '/usr/bin/chromium', args: ARGUMENTS});
  const result = {complaints: [], requests: []};
  try {
    const page = await browser.newPage({viewport: {width: 1000, height: 900}});
    page.on('console', (said) => result.complaints.push(said.text()));
    page.on('pageerror', (error) => result.complaints.push(String(error)));
    page.on('dialog', (dialog) => { result.complaints.push('dialog ' + dialog.message()); dialog.dismiss(); });
    page.on('request', (request) => result.requests.push(request.url()));
    await page.goto(address);
    result.outline = await page.evaluate(outline);
    result.keyboard = await keyboard(page);
    result.controls = await controls(page);
    result.cases = await cases(page);
    result.turning = await turning(page);
    await page.evaluate(() => document.querySelectorAll('details').forEach((one) => { one.open = true; }));
    result.lettering = await page.evaluate(lettering);
    result.contrasts = await page.evaluate(contrasts);
    result.screen = await page.evaluate(overflows);
    await page.evaluate(() => document.querySelectorAll('details').forEach((one) => { one.open = false; }));
    await page.click('#checks button');
    result.button = await page.evaluate(() => [...document.querySelectorAll('details')].every((one) => one.open));
    await page.emulateMedia({media: 'print'});
    // A fold that is opened may be longer than a page: its items are kept whole instead.
    result.printRows = await page.evaluate(() => [...document.querySelectorAll('tr:not(.fold),li,figure')]
      .map((one) => getComputedStyle(one).breakInside));
    await page.emulateMedia({media: 'screen'});
    await page.setViewportSize({width: 360, height: 700});
    result.phone = await page.evaluate(() => document.documentElement.scrollWidth);
    result.A4 = await printed(page, 'A4');
    result.Letter = await printed(page, 'Letter');

    const plain = await browser.newContext({javaScriptEnabled: false});
    const still = await plain.newPage();
    await still.goto(address);
    const summary = still.locator('summary').first();
    await summary.click();
    result.still = {
      text: await still.locator('main').innerText(), buttons: await still.locator('button, select').count(),
      cases: await still.locator('figure.case:visible').count(),
      opened: await still.locator('details').first().getAttribute('open'),
    };
  } finally {
    await browser.close();
  }
  process.stdout.write(JSON.stringify(result));
}

main().catch((error) => { console.error(error); process.exit(1); });
