/// <reference path="./abcjs-parser.d.ts" />
import { fail, ok, type Result } from '../../problem.ts';
import type { BookTune } from './book/tune-book.ts';
import type { Losses } from './losses.ts';
import type { ParsedTune } from './parsed-tune.ts';

/** The parser is large and seldom wanted: it is loaded for the first tune that is read. */
const loadParser = async () => (await import('abcjs/src/parse/abc_parse.js')).default;

/** What the parser says of lengths that we write as several notes or a tuplet. */
const OURS = /^Duration not representable/u;

/**
 * Parses the text of one tune.
 *
 * @returns `bad-tune` where the parser gives up
 */
export const parseTune = async (
  text: string,
  { number, line }: Pick<BookTune, 'number' | 'line'>,
  losses: Losses,
): Promise<Result<ParsedTune>> => {
  const Parse = await loadParser();
  const parser = new Parse();
  try {
    parser.parse(text, {});
  } catch {
    // The parser throws strings and errors alike on broken input, without a place.
    return fail({ code: 'bad-tune', tune: number, line });
  }
  for (const { message, startChar } of parser.getWarningObjects() ?? []) {
    if (!OURS.test(message))
      losses.at(`Not understood: ${message.slice(0, 120).replace(/\s+/gu, ' ').trim()}`, startChar);
  }
  return ok(parser.getTune() as ParsedTune);
};
