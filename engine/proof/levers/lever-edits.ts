import { group } from '../../group.ts';
import type { LeverAt } from '../../harp/lever-name.ts';
import { type OpenTuning, openAlter } from '../../harp/open-tuning.ts';
import type { HarpString } from '../../harp/profile.ts';
import type { Position } from '../../harp/setting.ts';
import { letterAtStep } from '../../music/pitch.ts';
import { equals, rationalKey, toNumber } from '../../music/rational.ts';
import { mapNonEmpty, type NonEmpty } from '../../non-empty.ts';
import type { Score } from '../../score/model/score.ts';
import type { Statement } from '../letter/letter-track.ts';
import type { FixPlace, MarkingFix } from '../model.ts';
import type { DraftEdit } from '../repair/draft-edits.ts';
import { isInAll, type Places } from '../repair/place-edits.ts';
import type { LeverFix } from './model.ts';
import type { StatedLevers, StrayName } from './stated-levers.ts';
import type { StringPart } from './string-parts.ts';

/** An edit of one string in the making, or a name of one that is meant for another. */
export type LeverDraft =
  | { readonly kind: 'own'; readonly part: StringPart; readonly draft: DraftEdit }
  | {
      readonly kind: 'rename';
      readonly part: StringPart;
      readonly statement: Statement;
      readonly to: StringPart;
      readonly position: Position;
    }
  /** A name that no lever gives, corrected to what is missing, or taken out. */
  | {
      readonly kind: 'stray';
      readonly stray: StrayName;
      readonly to: { readonly part: StringPart; readonly position: Position } | null;
    };

/** What one edit does to the parts of its strings. */
export interface StringFix {
  readonly step: number;
  readonly fixes: readonly MarkingFix[];
}

/** One edit of the file, and the same as the parts of its strings see it. */
export interface LeverGroup {
  readonly fixes: NonEmpty<LeverFix>;
  readonly views: readonly StringFix[];
}

/** What a string gives with its lever in a position. */
export const alterWith = (tuning: OpenTuning, string: HarpString, position: number): number =>
  openAlter(tuning, string) + position;

interface OneFix {
  /** Those of one key are one edit. */
  readonly key: string;
  readonly fix: LeverFix;
  readonly views: readonly StringFix[];
}

const strayFix = (
  { stray: { marking, name }, to }: LeverDraft & { readonly kind: 'stray' },
  places: Places,
  tuning: OpenTuning,
  { leverWords }: Score,
): OneFix => {
  const { at, bar } = leverWords[marking]!;
  const key = `stray ${marking} ${name.start}`;
  const written = { marking, beside: [] } as const;
  const string = { letter: name.letter, octave: name.octave ?? to?.part.string.octave ?? ANY_OCTAVE };
  if (to === null) return { key, fix: { kind: 'remove', ...written, string }, views: [] };
  const { part, position } = to;
  const { letter } = part.string;
  return {
    key,
    fix: {
      kind: 'rename',
      ...written,
      string,
      to: part.string,
      alter: alterWith(tuning, part.string, position),
    },
    views: [{ step: part.step, fixes: [{ kind: 'add', letter, position, ...places.at(bar, at) }] }],
  };
};

/** Of a name without an octave any string of its letter tells where it stands. */
const ANY_OCTAVE = 4;

/** The edits as one would make them in the file, several levers in one marking: in order of place. */
export const gatherLeverEdits = (
  drafts: readonly LeverDraft[],
  places: Places,
  tuning: OpenTuning,
  score: Score,
  stated: StatedLevers,
): readonly LeverGroup[] => {
  const made = drafts.map((draft) =>
    draft.kind === 'stray'
      ? strayFix(draft, places, tuning, score)
      : toFix(draft, { places, tuning, stated }),
  );
  return [...group(made, ({ key }) => key).values()]
    .map((alike) => ({
      fixes: mapNonEmpty(alike, ({ fix }) => fix),
      views: alike.flatMap(({ views }) => views),
    }))
    .sort((a, b) => placeOfLeverFix(a.fixes[0], score) - placeOfLeverFix(b.fixes[0], score));
};

/** What every kind of edit needs to know to be told. */
interface EditContext {
  readonly places: Places;
  readonly tuning: OpenTuning;
  readonly stated: StatedLevers;
}

