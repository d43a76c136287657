import { compare } from '../../../music/rational.ts';
import { groupByBar, type NoteDraft } from '../draft.ts';
import { readReference, readReferences } from '../values.ts';
import type { MarkContext } from './marks.ts';

/**
 * Beams, over one bar line at most, that are encoded beside the music: `beamSpan` with the events under it, or with its ends alone, between which it
 * runs through the layer of the first.
 *
 * @returns the name of the beam by note
 */
export const findBeamSpans = ({ notes, controls, notesOf }: MarkContext): ReadonlyMap<NoteDraft, string> => {
  const beams = new Map<NoteDraft, string>();
  const inBars = groupByBar(notes);
  for (const { element } of controls) {
    if (element.name !== 'beamSpan') continue;
    const [from] = notesOf(readReference(element, 'startid') ?? '');
    const [to] = notesOf(readReference(element, 'endid') ?? '');
    const listed = readReferences(element, 'plist').flatMap(notesOf);
    const between =
      from === undefined || to === undefined
        ? []
        : [from.bar, from.bar + 1]
            .flatMap((bar) => inBars.get(bar) ?? [])
            .filter(
              (note) =>
                note.voice === from.voice &&
                compare(note.onset, from.onset) >= 0 &&
                compare(note.onset, to.onset) <= 0,
            );
    for (const note of listed.length > 0 ? listed : [...between, ...(to === undefined ? [] : [to])])
      beams.set(note, `beam${element.span.start}`);
  }
  return beams;
};
