import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { optionsOf } from '../../server/page/client/options/choices.ts';
import { chooseFile, describePage, openChoices, openDemo } from './open-page.ts';
import { lastOrder, watchOrders } from './orders.ts';
import { IMPOSSIBLE, LONG_CHORD } from './small-scores.ts';
import { tellPage } from './told-page.ts';

/** Each choice with a value other than at first, and what the service is told. */
const LISTS: readonly (readonly [name: string, value: string, option: object])[] = [
  ['settingLook', 'letters-two-rows', { settingLook: 'letters-two-rows' }],
  ['naming', 'fixed-do', { naming: 'fixed-do' }],
  ['placement', 'above', { placement: 'above' }],
  ['density', 'changes', { density: 'changes' }],
  ['settings.afterRestBars', 'null', { settings: { afterRestBars: null } }],
  ['marksAt', 'note', { marksAt: 'note' }],
  ['paper', 'letter', { paper: 'letter' }],
  ['staffMm', '6', { staffMm: 6 }],
  ['pageTurns', 'anywhere', { pageTurns: 'anywhere' }],
  ['stringColours', 'c-red-f-blue', { stringColours: 'c-red-f-blue' }],
  ['respelledLook', 'bracketed', { respelledLook: 'bracketed' }],
  ['spelling', 'suggest', { spelling: 'suggest' }],
  ['inFile', 'pins', { followMarkings: true }],
  ['footRestSeconds', '0.4', { footRestSeconds: 0.4 }],
];

const SWITCHES: readonly (readonly [label: string, option: object])[] = [
  ['Circle what has changed since the last full setting', { circleChanged: true }],
  ['Number the places that are not playable', { numberUnplayable: false }],
  ['Explain the markings after the last line', { legend: true }],
  ['Before the first note', { settings: { start: false } }],
  ['At rehearsal marks', { settings: { rehearsalMarks: false } }],
  ['Before each glissando', { settings: { glissandi: false } }],
  ['Where three or more pedals change', { settings: { threeChanges: false } }],
  ['At the start of each system', { settings: { systemStart: true } }],
  ['At the start of each page', { settings: { pageStart: true } }],
  ['Keep the line and page breaks of the file', { keepBreaks: true }],
  ['Print long rests as multi-bar rests', { multiBarRests: false }],
  ['If nothing else works, let one foot move two pedals at once', { pedalsTogether: true }],
  ['If nothing else works, let a foot cross to the other side', { crossFeet: true }],
];

const listOf = (page: Page, name: string) => page.locator(`.choices select[name="${name}"]`);

/** Lets the page's waits pass ten times as fast: what is claimed of choices is what is asked for, not when. */
const hurry = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const { setTimeout } = globalThis;
    Reflect.set(globalThis, 'setTimeout', (work: () => void, ms = 0) => setTimeout(work, ms / 10));
  });

const EMPTY_PAGE =
  '<svg xmlns="http://www.w3.org/2000/svg" width="210mm" height="297mm"><g class="page-margin"><g class="system"><path d="M0 0h9"/></g></g></svg>';

/** A part whose pages are not laid out: what matters is what is asked for. */
const openUndrawn = async (page: Page): Promise<void> => {
  await page.route('**/v1/annotate', (route) => {
    const isPreview = route.request().headers().accept === 'image/svg+xml';
    return isPreview
      ? route.fulfill({ contentType: 'image/svg+xml', body: EMPTY_PAGE })
      : tellPage(route, EMPTY_PAGE);
  });
  await chooseFile(page, 'small.xml', IMPOSSIBLE);
  await page.locator('.sheet').waitFor();
  await hurry(page);
  await watchOrders(page);
  await openChoices(page);
};

