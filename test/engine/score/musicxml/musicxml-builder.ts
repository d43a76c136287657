import { type Pitch, pitchName } from '../../../../engine/music/pitch.ts';
import { type Rational, rationalKey } from '../../../../engine/music/rational.ts';
import type { Problem } from '../../../../engine/problem.ts';
import type { Note } from '../../../../engine/score/model/note.ts';
import type { Score } from '../../../../engine/score/model/score.ts';
import { openScore } from '../../../../engine/score/open.ts';

/** Divisions of a quarter note in the scores built here: room for triplets, quintuplets and 64ths. */
export const DIVISIONS = 240;

export interface NoteOptions {
  readonly id?: string;
  readonly chord?: boolean;
  readonly staff?: number;
  readonly voice?: string;
  readonly grace?: 'slashed' | 'plain';
  readonly cue?: boolean;
  readonly hidden?: boolean;
  readonly accidental?: string;
  readonly stem?: 'up' | 'down';
  /** Types of `tie`, as `['stop', 'start']`. */
  readonly ties?: readonly string[];
  /** Content of `notations`. */
  readonly notations?: string;
}

const ALTER: Readonly<Record<string, number>> = { '': 0, '#': 1, b: -1, '##': 2, bb: -2, '+': 0.5 };

/** `pitch` such as `C4`, `F#5`, `Bb3`; `quarters` its length in quarter notes (ignored for grace notes). */
export const note = (pitch: string, quarters = 1, options: NoteOptions = {}): string => {
  const [, step, sign, octave] = /^([A-Z])(.*?)(\d)$/u.exec(pitch)!;
  const alter = ALTER[sign!]!;
  const ties = (options.ties ?? []).map((type) => `<tie type="${type}"/>`).join('');
  const attributes = [
    options.id === undefined ? '' : ` id="${options.id}"`,
    options.hidden ? ' print-object="no"' : '',
  ].join('');
  const grace =
    options.grace === undefined ? '' : `<grace${options.grace === 'slashed' ? ' slash="yes"' : ''}/>`;
  return [
    `<note${attributes}>`,
    grace,
    options.cue ? '<cue/>' : '',
    options.chord ? '<chord/>' : '',
    `<pitch><step>${step}</step>${alter === 0 ? '' : `<alter>${alter}</alter>`}<octave>${octave}</octave></pitch>`,
    grace === '' ? `<duration>${quarters * DIVISIONS}</duration>` : '',
    ties,
    `<voice>${options.voice ?? '1'}</voice>`,
    options.accidental === undefined ? '' : `<accidental>${options.accidental}</accidental>`,
    options.stem === undefined ? '' : `<stem>${options.stem}</stem>`,
    `<staff>${options.staff ?? 1}</staff>`,
    options.notations === undefined ? '' : `<notations>${options.notations}</notations>`,
    '</note>',
  ].join('');
};

export const rest = (quarters: number, options: { staff?: number; voice?: string } = {}): string =>
  `<note><rest/><duration>${quarters * DIVISIONS}</duration><voice>${options.voice ?? '1'}</voice><staff>${options.staff ?? 1}</staff></note>`;

export const backup = (quarters: number): string =>
  `<backup><duration>${quarters * DIVISIONS}</duration></backup>`;

export const forward = (quarters: number): string =>
  `<forward><duration>${quarters * DIVISIONS}</duration></forward>`;

/** `type` is the content of `direction-type`; `after` what follows it, such as an offset, a staff or a sound. */
export const direction = (type: string, after = ''): string =>
  `<direction><direction-type>${type}</direction-type>${after}</direction>`;

export const words = (text: string, after = ''): string => direction(`<words>${text}</words>`, after);

export const barline = (content: string, location: 'left' | 'right' = 'right'): string =>
  `<barline location="${location}">${content}</barline>`;

export const FORWARD = barline('<repeat direction="forward"/>', 'left');
export const BACKWARD = barline('<repeat direction="backward"/>');

export interface BarOptions {
  readonly number?: string;
  readonly attributes?: string;
  /** Further attributes of the `measure` element. */
  readonly more?: string;
}

/** One bar as it will be numbered by its place; `attributes` is the content of that element. */
export const bar =
  (content: string, options: BarOptions = {}) =>
  (index: number): string =>
    `<measure number="${options.number ?? index + 1}"${options.more ?? ''}>${
      index === 0 ? `<attributes><divisions>${DIVISIONS}</divisions></attributes>` : ''
    }${options.attributes === undefined ? '' : `<attributes>${options.attributes}</attributes>`}${content}</measure>`;

export type BuiltBar = ReturnType<typeof bar>;

export interface PartOptions {
  readonly id: string;
  readonly name: string;
  readonly bars: readonly (BuiltBar | string)[];
  /** Further content of `score-part`. */
  readonly list?: string;
}

export const buildScore = (parts: readonly PartOptions[], header = ''): string => {
  const list = parts
    .map(
      ({ id, name, list: more = '' }) =>
        `<score-part id="${id}"><part-name>${name}</part-name>${more}</score-part>`,
    )
    .join('');
  const bodies = parts.map(({ id, bars }) => {
    const built = bars.map((each, index) => (typeof each === 'string' ? bar(each) : each)(index));
    return `<part id="${id}">${built.join('\n')}</part>`;
  });
  return `<?xml version="1.0" encoding="UTF-8"?>\n<score-partwise version="4.0">${header}<part-list>${list}</part-list>${bodies.join('\n')}</score-partwise>`;
};

/** A score of one harp part; a bar may be its bare content. */
export const buildHarp = (...bars: readonly (BuiltBar | string)[]): string =>
  buildScore([{ id: 'P1', name: 'Harp', bars }]);

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);

/** The score as read; fails with the problem if it is refused. */
export const readScore = (xml: string, part?: string): Score => {
  const result = openScore(encode(xml), part === undefined ? {} : { part });
  if (!result.ok) throw new Error(JSON.stringify(result.problem));
  return result.value;
};

export const readHarp = (...bars: readonly (BuiltBar | string)[]): Score => readScore(buildHarp(...bars));

/** The problem for which a score is refused; fails if it is read. */
export const readProblem = (xml: string, part?: string): Problem => {
  const result = openScore(encode(xml), part === undefined ? {} : { part });
  if (result.ok) throw new Error('the score was read');
  return result.problem;
};

export const pitches = (score: Score): readonly string[] => score.notes.map((each) => pitchName(each.pitch));

/** Onsets in quarter notes, as `3/2`. */
export const onsets = (score: Score): readonly string[] => score.notes.map((each) => rationalKey(each.onset));

export const quarters = (time: Rational): string => rationalKey(time);

export const nameOf = (pitch: Pitch | null): string | null => (pitch === null ? null : pitchName(pitch));

/** The note of that name, such as `C♯4`: the first in order of time. */
export const noteNamed = (score: Score, name: string): Note => {
  const found = score.notes.find((each) => pitchName(each.pitch) === name);
  if (found === undefined) throw new Error(`no ${name} among ${pitches(score).join(' ')}`);
  return found;
};

export const remarkCodes = (score: Score): readonly string[] => score.remarks.map((remark) => remark.code);
