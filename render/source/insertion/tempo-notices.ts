import { type Score, type TempoNotice, tempoFigure } from '../../../engine/index.ts';
import type { Edit } from '../../edit.ts';
import { type NoticeXml, noticeEdits } from './notices.ts';

/**
 * Insertions that write what is to be told of passages that the user slowed: the tempo where it begins to hold, as words
 * and a metronome mark, and the score's own where it holds again.
 */
export const tempoNoticeEdits = (score: Score, idOf: (markingId: string) => string): Edit[] =>
  noticeEdits(score, 'tempo', score.slowed, writeTempo, idOf);

/** The note that MusicXML counts tempi of playback in. */
const QUARTER = { quarters: 1 };

const writeTempo = ({ quartersPerMinute, unit, words }: TempoNotice): NoticeXml => {
  const figure = tempoFigure(quartersPerMinute, unit);
  const beat = `<beat-unit>${unit.value}</beat-unit>${unit.dots === 1 ? '<beat-unit-dot/>' : ''}`;
  const metronome = `<metronome>${beat}<per-minute>${figure}</per-minute></metronome>`;
  // MEI 5.1, att.mmTempo: a value by its part of a whole note, and its dots.
  const value = Math.round(4 / (unit.quarters / (unit.dots === 1 ? 1.5 : 1)));
  const dots = unit.dots === 1 ? ' mm.dots="1"' : '';
  return {
    mei: {
      name: 'tempo',
      attributes: ` mm="${figure}" mm.unit="${value}"${dots}`,
      content: `${words === '' ? '' : `${words} `}${unit.sign} = ${figure}`,
    },
    musicXml: {
      types: words === '' ? [metronome] : [`<words>${words}</words>`, metronome],
      sound: `<sound tempo="${tempoFigure(quartersPerMinute, QUARTER)}"/>`,
    },
  };
};
