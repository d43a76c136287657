import { type Rational, subtract } from '../../../music/rational.ts';
import type { XmlElement } from '../../../xml/tree.ts';
import type { NoteDraft } from '../draft.ts';
import type { Ids } from '../ids.ts';
import type { ReadLog } from '../log.ts';
import type { LayerReading } from '../notes/layer.ts';
import { copyNote } from '../notes/notes.ts';
import { readInteger } from '../values.ts';

/** A bar that repeat signs may go back to: its start, and the notes of each layer, copies included. */
export interface PastBar {
  readonly onset: Rational;
  readonly layers: readonly {
    readonly staff: string;
    readonly layer: string;
    readonly notes: readonly NoteDraft[];
  }[];
}

/** Copies what signs for repeated bars stand for, bar by bar. */
export interface BarRepeater {
  /**
   * The notes that a layer repeats from earlier bars.
   *
   * @param alone whether it is the only layer of its staff: then all layers of the earlier bar are repeated
   */
  readonly repeat: (
    layer: LayerReading,
    alone: boolean,
    past: readonly PastBar[],
    onset: Rational,
  ) => readonly NoteDraft[];
}

/** More bars than this are never repeated by one sign. */
const MAX_REPEATED = 100;

const barsBack = (sign: XmlElement, log: ReadLog): number => {
  if (sign.name === 'mRpt') return 1;
  return sign.name === 'mRpt2' ? 2 : (readInteger(sign, 'num', [1, MAX_REPEATED], log) ?? 1);
};

/**
 * `mRpt` repeats the bar before it. `mRpt2` and `multiRpt` stand for as many bars as they repeat: each of these bars
 * repeats the one that lies as many bars back, whether the sign stands in it again or its layer is left empty.
 */
export const startRepeater = (ids: Ids, log: ReadLog): BarRepeater => {
  const running = new Map<
    string,
    { readonly sign: XmlElement; readonly back: number; readonly till: number }
  >();
  const signIn = (layer: LayerReading): { readonly sign: XmlElement; readonly back: number } | undefined => {
    const { wholeBar, place } = layer;
    if (wholeBar?.name === 'mRpt' || wholeBar?.name === 'mRpt2' || wholeBar?.name === 'multiRpt') {
      const back = barsBack(wholeBar, log);
      running.set(place.staff, { sign: wholeBar, back, till: place.bar + back - 1 });
      return { sign: wholeBar, back };
    }
    const now = running.get(place.staff);
    const empty =
      layer.notes.length === 0 &&
      layer.rests.length === 0 &&
      (wholeBar === null || wholeBar.name === 'mSpace');
    return now !== undefined && empty && place.bar <= now.till ? now : undefined;
  };
  return {
    repeat: (layer, alone, past, onset) => {
      const found = signIn(layer);
      if (found === undefined) return [];
      const { bar, staff, layer: n } = layer.place;
      const model = past[bar - found.back];
      if (model === undefined) log.skip('a repeat sign with too few bars before it', bar);
      const names = new Map<string, string>();
      return (model?.layers ?? [])
        .filter((each) => each.staff === staff && (alone || each.layer === n))
        .flatMap((each) => each.notes)
        .map((note) =>
          copyNote(note, { bar, shift: subtract(onset, model!.onset), sign: found.sign, names }, { ids }),
        );
    },
  };
};
