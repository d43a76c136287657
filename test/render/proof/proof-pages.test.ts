import { describe, expect, it } from 'vitest';
import { proofreadScore } from '../../../engine/proof/proof.ts';
import { drawProof } from '../../../render/proof/proof-pages.ts';
import { LANGUAGES } from '../../../render/words/language.ts';
import { wordsOf } from '../../../render/words/words.ts';
import { note, readHarp, words } from '../../engine/score/musicxml/musicxml-builder.ts';

const plain = (page: string): string => page.replace(/<[^>]*>/gu, '');

const pagesOf = async (...bars: readonly string[]): Promise<readonly string[]> => {
  const score = readHarp(...bars);
  const drawn = await drawProof(score, proofreadScore(score), {}, 'svg');
  if (!drawn.ok) throw new Error(drawn.problem.code);
  return drawn.value.pages;
};

const START = words('D♮ C♮ B♮ E♮ F♮ G♮ A♮') + note('C4', 4);

describe('a proofread part on its pages', () => {
  it('keeps the words of the file, numbers the fault, draws the edit beside them, and tells both at the end', async () => {
    const page = (await pagesOf(START, words('see C♭') + words('C♭') + note('C#4', 4))).join('');
    expect(page).toContain('class="proof-fault"');
    const edit = /<g id="edit-1-1" class="proof-edit".*?<title>(.*?)<\/title>/su.exec(page);
    expect(edit?.[1]).toBe('Print C♯ instead of C♭ at bar 2, beat 1.');
    expect(page).toMatch(/class="proof-edit".*?stroke="#0b57d0"/su);
    const text = plain(page);
    expect(text).toMatch(/see\s+C/u);
    expect(text).toContain('Faults, and how to put them right');
    expect(text).toMatch(/C♯4 will sound\s+wrong/u);
  });

  it('strikes a marking out where it is, and writes it where it belongs', async () => {
    const bars = [
      START,
      note('C4', 2) + note('C4', 2),
      note('C4', 4),
      note('C#4', 2) + words('C♯') + note('C#4', 2),
    ];
    const page = (await pagesOf(...bars)).join('');
    expect([...page.matchAll(/class="proof-edit"/gu)]).toHaveLength(2);
    expect(plain(page)).toMatch(/×\s*C♯/u);
    expect(plain(page)).toMatch(/\+\s*C♯/u);
  });

  it.each([
    ['german', 'Cis4 klingt falsch', 'Cis statt Ces in Takt 2, Zählzeit 1 schreiben.'],
    ['french', 'Do♯4 sonnera faux', 'Écrire Do♯ au lieu de Do♭ à la mesure 2, temps 1.'],
    ['italian', 'Do♯4 suonerà sbagliato', 'Scrivere Do♯ invece di Do♭ a battuta 2, tempo 1.'],
    ['spanish', 'Do♯4 sonará mal', 'Escribir Do♯ en lugar de Do♭ en el compás 2, tiempo 1.'],
  ] as const)('tells faults and edits in %s, with its note names', async (language, fault, edit) => {
    const score = readHarp(START, words('C♭') + note('C#4', 4));
    const choice = { language, naming: LANGUAGES[language].naming };
    const drawn = await drawProof(score, proofreadScore(score), choice, 'svg');
    if (!drawn.ok) throw new Error(drawn.problem.code);
    const page = drawn.value.pages.join('');
    expect(/<g id="edit-1-1" class="proof-edit".*?<title>(.*?)<\/title>/su.exec(page)?.[1]).toBe(edit);
    const text = plain(page).replaceAll(/\s+/gu, ' ');
    expect(text).toContain(fault);
    expect(text).toContain(wordsOf({ language }).proof.faults);
    expect(text).not.toContain('Faults');
  });

  it('says so where nothing is wrong', async () => {
    const page = (await pagesOf(START)).join('');
    expect(plain(page)).toContain('Nothing is wrong');
    expect(page).not.toContain('proof-fault');
  });
});
