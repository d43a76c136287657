import type { NoteFix, NoteNames, ToldHelp } from '../../engine/index.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import type { Words } from '../words/worded.ts';
import { noteNames } from './tell-finding.ts';

/** What would help, in any language, with all its facts. */
export const tellHelp = (help: ToldHelp, naming: NoteNaming, words: Words): string => {
  const { findings } = words;
  if (help.kind === 'without-other-fixes') {
    return findings.withoutOtherFixes(tellHelp(help.facts.fix, naming, words));
  }
  // Facts are made for their kind: the compiler has seen to it where the help was given.
  const sentence = findings.help[help.kind] as (facts: unknown, names: NoteNames) => string;
  return sentence(help.facts, noteNames(naming, words));
};

/** What a fix does, and what it costs or saves: `Cis4 in Takt 3 als Des4 schreiben (kostet höchstens 1 Bewegung mehr).` */
export const tellFix = ({ told, moreMoves }: NoteFix, naming: NoteNaming, words: Words): string => {
  const sentence = tellHelp(told, naming, words);
  if (moreMoves === 0) return sentence;
  const { findings } = words;
  const price = moreMoves > 0 ? findings.moreMoves(moreMoves) : findings.fewerMoves(-moreMoves);
  return sentence.replace(/\.$/, ` (${price}).`);
};
