import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { CHROMIUM, CHROMIUM_ARGUMENTS } from '../chromium.ts';

/** Two things that stand on one another on a page, as Chromium draws it. */
export interface Collision {
  readonly marking: string;
  /** The class of what it stands on: of the layout's group, or the id of another marking. */
  readonly other: string;
}

export interface MeasuredPage {
  readonly markings: number;
  readonly flags: number;
  /** Markings that reach over the paper's edge. */
  readonly offPaper: number;
  readonly collisions: readonly Collision[];
}

/** Runs in the browser: asks Chromium, and not our own geometry, what its ink covers. */
const MEASURE = `
const inked = 'path,rect,use,ellipse,polygon,polyline,text';
const meet = (a, b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
// A box for each line of a marking: words under a letter may be wider than the letter.
const inksOf = (mark) => {
  const boxes = [...mark.querySelectorAll('path,rect,ellipse,use')].map((each) => each.getBoundingClientRect());
  const rows = [];
  for (const box of boxes.sort((a, b) => a.top - b.top)) {
    const last = rows.at(-1);
    if (last !== undefined && box.top < last.bottom) {
      last.left = Math.min(last.left, box.left);
      last.right = Math.max(last.right, box.right);
      last.bottom = Math.max(last.bottom, box.bottom);
    } else rows.push({ left: box.left, right: box.right, top: box.top, bottom: box.bottom });
  }
  const edge = 0.4;
  return rows.map((row) => ({ left: row.left + edge, right: row.right - edge, top: row.top + edge, bottom: row.bottom - edge }));
};
const lineMeets = (element, box) => {
  const matrix = element.getScreenCTM();
  const length = element.getTotalLength();
  const steps = Math.min(400, Math.ceil((length * matrix.a) / 1.5) + 1);
  for (let i = 0; i <= steps; i += 1) {
    const p = element.getPointAtLength((length * i) / steps);
    const x = matrix.a * p.x + matrix.c * p.y + matrix.e;
    const y = matrix.b * p.x + matrix.d * p.y + matrix.f;
    if (x > box.left && x < box.right && y > box.top && y < box.bottom) return true;
  }
  return false;
};
const covers = (element, rect, box) => {
  if (element.tagName === 'text') {
    const lifted = { left: rect.left, right: rect.right, bottom: rect.bottom, top: rect.top + rect.height * 0.2 };
    return meet(lifted, box);
  }
  return ['path', 'polygon', 'polyline'].includes(element.tagName) ? lineMeets(element, box) : true;
};
const nameOf = (element) => {
  const group = element.closest('g[class]:not(.text):not(.rend)');
  return group === null ? 'page' : group.getAttribute('class').split(' ')[0];
};
const ours = '.pedal-marking,.tuning-note,.lever-marking,.place-flag';
// A small note stands on these as any note does.
const lines = new Set(['staff', 'ledgerLines']);
const behind = new Set(['barLine']);
const none = new Set();
const results = [...document.querySelectorAll('.page')].map((holder) => {
  const result = { markings: 0, flags: 0, offPaper: 0, collisions: [] };
  const paper = holder.querySelector('svg').getBoundingClientRect();
  const marks = [...holder.querySelectorAll(ours)];
  const inks = marks.map(inksOf);
  const others = [...holder.querySelectorAll(inked)]
    .filter((each) => each.closest(ours + ',defs') === null)
    .map((element) => ({ element, rect: element.getBoundingClientRect() }));
  result.markings += marks.filter((each) => each.matches('.pedal-marking,.tuning-note,.lever-marking')).length;
  result.flags += marks.filter((each) => each.matches('.place-flag')).length;
  marks.forEach((mark, i) => {
    const isOff = (ink) => ink.left < paper.left || ink.right > paper.right || ink.top < paper.top || ink.bottom > paper.bottom;
    if (inks[i].some(isOff)) result.offPaper += 1;
    // A bar line between the staves runs behind a white ground.
    const passable = mark.matches('.lever-note') ? lines : mark.querySelector('rect[fill="#fff"]') === null ? none : behind;
    const hit = others.filter(({ element, rect }) => inks[i].some((ink) => meet(rect, ink) && covers(element, rect, ink)) && !passable.has(nameOf(element)));
    for (const name of new Set(hit.map(({ element }) => nameOf(element)))) result.collisions.push({ marking: mark.id, other: name });
    marks.forEach((each, k) => { if (k > i && inks[k].some((other) => inks[i].some((ink) => meet(other, ink)))) result.collisions.push({ marking: mark.id, other: each.id }); });
  });
  return result;
});
document.body.textContent = 'RESULT' + btoa(JSON.stringify(results)) + 'END';
`;

/** Chromium takes letters to be whole pixels high: on a finer screen that says less. */
const FINE = '--force-device-scale-factor=4';

/** Finds every marking on the pages that touches a note, line, text or other marking, by Chromium's own measures. */
export const measurePages = async (pages: readonly string[]): Promise<MeasuredPage[]> => {
  const folder = await mkdtemp(join(tmpdir(), 'tringle-pages-'));
  try {
    const file = join(folder, 'pages.html');
    const holders = pages.map((page) => `<div class="page">${page.replace(/<\?xml[^>]*>/, '')}</div>`);
    await writeFile(
      file,
      `<!DOCTYPE html><meta charset="utf-8"><style>body{margin:0}.page{position:relative;overflow:hidden}svg{display:block}</style>` +
        `<body>${holders.join('\n')}<script>${MEASURE}</script></body>`,
    );
    const { stdout } = await promisify(execFile)(
      CHROMIUM,
      [...CHROMIUM_ARGUMENTS, FINE, '--dump-dom', `file://${file}`],
      { maxBuffer: 1 << 28 },
    );
    const encoded = /RESULT([A-Za-z0-9+/=]+)END/.exec(stdout)?.[1];
    if (encoded === undefined) throw new Error('Chromium did not measure the pages');
    return JSON.parse(Buffer.from(encoded, 'base64').toString()) as MeasuredPage[];
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
};
