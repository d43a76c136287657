import { group } from 'd3-array';
import { firstFixes, type NoteChange, type PedalFinding, pitchName } from '../../../../engine/index.ts';
import type { LikeChange } from '../../strings/finding-strings.ts';

/** So many findings that are alike are told as one. */
const FEWEST_ALIKE = 3;

/** Puts what is alike together, where the first of it stands; what has too few like it stays by itself. */
export const gatherAlike = <
  Item extends { readonly at: number; readonly finding: { readonly alike: string } },
>(
  items: readonly Item[],
): readonly (readonly Item[])[] => {
  const byLikeness = group(items, ({ finding }) => finding.alike);
  const keyOf = ({ at, finding: { alike } }: Item): string | number =>
    byLikeness.get(alike)!.length < FEWEST_ALIKE ? at : alike;
  return [...group(items, keyOf).values()];
};

/** `C♭5` without its octave: what is done to it is the same in each. */
const nameAnywhere = (pitch: Parameters<typeof pitchName>[0]): string =>
  pitchName(pitch).replace(/-?\d+$/u, '');

const likeChange = (change: NoteChange): LikeChange =>
  change.kind === 'respell'
    ? { kind: 'respell', from: nameAnywhere(change.from), to: nameAnywhere(change.to) }
    : { kind: 'omit' };

/** What the first fixes of a finding do, each once, in one order. */
export const likeChanges = (finding: PedalFinding): readonly LikeChange[] => {
  const changes = firstFixes(finding).flatMap((fix) => fix.changes.map(likeChange));
  const once = new Map(changes.map((each) => [JSON.stringify(each), each]));
  return [...once].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, each]) => each);
};

/** By what findings are alike: of one kind, one severity and one fix. */
export const likenessOf = (finding: PedalFinding): string =>
  JSON.stringify([finding.severity, finding.code, likeChanges(finding)]);
