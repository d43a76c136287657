import type { Score } from '../score/model/score.ts';
import type { Span } from '../xml/tree.ts';
import { checkDecisions } from './check-decisions.ts';
import type { Decisions } from './model.ts';

/** Decisions about a part that an earlier annotation saved into its file, and where they stand in the text. */
export type SavedDecisions = { readonly span: Span } & (
  | { readonly kind: 'decisions'; readonly decisions: Decisions }
  /** They are there, but cannot be read: `reason` is the end of a sentence. */
  | { readonly kind: 'broken'; readonly reason: string }
);

/** Name of the processing instruction that holds decisions, at the end of the root element. */
export const DECISIONS_TARGET = 'tringle-decisions';

/** Far longer than the decisions on any part. */
const LONGEST_TEXT = 4_000_000;

/** What the harp's part is called in saved decisions, so that two harps of one file keep theirs apart. */
export const partKey = ({ source, harp }: Score): string => {
  const part = (source.format === 'mei' ? harp.meiStaves[0] : harp.partIds[0]) ?? '';
  const movement = source.movement?.number ?? 1;
  // The first movement was the only one that had any.
  return movement === 1 ? part : `${part} movement ${movement}`;
};

/**
 * Finds the saved decisions of the harp's part: those that do not say whose they are, or cannot be read, count as this part's.
 *
 * @returns all of them in order, as a file edited by hand may hold several; the last is the one that counts
 */
export const readSavedDecisions = (score: Score): readonly SavedDecisions[] =>
  instructionsAtEnd(score).flatMap(({ content, span }): SavedDecisions[] => {
    if (content.length > LONGEST_TEXT) return [{ kind: 'broken', reason: 'they are far too long', span }];
    const value = parseJson(content);
    if (value === undefined) return [{ kind: 'broken', reason: 'they are not JSON', span }];
    const isRecord = typeof value === 'object' && value !== null && !Array.isArray(value);
    const { part, ...rest } = isRecord ? (value as { part?: unknown }) : {};
    if (typeof part === 'string' && part !== partKey(score)) return [];
    const checked = checkDecisions(isRecord ? rest : null);
    if (checked.ok) return [{ kind: 'decisions', decisions: checked.decisions, span }];
    const reason =
      checked.where === '' ? 'they are not lists of decisions' : `“${checked.where}” is not understood`;
    return [{ kind: 'broken', reason, span }];
  });

const parseJson = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
};

const ASIDE = /<!--[\s\S]*?-->|<!\[CDATA\[[\s\S]*?\]\]>|<\?([\s\S]*?)\?>/gu;

/** Our processing instructions behind the last element of the root. */
const instructionsAtEnd = ({
  source: { text, root },
}: Score): readonly { readonly content: string; readonly span: Span }[] => {
  const start = root.children.at(-1)?.span.end ?? root.inner.start;
  return [...text.slice(start, root.inner.end).matchAll(ASIDE)].flatMap((found) => {
    const [whole, inside = ''] = found;
    const [, target = '', content = ''] = /^(\S+)\s*([\s\S]*)$/u.exec(inside) ?? [];
    const at = start + found.index;
    return target === DECISIONS_TARGET ? [{ content, span: { start: at, end: at + whole.length } }] : [];
  });
};
