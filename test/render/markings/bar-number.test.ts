import { describe, expect, it } from 'vitest';
import { printedBarNumber } from '../../../render/markings/bar-number.ts';

describe("a bar's printed number", () => {
  it.each([
    ['17', '17'],
    ['12a', '12a'],
    ['', ''],
    ['MOVEMENT2_MEASURE17', '17'],
    ['INTRODUCTION', ''],
  ])('of %j is %j', (number, printed) => {
    expect(printedBarNumber(number)).toBe(printed);
  });
});