describePage('choosing', (open) => {
  it('tells the service of every choice, and remembers all of them', async () => {
    const { page, complaints } = await open();
    await openUndrawn(page);
    for (const [name, value, option] of LISTS) {
      await listOf(page, name).selectOption(value);
      await expect.poll(() => lastOrder(page), { message: name }).toMatchObject(option);
    }
    for (const [label, option] of SWITCHES) {
      await page.getByLabel(label, { exact: true }).click();
      await expect.poll(() => lastOrder(page), { message: label }).toMatchObject(option);
    }
    const before = await lastOrder(page);
    await page.reload();
    await watchOrders(page);
    await chooseFile(page, 'small.xml', IMPOSSIBLE);
    await expect.poll(() => lastOrder(page)).toEqual(before);
    await page.getByRole('button', { name: 'Reset to defaults' }).click();
    const atFirst = {
      ...optionsOf({}, 'pedal'),
      pins: [],
      respell: [],
      omit: [],
      fullSettings: [],
      cueParts: [],
      tempos: [],
      delays: [],
    };
    await expect.poll(() => lastOrder(page)).toEqual(atFirst);
    expect(complaints).toEqual([]);
  });

  it('takes paper of one’s own size, and the file’s markings beside ours', async () => {
    const { page } = await open();
    await openUndrawn(page);
    await listOf(page, 'paper').selectOption('custom size');
    await page.getByLabel('Width in mm').fill('180');
    await page.getByLabel('Height in mm').fill('250.5');
    await page.getByLabel('Height in mm').blur();
    await listOf(page, 'inFile').selectOption('beside');
    await expect
      .poll(() => lastOrder(page))
      .toMatchObject({ paper: { widthMm: 180, heightMm: 250.5 }, fileMarkings: true });
    await page.getByLabel('Width in mm').fill('50');
    await page.getByLabel('Width in mm').blur();
    await page.getByText('Enter a number from 100 to 1000 mm.').waitFor();
    expect(await page.getByLabel('Width in mm').inputValue()).toBe('50');
    await expect.poll(() => lastOrder(page)).toMatchObject({ paper: { widthMm: 180 } });
  });

  it('takes strings that are tuned otherwise for this piece, and says what it does not understand', async () => {
    const { page } = await open();
    await openUndrawn(page);
    const field = page.getByLabel('Retuned strings, in cents');
    await field.fill('H4 +50');
    await field.blur();
    const complaint = page.locator('#scordatura-wrong');
    await expect.poll(() => complaint.textContent()).toContain('A4 +50, B3 -50');
    await expect.poll(() => field.getAttribute('aria-invalid')).toBe('true');
    await expect.poll(() => lastOrder(page)).toBeNull();
    await field.fill('E4 -100');
    await field.blur();
    await expect.poll(() => lastOrder(page)).toMatchObject({ scordatura: 'E4 -100' });
    await expect.poll(() => complaint.textContent()).toBe('');
    // It is known again for this piece, and holds for no other.
    await page.reload();
    await openUndrawn(page);
    await expect.poll(() => field.inputValue()).toBe('E4 -100');
    await chooseFile(page, 'other.xml', LONG_CHORD);
    await openChoices(page);
    await expect.poll(() => field.inputValue()).toBe('');
  });

  it('shows a line in the chosen look', async () => {
    const { page, complaints } = await open();
    await openDemo(page);
    const preview = page.locator('.preview');
    await preview.scrollIntoViewIfNeeded();
    await preview.locator('g.pedal-setting path').first().waitFor({ state: 'attached' });
    await expect.poll(() => preview.locator('g.pedal-change').count()).toBeGreaterThan(0);
    await listOf(page, 'settingLook').selectOption('in letters, one row');
    await expect
      .poll(() => preview.locator('g.pedal-setting').first().getAttribute('class'))
      .toContain('pedal-setting');
    const { width, height } = (await preview.locator('svg').first().boundingBox())!;
    expect(width / height).toBeGreaterThan(1.5);
    expect(complaints).toEqual([]);
  });

  it('lists spellings that would help and applies one', async () => {
    const { page } = await open();
    await openUndrawn(page);
    const stops = page.locator('.finding.stop');
    const before = await stops.count();
    await listOf(page, 'spelling').selectOption('suggest');
    const suggestion = page.locator('.findings > .fixes li', { hasText: 'makes 1 place playable' }).first();
    await suggestion.getByRole('button', { name: /^Apply: Play F/ }).click();
    await expect.poll(() => stops.count()).toBe(before - 1);
    await expect.poll(() => page.locator('.decisions li').count()).toBe(1);
  });
});
