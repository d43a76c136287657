import { describe, expect, it } from 'vitest';
import { chooseDecisions } from '../../engine/decisions/choose-decisions.ts';
import { type Decisions, NO_DECISIONS } from '../../engine/decisions/model.ts';
import { nameNotes } from '../../engine/decisions/notes-at.ts';
import { namePlace } from '../../engine/decisions/places.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { openScore } from '../../engine/score/open.ts';
import { annotateSource } from '../../render/source/annotate-source.ts';
import { oneIn } from '../thorough.ts';
import { hasScores, readScoreFile } from './harp-scores.ts';
import { canValidate, schemaErrorsOfEach } from './schema-errors.ts';

/** Every format and version that the corpus has. */
const FILES = [
  'mei-samples/MEI_3.0_Bach_BrandenburgConcert_No.4_I.mei',
  'mei-samples/MEI_4.0_Beethoven_StringQuartet_Op18_No1.mei',
  'mei-samples/MEI_5.0_Handel_Messias.mei',
  'mei-samples/MEI_5.1_Schumann_StringQuartet_Op41_No1.mei',
  'mx/Bombe.xml',
  'mx/FreezingSmall.xml',
  'openscore-lieder/lc6583907.mxl',
  'w3c-examples/tremolo-element-double.musicxml',
];

const open = (bytes: Uint8Array, part?: string): Score => {
  const opened = openScore(bytes, part === undefined ? {} : { part });
  if (opened.ok) return opened.value;
  if (opened.problem.code !== 'harp-not-found') throw new Error(JSON.stringify(opened.problem));
  const [fullest] = opened.problem.parts.toSorted((a, b) => b.staves - a.staves || b.notes - a.notes);
  return open(bytes, fullest!.id);
};

/** Every third note left out, and a setting put at every tenth. */
const workOn = (score: Score): Decisions => {
  const played = score.notes.filter(({ role }) => role !== 'cue');
  const names = nameNotes(score);
  const every = (nth: number) => played.filter((_, i) => i % nth === 0);
  return {
    ...NO_DECISIONS,
    omit: every(3)
      .flatMap(({ id }) => names(id) ?? [])
      .slice(0, 1000),
    fullSettings: every(10)
      .flatMap(({ onset }) => namePlace(score, onset) ?? [])
      .map((place) => ({ ...place, print: true }))
      .slice(0, 1000),
  };
};

const write = (score: Score, own: Decisions | null) => {
  const { decisions, placed } = chooseDecisions(score, own, true);
  expect(placed.unplaced).toEqual([]);
  const omitted = [...placed.omitted];
  const done = annotateSource(score, [], { others: 'keep', omitted, decisions });
  if (!done.ok) throw new Error(JSON.stringify(done.problem));
  return { ...done.value, omitted };
};

/** What was inserted, cut out by its form: shares no code with what wrote it. */
const withoutWork = (text: string): string =>
  text
    .replace(/\s*<(?:\w+:)?notehead parentheses="yes">normal<\/(?:\w+:)?notehead><\?tringle-omitted\?>/g, '')
    .replace(/<\?tringle-omitted\?>(<(?:\w+:)?note) head\.mod="paren"/g, '$1')
    .replace(/\s*<\?tringle-decisions .*?\?>/g, '');

describe.skipIf(!hasScores).each(oneIn(2, FILES))('%s (skipped where ../shared/scores is absent)', (file) => {
  it('holds the decisions on it by insertion alone, is valid as before, and gives it back', {
    timeout: 120_000,
  }, () => {
    const score = open(readScoreFile(file));
    const once = write(score, workOn(score));
    expect(once.omitted.length).toBeGreaterThan(0);
    expect(withoutWork(once.text) === score.source.text).toBe(true);
    const part = score.harp.partIds.length === 1 ? score.harp.partIds[0] : undefined;
    const packed = score.source.archivePath !== null;
    const read = open(once.bytes, part);
    expect(packed || read.source.encoding === score.source.encoding).toBe(true);
    expect(write(read, null).text === once.text).toBe(true);
    expect(write(read, NO_DECISIONS).text === score.source.text).toBe(true);
    if (!canValidate) return;
    const [before, after] = schemaErrorsOfEach([score.source, read.source]);
    expect(after).toEqual(before);
  });
});
