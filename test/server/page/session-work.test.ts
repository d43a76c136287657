import { expect, it } from 'vitest';
import { NO_WORK } from '../../../engine/decisions/model.ts';
import { beginHistory, changeWork } from '../../../server/page/client/decisions/work-history.ts';
import { keepHistory, recallHistory } from '../../../server/page/client/opening/session-work.ts';

const history = changeWork(beginHistory(NO_WORK), { kind: 'do', name: 'something', work: NO_WORK });

it('what was done to a part is known until its file is chosen anew, for each part by itself', () => {
  const bytes = new Uint8Array([1, 2]);
  keepHistory({ bytes, part: 'P2' }, history);
  expect(recallHistory({ bytes, part: 'P2' })).toBe(history);
  expect(recallHistory({ bytes, part: null })).toBeNull();
  expect(recallHistory({ bytes: new Uint8Array([1, 2]), part: 'P2' })).toBeNull();
});
