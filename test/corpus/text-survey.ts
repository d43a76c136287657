import { openScore, type ParsedSource } from '../../engine/score/open.ts';
import { childrenNamed, childText, descendantsNamed, type XmlElement } from '../../engine/xml/tree.ts';
import { completeEngraving } from '../../render/engraving-options.ts';
import { prepareDocument } from '../../render/layout/document/layout-document.ts';
import type { Drawer } from '../../render/layout/drawer/drawer.ts';
import { ALL_STAVES } from '../../render/layout/spaces/reserve-spaces.ts';
import { HARP_SCORES, readScoreFile } from './harp-scores.ts';

/** A score, and the part that is printed from it. */
export interface SurveyedScore {
  readonly file: string;
  readonly part?: string;
  /** Of a file with several movements: each is a score of its own. */
  readonly movement?: string;
}

/** The movements of a quartet after the first, the lowest part printed. */
const laterMovements = (file: string, parts: readonly [string, string, string]): SurveyedScore[] =>
  parts.map((part, i) => ({ file, part, movement: `${i + 2}` }));

const OP_18 = 'mei-samples/MEI_4.0_Beethoven_StringQuartet_Op18_No1.mei';
const OP_41 = 'mei-samples/MEI_5.1_Schumann_StringQuartet_Op41_No1.mei';

/** Twenty more scores, their lowest part printed, or one that shows what parts leave out. */
const OTHERS: readonly SurveyedScore[] = [
  { file: 'openscore-orchestra/Beethoven_Op.125_4.mxl', part: 'P36' },
  { file: 'openscore-orchestra/Beach_Op.32_1.mxl', part: 'Contrabass' },
  { file: 'mei-samples/MEI_3.0_Bach_BrandenburgConcert_No.4_I.mei', part: 'P9' },
  { file: OP_18, part: 's4' },
  ...laterMovements(OP_18, ['s4b', 's4c', 's4d']),
  { file: 'mei-samples/MEI_5.0_Handel_Messias.mei', part: 'P24' },
  { file: OP_41, part: 'staff-4' },
  ...laterMovements(OP_41, ['staff-4', 'staff-4', 'staff-4']),
  { file: 'mei-samples/legacy_MEI2012_Schumann_Op.41.mei', part: 'staff-4' },
  { file: 'mei-samples/legacy_MEI2012_Schumann_Op.41.mei', part: 'staff-4', movement: '2' },
  { file: 'mei-samples/legacy_MEI2013_2.1_Schumann_Op.41.mei', part: 'staff-4' },
  { file: 'collabscore/C456_0.mei', part: 'm-63' },
  { file: 'libmusicxml/water_waltz_fullscore_trimmed.musicxml', part: 'P20' },
  { file: 'libmusicxml/OrganExample2.xml', part: 'P1' },
  { file: 'libmusicxml/AltiplanoIllFormed.xml', part: 'P1' },
  { file: 'libmusicxml/ConnectedArpeggios.xml', part: 'P1' },
];

export const SURVEYED: readonly SurveyedScore[] = [...HARP_SCORES, ...OTHERS];

/** What stands over the first staff of a full score, and whether the part prints it in the same bar. */
export interface SurveyedText {
  readonly bar: number;
  readonly text: string;
  readonly printed: boolean;
}

const squeeze = (text: string): string => text.replace(/\s+/gu, ' ').trim();

/** The text of each direction over the first part, by the index of its bar: read without the engine's rule. */
const musicXmlTexts = (root: XmlElement): { bar: number; text: string }[] =>
  childrenNamed(childrenNamed(root, 'part')[0]!, 'measure').flatMap((measure, bar) =>
    childrenNamed(measure, 'direction')
      .filter(({ attributes }) => attributes.placement !== 'below' || attributes.system !== undefined)
      .flatMap((direction) =>
        childrenNamed(direction, 'direction-type')
          .flatMap(({ children }) => children)
          .flatMap((each) => {
            if (each.name === 'metronome') return [childText(each, 'per-minute') ?? 'metric modulation'];
            if (each.name === 'segno' || each.name === 'coda') return [each.name];
            return each.name === 'words' || each.name === 'rehearsal' ? [squeeze(each.text)] : [];
          }),
      )
      .map((text) => ({ bar, text })),
  );