const toFix = (each: Exclude<LeverDraft, { readonly kind: 'stray' }>, context: EditContext): OneFix => {
  if (each.kind === 'rename') return renameFix(each, context);
  const { edit, place } = each.draft;
  switch (edit.kind) {
    case 'add':
      return addFix(each.part, edit, place!, context);
    case 'move':
      return moveFix(each.part, edit, place!, context);
    case 'alter':
      return alterFix(each.part, edit, context);
    case 'remove': {
      const { marking } = edit.statement;
      const { string } = each.part;
      return {
        key: `remove ${marking}`,
        fix: { kind: 'remove', ...writtenAt(each.part, marking, context), string },
        views: viewOf(each.part, { kind: 'remove', marking, letter: string.letter }),
      };
    }
    default:
      throw new Error(`no edit of one lever: ${edit.kind}`);
  }
};

type EditOf<Kind> = Extract<DraftEdit['edit'], { readonly kind: Kind }>;

const viewOf = ({ step }: StringPart, fix: MarkingFix): readonly StringFix[] => [{ step, fixes: [fix] }];

/** Where the file says it: a string's own part counts its state before the start as marking 0. */
const writtenAt = ({ step }: StringPart, marking: number, { stated, tuning }: EditContext) => ({
  marking: marking - 1,
  beside: listBeside(stated, tuning, marking - 1, step),
});

const renameFix = (
  { part, statement, to, position }: LeverDraft & { readonly kind: 'rename' },
  context: EditContext,
): OneFix => {
  const { marking, at, bar } = statement;
  const { string, step } = part;
  const { letter } = to.string;
  return {
    key: `rename ${marking} ${step}`,
    fix: {
      kind: 'rename',
      ...writtenAt(part, marking, context),
      string,
      to: to.string,
      alter: alterWith(context.tuning, to.string, position),
    },
    views: [
      ...viewOf(part, { kind: 'remove', marking, letter: string.letter }),
      ...viewOf(to, { kind: 'add', letter, position, ...context.places.at(bar, at) }),
    ],
  };
};

const addFix = (
  part: StringPart,
  { kind, position, window }: EditOf<'add'>,
  place: FixPlace,
  { places, tuning }: EditContext,
): OneFix => {
  const { string } = part;
  const isAtStart = isInAll([window], places.start.at) && equals(place.at, places.start.at);
  return {
    key: isAtStart ? 'start' : `add ${rationalKey(place.at)}`,
    fix: { kind, string, alter: alterWith(tuning, string, position), ...place },
    views: viewOf(part, { kind, letter: string.letter, position, ...place }),
  };
};

const moveFix = (
  part: StringPart,
  { kind, statement: { marking, position } }: EditOf<'move'>,
  place: FixPlace,
  context: EditContext,
): OneFix => {
  const { string } = part;
  const alter = alterWith(context.tuning, string, position);
  return {
    key: `move ${marking} ${rationalKey(place.at)}`,
    fix: { kind, ...writtenAt(part, marking, context), string, alter, ...place },
    views: viewOf(part, { kind, marking, letter: string.letter, ...place }),
  };
};

const alterFix = (
  part: StringPart,
  { kind, statement: { marking }, position }: EditOf<'alter'>,
  context: EditContext,
): OneFix => {
  const { string, step } = part;
  const alter = alterWith(context.tuning, string, position);
  const views = viewOf(part, { kind, marking, letter: string.letter, position });
  // How a lever stands before the start of which nothing tells is not in the file: it has to be told.
  if (marking === 0)
    return { key: 'start', fix: { kind: 'add', string, alter, ...context.places.start }, views };
  return {
    key: `alter ${marking} ${step}`,
    fix: { kind, ...writtenAt(part, marking, context), string, alter },
    views,
  };
};

/** When what a fix changes stands in the score, in quarter notes. */
export const placeOfLeverFix = (fix: LeverFix, { leverWords }: Score): number =>
  toNumber('at' in fix ? fix.at : leverWords[fix.marking]!.at);

/** The other strings of which the name tells that tells of one; null where no name does. */
export const listBeside = (
  { said }: StatedLevers,
  tuning: OpenTuning,
  marking: number,
  step: number,
): readonly LeverAt[] | null => {
  const name = said[marking]!.get(step)?.name;
  if (name == null) return null;
  return [...said[marking]!].flatMap(([other, statement]): LeverAt[] => {
    if (other === step || statement.name !== name) return [];
    const string = letterAtStep(other);
    return [{ string, alter: alterWith(tuning, string, statement.place) }];
  });
};
