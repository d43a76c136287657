import { describe, expect, it } from 'vitest';
import { tuneToKey } from '../../../engine/harp/open-tuning.ts';
import { LEVER_HARP } from '../../../engine/harp/profiles/lever-harp-34.ts';
import type { HarpPlan } from '../../../engine/harp-plan.ts';
import { planPart } from '../../../engine/plan-part.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import type { TempoMark } from '../../../engine/score/model/tempo.ts';
import { prepareAnnotator } from '../../../render/annotate.ts';
import { drawCard } from '../../../render/card/summary-card.ts';
import type { NoteNaming } from '../../../render/markings/note-names.ts';
import { LANGUAGES, type Language } from '../../../render/words/language.ts';
import { wordsOf } from '../../../render/words/words.ts';
import { demoScore } from '../../demo-score.ts';
import { leverPlanFor } from '../../lever-plan-builder.ts';
import { smallPart } from '../../part-builder.ts';
import { groupsOf } from '../page-tree.ts';
import { findTouchingWords } from '../touching-words.ts';

const LANTERNS = demoScore('lanterns-at-the-lock');
const RIBBONS = demoScore('the-ribbon-stall');
const RIBBON_PLAN = leverPlanFor(RIBBONS, { up: 'A3 A4 A5', moves: ['9.4 F#4', '16.4 F4'] });

/** What the card says, word by word, in the order of the drawing. */
const wordsOn = (score: Score, harp: HarpPlan, naming: NoteNaming = 'english'): string =>
  [...drawCard(score, harp, { naming, language: 'english' }).page.svg.matchAll(/<text[^>]*>(.*?)<\/text>/gs)]
    .map(([, inner]) => inner!.replace(/<[^>]*>/g, ''))
    .join(' ');

