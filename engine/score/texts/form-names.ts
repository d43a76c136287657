import { foldLabel } from '../words/labels.ts';

/** What a section, a verse or a movement may be called, without accents; common practice, from memory. */
const FORMS =
  /^(?:introduzione|introduction|einleitung|introduccion|preludio|prelude|praludium|vorspiel|prologo|prologue|prolog|intermezzo|interlude|interludio|zwischenspiel|entr'?acte|scherzo|trio|minuet|menuet|menuett|menuetto|minuetto|minue|finale|final|epilogo|epilogue|epilog|postlude|postludio|nachspiel|rondo|romanza|romanze|romance|fuga|fugue|fuge|tema|thema|theme|var(?:iation|iazione|iacion)?\.?|cadenza|cadence|kadenz|cadencia|ballade|nocturne|notturno|elegie|elegia|elegy|barcarolle|barcarola|berceuse|pastorale|siciliana|sarabande|gavotte|bourree|gigue|valse|waltz|walzer|vals|polonaise|mazurka)(?: (?:[ivx]{1,5}|\d{1,2}))?[.:]?$/u;

const VERSES =
  /^(?:\d{1,2}(?:st|nd|rd|th|me|e|a)?\.? |last |letzte |derniere )?(?:verse|strophe|vers|couplet|refrain|chorus|strofa|estrofa|estribillo)(?: \d{1,2})?[.:]?$/u;

/**
 * Whether words are the name of a form and nothing else, as they head a section for all players.
 *
 * @example isFormName('INTERMEZZO') // true
 */
export const isFormName = (text: string): boolean => {
  const folded = foldLabel(text).trim();
  return FORMS.test(folded) || VERSES.test(folded);
};
