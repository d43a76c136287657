import {
  descendantsNamed,
  encodeText,
  escapeText,
  findMarkingNames,
  firstChild,
  formatChange,
  type Letter,
  type MarkingFix,
  nameChangeIn,
  ok,
  type Position,
  type Rational,
  type Result,
  rationalKey,
  type Score,
  type SourceMarking,
  type XmlElement,
} from '../../engine/index.ts';
import { applyEdits, type Edit, setAttribute } from '../edit.ts';
import type { PrintedMarking } from '../markings/printed-markings.ts';
import { statedMarking } from '../markings/stated-marking.ts';
import { insertCorrections, wordsOfDirection } from './insertion/insert-corrections.ts';
import { escapeForEncoding } from './insertion/insertion.ts';
import { removeMarking } from './remove-markings.ts';

/** A score file with its own markings corrected. */
export interface RepairedSource {
  readonly text: string;
  /** The text in the encoding of the file; for a compressed score, the score file alone. */
  readonly bytes: Uint8Array;
}

/** What becomes of what one marking says. */
interface Revision {
  /** By the letter that stands in the file; null where it goes. */
  readonly names: Map<Letter, readonly [Letter, Position] | null>;
  isRemoved: boolean;
}

interface Addition {
  readonly at: Rational;
  readonly bar: number;
  readonly beat: Rational;
  readonly positions: [Letter, Position][];
}

/**
 * Makes edits of a repair in the score's own text: names are replaced where they stand, in the words of their marking;
 * new markings are inserted. Everything else stays byte for byte.
 *
 * @returns the file, or `unsupported` where an MEI measure has no room for a marking
 */
export const repairSource = (score: Score, fixes: readonly MarkingFix[]): Result<RepairedSource> => {
  const { source, markings } = score;
  const draft: Draft = { markings, revisions: new Map(), additions: new Map() };
  // What a marking says is changed before it goes elsewhere as a whole.
  for (const fix of fixes) if (fix.kind !== 'move-marking') note(draft, fix);
  for (const fix of fixes) if (fix.kind === 'move-marking') note(draft, fix);
  const printed = [...draft.additions.values()].map(printedMarking);
  const inserted = insertCorrections(score, printed, 'pedals');
  if (!inserted.ok) return inserted;
  const elements = markingElements(score);
  const revised = [...draft.revisions].flatMap(([index, revision]) =>
    revise(score, markings[index]!, elements.get(markings[index]!.span.start)!, revision),
  );
  const text = applyEdits(source.text, [...revised, ...inserted.value]);
  return ok({ text, bytes: encodeText(text, source.encoding) });
};

/** What a repair comes to: what becomes of each marking by its index, and what is added by its moment. */
interface Draft {
  readonly markings: readonly SourceMarking[];
  readonly revisions: Map<number, Revision>;
  readonly additions: Map<string, Addition>;
}

const revisionOf = ({ revisions }: Draft, index: number): Revision => {
  const known = revisions.get(index) ?? { names: new Map(), isRemoved: false };
  revisions.set(index, known);
  return known;
};

const add = (
  { additions }: Draft,
  { at, bar, beat }: Omit<Addition, 'positions'>,
  stated: readonly [Letter, Position][],
): void => {
  const key = `${rationalKey(at)} ${stated.length === 7}`;
  const known = additions.get(key) ?? { at, bar, beat, positions: [] };
  additions.set(key, known);
  known.positions.push(...stated);
};

/** What a marking states after what was changed of it. */
const statedBy = (draft: Draft, index: number): [Letter, Position][] =>
  (Object.entries(draft.markings[index]!.positions) as [Letter, Position][]).flatMap(([letter, position]) => {
    const revised = revisionOf(draft, index).names.get(letter);
    return revised === null ? [] : [[...(revised ?? ([letter, position] as const))]];
  });

const note = (draft: Draft, fix: MarkingFix): void => {
  switch (fix.kind) {
    case 'add':
      add(draft, fix, [[fix.letter, fix.position]]);
      return;
    case 'add-setting':
      add(draft, fix, Object.entries(fix.setting) as [Letter, Position][]);
      return;
    case 'alter':
      revisionOf(draft, fix.marking).names.set(fix.letter, [fix.letter, fix.position]);
      return;
    case 'rename':
      revisionOf(draft, fix.marking).names.set(fix.letter, [fix.to, fix.position]);
      return;
    case 'move':
      revisionOf(draft, fix.marking).names.set(fix.letter, null);
      add(draft, fix, [[fix.letter, draft.markings[fix.marking]!.positions[fix.letter]!]]);
      return;
    case 'remove':
      revisionOf(draft, fix.marking).names.set(fix.letter, null);
      return;
    case 'move-marking':
      revisionOf(draft, fix.marking).isRemoved = true;
      add(draft, fix, statedBy(draft, fix.marking));
      return;
    case 'remove-marking':
      revisionOf(draft, fix.marking).isRemoved = true;
      return;
  }
};