describe('a summary card', () => {
  it('tells title, difficulty, moves a minute, length and what to tune', () => {
    const plan = planPart(LANTERNS, {});
    const { grade } = plan.plan.summary.difficulty;
    const words = wordsOn(LANTERNS, plan).toLowerCase();
    expect(words).toContain('lanterns at the lock');
    expect(words).toContain(`difficulty ${grade}`);
    expect(words).toContain(`pedal moves ${plan.plan.moves.length} in print; on average`);
    // 60 bars, of which some are played twice.
    expect(words).toContain('length 3 min 06 s with all repeats and rests, 60 bars');
    expect(words).toContain('this string has no disc');
  });

  it('tells its facts in one column, whatever the language calls them', () => {
    const { page } = drawCard(LANTERNS, planPart(LANTERNS, {}), { naming: 'fixed-do', language: 'french' });
    const leftOf = (words: string): string | undefined =>
      new RegExp(`<text[^>]*? x="([\\d.]+)"[^>]*>(?:<[^>]*>)*${words}`).exec(page.svg)?.[1];
    expect(leftOf('Moyenne : ')).toBeDefined();
    expect(leftOf('31 dans')).toBe(leftOf('Moyenne : '));
  });

  it('counts what is repeated into the length', () => {
    // Two bars of four quarters at 60, the second played twice.
    const score = smallPart({ upper: 'C4/4 | D4/4', quartersPerMinute: 60, playOrder: [0, 1, 1] });
    expect(wordsOn(score, planPart(score, {}))).toContain('12 s with all repeats and rests, 2 bars');
  });

  it('says what its length goes by where no tempo is printed', () => {
    const score = smallPart({ upper: 'C4/4', quartersPerMinute: 60 });
    const toldFrom = (origin: TempoMark['origin']): string => {
      const part = { ...score, tempo: score.tempo.map((mark) => ({ ...mark, origin })) };
      return wordsOn(part, planPart(part, {}));
    };
    expect(toldFrom('assumed')).toMatch(/\(no tempo is given at the start;.* is assumed\)/);
    expect(toldFrom('sound')).toMatch(
      /\(no metronome mark is given at the start;.* is the file’s playback tempo\)/,
    );
    expect(toldFrom('metronome')).not.toMatch(/tempo|metronome/);
  });

  it('tells how often a foot moves by the length that it tells', () => {
    // Two bars of four quarters at 60, played twice: 16 seconds.
    const score = smallPart({ upper: 'C4/4 | C#4/4', quartersPerMinute: 60, playOrder: [0, 1, 0, 1] });
    const plan = planPart(score, {});
    const moves = plan.plan.moves.length;
    expect(moves).toBeGreaterThan(0);
    const rate = ((2 * moves * 60) / 16).toFixed(1);
    expect(wordsOn(score, plan)).toContain(`${moves} in print; on average ${rate} a minute`);
  });

  it('says that nothing is to be tuned, and that no pedal moves', () => {
    const score = smallPart({ upper: 'C4/4' });
    const words = wordsOn(score, planPart(score, {}));
    expect(words).toContain('Nothing beyond the usual tuning');
    expect(words).toContain('Pedal moves None');
  });

  it('shows the levers that are up before the start, and no others', () => {
    const { page } = drawCard(RIBBONS, RIBBON_PLAN, { naming: 'english', language: 'english' });
    const strings = groupsOf(page.svg, 'set-string');
    expect(strings).toHaveLength(34);
    const up = strings.filter(({ attributes }) => attributes['data-lever'] === 'up');
    expect(up.map(({ attributes }) => attributes['data-string'])).toEqual(['A3', 'A4', 'A5']);
  });

  it('names the strings of a letter that are tuned otherwise than by custom, and warns where that raises them', () => {
    // In C major the open E, A and B strings stand a semitone above E flat major.
    const plan = leverPlanFor(RIBBONS, { tuning: tuneToKey(0) });
    const words = wordsOn(RIBBONS, plan);
    expect(words).toContain('All E♭strings up to E.');
    expect(words).toContain('technician');
  });

  it.each(Object.keys(LANGUAGES) as Language[])('is written in %s alone', (language) => {
    const score = smallPart({ upper: 'C4/2 C#4/2' });
    const { page } = drawCard(score, planPart(score, {}), { naming: LANGUAGES[language].naming, language });
    const { card, study, tuning, difficulty } = wordsOf({ language });
    for (const told of [card.moves, card.tune, study.opening, tuning.nothing])
      expect(page.svg).toContain(told);
    expect(page.svg.toLowerCase()).toContain(difficulty.grades.easy);
    const english = ['Pedal moves', 'To tune', 'Opening setting', 'while the harp plays'];
    if (language !== 'english') for (const told of english) expect(page.svg).not.toContain(told);
  });

  it('needs no layout of music', async () => {
    const made = await prepareAnnotator().engrave(
      LANTERNS,
      planPart(LANTERNS, {}),
      { edition: 'card' },
      'pdf',
    );
    if (!made.ok) throw new Error(made.problem.code);
    expect(made.value.pages).toHaveLength(1);
    expect(new TextDecoder('latin1').decode(made.value.pdf!.subarray(0, 5))).toBe('%PDF-');
  });

  const long = 'The slow boat that nobody saw come in before the fog had lifted off the upper lock';
  it.each([
    ['the demo', LANTERNS, planPart(LANTERNS, {})],
    ['the lever demo', RIBBONS, RIBBON_PLAN],
    [
      'long names',
      {
        ...LANTERNS,
        titles: { ...LANTERNS.titles, title: `${long}, ${long}`, subtitle: long, arranger: long },
      },
      planPart(LANTERNS, {}),
    ],
    ['every string retuned', RIBBONS, leverPlanFor(RIBBONS, { tuning: tuneToKey(7) })],
  ] as const)('keeps the words of %s apart', (_name, score, plan) => {
    for (const [language, { naming }] of Object.entries(LANGUAGES)) {
      const { page } = drawCard(score, plan, { naming, language: language as Language });
      expect(findTouchingWords(page.svg)).toEqual([]);
    }
  });

  it('knows a lever harp of any size', () => {
    const profile = {
      ...LEVER_HARP,
      lowest: { letter: 'C', octave: 1 },
      highest: { letter: 'G', octave: 7 },
    } as const;
    const plan = { ...RIBBON_PLAN, profile } as HarpPlan;
    expect(
      findTouchingWords(drawCard(RIBBONS, plan, { naming: 'fixed-do', language: 'french' }).page.svg),
    ).toEqual([]);
  });
});
