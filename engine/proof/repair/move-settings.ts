import { LETTERS, type Letter } from '../../music/pitch.ts';
import { compare } from '../../music/rational.ts';
import type { FixPlace } from '../model.ts';
import type { LetterTrack, Statement, TrackStep } from './letter-track.ts';
import type { BarPasses } from './passes.ts';
import type { Places } from './place-edits.ts';
import { type LetterRepair, REPAIR_PRICES, repairLetter } from './repair-letter.ts';

/** A full setting that stands elsewhere, or not at all. */
export type SettingEdit =
  | { readonly kind: 'move-marking'; readonly marking: number; readonly place: FixPlace }
  | { readonly kind: 'remove-marking'; readonly marking: number };

/** Bars away from its place that a setting may be meant for. */
const MOST_BARS = 2;

/**
 * Looks for settings that are right but in the wrong place, or too many: where several entries of one would have to be
 * corrected, it is tried elsewhere, and without it.
 */
export const findMovedSettings = (
  tracks: ReadonlyMap<Letter, LetterTrack>,
  passes: readonly BarPasses[],
  base: ReadonlyMap<Letter, LetterRepair>,
  places: Places,
): { readonly repairs: ReadonlyMap<Letter, LetterRepair>; readonly settings: readonly SettingEdit[] } => {
  let repairs = base;
  const settings: SettingEdit[] = [];
  for (const [marking, altered] of alteredEntries(base)) {
    if (altered.length < 2) continue;
    const { at, bar } = altered[0]!;
    const tries: readonly (FixPlace | null)[] = [null, ...places.about(at, bar, MOST_BARS)];
    let best: { repairs: ReadonlyMap<Letter, LetterRepair>; edit: SettingEdit; cost: number } | null = null;
    for (const place of tries) {
      const price = REPAIR_PRICES.edit + (place === null ? REPAIR_PRICES.remove : REPAIR_PRICES.move);
      const most = Math.min(best?.cost ?? Number.POSITIVE_INFINITY, totalOf(repairs));
      const found = repairWithout(tracks, passes, marking, place, most - price);
      if (found === null) continue;
      const cost = totalOf(found) + price;
      if (cost >= most) continue;
      const edit: SettingEdit =
        place === null ? { kind: 'remove-marking', marking } : { kind: 'move-marking', marking, place };
      best = { repairs: found, edit, cost };
    }
    if (best === null) continue;
    repairs = best.repairs;
    settings.push(best.edit);
  }
  return { repairs, settings };
};

const totalOf = (repairs: ReadonlyMap<Letter, LetterRepair>): number =>
  [...repairs.values()].reduce((sum, { cost, unmet }) => sum + cost + unmet * REPAIR_PRICES.unmet, 0);

const alteredEntries = (
  base: ReadonlyMap<Letter, LetterRepair>,
): ReadonlyMap<number, readonly Statement[]> => {
  const found = new Map<number, Statement[]>();
  for (const { edits } of base.values()) {
    for (const edit of edits) {
      if (edit.kind !== 'alter' || !edit.statement.inSetting) continue;
      const { marking } = edit.statement;
      found.set(marking, [...(found.get(marking) ?? []), edit.statement]);
    }
  }
  return found;
};

/** All pedals with a setting elsewhere, or nowhere; null as soon as it costs too much. */
const repairWithout = (
  tracks: ReadonlyMap<Letter, LetterTrack>,
  passes: readonly BarPasses[],
  marking: number,
  place: FixPlace | null,
  most: number,
): ReadonlyMap<Letter, LetterRepair> | null => {
  const found = new Map<Letter, LetterRepair>();
  for (const letter of LETTERS) {
    const track = tracks.get(letter)!;
    const entry = track.bars
      .flatMap((bar) => bar.flatMap(({ statements }) => statements))
      .find((statement) => statement.marking === marking);
    const step = place === null ? undefined : firstStepFrom(track, place);
    const also =
      step === undefined || entry === undefined ? [] : [{ step, position: entry.position, inWords: false }];
    found.set(letter, repairLetter(track, passes, { without: entry === undefined ? [] : [entry], also }));
    if (totalOf(found) >= most) return null;
  }
  return found;
};

const firstStepFrom = ({ bars }: LetterTrack, { at, bar }: FixPlace): TrackStep | undefined => {
  for (const steps of bars.slice(bar)) {
    const found = steps.find((step) => compare(step.at, at) >= 0);
    if (found !== undefined) return found;
  }
  return undefined;
};
