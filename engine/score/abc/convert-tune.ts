import { ok, type Result } from '../../problem.ts';
import { type Remark, remarkOnAll } from '../model/remark.ts';
import { chooseTune, readTuneBook } from './book/tune-book.ts';
import { writeMei } from './mei/write-mei.ts';
import { writeMusicXml } from './musicxml/write-musicxml.ts';
import { readTune } from './read-tune.ts';
import type { Tune } from './tune.ts';

/** A tune as the text of a score file, and what of it was not carried over. */
export interface ConvertedTune {
  readonly text: string;
  /** Whether its part has a name of our making, by which the harp is found, and none of its own. */
  readonly isUnnamed: boolean;
  readonly remarks: readonly Remark[];
}

/** The formats that a tune can be written out in, its own first. */
export const TUNE_FORMATS = ['mei', 'musicxml'] as const;

/** The format of one that is written out. */
export type TuneFormat = (typeof TUNE_FORMATS)[number];

const WRITERS: Readonly<Record<TuneFormat, (tune: Tune, partName: string) => string>> = {
  mei: writeMei,
  musicxml: writeMusicXml,
};

const PART_NAME = 'Harp';

/** So many staves are the harp’s, whatever their names. */
const MOST_OF_ONE_HARP = 2;

/**
 * Turns one tune of an ABC file into a score file of our own. One staff or two are the harp's, whatever their names.
 *
 * @param wanted number or title of the tune; the only tune if not given
 * @returns `choose-tune` or `unknown-tune` where it is not clear which tune, `bad-tune`, `no-music`, `limit-exceeded`
 */
export const convertTune = async (
  text: string,
  wanted: string | undefined,
  format: TuneFormat,
): Promise<Result<ConvertedTune>> => {
  const book = readTuneBook(text);
  if (!book.ok) return book;
  const chosen = chooseTune(book.value, wanted);
  if (!chosen.ok) return chosen;
  const read = await readTune(book.value, chosen.value);
  if (!read.ok) return read;
  const { tune, remarks } = read.value;
  return ok({
    text: WRITERS[format](tune, PART_NAME),
    isUnnamed: tune.staves.length <= MOST_OF_ONE_HARP,
    remarks: [...handsRemark(tune), ...remarks],
  });
};

const handsRemark = ({ staves }: Tune): readonly Remark[] => {
  const [upper, lower, more] = staves;
  if (upper === undefined || lower === undefined || more !== undefined) return [];
  const message = `${upper.name || 'The first voice'} and ${lower.name || 'the second'} are read as the two hands of one harp.`;
  return [remarkOnAll('harp-chosen', message)];
};
