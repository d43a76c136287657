import type { Plan } from '../../engine/pedals/model.ts';
import { planPedals } from '../../engine/pedals/plan.ts';
import { unpackScore } from '../../engine/score/file/container.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { openScore } from '../../engine/score/open.ts';
import { chooseMarkings, type Marking } from '../../render/markings/markings.ts';
import { annotateSource } from '../../render/source/annotate-source.ts';
import { foreignMarkings, withoutOwnMarkings } from '../../render/source/our-markings.ts';
import { repackScore } from '../../render/source/repack.ts';
import { isThorough, oneIn } from '../thorough.ts';
import { readScoreFile, SMALLER_HARP_SCORES } from './harp-scores.ts';

/** Scores that name no harp are annotated at the part with most staves and notes: what is tested here is the file. */
export const SOURCE_SCORES: readonly string[] = [
  ...oneIn(2, SMALLER_HARP_SCORES).map(({ file }) => file),
  // Its printed markings are those of others.
  ...(isThorough ? [] : ["openscore-orchestra/D'un_matin_de_printemps.mxl"]),
  'mei-samples/MEI_3.0_Bach_BrandenburgConcert_No.4_I.mei',
  'mei-samples/MEI_4.0_Beethoven_StringQuartet_Op18_No1.mei',
  'mei-samples/MEI_5.0_Handel_Messias.mei',
  'mei-samples/MEI_5.1_Schumann_StringQuartet_Op41_No1.mei',
  'collabscore/C456_0.mei',
  'libmusicxml/AltiplanoIllFormed.xml',
  'libmusicxml/ConnectedArpeggios.xml',
  'libmusicxml/OrganExample2.xml',
  'w3c-examples/arpeggiate-element.musicxml',
  'w3c-examples/damp-all-element.musicxml',
  'w3c-examples/damp-element.musicxml',
  'w3c-examples/glissando-element-multiple.musicxml',
  'w3c-examples/glissando-element-single.musicxml',
  'w3c-examples/harp-pedals-element.musicxml',
  'w3c-examples/octave-shift-element.musicxml',
  'w3c-examples/tremolo-element-double.musicxml',
];

/** Two full orchestral scores that take half a minute together; read where `TRINGLE_THOROUGH=1` is set. */
export const LONG_SCORES: readonly string[] = [
  'openscore-orchestra/Beach_Op.32_1.mxl',
  'openscore-orchestra/Beethoven_Op.125_4.mxl',
];

/** One score annotated, read again, and annotated again. */
export interface RoundTrip {
  readonly score: Score;
  readonly plan: Plan;
  readonly markings: readonly Marking[];
  /** The score file as it came, and annotated once and twice; archives whole. */
  readonly scoreBytes: Uint8Array;
  readonly once: Uint8Array;
  readonly twice: Uint8Array;
  /** The annotated file as read. */
  readonly read: Score;
}

const known = new Map<string, RoundTrip>();

/** Annotates a score there and back; done once for all tests of it. */
export const roundTrip = (file: string): RoundTrip => {
  const trip = known.get(file) ?? makeRoundTrip(file);
  known.set(file, trip);
  return trip;
};

const makeRoundTrip = (file: string): RoundTrip => {
  const bytes = readScoreFile(file);
  const score = openAnyPart(bytes);
  const part = score.harp.partIds[0]!;
  const first = annotate(score, bytes);
  const read = open(first.bytes, score.harp.partIds.length === 1 ? part : undefined);
  const unpacked = unpackScore(bytes);
  if (!unpacked.ok) throw new Error(JSON.stringify(unpacked.problem));
  return {
    score,
    plan: first.plan,
    markings: first.markings,
    scoreBytes: unpacked.value.bytes,
    once: first.bytes,
    twice: annotate(read, first.bytes).bytes,
    read,
  };
};

const annotate = (score: Score, bytes: Uint8Array) => {
  const unmarked = withoutOwnMarkings(score);
  const plan = planPedals(unmarked);
  const markings = chooseMarkings(unmarked, plan);
  const done = annotateSource(unmarked, markings, { others: 'keep' });
  if (!done.ok) throw new Error(JSON.stringify(done.problem));
  const packed = repackScore(bytes, score.source.archivePath, done.value.bytes);
  if (!packed.ok) throw new Error(JSON.stringify(packed.problem));
  return { plan, markings, bytes: packed.value };
};

const open = (bytes: Uint8Array, part?: string): Score => {
  const opened = openScore(bytes, part === undefined ? {} : { part });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problem));
  return opened.value;
};

const openAnyPart = (bytes: Uint8Array): Score => {
  const opened = openScore(bytes);
  if (opened.ok) return opened.value;
  if (opened.problem.code !== 'harp-not-found') throw new Error(JSON.stringify(opened.problem));
  const [fullest] = opened.problem.parts.toSorted((a, b) => b.staves - a.staves || b.notes - a.notes);
  return open(bytes, fullest!.id);
};

/** The annotated score with our own markings alone, as where those of others are replaced. */
export const withOwnMarkingsAlone = (read: Score): Score => {
  const others = new Set(foreignMarkings(read).map((marking) => marking.span.start));
  return { ...read, markings: read.markings.filter((marking) => !others.has(marking.span.start)) };
};

/** Our elements cut out by their ids and the white space before them: shares no code with what wrote them. */
export const withoutInsertions = (text: string): string =>
  text.replace(
    /\s*<((?:\w+:)?(?:direction|harpPedal|dir)) (?:placement="below" )?(?:xml:)?id="tringle-[^>]*(?:\/>|>.*?<\/\1>)/gs,
    '',
  );
