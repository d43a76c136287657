import { describe, expect, it } from 'vitest';
import { toggleEdit } from '../../../server/page/client/proof/taken-edits.ts';

/** The second needs the first, the third needs the second. */
const EDITS = [{ with: [] }, { with: [0] }, { with: [1] }, { with: [] }];

describe('an edit that is ticked', () => {
  it('brings along those that it depends on', () => {
    expect(toggleEdit(EDITS, [], 2)).toEqual([0, 1, 2]);
    expect(toggleEdit(EDITS, [3], 0)).toEqual([0, 3]);
  });

  it('takes along, when it is unticked, those that depend on it', () => {
    expect(toggleEdit(EDITS, [0, 1, 2, 3], 0)).toEqual([3]);
    expect(toggleEdit(EDITS, [0, 1, 2, 3], 2)).toEqual([0, 1, 3]);
  });
});
