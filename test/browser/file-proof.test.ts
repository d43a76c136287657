import { expect, it } from 'vitest';
import { buildHarp, note, words } from '../engine/score/musicxml/musicxml-builder.ts';
import { violations } from './axe.ts';
import { bytesOf, chooseFile, describePage, openLeverDemo, sharePage } from './open-page.ts';

/** C♭ is printed where C♯ is needed, and the first setting has F♮ where F♯ is needed. */
const SCORE = buildHarp(
  words('D♮ C♮ B♮ E♮ F♮ G♮ A♮') + note('C4', 4),
  words('C♭') + note('C#4', 4),
  note('A4', 4),
  note('F#4', 4),
);

const brook = sharePage((page) => chooseFile(page, 'brook.musicxml', SCORE));

describePage('a score that brings markings of its own', (open) => {
  it('is proofread, each finding with its edit, and leads to their places', async () => {
    const { page, complaints } = await brook();
    const proof = page.locator('section.proof');
    await proof.getByText('2 markings: they need fixing.').waitFor();
    const finding = proof.getByRole('button', { name: /C♯4 will sound wrong/u });
    expect(await proof.textContent()).toContain('Print C♯ instead of C♭ at bar 2, beat 1.');
    await finding.click();
    expect(await finding.getAttribute('aria-pressed')).toBe('true');
    expect(await violations(page)).toEqual([]);
    expect(complaints).toEqual([]);
  });

  it('is repaired at once, or by some of the edits, by keyboard as well', async () => {
    const { page, complaints } = await brook();
    const proof = page.locator('section.proof');
    const repair = proof.getByRole('button', { name: 'Save the corrected file' });
    const [whole] = await Promise.all([page.waitForEvent('download'), repair.click()]);
    const repaired = String(await bytesOf(whole));
    expect(whole.suggestedFilename()).toMatch(/corrected\.musicxml$/u);
    expect(repaired).not.toContain('C♭');
    expect(repaired).toContain('F♯');
    await expect
      .poll(() => proof.getByRole('status').last().textContent())
      .toBe('The corrected file was saved to your downloads.');
    const edit = proof.getByRole('checkbox', { name: /F♯/u });
    await edit.focus();
    await page.keyboard.press('Space');
    // Past the other edit, to the button.
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    const [some] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
    expect(String(await bytesOf(some))).toBe(SCORE.replace('C♭', 'C♯'));
    expect(complaints).toEqual([]);
  });

  it('can be handed back as pages with its faults', async () => {
    const { page } = await brook();
    const report = page.locator('section.proof').getByRole('button', { name: 'Report as PDF' });
    const [pdf] = await Promise.all([page.waitForEvent('download'), report.click()]);
    expect((await bytesOf(pdf)).subarray(0, 5).toString()).toBe('%PDF-');
  });

  it('can be marked as a pupil’s attempt: the pages of the file with a sign at each marking', async () => {
    const { page, complaints } = await brook();
    // Said at the head of the piece, where the plan is told to be playable.
    const head = page.getByRole('region', { name: 'Markings in the file' });
    await head
      .getByText('The file brings 2 markings of its own: by them 2 places cannot be played')
      .waitFor();
    await head.getByRole('button', { name: 'Mark as a pupil’s attempt' }).click();
    const marked = page.getByRole('dialog', { name: 'A pupil’s attempt, marked' });
    await marked.getByText('0 of 4 points · 2 wrong').waitFor();
    const comments = marked.getByRole('region', { name: 'What is not right' }).getByRole('button');
    await expect.poll(() => comments.count()).toBe(2);
    expect(await comments.last().textContent()).toContain('Write C♯.');
    const signs = marked.locator('.marked-pages .judged-change');
    expect(await signs.evaluateAll((all) => all.map((sign) => sign.getAttribute('data-verdicts')))).toEqual([
      'wrong',
      'wrong',
    ]);
    // Nothing of the plan stands on them.
    expect(await marked.locator('.pedal-marking').count()).toBe(0);
    expect(await violations(page)).toEqual([]);
    const save = marked.getByRole('button', { name: 'Save as PDF' });
    const [pdf] = await Promise.all([page.waitForEvent('download'), save.click()]);
    expect((await bytesOf(pdf)).subarray(0, 5).toString()).toBe('%PDF-');
    await page.keyboard.press('Escape');
    expect(await marked.count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  it('has no such panel where it brings none', async () => {
    const { page } = await open();
    await chooseFile(page, 'brook.musicxml', buildHarp(note('C4', 4)));
    await page.locator('.chart').waitFor();
    expect(await page.locator('section.proof').count()).toBe(0);
  });
});

describePage('a tune for the lever harp that brings markings of its own', (open) => {
  it('is proofread by its levers and repaired', async () => {
    const { page, complaints } = await open();
    await openLeverDemo(page);
    const save = page.getByRole('button', { name: 'Your file with markings' });
    const [marked] = await Promise.all([page.waitForEvent('download'), save.click()]);
    const right = String(await bytesOf(marked));
    const proof = page.locator('section.proof');
    await chooseFile(page, 'right.musicxml', right);
    await proof.getByText(/markings: they are right\./u).waitFor();
    // The first change of the demo is of F: here another string is named.
    const spoilt = right.replace('>F♯4<', '>G♯4<');
    expect(spoilt).not.toBe(right);
    await chooseFile(page, 'spoilt.musicxml', spoilt);
    await proof.getByText(/markings: they need fixing\./u).waitFor();
    expect(await violations(page)).toEqual([]);
    const [repaired] = await Promise.all([
      page.waitForEvent('download'),
      proof.getByRole('button', { name: 'Save the corrected file' }).click(),
    ]);
    expect(String(await bytesOf(repaired))).toBe(right);
    expect(complaints).toEqual([]);
  });
});
