import { type OpenTuning, openAlter } from '../../harp/open-tuning.ts';
import type { HarpString } from '../../harp/profile.ts';
import type { Position } from '../../harp/setting.ts';
import { letterAtStep } from '../../music/pitch.ts';
import { equals, rationalKey, toNumber } from '../../music/rational.ts';
import type { Score } from '../../score/model/score.ts';
import type { Statement } from '../letter/letter-track.ts';
import type { MarkingFix } from '../model.ts';
import type { DraftEdit } from '../repair/draft-edits.ts';
import { isInAll, type Places } from '../repair/place-edits.ts';
import type { LeverAt, LeverFix } from './model.ts';
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
  readonly fixes: readonly LeverFix[];
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
  const groups = new Map<string, { fixes: LeverFix[]; views: StringFix[] }>();
  for (const { key, fix, views } of drafts.map((draft) =>
    draft.kind === 'stray' ? strayFix(draft, places, tuning, score) : toFix(draft, places, tuning, stated),
  )) {
    const known = groups.get(key) ?? { fixes: [], views: [] };
    groups.set(key, known);
    known.fixes.push(fix);
    known.views.push(...views);
  }
  return [...groups.values()].sort(
    (a, b) => placeOfLeverFix(a.fixes[0]!, score) - placeOfLeverFix(b.fixes[0]!, score),
  );
};

const toFix = (
  each: Exclude<LeverDraft, { readonly kind: 'stray' }>,
  places: Places,
  tuning: OpenTuning,
  stated: StatedLevers,
): OneFix => {
  const beside = (marking: number) => listBeside(stated, tuning, marking - 1, each.part.step);
  const { string, step } = each.part;
  const { letter } = string;
  const alter = (position: number, of = string): number => alterWith(tuning, of, position);
  if (each.kind === 'rename') {
    const { statement, to, position } = each;
    const { marking, at, bar } = statement;
    const place = places.at(bar, at);
    return {
      key: `rename ${marking} ${step}`,
      fix: {
        kind: 'rename',
        marking: marking - 1,
        beside: beside(marking),
        string,
        to: to.string,
        alter: alter(position, to.string),
      },
      views: [
        { step, fixes: [{ kind: 'remove', marking, letter }] },
        { step: to.step, fixes: [{ kind: 'add', letter: to.string.letter, position, ...place }] },
      ],
    };
  }
  const { edit, place } = each.draft;
  const view = (fix: MarkingFix): readonly StringFix[] => [{ step, fixes: [fix] }];
  switch (edit.kind) {
    case 'add': {
      const isAtStart = isInAll([edit.window], places.start.at) && equals(place!.at, places.start.at);
      const { kind, position } = edit;
      return {
        key: isAtStart ? 'start' : `add ${rationalKey(place!.at)}`,
        fix: { kind, string, alter: alter(position), ...place! },
        views: view({ kind, letter, position, ...place! }),
      };
    }
    case 'move': {
      const { marking, position } = edit.statement;
      return {
        key: `move ${marking} ${rationalKey(place!.at)}`,
        fix: {
          kind: 'move',
          marking: marking - 1,
          beside: beside(marking),
          string,
          alter: alter(position),
          ...place!,
        },
        views: view({ kind: 'move', marking, letter, ...place! }),
      };
    }
    case 'alter': {
      const { marking } = edit.statement;
      const views = view({ kind: 'alter', marking, letter, position: edit.position });
      // How a lever stands before the start of which nothing tells is not in the file: it has to be told.
      return marking === 0
        ? { key: 'start', fix: { kind: 'add', string, alter: alter(edit.position), ...places.start }, views }
        : {
            key: `alter ${marking} ${step}`,
            fix: {
              kind: 'alter',
              marking: marking - 1,
              beside: beside(marking),
              string,
              alter: alter(edit.position),
            },
            views,
          };
    }
    case 'remove': {
      const { marking } = edit.statement;
      return {
        key: `remove ${marking}`,
        fix: { kind: 'remove', marking: marking - 1, beside: beside(marking), string },
        views: view({ kind: 'remove', marking, letter }),
      };
    }
    default:
      throw new Error(`no edit of one lever: ${edit.kind}`);
  }
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
