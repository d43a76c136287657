import { beforeAll, describe, expect, it } from 'vitest';
import { formatChange } from '../../engine/harp/setting.ts';
import { LETTERS } from '../../engine/music/pitch.ts';
import { rationalKey } from '../../engine/music/rational.ts';
import { proofreadScore } from '../../engine/proof/proof.ts';
import { encodeText } from '../../engine/score/file/decode.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { openScore } from '../../engine/score/open.ts';
import { parseXml } from '../../engine/xml/parse-xml.ts';
import { descendantsNamed, type XmlElement } from '../../engine/xml/tree.ts';
import { type Engraver, startEngraver } from '../../render/layout/drawer/verovio.ts';
import type { Marking } from '../../render/markings/markings.ts';

import { changeLines, WITH_NOTE } from '../../render/source/insertion/change-words.ts';
import { isThorough } from '../thorough.ts';
import { hasScores, readScoreFile } from './harp-scores.ts';

import { canValidate, schemaErrors, schemaErrorsOfEach } from './schema-errors.ts';
import {
  LONG_SCORES,
  type RoundTrip,
  roundTrip,
  SOURCE_SCORES,
  withOwnMarkingsAlone,
  withoutInsertions,
} from './source-scores.ts';

const FILES = isThorough ? [...SOURCE_SCORES, ...LONG_SCORES] : SOURCE_SCORES;
const TIMEOUT = 120_000;

const pedalsOf = (marking: Marking): string => {
  const changes = marking.kind === 'setting' ? [] : [...marking.left, ...marking.right];
  return LETTERS.flatMap((letter) => {
    const position =
      marking.kind === 'setting'
        ? marking.setting[letter]
        : changes.find((each) => each.letter === letter)?.position;
    return position === undefined ? [] : [formatChange(letter, position)];
  }).join(' ');
};

const readPedals = (score: Score): readonly string[] =>
  score.markings.map(({ at, positions }) => {
    const pedals = LETTERS.flatMap((letter) =>
      positions[letter] === undefined ? [] : [formatChange(letter, positions[letter])],
    );
    return `${rationalKey(at)}: ${pedals.join(' ')}`;
  });

/** Notes that the plan itself says cannot be played as printed, by their place in the list: ids may tell offsets. */
const notesGivenUp = ({ score, plan }: RoundTrip): ReadonlySet<number> => {
  const ids = new Set(
    plan.findings.filter((finding) => finding.severity === 'stop').flatMap((finding) => finding.notes),
  );
  return new Set(score.notes.flatMap((note, i) => (ids.has(note.id) ? [i] : [])));
};

describe.skipIf(!hasScores).each(FILES)('%s (skipped where ../shared/scores is absent)', (file) => {
  it('is itself again, byte for byte, without what was inserted', { timeout: TIMEOUT }, () => {
    const { scoreBytes, score, read, markings } = roundTrip(file);
    const emptied = withoutInsertions(read.source.text);
    expect(emptied === score.source.text).toBe(true);
    expect(Buffer.compare(encodeText(emptied, read.source.encoding), scoreBytes)).toBe(0);
    expect(markings.length).toBeGreaterThan(0);
    expect(read.source.text.length).toBeGreaterThan(score.source.text.length);
  });

  it('is annotated twice as it is once', { timeout: TIMEOUT }, () => {
    const { once, twice } = roundTrip(file);
    expect(Buffer.compare(twice, once)).toBe(0);
  });

  it('gives every marking back at its moment', { timeout: TIMEOUT }, () => {
    const { read, markings } = roundTrip(file);
    expect(readPedals(withOwnMarkingsAlone(read))).toEqual(
      markings.map((marking) => `${rationalKey(marking.at)}: ${pedalsOf(marking)}`),
    );
  });

  it('proofreads clean but for what its plan gives up', { timeout: TIMEOUT }, () => {
    const trip = roundTrip(file);
    const own = withOwnMarkingsAlone(trip.read);
    const proof = proofreadScore(own, undefined, () => trip.plan);
    const givenUp = notesGivenUp(trip);
    const place = new Map(own.notes.map((note, i) => [note.id, i]));
    const busy = trip.plan.findings
      .filter(({ code }) => code === 'foot-too-busy')
      .flatMap(({ places }) => places.map(({ bar }) => bar));
    const unexpected = proof.findings.filter(({ code, bar, notes }) =>
      // Of changes that crowd each other, plan and proof may each call another one the late one.
      code === 'change-too-quick'
        ? !busy.some((each) => Math.abs(each - bar) <= 1)
        : notes.length === 0 || !notes.every((id) => givenUp.has(place.get(id)!)),
    );
    expect(unexpected).toEqual([]);
    expect(proof.notesChecked).toBeGreaterThan(0);
  });
});