const printedMarking = ({ at, bar, beat, positions }: Addition, index: number): PrintedMarking =>
  statedMarking({ id: `r${index + 1}`, at, bar, beat }, positions);

const markingElements = ({ source }: Score): ReadonlyMap<number, XmlElement> => {
  const names = source.format === 'mei' ? ['harpPedal', 'dir', 'harm', 'stageDir'] : ['direction'];
  return new Map(descendantsNamed(source.root, ...names).map((each) => [each.span.start, each]));
};

const revise = (
  score: Score,
  marking: SourceMarking,
  element: XmlElement,
  { names, isRemoved }: Revision,
): readonly Edit[] => {
  const letters = Object.keys(marking.positions) as Letter[];
  if (isRemoved || letters.every((letter) => names.get(letter) === null))
    return removeMarking(score, element, marking);
  if (marking.form === 'harp-pedals') return [...names].flatMap((each) => reviseEntry(score, element, each));
  return reviseWords(score, marking, element, names);
};

const MEI_POSITION: Readonly<Record<Position, string>> = { [-1]: 'f', 0: 'n', 1: 's' };

/** An entry of a diagram; one that is left out of it goes with its element. */
const reviseEntry = (
  { source }: Score,
  element: XmlElement,
  [letter, becomes]: readonly [Letter, readonly [Letter, Position] | null],
): readonly Edit[] => {
  if (element.name === 'harpPedal') {
    const position = becomes?.[1] ?? 0;
    return [setAttribute(source.text, element.span.start, letter.toLowerCase(), MEI_POSITION[position])];
  }
  const tuning = descendantsNamed(element, 'pedal-tuning').find(
    (each) => firstChild(each, 'pedal-step')?.text.trim() === letter,
  );
  if (tuning === undefined) return [];
  if (becomes === null) return [{ ...tuning.span, put: '' }];
  const step = firstChild(tuning, 'pedal-step')!;
  const alter = firstChild(tuning, 'pedal-alter');
  const renamed = becomes[0] === letter ? [] : [{ ...step.inner, put: becomes[0] }];
  if (alter === undefined)
    return [
      ...renamed,
      { start: step.span.end, end: step.span.end, put: `<pedal-alter>${becomes[1]}</pedal-alter>` },
    ];
  return [...renamed, { ...alter.inner, put: `${becomes[1]}` }];
};

/**
 * Words: each name where it stands, with what parts it from the next where it goes. Where the words are spread over
 * elements, or written with references, they are written anew in the first of them.
 */
const reviseWords = (
  score: Score,
  marking: SourceMarking,
  element: XmlElement,
  becomes: Revision['names'],
): readonly Edit[] => {
  const { text, encoding } = score.source;
  const holders = score.source.format === 'mei' ? [element] : wordsOfDirection(element);
  for (const holder of holders) {
    const raw = text.slice(holder.inner.start, holder.inner.end);
    const found = raw.includes('&') || raw.includes('<') ? null : findMarkingNames(raw, marking.positions);
    if (found === null) continue;
    return found.names.flatMap(({ letter, start, end }, i): Edit[] => {
      const change = becomes.get(letter);
      if (change === undefined) return [];
      const from = holder.inner.start;
      if (change !== null) {
        const put = escapeForEncoding(encoding, nameChangeIn(found.naming, ...change));
        return [{ start: from + start, end: from + end, put }];
      }
      const before = found.names[i - 1];
      const next = found.names[i + 1];
      // The first goes with what follows it, a later one with what comes before it.
      if (before === undefined) return [{ start: from + start, end: from + (next?.start ?? end), put: '' }];
      return [{ start: from + before.end, end: from + end, put: '' }];
    });
  }
  const left = (Object.entries(marking.positions) as [Letter, Position][]).flatMap(
    ([letter, position]): (readonly [Letter, Position])[] => {
      const change = becomes.get(letter);
      return change === null ? [] : [change ?? [letter, position]];
    },
  );
  const words = left.map(([letter, position]) => formatChange(letter, position)).join(' ');
  const put = escapeForEncoding(encoding, escapeText(marking.ahead ? `prepare ${words}` : words));
  const [first, ...others] = holders;
  return [{ ...first!.inner, put }, ...others.map((each): Edit => ({ ...each.inner, put: '' }))];
};
