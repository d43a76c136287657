import { isZip, listEntries } from '../../engine/index.ts';
import type { AnnotateJob, ComputeJob, ProofFormat } from './job.ts';

/**
 * About how many milliseconds the planning of a score takes, by what is written: measured on parts that move pedals in
 * every bar and on dense chords, so that most music takes less.
 */
const COST = { bar: 2, note: 0.5, kilobyte: 0.3 };

/** Where bars cannot be counted, because the score is packed or in another encoding, each kilobyte may hold so many. */
const MOST_BARS_A_KILOBYTE = 7;

/** Counting ends here: it costs much in any case. */
const MOST_COUNTED = 20_000;

/** Trying respellings plans again for each. */
const SUGGESTING = 10;

const countOf = (bytes: Buffer, word: string): number => {
  let count = 0;
  for (let at = bytes.indexOf(word); at >= 0 && count < MOST_COUNTED; at = bytes.indexOf(word, at + 1)) {
    count += 1;
  }
  return count;
};

/** Bytes after unpacking, as the directory of an archive has them; more than it says are never unpacked. */
const unpackedBytes = (bytes: Uint8Array): number => {
  const listed = listEntries(bytes);
  return listed.ok ? listed.value.reduce((sum, { inflatedBytes }) => sum + inflatedBytes, 0) : bytes.length;
};

/** Every fix is planned with. */
const FIXING = 100;

/** Both parts are planned, some times where bars have to be taken apart more finely. */
const DIVIDING = 20;

/** Two bytes a letter (UTF-16): one of the first two is zero, or both are a byte-order mark. */
const isWide = ([first, second]: Uint8Array): boolean =>
  first === 0 || second === 0 || (first ?? 0) + (second ?? 0) === 0xff + 0xfe;

/** A page of some 100 kB is set in 25 ms. */
const PIECE_BYTES_A_MS = 4_000;

/** A wall chart searches many settings, and the first of a thread loads fonts. */
const DRAWING_HANDOUT = 1_000;

/** Pages of a proofread part begin with a layout engine of their own. */
const DRAWING_PROOF = 2_000;

const isDrawn = ({ kind }: ProofFormat): boolean => kind === 'pdf' || kind === 'svg';

/** @returns about how long the score takes to plan, in milliseconds. Linear in the bytes, and quick */
export const planningCost = (bytes: Uint8Array): number => {
  if (isZip(bytes) || isWide(bytes)) {
    const kilobytes = (isZip(bytes) ? unpackedBytes(bytes) : bytes.length) / 1000;
    return kilobytes * (COST.kilobyte + MOST_BARS_A_KILOBYTE * COST.bar);
  }
  const text = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  // Each bar has two tags, and so have most notes; a prefix may stand before their names.
  const bars = countOf(text, 'measure') / 2;
  const notes = countOf(text, 'note') / 2;
  return COST.bar * bars + COST.note * notes + (COST.kilobyte * bytes.length) / 1000;
};

/** About how long a job takes that is no annotation; comparing plans for two harps in many keys. */
export const computingCost = (job: ComputeJob): number => {
  switch (job.kind) {
    case 'glissandi':
    case 'setting':
      return 0;
    case 'handout':
      return DRAWING_HANDOUT;
    case 'bind-set':
      return job.pieces.reduce((sum, { length }) => sum + length, 0) / PIECE_BYTES_A_MS;
    case 'unpack-score':
      return unpackedBytes(job.bytes) / 100_000;
    case 'unpack':
      return job.entry.inflatedBytes / 100_000;
    case 'list-tunes':
      return job.bytes.length / 100_000;
    case 'proof':
    case 'mark':
      return planningCost(job.bytes) + (isDrawn(job.format) ? DRAWING_PROOF : 0);
    case 'plan':
    case 'setting-at-bar':
      return planningCost(job.bytes) * (job.choice.spelling === 'suggest' ? SUGGESTING : 1);
    case 'tunes':
      return planningCost(job.bytes) * (job.choice.maxSemitones === undefined ? 4 : 20);
    case 'compare':
      return planningCost(job.bytes) * 35;
    case 'fixes':
      return planningCost(job.bytes) * FIXING;
    case 'divide':
      return planningCost(job.bytes) * DIVIDING;
  }
};

/** Drawing takes longer than planning, but for every score by about as much. */
export const drawingCost = ({ bytes, choice }: AnnotateJob): number =>
  planningCost(bytes) *
  (choice.spelling === 'suggest' ? SUGGESTING : 1) *
  ((choice.divide ?? 'no') === 'no' ? 1 : DIVIDING);
