import type { Position, Setting } from '../../harp/setting.ts';
import type { Letter } from '../../music/pitch.ts';
import { equals, rationalKey } from '../../music/rational.ts';
import type { NonEmpty } from '../../non-empty.ts';
import type { LetterEdit } from '../letter/letter-edits.ts';
import type { MarkingWindow } from '../letter/letter-track.ts';
import type { FixPlace, MarkingFix } from '../model.ts';
import type { JointEdit } from './part-draft.ts';
import { isInAll, type Places } from './place-edits.ts';

/** An edit with the place that is chosen for it, and others that would do. */
export interface DraftEdit {
  readonly edit: LetterEdit | JointEdit;
  /** Null for edits that stay where their marking is. */
  readonly place: FixPlace | null;
  readonly options: readonly FixPlace[];
}

/** Chooses places: each edit's own best, or one for several that can be printed together. */
export const placeEdits = (
  edits: readonly (LetterEdit | JointEdit)[],
  places: Places,
): readonly DraftEdit[] => {
  const drafts = edits.map((edit): DraftEdit => {
    if (edit.kind === 'move-marking') return { edit, place: edit.place, options: [] };
    if (edit.kind !== 'add' && edit.kind !== 'move') return { edit, place: null, options: [] };
    const { letter, position } = edit.kind === 'add' ? edit : edit.statement;
    const isFirst = edit.kind === 'add' && isInAll([edit.window], places.start.at);
    const options = isFirst ? [places.start] : places.within(letter, position, edit.window);
    return { edit, place: options[0]!, options };
  });
  return sharePlaces(drafts);
};

/** New markings further apart than this are not printed as one. */
const MOST_BARS_APART = 1;

interface Shared {
  place: FixPlace;
  readonly windows: MarkingWindow[];
  readonly members: number[];
}

const sharePlaces = (drafts: readonly DraftEdit[]): readonly DraftEdit[] => {
  const groups = new Map<string, Shared[]>();
  for (const [index, { edit, place }] of drafts.entries()) {
    if (place === null || (edit.kind !== 'add' && edit.kind !== 'move')) continue;
    const key = edit.kind === 'add' ? 'add' : `move ${edit.statement.marking}`;
    const known = groups.get(key) ?? [];
    groups.set(key, known);
    const host = known.find((group) => canJoin(group, edit.window, place));
    if (host === undefined) known.push({ place, windows: [edit.window], members: [index] });
    else {
      if (!isInAll([edit.window], host.place.at)) host.place = place;
      host.windows.push(edit.window);
      host.members.push(index);
    }
  }
  const placed = [...drafts];
  for (const { place, members } of [...groups.values()].flat()) {
    for (const index of members) placed[index] = { ...placed[index]!, place };
  }
  return placed;
};

const canJoin = (group: Shared, window: MarkingWindow, place: FixPlace): boolean =>
  Math.abs(group.place.bar - place.bar) <= MOST_BARS_APART &&
  (isInAll([window], group.place.at) || isInAll(group.windows, place.at));

/**
 * The edits as one would make them in the file, several pedals in one marking: in order of place.
 *
 * @param startSetting the full setting to print at the start where some pedals are not stated there, beside other fixes
 */
export const gatherFixes = (
  drafts: readonly DraftEdit[],
  start: FixPlace,
  startSetting: (missing: ReadonlyMap<Letter, Position>, others: readonly MarkingFix[]) => Setting,
): readonly NonEmpty<MarkingFix>[] => {
  const isAtStart = ({ edit, place }: DraftEdit): boolean =>
    edit.kind === 'add' && isInAll([edit.window], start.at) && equals(place!.at, start.at);
  const groups = new Map<string, [MarkingFix, ...MarkingFix[]]>();
  const missing = new Map<Letter, Position>();
  for (const [index, draft] of drafts.entries()) {
    const { edit } = draft;
    if (edit.kind === 'add' && isAtStart(draft)) {
      missing.set(edit.letter, edit.position);
      continue;
    }
    const fix = fixOf(draft);
    const key = markingOf(fix) ?? `${index}`;
    const known = groups.get(key);
    if (known === undefined) groups.set(key, [fix]);
    else known.push(fix);
  }
  if (missing.size === 0) return [...groups.values()];
  const setting = startSetting(missing, [...groups.values()].flat());
  return [[{ kind: 'add-setting', setting, ...start }], ...groups.values()];
};

/** What the fixes of one marking share; null for a fix by itself. */
const markingOf = (fix: MarkingFix): string | null => {
  switch (fix.kind) {
    case 'add':
      return `add ${rationalKey(fix.at)}`;
    case 'move':
      return `move ${fix.marking} ${rationalKey(fix.at)}`;
    case 'remove':
      return `remove ${fix.marking}`;
    default:
      return null;
  }
};

const fixOf = ({ edit, place }: DraftEdit): MarkingFix => {
  switch (edit.kind) {
    case 'add': {
      const { kind, letter, position } = edit;
      return { kind, letter, position, ...place! };
    }
    case 'move-marking':
      return { kind: 'move-marking', marking: edit.marking, ...edit.place };
    case 'remove-marking':
      return { kind: 'remove-marking', marking: edit.marking };
    default: {
      const { marking, letter, position } = edit.statement;
      if (edit.kind === 'move') return { kind: 'move', marking, letter, ...place! };
      if (edit.kind === 'alter') return { kind: 'alter', marking, letter, position: edit.position };
      if (edit.kind === 'rename') return { kind: 'rename', marking, letter, to: edit.to, position };
      return { kind: 'remove', marking, letter };
    }
  }
};
