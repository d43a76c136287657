import { expect, it } from 'vitest';
import { NO_DECISIONS } from '../../../engine/decisions/model.ts';
import { applyAct, beginHistory } from '../../../server/page/client/decisions/decision-history.ts';
import { keepHistory, recallHistory } from '../../../server/page/client/memory/session-history.ts';

const history = applyAct(beginHistory(NO_DECISIONS), {
  kind: 'do',
  name: 'something',
  decisions: NO_DECISIONS,
});

it('what was done to a part is known until its file is chosen anew, for each part by itself', () => {
  const bytes = new Uint8Array([1, 2]);
  keepHistory({ bytes, part: 'P2' }, history);
  expect(recallHistory({ bytes, part: 'P2' })).toBe(history);
  expect(recallHistory({ bytes, part: null })).toBeNull();
  expect(recallHistory({ bytes: new Uint8Array([1, 2]), part: 'P2' })).toBeNull();
});
