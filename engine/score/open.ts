import { fail, ok, type Result } from '../problem.ts';
import { parseXml } from '../xml/parse-xml.ts';
import type { XmlElement } from '../xml/tree.ts';
import { cutTitles } from './cut-titles.ts';
import { unpackScore } from './file/container.ts';
import { decodeText } from './file/decode.ts';
import { chooseMovement } from './mei/movement.ts';
import { readMei } from './mei/read.ts';
import { type Remark, remarkOnAll } from './model/remark.ts';
import type { Score, Titles } from './model/score.ts';
import type { ScoreFormat, SourceText } from './model/source.ts';
import { readMusicXml } from './musicxml/read.ts';
import { checkPartLimits } from './part-limits.ts';
import { titleOfFile } from './usable-title.ts';

export interface OpenOptions {
  /** Id or name of the part to read as the harp; found by its name and sound if not given. */
  readonly part?: string;
  /** Place (from 1) or title of the movement to read, of several in MEI; the first if not given. */
  readonly movement?: string;
  /** The name of the file: the title of a score that states none. */
  readonly fileName?: string;
}

/** A score file as text and as elements that know their place in it. */
export interface ParsedSource {
  readonly source: SourceText;
  readonly root: XmlElement;
}

/** Bytes that are accepted before unpacking. */
export const MAX_SCORE_BYTES = 100_000_000;

/**
 * Reads the harp part of a MusicXML (plain or compressed) or MEI file.
 *
 * @returns the score, or the problem that keeps it from being read; never throws on any input
 */
export const openScore = (bytes: Uint8Array, options: OpenOptions = {}): Result<Score> => {
  const parsed = parseSource(bytes);
  if (!parsed.ok) return parsed;
  const { movement, ...own } = options;
  if (parsed.value.source.format !== 'mei') {
    if (movement !== undefined) return fail({ code: 'unknown-movement', wanted: movement, movements: [] });
    return finish(readMusicXml(parsed.value.root, parsed.value.source, own), own);
  }
  const chosen = chooseMovement(parsed.value.root, parsed.value.source.text, movement);
  if (!chosen.ok) return chosen;
  const { remark, root } = chosen.value;
  const read = readMei(root, { ...parsed.value.source, root, movement: chosen.value.movement }, own);
  if (!read.ok || remark === null) return finish(read, own);
  const told: Remark = remarkOnAll('movement-chosen', remark);
  return finish(ok({ ...read.value, remarks: [told, ...read.value.remarks] }), own);
};

const finish = (read: Result<Score>, options: OpenOptions): Result<Score> =>
  read.ok ? checkPartLimits(cutTitles(withTitle(withMovement(read.value), options.fileName))) : read;

/** The title of the movement that is read stands under that of the piece, unless something else does. */
const withMovement = (score: Score): Score => {
  const title = score.source.movement?.title ?? '';
  if (title === '' || score.titles.subtitle !== '') return score;
  return { ...score, titles: { ...score.titles, subtitle: title } };
};

/** A score that states no title has that of its file. */
const withTitle = (score: Score, fileName: string | undefined): Score => {
  if (score.titles.title !== '' || fileName === undefined) return score;
  const titles: Titles = { ...score.titles, title: titleOfFile(fileName) };
  return { ...score, titles };
};

/**
 * Unpacks, decodes and parses a score file without reading the music.
 *
 * @returns `not-a-score` naming what the bytes look like, or a problem of unpacking, decoding or parsing
 */
export const parseSource = (bytes: Uint8Array): Result<ParsedSource> => {
  if (bytes.length === 0) return fail({ code: 'empty-input' });
  if (bytes.length > MAX_SCORE_BYTES) {
    return fail({ code: 'limit-exceeded', what: 'bytes', limit: MAX_SCORE_BYTES, found: bytes.length });
  }
  const file = unpackScore(bytes);
  if (!file.ok) return file;
  const kind = kindOfBytes(file.value.bytes);
  if (kind !== null) return fail({ code: 'not-a-score', found: kind });
  const decoded = decodeText(file.value.bytes);
  if (!decoded.ok) return decoded;
  const { text, encoding } = decoded.value;
  const textKind = kindOfText(text);
  if (textKind !== null) return fail({ code: 'not-a-score', found: textKind });
  const root = parseXml(text);
  if (!root.ok) return root;
  const format = FORMAT_OF_ROOT.get(root.value.name);
  if (format === undefined) return fail({ code: 'not-a-score', found: kindOfRoot(root.value.name) });
  const version = (root.value.attributes[format === 'mei' ? 'meiversion' : 'version'] ?? '').trim();
  const { archivePath } = file.value;
  return ok({
    source: { format, version, text, encoding, archivePath, root: root.value, movement: null },
    root: root.value,
  });
};

const FORMAT_OF_ROOT: ReadonlyMap<string, ScoreFormat> = new Map([
  ['score-partwise', 'musicxml-partwise'],
  ['score-timewise', 'musicxml-timewise'],
  ['mei', 'mei'],
]);

/** First bytes of files that are sent by mistake. */
const SIGNATURES: readonly (readonly [string, string])[] = [
  ['%PDF', 'a PDF file'],
  ['MThd', 'a MIDI file'],
  ['RIFF', 'a sound or picture file'],
  ['ID3', 'an MP3 file'],
  ['\x89PNG', 'a PNG picture'],
  ['\xff\xd8\xff', 'a JPEG picture'],
  ['GIF8', 'a GIF picture'],
  ['\x1f\x8b', 'a gzip archive'],
  ['7z\xbc\xaf', 'a 7z archive'],
  ['Rar!', 'a RAR archive'],
  ['{\\rtf', 'an RTF document'],
  ['\xd0\xcf\x11\xe0', 'an Office document'],
];

const kindOfBytes = (bytes: Uint8Array): string | null => {
  const start = String.fromCharCode(...bytes.subarray(0, 16));
  return SIGNATURES.find(([signature]) => start.startsWith(signature))?.[1] ?? null;
};

/** Reference records and comments begin with two exclamation marks; the first other line names the spines. */
const HUMDRUM = /^(?:!![^\n]*(?:\n|$))*(?:\*\*[a-z]|$)/u;

const kindOfText = (text: string): string | null => {
  const start = text
    .slice(0, 1000)
    .replace(/^\uFEFF/u, '')
    .replace(/<!--[\s\S]*?-->/gu, '')
    .trimStart();
  if (/^(?:<!doctype\s+html|<html)/iu.test(start)) return 'an HTML page';
  if (start !== '' && HUMDRUM.test(start)) return 'a Humdrum file (**kern)';
  if (start.startsWith('{') || start.startsWith('[')) return 'a JSON file';
  return start === '' || start.startsWith('<') ? null : 'a text file';
};

const kindOfRoot = (name: string): string => {
  switch (name) {
    case 'html':
      return 'an HTML page';
    case 'opus':
      return 'a MusicXML opus, which only lists scores,';
    case 'container':
      return 'the table of contents of a compressed score';
    case 'meiCorpus':
      return 'an MEI corpus, which holds several scores,';
    case 'svg':
      return 'an SVG picture';
    default:
      return `an XML file with the root element “${name.slice(0, 60)}”`;
  }
};
