import { beforeAll, describe, expect, it } from 'vitest';
import type { ParsedSource } from '../../engine/score/open.ts';
import { parseXml } from '../../engine/xml/parse-xml.ts';
import { descendantsNamed } from '../../engine/xml/tree.ts';
import { isThorough, oneIn } from '../thorough.ts';
import { readAllParts } from './all-parts.ts';
import { compareReadings } from './compare-readers.ts';
import { compareWithOracle } from './compare-verovio.ts';
import { CORPUS, corpusFiles, isCorpusThere, readCorpusFile } from './corpus-files.ts';
import { type Comparison, rowsOf, tableRows } from './differences.ts';
import { type Oracle, type OracleReading, startOracle } from './oracle.ts';
import { findNoteFacts } from './source-facts.ts';

/** Verovio takes up to two minutes for the largest score. */
const PATIENCE_MS = 600_000;

let oracle: Oracle;
const totals = { compared: 0, agreed: 0 };

beforeAll(async () => {
  if (isCorpusThere) oracle = await startOracle();
}, PATIENCE_MS);

const expectExplained = (file: string, kind: string, comparison: Comparison): void => {
  totals.compared += comparison.compared;
  totals.agreed += comparison.agreed;
  expect(comparison.unexplained.slice(0, 10)).toEqual([]);
  expect(rowsOf(file, kind, comparison)).toEqual(tableRows(file, kind));
};

/** Made to fail: a note is named Q. */
const REFUSED = 'libmusicxml/Error.xml';

/** Two of which Verovio takes as long as for all the others; their versions of MEI are read in shorter ones. */
const LONG: readonly string[] = ['collabscore/C456_0.mei', 'mei-samples/MEI_5.0_Handel_Messias.mei'];

const SONGS = 'openscore-lieder/';
/** Of the songs, whose writing is much alike, one in three. */
const songs = oneIn(
  3,
  corpusFiles().filter((file) => file.startsWith(SONGS)),
);
const others = corpusFiles().filter((file) => !file.startsWith(SONGS));
const files = [...songs, ...others].filter((file) => isThorough || !LONG.includes(file));

describe.each(files)('%s', (file) => {
  let parsed: ParsedSource;
  let heard: OracleReading;
  let direct: ReturnType<typeof readAllParts>;

  beforeAll(async () => {
    const score = readCorpusFile(file);
    const reading = score && (await oracle.read(score.source));
    if (score === null || reading === null) throw new Error('neither we nor Verovio may fail to load it');
    [parsed, heard] = [score, reading];
    direct = readAllParts(parsed);
  }, PATIENCE_MS);

  it('is heard by Verovio as we read it', { timeout: PATIENCE_MS }, () => {
    const { notes, refused } = direct;
    expect(refused).toEqual(file === REFUSED ? ['P1: bad-value'] : []);
    if (file !== REFUSED) {
      expectExplained(file, 'timemap', compareWithOracle(notes, heard, findNoteFacts(parsed)));
    }
  });

  const hasConversion = !file.endsWith('.mei') && file !== REFUSED;
  it.runIf(hasConversion)(
    'says the same when Verovio has turned it into MEI',
    { timeout: PATIENCE_MS },
    () => {
      const root = parseXml(heard.mei);
      if (!root.ok) throw new Error(root.problem.code);
      const source = {
        ...parsed.source,
        format: 'mei',
        version: '',
        text: heard.mei,
        root: root.value,
      } as const;
      const elements = descendantsNamed(root.value, 'note');
      const converted = new Map(elements.map((each) => [each.attributes['xml:id'] ?? '', each]));
      const viaMei = readAllParts({ source, root: root.value });
      // Percussion whose notes have no pitch.
      expect(viaMei.refused.filter((each) => !each.endsWith('no-notes'))).toEqual([]);
      expectExplained(
        file,
        'via MEI',
        compareReadings(direct.notes, viaMei.notes, findNoteFacts(parsed), converted),
      );
    },
  );
});

describe.skipIf(!isCorpusThere)(`the corpus at ${CORPUS} (skipped where it is absent)`, () => {
  it('was compared note by note', () => {
    expect(totals.compared).toBeGreaterThan(isThorough ? 200_000 : 25_000);
    expect(totals.agreed / totals.compared).toBeGreaterThan(0.85);
  });
});
