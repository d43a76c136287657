import { areCharacters, CODE, NOT_PLAIN, skipSpace, startsName } from './plain-text.ts';

const DECLARATION =
  /^\uFEFF?<\?xml[ \t\r\n]+version[ \t\r\n]*=[ \t\r\n]*["']1\.0["'](?:[ \t\r\n]+encoding[ \t\r\n]*=[ \t\r\n]*["'][A-Za-z][\w.-]*["'])?(?:[ \t\r\n]+standalone[ \t\r\n]*=[ \t\r\n]*["'](?:yes|no)["'])?[ \t\r\n]*\?>/u;

/** A document type without declarations of its own. */
const DOCTYPE =
  /^<!DOCTYPE[ \t\r\n]+[A-Za-z][\w:.-]*(?:[ \t\r\n]+(?:SYSTEM|PUBLIC))?(?:[ \t\r\n]+"[^"<>&[\]]*")*[ \t\r\n]*>$/u;
const LONGEST_DOCTYPE = 1000;

/** Instructions to programs; those named `xml` are declarations, and only the first thing in a document. */
const INSTRUCTION = /<\?(?!xml[ \t\r\n?])[A-Za-z_][\w.-]*[ \t\r\n?]/uy;

/** Where the root element begins after whatever stands before it; `NOT_PLAIN` if that is not plain. */
export const rootStart = (text: string): number => {
  const declaration =
    DECLARATION.exec(text.slice(0, LONGEST_DOCTYPE))?.[0] ?? (text.startsWith('\uFEFF') ? '\uFEFF' : '');
  const quotesMatch = (declaration.match(/"/gu)?.length ?? 0) % 2 === 0;
  if (!quotesMatch) return NOT_PLAIN;
  let at = skipMisc(text, declaration.length);
  if (at !== NOT_PLAIN && text.startsWith('<!D', at)) {
    const end = text.indexOf('>', at) + 1;
    if (end - at > LONGEST_DOCTYPE || !DOCTYPE.test(text.slice(at, end))) return NOT_PLAIN;
    at = skipMisc(text, end);
  }
  const isTag = text.charCodeAt(at) === CODE.less && startsName(text.charCodeAt(at + 1));
  return at !== NOT_PLAIN && isTag ? at : NOT_PLAIN;
};

/** Past white space, comments and instructions outside the root element; `NOT_PLAIN` for a broken one. */
export const skipMisc = (text: string, from: number): number => {
  let at = skipSpace(text, from);
  while (at !== NOT_PLAIN) {
    let end: number;
    if (text.startsWith('<!-', at)) end = commentEnd(text, at);
    else if (text.startsWith('<?', at)) end = instructionEnd(text, at);
    else return at;
    at = end === NOT_PLAIN ? NOT_PLAIN : skipSpace(text, end);
  }
  return NOT_PLAIN;
};

/** Where the comment ends that begins at `at`; `NOT_PLAIN` where there is none that is well-formed. */
export const commentEnd = (text: string, at: number): number => {
  if (!text.startsWith('<!--', at)) return NOT_PLAIN;
  const dashes = text.indexOf('--', at + 4);
  if (dashes < 0 || text.charCodeAt(dashes + 2) !== CODE.greater) return NOT_PLAIN;
  return areCharacters(text.slice(at, dashes)) ? dashes + 3 : NOT_PLAIN;
};

/** Where the instruction to a program ends that begins at `at`; `NOT_PLAIN` where none does. */
export const instructionEnd = (text: string, at: number): number => {
  INSTRUCTION.lastIndex = at;
  if (!INSTRUCTION.test(text)) return NOT_PLAIN;
  const end = text.indexOf('?>', at + 2);
  return end >= 0 && areCharacters(text.slice(at, end)) ? end + 2 : NOT_PLAIN;
};
