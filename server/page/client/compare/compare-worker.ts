import {
  COMPARE_CATALOGUE,
  CONCERT_HARP,
  type Comparing,
  comparingHarps,
  comparingPedalKeys,
  DEFAULT_COMPARE_OPTIONS,
  HARPS,
  LEVER_HARP,
  leverOptionsFor,
  nameKey,
  openScoreFile,
  pedalOptionsFor,
  problemMessage,
  readMode,
  type Score,
} from '../../../../engine/index.ts';
import { withoutOwnMarkings } from '../../../../render/pure.ts';
import type { CompareQuestion, CompareReport } from './compare-messages.ts';

const post = (report: CompareReport): void => postMessage(report);

/** Works it out and tells each step: whoever has enough ends this thread. */
const tellSteps = <T>(comparing: Comparing<T>): T => {
  let step = comparing.next();
  for (; step.done !== true; step = comparing.next()) post({ kind: 'step', ...step.value });
  return step.value;
};

const MOST_SEMITONES = COMPARE_CATALOGUE.maxSemitones.default;

const compare = (score: Score, asked: CompareQuestion): CompareReport => {
  const mode = readMode(score);
  const named = <Key extends { readonly keyFifths: number }>(key: Key) => ({
    ...key,
    keyName: nameKey(key.keyFifths, mode),
  });
  const profile = HARPS[asked.instrument];
  if (asked.kind === 'keys') {
    const options = {
      ...pedalOptionsFor(asked.choices),
      profile: profile.kind === 'pedal' ? profile : CONCERT_HARP,
    };
    return { kind: 'keys', keys: tellSteps(comparingPedalKeys(score, options, MOST_SEMITONES)).map(named) };
  }
  const lever = {
    ...leverOptionsFor(asked.choices),
    profile: profile.kind === 'lever' ? profile : LEVER_HARP,
  };
  const found = tellSteps(comparingHarps(score, { ...DEFAULT_COMPARE_OPTIONS, lever }));
  return {
    kind: 'harps',
    harps: {
      pedal: found.pedal,
      lever: found.lever,
      keyName: nameKey(score.bars[0]?.keyFifths ?? 0, mode),
      transpositions: found.transpositions.map(named),
    },
  };
};

const answer = async (asked: CompareQuestion): Promise<void> => {
  const { bytes, fileName, part, tune } = asked;
  const read = await openScoreFile(bytes, {
    fileName,
    ...(part === null ? {} : { part }),
    ...(tune === null ? {} : { tune }),
  });
  // It is open already: what is refused here would be a bug.
  if (!read.ok) throw new Error(problemMessage(read.problem));
  post(compare(withoutOwnMarkings(read.value), asked));
};

addEventListener('message', ({ data }: MessageEvent<CompareQuestion>) => {
  answer(data).catch((bug: unknown) =>
    setTimeout(() => {
      throw bug;
    }),
  );
});
