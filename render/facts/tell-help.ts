import type { NoteFix, NoteNames, ToldHelp } from '../../engine/index.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import type { HelpSentences, PlainHelpKind } from '../words/finding-words.ts';
import type { Words } from '../words/worded.ts';
import { noteNames } from './tell-finding.ts';

/** What would help, in any language, with all its facts. */
export const tellHelp = (help: ToldHelp, naming: NoteNaming, words: Words): string => {
  const { findings } = words;
  return help.kind === 'without-other-fixes'
    ? findings.withoutOtherFixes(tellHelp(help.facts.fix, naming, words))
    : tellPlain(help, findings.help, noteNames(naming, words));
};

const tellPlain = <Kind extends PlainHelpKind>(
  { kind, facts }: ToldHelp<Kind>,
  sentences: HelpSentences,
  names: NoteNames,
): string => sentences[kind](facts, names);

/** What a fix does, and what it costs or saves: `Cis4 in Takt 3 als Des4 schreiben (kostet höchstens 1 Bewegung mehr).` */
export const tellFix = ({ told, moreMoves }: NoteFix, naming: NoteNaming, words: Words): string => {
  const sentence = tellHelp(told, naming, words);
  if (moreMoves === 0) return sentence;
  const { findings } = words;
  const price = moreMoves > 0 ? findings.moreMoves(moreMoves) : findings.fewerMoves(-moreMoves);
  return sentence.replace(/\.$/, ` (${price}).`);
};
