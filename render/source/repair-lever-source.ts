import {
  beatAt,
  descendantsNamed,
  encodeText,
  escapeText,
  type HarpString,
  isPosition,
  type LeverAt,
  type LeverFix,
  type LeverName,
  nameChangeIn,
  nameLever,
  ok,
  type Result,
  rationalKey,
  readLeverWords,
  type Score,
  type WrittenLeverFix,
  type XmlElement,
} from '../../engine/index.ts';
import { applyEdits, type Edit } from '../edit.ts';
import type { PrintedMarking } from '../markings/printed-markings.ts';
import { insertCorrections, wordsOfDirection } from './insertion/insert-corrections.ts';
import { escapeForEncoding } from './insertion/insertion.ts';
import { removeMarking } from './remove-markings.ts';
import { removeNote } from './remove-note.ts';
import type { RepairedSource } from './repair-source.ts';

type LeverWords = NonNullable<ReturnType<typeof readLeverWords>>;

/** New names at one place. */
interface Addition {
  readonly place: Extract<LeverFix, { kind: 'add' }>;
  readonly levers: LeverAt[];
}

/**
 * Makes edits of a repair of lever markings in the score's own text: names are replaced where they stand, new ones are
 * inserted as words. Everything else stays byte for byte.
 *
 * @returns the file, or `unsupported` where an MEI measure has no room for a marking
 */
export const repairLeverSource = (score: Score, fixes: readonly LeverFix[]): Result<RepairedSource> => {
  const { source } = score;
  const additions = new Map<string, Addition>();
  const written = new Map<number, WrittenLeverFix[]>();
  for (const fix of fixes) {
    if (fix.kind !== 'add') written.set(fix.marking, [...(written.get(fix.marking) ?? []), fix]);
    const added = additionOf(fix, score);
    if (added === null) continue;
    const key = rationalKey(added.at);
    const known = additions.get(key) ?? { place: added, levers: [] };
    additions.set(key, known);
    known.levers.push({ string: added.string, alter: added.alter });
  }
  const printed = [...additions.values()].map(
    ({ place: { at, bar, beat }, levers }, index): PrintedMarking => ({
      kind: 'lever-change',
      id: `r${index + 1}`,
      at,
      bar,
      beat,
      graceNote: null,
      changes: levers.map((each) => ({ ...each, hand: 'left' })),
      onReturn: [],
      atOneTime: [],
      inWords: [],
      timesPlayed: 1,
      neededLaterBy: null,
    }),
  );
  const inserted = insertCorrections(score, printed, 'levers');
  if (!inserted.ok) return inserted;
  const elements = new Map(
    descendantsNamed(source.root, ...(source.format === 'mei' ? ['dir', 'stageDir'] : ['direction'])).map(
      (each) => [each.span.start, each] as const,
    ),
  );
  const revised = [...written].flatMap(([marking, own]) => {
    const { form, span } = score.leverWords[marking]!;
    return form === 'note' ? removeNote(score, span) : revise(score, marking, elements.get(span.start)!, own);
  });
  const text = applyEdits(source.text, [...revised, ...inserted.value]);
  return ok({ text, bytes: encodeText(text, source.encoding) });
};

/** What a fix adds as words: what is new, what is moved, and in the place of a small note what it should have said. */
const additionOf = (fix: LeverFix, { bars, leverWords }: Score): Addition['place'] | null => {
  if (fix.kind === 'add' || fix.kind === 'move') {
    const { string, alter, at, bar, beat } = fix;
    return { kind: 'add', string, alter, at, bar, beat };
  }
  const { form, at, bar } = leverWords[fix.marking]!;
  const becomes = form === 'note' ? becomesOf(fix) : null;
  return becomes === null ? null : { kind: 'add', ...becomes, at, bar, beat: beatAt(bars[bar]!, at) };
};

