import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { firstFixes, type PedalFinding } from '../../../engine/findings/model.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { gatherAlike, likeChanges, likenessOf } from '../../../server/page/client/findings/like-findings.ts';
import { breaksOfLaw } from '../../engine/pedals/fix-law.ts';
import { readScore } from '../../engine/score/musicxml/musicxml-builder.ts';
import { SCATTERED_DOUBLES } from '../../scattered-doubles.ts';

const items = (...alike: readonly string[]) => alike.map((each, at) => ({ at, finding: { alike: each } }));

const placesOf = (gathered: readonly (readonly { readonly at: number }[])[]) =>
  gathered.map((each) => each.map(({ at }) => at));

describe('findings that are alike', () => {
  it('are told as one where there are three or more, where the first of them stands', () => {
    expect(placesOf(gatherAlike(items('a', 'b', 'a', 'c', 'b', 'a')))).toEqual([[0, 2, 5], [1], [3], [4]]);
  });

  it('are all told, each once, in their order', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('a', 'b', 'c', 'd')), (kinds) => {
        const gathered = placesOf(gatherAlike(items(...kinds)));
        expect(gathered.flat().sort((a, b) => a - b)).toEqual(kinds.map((_, at) => at));
        for (const each of gathered) expect(each).toEqual(each.toSorted((a, b) => a - b));
        expect(gathered.map(([first]) => first)).toEqual(
          gathered.map(([first]) => first!).toSorted((a, b) => a - b),
        );
      }),
    );
  });
});

describe('a double sharp here and there', () => {
  const score = readScore(SCATTERED_DOUBLES);
  const plan = planPedals(score);
  const doubles = plan.findings.filter(({ code }) => code === 'double-accidental');

  it('is alike wherever it has the same fix, in whatever octave', () => {
    expect(doubles).toHaveLength(4);
    expect(new Set(doubles.slice(0, 3).map(likenessOf)).size).toBe(1);
    expect(likenessOf(doubles[3]!)).not.toBe(likenessOf(doubles[0]!));
    expect(likeChanges(doubles[0]!)).toEqual([{ kind: 'respell', from: 'F𝄪', to: 'G' }]);
  });

  it('can be mended at all its places together, and nothing is worse', () => {
    const choices = doubles
      .slice(0, 3)
      .flatMap((finding: PedalFinding) => firstFixes(finding).map((fix) => ({ finding, fix })));
    expect(choices).toHaveLength(3);
    expect(breaksOfLaw(score, plan, choices)).toEqual([]);
  });
});