describe.skipIf(!canValidate)(
  'the schema (skipped where xmllint, jing or ../shared/schema is absent)',
  () => {
    /** Of each file, what is wrong with it as it came and as it is annotated: told of all at once. */
    let errors: readonly (readonly string[])[] = [];
    beforeAll(() => {
      errors = schemaErrorsOfEach(
        FILES.map(roundTrip).flatMap(({ score, read }) => [score.source, read.source]),
      );
    }, 3 * TIMEOUT);

    it.each(FILES.map((file, i) => [file, i] as const))('finds nothing new in %s', (_file, i) => {
      const [before, after] = errors.slice(2 * i);
      if (after!.length > 0) expect(after).toEqual(before);
    });

    it('finds a marking at a wrong place', { timeout: TIMEOUT }, () => {
      const { read } = roundTrip('mx/Bombe.xml');
      const moved = read.source.text.replace(
        /(<direction [^>]*id="tringle-.*?<\/direction>)(\s*<note[^>]*>)/s,
        '$2$1',
      );
      expect(moved).not.toBe(read.source.text);
      expect(schemaErrors({ ...read.source, text: moved }).length).toBeGreaterThan(0);
    });
  },
);

/** Full orchestral scores take Verovio minutes. */
const CONVERTED = SOURCE_SCORES.filter((file) =>
  /^(?:mx\/(?:Bombe|FreezingSmall)|openscore-lieder\/(?:lc6583|lc5051|lc2998)|libmusicxml\/Organ)/.test(file),
);

describe.skipIf(!hasScores)('Verovio’s conversion (skipped where ../shared/scores is absent)', () => {
  let engraver: Engraver;
  beforeAll(async () => {
    engraver = await startEngraver();
  });

  const convert = ({ source }: Score): XmlElement => {
    const parsed = parseXml(engraver.convertToMei(source.text) ?? '');
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.problem));
    return parsed.value;
  };
  const pitches = (mei: XmlElement): readonly string[] =>
    descendantsNamed(mei, 'note').map(({ attributes: { pname, oct, dur } }) => `${pname}${oct}/${dur}`);
  const wordsOf = (mei: XmlElement): readonly string[] =>
    descendantsNamed(mei, 'dir').map((dir) =>
      [dir, ...descendantsNamed(dir, 'rend')].map((each) => each.text).join(''),
    );

  it.each(CONVERTED)('keeps all notes of %s and the words of its changes', { timeout: TIMEOUT }, (file) => {
    const { score, read, markings } = roundTrip(file);
    const [before, after] = [convert(score), convert(read)];
    expect(pitches(after)).toEqual(pitches(before));
    const changes = markings.flatMap((marking) => {
      if (marking.kind === 'change') return [changeLines(marking).join('')];
      return marking.kind === 'setting' && marking.withNote ? [WITH_NOTE] : [];
    });
    const added = wordsOf(after);
    for (const word of wordsOf(before))
      added.indexOf(word) >= 0 && (added as string[]).splice(added.indexOf(word), 1);
    expect(added.toSorted()).toEqual(changes.toSorted());
  });
});

describe.skipIf(!hasScores)('markings that others wrote (skipped where ../shared/scores is absent)', () => {
  it('in the W3C example are read, and the natural C beside its C sharp is told', () => {
    const opened = openScore(readScoreFile('w3c-examples/harp-pedals-element.musicxml'), { part: 'P1' });
    if (!opened.ok) throw new Error(JSON.stringify(opened.problem));
    expect(readPedals(opened.value)).toEqual(['0: D♭ C♯ B♭ E♮ F♭ G♮ A♯']);
    const { findings } = proofreadScore(opened.value);
    expect(findings.map(({ code, fix }) => [code, fix])).toEqual([
      ['note-not-served', { kind: 'alter', marking: 0, letter: 'C', position: 0 }],
    ]);
  });

  it('in the orchestral piece are read as French names, and their faults told', { timeout: TIMEOUT }, () => {
    const { score } = roundTrip("openscore-orchestra/D'un_matin_de_printemps.mxl");
    const number = (bar: number): string => score.bars[bar]!.number;
    expect(score.markings.map(({ bar, ahead }) => [number(bar), ahead])).toEqual([
      ['175', false],
      ['180', false],
      ['199', true],
    ]);
    const { findings, repair } = proofreadScore(score);
    expect(proofreadScore({ ...score, markings: repair.markings }).correct).toBe(true);
    const told = findings.map(({ code, barNumber }) => `${barNumber} ${code}`);
    expect(told).toEqual([
      '12 notes-before-marking',
      '180 note-not-served',
      '180 note-not-served',
      '180 marking-needless',
      '180 marking-needless',
      '194 note-not-served',
      '194 note-not-served',
      '206 note-not-served',
      '207 note-not-served',
      '207 note-not-served',
    ]);
  });
});
