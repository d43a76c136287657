import type { Severity } from './severity.ts';

/** A finding, as far as it says which places cannot be played. */
interface Placed<Place> {
  readonly severity: string;
  readonly places: readonly Place[];
}

/** The places that cannot be played, those of one passage too, each with its finding: in the order of the findings. */
export const stopPlaces = <Found extends Placed<unknown>>(
  findings: readonly Found[],
): readonly { readonly finding: Found; readonly place: Found['places'][number] }[] =>
  findings.flatMap((finding) =>
    finding.severity === 'stop' ? finding.places.map((place) => ({ finding, place })) : [],
  );

/** Whether a part can be played as printed, and the bar (an index) in which it first cannot. */
export const playability = (
  findings: readonly Placed<{ readonly bar: number }>[],
): { readonly playable: boolean; readonly firstFailure: number | null } => {
  const bars = stopPlaces(findings).map(({ place }) => place.bar);
  return { playable: bars.length === 0, firstFailure: bars.length === 0 ? null : Math.min(...bars) };
};

/** How many places findings of a severity tell of, wherever places are counted: a passage has several. */
export const countPlaces = (
  findings: readonly { readonly severity: string; readonly places: readonly unknown[] }[],
  severity: Severity,
): number => findings.reduce((sum, each) => sum + (each.severity === severity ? each.places.length : 0), 0);
