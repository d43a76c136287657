import type { VNode } from 'preact';
import { STRINGS } from '../../../strings/strings.ts';
import { MusicWords } from '../../controls/music-words.tsx';

/** A passage has the fixes of all its places. */
const SHOWN_AT_ONCE = 5;

/** The ways to fix a finding, each a list item: the first ones, and further ones to be opened. */
export const FixList = ({ items }: { readonly items: readonly VNode[] }) => {
  if (items.length === 0) return null;
  const further = items.length - SHOWN_AT_ONCE;
  return (
    <>
      <ul class="fixes">{items.slice(0, SHOWN_AT_ONCE)}</ul>
      {further > 0 && (
        <details class="more-fixes">
          <summary>{STRINGS.findings.moreFixes(further)}</summary>
          <ul class="fixes">{items.slice(SHOWN_AT_ONCE)}</ul>
        </details>
      )}
    </>
  );
};

/** Fixes in words, for the user to carry out. */
export const listSuggestions = (suggestions: readonly string[]): readonly VNode[] =>
  suggestions.map((each) => (
    <li key={each} class="advice">
      <MusicWords>{each}</MusicWords>
    </li>
  ));
