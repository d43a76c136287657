import type { Losses } from '../losses.ts';
import type { ParsedEvent } from '../parsed-tune.ts';
import type { Jump, Sign } from '../tune.ts';
import { decorationOf, isRoll } from './signs.ts';

/** The words that are printed for a jump. */
const JUMP_TEXTS: Readonly<Record<Jump, string>> = {
  segno: '',
  coda: '',
  'to-coda': 'To Coda',
  fine: 'Fine',
  'da-capo': 'D.C.',
  'dal-segno': 'D.S.',
};

export interface JumpMark {
  readonly jump: Jump;
  readonly text: string;
}

/** `D.C.alfine` as it is printed. */
const jumpText = (name: string, jump: Jump): string =>
  /^D\.[CS]\./u.test(name) ? name.replace(/al(?=coda|fine)/u, ' al ') : JUMP_TEXTS[jump];

/** The style of heads that are diamonds. */
export const DIAMOND = 'harmonic';

/** The signs and jumps that stand at a note or bar line; what is not carried over is told. */
export const readSigns = (
  { decoration, startChar, style }: Pick<ParsedEvent, 'decoration' | 'startChar' | 'style'>,
  losses: Losses,
): { readonly signs: readonly Sign[]; readonly jumps: readonly JumpMark[] } => {
  const signs: Sign[] = [];
  const jumps: JumpMark[] = [];
  if (style !== undefined && style !== 'normal' && style !== DIAMOND)
    losses.at(`Heads of another shape (!style=${style}!) are printed as usual`, startChar);
  for (const name of decoration ?? []) {
    const meaning = decorationOf(name);
    if (meaning.kind === 'sign') signs.push(meaning.sign);
    if (meaning.kind === 'jump') jumps.push({ jump: meaning.jump, text: jumpText(name, meaning.jump) });
    if (meaning.kind === 'lost') losses.at(`The sign !${name}! is left out`, startChar);
    if (isRoll(name)) losses.at('Rolls (~) are printed and planned as turns', startChar);
  }
  return { signs, jumps };
};