const TEXTS = ['tempo', 'dir', 'reh', 'repeatMark'];

const saying = (element: XmlElement, source: string): string =>
  squeeze(source.slice(element.inner.start, element.inner.end).replace(/<[^>]*>/gu, ' ')) ||
  (element.attributes.func ?? element.attributes.mm ?? '');

const meiTexts = (root: XmlElement, source: string): { bar: number; text: string }[] => {
  const movement = descendantsNamed(childrenNamed(root, 'music')[0] ?? root, 'score')[0] ?? root;
  return descendantsNamed(movement, 'measure').flatMap((measure, bar) => {
    const first = childrenNamed(measure, 'staff')[0];
    const ids = new Set(first === undefined ? [] : idsIn(first));
    const isOver = ({ name, attributes }: XmlElement): boolean =>
      TEXTS.includes(name) &&
      attributes.place !== 'below' &&
      ((attributes.staff ?? '1').split(/\s+/u).includes('1') || ids.has(attributes.startid?.slice(1) ?? ''));
    return measure.children.filter(isOver).map((each) => ({ bar, text: saying(each, source) }));
  });
};

const idsIn = (element: XmlElement): string[] => [
  ...(element.attributes['xml:id'] === undefined ? [] : [element.attributes['xml:id']]),
  ...element.children.flatMap(idsIn),
];

/** Letters and numbers alone; a letter of a music font before a number of beats is printed as the note that it draws. */
const plain = (text: string): string =>
  text
    .toLowerCase()
    .replace(/\b[whqe](?=\.? ?= ?\d)/gu, '')
    .replace(/[^\p{L}\p{N}]/gu, '');

const PRINTED = /<(tempo|dir|reh|repeatMark)\b([^>]*?)(?:\/>|>(.*?)<\/\1>)/gsu;

/** What stands over the first staff of a score, read without the engine’s rule. */
export const textsOverFirstStaff = ({
  root,
  source,
}: Pick<ParsedSource, 'root' | 'source'>): { readonly bar: number; readonly text: string }[] => {
  const texts = source.format === 'mei' ? meiTexts(root, source.text) : musicXmlTexts(root);
  return texts.filter(({ text }) => plain(text) !== '');
};

/** Surveys a score; the code of the problem where the part is not read. */
export const surveyScore = (
  { file, ...options }: SurveyedScore,
  drawer: Drawer,
): readonly SurveyedText[] | string => {
  const opened = openScore(readScoreFile(file), options);
  if (!opened.ok) return opened.problem.code;
  const score = opened.value;
  const texts = textsOverFirstStaff({ root: score.source.root, source: score.source });
  const engraving = { ...completeEngraving({}), multiBarRests: false };
  const document = prepareDocument(
    {
      score,
      harps: [score.harp],
      others: new Set<string>(),
      engraving,
      played: { respellings: [], omitted: [] },
      signEdits: () => [],
      cues: { cues: [], score, staves: ALL_STAVES },
      full: ALL_STAVES,
      leftOut: [],
    },
    drawer,
  );
  if (document === null) return 'layout-failed';
  const measures = document
    .write([], [])
    .replace(/<meiHead\b.*<\/meiHead>/su, '')
    .split(/<measure\b/u)
    .slice(1);
  return texts.map(({ bar, text }) => {
    const shown = [...(measures[bar] ?? '').matchAll(PRINTED)]
      .map(([, , attributes, content]) =>
        plain((content ?? '').replace(/<[^>]*>/gu, '') || (/func="(\w+)"/u.exec(attributes!)?.[1] ?? '')),
      )
      .filter((each) => each !== '');
    const wanted = plain(text);
    return { bar, text, printed: shown.some((each) => each.includes(wanted) || wanted.startsWith(each)) };
  });
};
