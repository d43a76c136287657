import { pitchName } from '../../../../engine/music/pitch.ts';
import { rationalKey } from '../../../../engine/music/rational.ts';
import type { Result } from '../../../../engine/problem.ts';
import { readMei } from '../../../../engine/score/mei/read.ts';
import type { Note } from '../../../../engine/score/model/note.ts';
import type { Score } from '../../../../engine/score/model/score.ts';
import type { SourceText } from '../../../../engine/score/model/source.ts';
import { parseXml } from '../../../../engine/xml/parse-xml.ts';

/** A note such as `note('f5', 4)`: name and octave, length, further attributes, children. */
export const note = (name: string, dur: number | string | null, attributes = '', inside = ''): string => {
  const length = dur === null ? '' : ` dur="${dur}"`;
  return `<note pname="${name[0]}" oct="${name.slice(1)}"${length} ${attributes}>${inside}</note>`;
};

/** Notes of one length, by their names. */
export const notes = (names: string, dur: number | string): string =>
  names
    .split(' ')
    .map((name) => note(name, dur))
    .join('');

export const chord = (names: string, dur: number, attributes = ''): string =>
  `<chord dur="${dur}" ${attributes}>${names
    .split(' ')
    .map((name) => note(name, null))
    .join('')}</chord>`;

interface BarParts {
  readonly upper?: string;
  readonly lower?: string;
  /** Elements beside the staves. */
  readonly marks?: string;
  readonly attributes?: string;
}

let barNumber = 0;

/** A measure of the harp's two staves, one layer each; numbered from 1 within a score. */
export const bar = ({
  upper = '<mRest/>',
  lower = '<mRest/>',
  marks = '',
  attributes = '',
}: BarParts): string => {
  barNumber += 1;
  const staff = (n: number, content: string): string =>
    `<staff n="${n}">${content.includes('<layer') ? content : `<layer n="1">${content}</layer>`}</staff>`;
  return `<measure n="${barNumber}" ${attributes}>${staff(1, upper)}${staff(2, lower)}${marks}</measure>`;
};

export const HARP_STAVES =
  '<staffGrp symbol="brace"><label>Harp</label><staffDef n="1" lines="5"/><staffDef n="2" lines="5"/></staffGrp>';

interface ScoreParts {
  /** Attributes of the scoreDef; 4/4 in C if left out. */
  readonly definition?: string;
  readonly staves?: string;
  readonly version?: string;
  readonly head?: string;
}

/** A whole document with one movement: `flow` is what stands in its section. */
export const meiScore = (
  flow: string,
  {
    definition = 'meter.count="4" meter.unit="4" keysig="0"',
    staves = HARP_STAVES,
    version = '5.1',
    head = '',
  }: ScoreParts = {},
): string => {
  barNumber = 0;
  return `<mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="${version}"><meiHead>${head}</meiHead><music><body><mdiv><score><scoreDef ${definition}>${staves}</scoreDef>${
    flow.includes('<section') ? flow : `<section>${flow}</section>`
  }</score></mdiv></body></music></mei>`;
};

export const readResult = (text: string, part?: string): Result<Score> => {
  const root = parseXml(text);
  if (!root.ok) return root;
  const version = root.value.attributes.meiversion ?? '';
  const source: SourceText = {
    format: 'mei',
    version,
    text,
    root: root.value,
    encoding: 'utf-8',
    archivePath: null,
    movement: null,
  };
  return readMei(root.value, source, part === undefined ? {} : { part });
};

/** The score, where the document is expected to be read. */
export const read = (text: string, part?: string): Score => {
  const result = readResult(text, part);
  if (!result.ok) throw new Error(`not read: ${JSON.stringify(result.problem)}`);
  return result.value;
};

/** Notes as `onset name`: `0 C4, 1 D♯4`. */
export const timeline = (score: Score): string =>
  score.notes.map((each) => `${rationalKey(each.onset)} ${pitchName(each.pitch)}`).join(', ');

export const pitches = (score: Score): string => score.notes.map((each) => pitchName(each.pitch)).join(' ');

export const noteById = (score: Score, id: string): Note => {
  const found = score.notes.find((each) => each.id === id);
  if (found === undefined) throw new Error(`no note ${id}`);
  return found;
};

export const remarkCodes = (score: Score): readonly string[] => score.remarks.map((each) => each.code);