const revise = (
  score: Score,
  marking: number,
  element: XmlElement,
  fixes: readonly WrittenLeverFix[],
): readonly Edit[] => {
  const words = score.leverWords[marking]!;
  const { text, encoding, format } = score.source;
  const holders = format === 'mei' ? [innermost(element)] : wordsOfDirection(element);
  for (const holder of holders) {
    const raw = text.slice(holder.inner.start, holder.inner.end);
    const read = /[&<]/u.test(raw) ? null : readLeverWords(raw, words.says!.naming);
    if (read === null || read.names.length !== words.says!.names.length) continue;
    const put = rewrite(raw, read, fixes);
    if (put === null) break;
    return [{ ...holder.inner, put: escapeForEncoding(encoding, put) }];
  }
  const put = rewrite(words.text, readLeverWords(words.text, words.says!.naming) ?? words.says!, fixes);
  if (put === null)
    return removeMarking(score, element, { ...words, form: 'words', positions: {}, ahead: false });
  const [first, ...others] = holders;
  return [
    { ...first!.inner, put: escapeForEncoding(encoding, escapeText(put)) },
    ...others.map((each): Edit => ({ ...each.inner, put: '' })),
  ];
};

/** A text with what it says of some strings changed; null where nothing is left of it. */
const rewrite = (text: string, read: LeverWords, fixes: readonly WrittenLeverFix[]): string | null => {
  const { appended, byName } = sortFixes(read, fixes);
  const kept = new Map<LeverName, readonly string[]>(
    read.names.map((name) => {
      const own = byName.get(name);
      return [name, own === undefined ? [text.slice(name.start, name.end)] : namesAfter(read, own)];
    }),
  );
  const isEmpty = [...kept.values()].every((names) => names.length === 0) && appended.length === 0;
  if (isEmpty && read.tuning === null && !read.othersDown) return null;
  // A word for where a lever goes holds no more when its only name is corrected.
  if (!read.isTable && read.names.length === 1 && read.names[0]!.lever !== null && byName.size === 1)
    return kept.get(read.names[0]!)!.join(' ');
  return [withNames(text, read, kept), ...appended].join(', ');
};

const writeLever = ({ naming }: LeverWords, { string, alter }: LeverAt): string =>
  isPosition(alter)
    ? `${nameChangeIn(naming, string.letter, alter)}${string.octave}`
    : nameLever(string, alter);

/** Which name of a text each change is made at, and what is written behind all of them. */
const sortFixes = (read: LeverWords, fixes: readonly WrittenLeverFix[]) => {
  const appended: string[] = [];
  const byName = new Map<LeverName, WrittenLeverFix[]>();
  for (const fix of fixes) {
    const name = read.names.find((each) => isOf(each, fix.string));
    const becomes = becomesOf(fix);
    // In a table what is said of one string comes behind what is said of all of its letter.
    if (name === undefined || (read.isTable && name.octave === null)) {
      if (becomes !== null) appended.push(writeLever(read, becomes));
    } else byName.set(name, [...(byName.get(name) ?? []), fix]);
  }
  return { appended, byName };
};

/** What stands in the place of a name: what it says of other strings, and what its own become. */
const namesAfter = (read: LeverWords, own: readonly WrittenLeverFix[]): readonly string[] => {
  const changed = new Set(own.map(({ string }) => `${string.letter}${string.octave}`));
  const others = (own[0]!.beside ?? []).filter(
    ({ string }) => !changed.has(`${string.letter}${string.octave}`),
  );
  const fresh = own.map(becomesOf).filter((each) => each !== null);
  return [...others, ...fresh].map((each) => writeLever(read, each));
};

const withNames = (
  text: string,
  read: LeverWords,
  kept: ReadonlyMap<LeverName, readonly string[]>,
): string => {
  let put = '';
  let from = 0;
  for (const name of read.names) {
    const names = kept.get(name)!;
    const between = text.slice(from, name.start);
    // What parts a name from the one before goes with it.
    put +=
      (names.length === 0
        ? between.replace(/[\s,;]+(?:and|und|et)?\s*$/u, put === '' ? '$&' : '')
        : between) + names.join(' ');
    from = name.end;
  }
  return put + text.slice(from);
};

const isOf = ({ letter, octave }: LeverName, string: HarpString): boolean =>
  letter === string.letter && (octave ?? string.octave) === string.octave;

const becomesOf = (fix: WrittenLeverFix): LeverAt | null => {
  if (fix.kind === 'alter') return { string: fix.string, alter: fix.alter };
  return fix.kind === 'rename' ? { string: fix.to, alter: fix.alter } : null;
};

/** The element that holds the words themselves: what only sets their look stays. */
const innermost = (element: XmlElement): XmlElement => {
  const [only, ...others] = element.children;
  const isAll =
    only !== undefined &&
    others.length === 0 &&
    (element.text.trim() === '' || only.text.trim() === element.text.trim());
  return isAll && only.name === 'rend' ? innermost(only) : element;
};
