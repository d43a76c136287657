/**
 * What of the renderer needs neither Node nor the layout engine, and is loaded at once: the page and whatever only
 * describes pages and files import this file.
 */
export { signIds } from './attempt/sign-ids.ts';
export { restsBeforeEntries } from './cues/rests-before-entries.ts';
export { ENGRAVING_CATALOGUE } from './engraving-catalogue.ts';
export { completeEngraving } from './engraving-options.ts';
export { HANDOUT_NAMES, HANDOUTS, type HandoutName } from './handouts/handout-words.ts';
export { usualWords } from './levels.ts';
export { leverName } from './levers/lever-words.ts';
export {
  leverShape,
  STRING_PICTURE,
  stringColour,
  stringEnd,
  stringsWidth,
} from './levers/string-picture.ts';
export { movesToldElsewhere, type ToldElsewhere } from './markings/told-elsewhere.ts';
export { OPTION_CATALOGUE } from './option-catalogue.ts';
export { SET_MUSIC, type SetMusic } from './pack/set-music.ts';
export { ownMarksAt, withoutOwnMarkings } from './source/our-markings.ts';
export { repackScore } from './source/repack.ts';
export { extensionOf, SOURCE_TYPES, type SourceKind, sourceKindOf } from './source/source-kind.ts';
export type { Language } from './words/language.ts';
export { DELAYED_IN, NO_FASTER_IN } from './words/tempo-words.ts';
