import { seededRandom } from '../engine/pedals/course/random-task.ts';

const STEPS = ['C', 'D', 'E', 'F', 'G', 'A', 'B'] as const;

/** A two-staff MusicXML harp part of so many bars: sixteenths above, quarters below, an accidental now and then. */
export const writeLongPart = (bars: number, seed = 1): string => joinBars(writeBars(bars, seed));

const ATTRIBUTES =
  '<attributes><divisions>4</divisions><key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time><staves>2</staves><clef number="1"><sign>G</sign><line>2</line></clef><clef number="2"><sign>F</sign><line>4</line></clef></attributes><direction><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>72</per-minute></metronome></direction-type><sound tempo="72"/></direction>';

/** A part of such bars. */
export const joinBars = (bars: readonly string[]): string =>
  '<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Harp</part-name></score-part></part-list><part id="P1">' +
  bars
    .map((notes, i) => `<measure number="${i + 1}">${i === 0 ? ATTRIBUTES : ''}${notes}</measure>`)
    .join('') +
  '</part></score-partwise>';

/** What stands in so many bars of 4/4. */
export const writeBars = (bars: number, seed = 1): readonly string[] => {
  const random = seededRandom(seed);
  const accidentals = new Map<string, number>();
  const note = (octave: number, duration: number, type: string, staff: number): string => {
    const step = STEPS[Math.floor(random() * 7)]!;
    if (random() < 0.02) accidentals.set(step, Math.floor(random() * 3) - 1);
    const alter = accidentals.get(step) ?? 0;
    return (
      `<note><pitch><step>${step}</step>${alter === 0 ? '' : `<alter>${alter}</alter>`}<octave>${octave}</octave></pitch>` +
      `<duration>${duration}</duration><voice>${staff}</voice><type>${type}</type><staff>${staff}</staff></note>`
    );
  };
  return Array.from({ length: bars }, () => {
    const upper = Array.from({ length: 16 }, () => note(5, 1, '16th', 1)).join('');
    const lower = Array.from({ length: 4 }, () => note(3, 4, 'quarter', 2)).join('');
    return `${upper}<backup><duration>16</duration></backup>${lower}`;
  });
};
