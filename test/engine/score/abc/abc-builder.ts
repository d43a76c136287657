import { pitchName } from '../../../../engine/music/pitch.ts';
import { rationalKey } from '../../../../engine/music/rational.ts';
import type { Note } from '../../../../engine/score/model/note.ts';
import type { Score } from '../../../../engine/score/model/score.ts';
import { type OpenFileOptions, openScoreFile } from '../../../../engine/score/open-file.ts';

/** A tune in C and 4/4 with eighth notes, unless `head` says otherwise. */
export const tune = (music: string, head = 'M:4/4\nL:1/8\nK:C'): string => `X:1\nT:Test\n${head}\n${music}\n`;

export const openAbc = (text: string, options: OpenFileOptions = {}) =>
  openScoreFile(new TextEncoder().encode(text), options);

export const readAbc = async (text: string, options: OpenFileOptions = {}): Promise<Score> => {
  const opened = await openAbc(text, options);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problem));
  return opened.value;
};

/** A note as `F♯4/1/2`: pitch and length in quarter notes. */
export const say = ({ pitch, duration, grace }: Note): string =>
  `${grace === null ? '' : 'grace '}${pitchName(pitch)}${grace === null ? `/${rationalKey(duration)}` : ''}`;

/** All notes of a tune in order. */
export const sayNotes = async (music: string, head?: string): Promise<string> =>
  (await readAbc(tune(music, head))).notes.map(say).join(' ');

/** What is told as lost. */
export const lossesOf = async (text: string): Promise<readonly string[]> =>
  (await readAbc(text)).remarks.filter(({ code }) => code === 'skipped').map(({ message }) => message);
