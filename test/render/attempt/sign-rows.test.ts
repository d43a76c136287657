import { describe, expect, it } from 'vitest';
import { judgeAttempt } from '../../../engine/attempt/judge-attempt.ts';
import { openScore } from '../../../engine/score/open.ts';
import { signRows } from '../../../render/attempt/sign-rows.ts';
import { buildHarp, note, words } from '../../engine/score/musicxml/musicxml-builder.ts';

/** The signs at bar 2, each as the name that it judges and its verdict. */
const signsAt = (written: string, asked: string, redrawn: boolean): readonly (readonly string[])[] => {
  const xml = buildHarp(
    `${words('D♮ C♮ B♮ E♮ F♮ G♮ A♮')}${note('C4', 2)}${note('D4', 2)}`,
    `${note('D4', 2)}${words(written)}${note('D4', 2)}`,
    asked,
  );
  const opened = openScore(new TextEncoder().encode(xml));
  if (!opened.ok) throw new Error(opened.problem.code);
  const here = judgeAttempt(opened.value)
    .changes.filter(({ bar }) => bar === 1)
    .map((change) => ({ change }));
  const rows = signRows(here, { markings: opened.value.markings, isDrawn: () => redrawn });
  return rows.map((row) =>
    row.map(({ change: { stated, verdict } }) => `${'letter' in stated[0]! && stated[0].letter} ${verdict}`),
  );
};

const B_FLAT_AND_G = `${note('Bb4', 2)}${note('G4', 2)}`;
const B_FLAT_AND_G_SHARP = `${note('Bb4', 2)}${note('G#4', 2)}`;

describe('the signs of one moment', () => {
  it('stand under one another as the names do where we draw these, the right foot above the left', () => {
    expect(signsAt('B♭ G♯', B_FLAT_AND_G, true)).toEqual([['G wrong'], ['B right']]);
    expect(signsAt('G♯ B♭', B_FLAT_AND_G, true)).toEqual([['G wrong'], ['B right']]);
  });

  it('stand beside one another as the names do in the words of the file', () => {
    expect(signsAt('B♭ G♯', B_FLAT_AND_G, false)).toEqual([['B right', 'G wrong']]);
    expect(signsAt('G♯ B♭', B_FLAT_AND_G, false)).toEqual([['G wrong', 'B right']]);
  });

  it('are one where all is right', () => {
    expect(signsAt('B♭ G♯', B_FLAT_AND_G_SHARP, true)).toHaveLength(1);
    expect(signsAt('B♭ G♯', B_FLAT_AND_G_SHARP, false)[0]).toHaveLength(1);
  });
});
