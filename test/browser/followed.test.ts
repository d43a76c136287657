import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { describePage, detailOf } from './open-page.ts';
import { longPart, TWO_HARPS, TWO_PARTS } from './small-scores.ts';

const CLI = fileURLToPath(new URL('../../dist/server/cli.js', import.meta.url));

let folder = '';
let command: ChildProcess | null = null;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tringle-followed-'));
});
afterEach(() => {
  command?.kill('SIGKILL');
  command = null;
  rmSync(folder, { recursive: true, force: true });
});

/** The command on a file, from the built program. @returns the address that it prints */
const follow = async (content: string) => {
  const path = join(folder, 'part.musicxml');
  writeFileSync(path, content);
  const env = { PATH: process.env.PATH, THREADS: '1' };
  const started = spawn(process.execPath, [CLI, 'watch', path, '--serve', '--port', '0'], { env });
  command = started;
  const ended = new Promise<number | null>((resolve) => started.once('exit', resolve));
  let printed = '';
  started.stdout.on('data', (data) => {
    printed += String(data);
  });
  const address = () => /http:\S+/.exec(printed)?.[0] ?? '';
  await expect.poll(address, { timeout: 30_000 }).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/\?follow=[\w-]{32}$/);
  return { path, url: address(), stop: () => started.kill('SIGTERM'), ended };
};

const lineOf = (page: Page) => page.locator('.followed > p');
const toldOf = (page: Page) => page.locator('p.hidden[role=status]');
const waiting = { timeout: 30_000 };

describePage('a file that tringle watch follows', (open) => {
  it('is shown as it is saved; a broken save closes nothing, and the next good one mends it', async () => {
    const { path, url, stop, ended } = await follow(TWO_HARPS);
    const { page, complaints } = await open();
    await page.goto(url);
    await page.locator('.paper g.pedal-marking').first().waitFor();
    await expect
      .poll(() => lineOf(page).textContent())
      .toMatch(/^The file is followed\. Shown is the save of/);
    await page.locator('.sheet g.note .notehead').nth(4).click();
    await detailOf(page).getByRole('button', { name: 'Leave it out' }).click();
    await expect.poll(() => page.locator('.decisions li .plain').count()).toBe(1);

    writeFileSync(path, TWO_HARPS.slice(0, 400));
    await expect.poll(() => lineOf(page).textContent(), waiting).toMatch(/last save cannot be used/);
    expect(await lineOf(page).textContent()).toMatch(/until the next one/);
    expect(await toldOf(page).textContent()).toMatch(/last save cannot be used/);
    expect(await page.locator('.paper g.pedal-marking').count()).toBeGreaterThan(0);
    expect(await violations(page), 'a broken save').toEqual([]);

    // Programs save by writing beside and renaming.
    writeFileSync(`${path}.new`, TWO_HARPS.replace('<step>G</step>', '<step>G</step><alter>1</alter>'));
    renameSync(`${path}.new`, path);
    await expect.poll(() => lineOf(page).textContent(), waiting).toMatch(/changes? in the plan/);
    expect(await toldOf(page).textContent()).toMatch(/added: G natural/);
    await page.locator('.followed summary').click();
    expect(await page.locator('.followed li').allTextContents()).toContain('added: G♮, bar 2, beat 1');
    await expect.poll(() => page.locator('.decisions li .plain').count()).toBe(1);
    expect(await violations(page), 'a save with changes').toEqual([]);

    await page.getByRole('button', { name: /^Undo/ }).click();
    await expect.poll(() => page.locator('.decisions li .plain').count()).toBe(0);
    stop();
    expect(await ended).toBe(0);
    await expect.poll(() => lineOf(page).textContent()).toMatch(/has ended/);
    expect(complaints).toEqual([]);
  });

  it('is shown where it was looked at, on the pages of before until the new ones are there', async () => {
    const { path, url } = await follow(longPart(60));
    const { page } = await open();
    await page.goto(url);
    await page.locator('.paper g.pedal-marking').first().waitFor();
    const pane = page.locator('section.pages');
    await expect.poll(() => page.locator('.sheet').count()).toBeGreaterThan(1);
    await pane.evaluate((element) => element.scrollTo(0, 700));
    await page.getByRole('button', { name: 'Larger' }).click();
    const top = await pane.evaluate((element) => element.scrollTop);
    const requests: string[] = [];
    page.on('request', (request) => requests.push(request.url()));
    writeFileSync(path, longPart(61));
    await expect.poll(() => lineOf(page).textContent(), waiting).toMatch(/1 change in the plan/);
    expect(await page.locator('.sheet').count()).toBeGreaterThan(1);
    await expect.poll(() => page.locator('.pages.stale').count(), waiting).toBe(0);
    expect(await pane.evaluate((element) => element.scrollTop)).toBe(top);
    expect(await page.locator('.percent').textContent()).toContain('150');
    expect(requests.filter((each) => each.endsWith('/file'))).toHaveLength(1);
    // The same bytes once more are no save.
    writeFileSync(path, longPart(61));
    await page.waitForTimeout(1000);
    expect(requests.filter((each) => each.endsWith('/file'))).toHaveLength(1);
  });

  it('stays followed when the page is reloaded, and is asked which part is meant', async () => {
    const { path, url } = await follow(TWO_PARTS);
    const { page } = await open();
    await page.goto(url);
    await page.getByText('Which part is the harp?').waitFor();
    await page.getByRole('button', { name: /Lower brook/ }).click();
    await page.locator('.paper g.pedal-marking').first().waitFor();
    rmSync(path);
    await expect.poll(() => lineOf(page).textContent(), waiting).toMatch(/no such file/);
    await page.reload();
    await page.locator('.paper g.pedal-marking').first().waitFor();
    writeFileSync(path, TWO_PARTS.replace('<step>E</step>', '<step>E</step><alter>-1</alter>'));
    await expect.poll(() => lineOf(page).textContent(), waiting).toMatch(/Shown is the save of/);
    expect(await page.locator('.piece').textContent()).toContain('Lower brook');
  });
});
