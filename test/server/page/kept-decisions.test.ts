import { describe, expect, it } from 'vitest';
import { type Decisions, NO_DECISIONS } from '../../../engine/decisions/model.ts';
import {
  keepDecisions,
  keyOfFile,
  recallDecisions,
} from '../../../server/page/client/memory/kept-decisions.ts';
import type { Memory } from '../../../server/page/client/memory/shelf.ts';

const memoryOf = (limit = Number.POSITIVE_INFINITY): Memory & { readonly stored: Map<string, string> } => {
  const stored = new Map<string, string>();
  return {
    stored,
    getItem: (name) => stored.get(name) ?? null,
    setItem: (name, value) => {
      if (value.length > limit) throw new Error('the memory is full');
      stored.set(name, value);
    },
  };
};

const SHUT_OFF: Memory = {
  getItem: () => {
    throw new Error('shut off');
  },
  setItem: () => {
    throw new Error('shut off');
  },
};

const decisionsWith = (count: number): Decisions => ({
  ...NO_DECISIONS,
  omit: Array.from({ length: count }, (_, barIndex) => ({ barIndex, beat: '1', pitch: 'C♯4' })),
});

const fileOf = (text: string, part: string | null = null) => ({
  bytes: new TextEncoder().encode(text),
  part,
});

describe('decisions kept in the browser', () => {
  it('come back for the same score, and for no other', () => {
    const memory = memoryOf();
    expect(keepDecisions(memory, 'a', decisionsWith(2))).toBe(true);
    expect(recallDecisions(memory, 'a')).toEqual(decisionsWith(2));
    expect(recallDecisions(memory, 'b')).toBeNull();
  });

  it('are the latest: emptied decisions are empty, not forgotten', () => {
    const memory = memoryOf();
    keepDecisions(memory, 'a', decisionsWith(2));
    keepDecisions(memory, 'a', NO_DECISIONS);
    expect(recallDecisions(memory, 'a')).toEqual(NO_DECISIONS);
  });

  it('give up the oldest scores where there are too many', () => {
    const memory = memoryOf();
    for (let i = 0; i < 70; i += 1) keepDecisions(memory, `${i}`, decisionsWith(1));
    expect(recallDecisions(memory, '0')).toBeNull();
    expect(recallDecisions(memory, '69')).toEqual(decisionsWith(1));
  });

  it('make room in a memory that is full', () => {
    const memory = memoryOf(350);
    keepDecisions(memory, 'a', decisionsWith(4));
    expect(keepDecisions(memory, 'b', decisionsWith(4))).toBe(true);
    expect(recallDecisions(memory, 'a')).toBeNull();
    expect(recallDecisions(memory, 'b')).toEqual(decisionsWith(4));
  });

  it('say so where they cannot be kept', () => {
    expect(keepDecisions(SHUT_OFF, 'a', decisionsWith(1))).toBe(false);
    expect(keepDecisions(memoryOf(10), 'a', decisionsWith(1))).toBe(false);
    expect(recallDecisions(SHUT_OFF, 'a')).toBeNull();
  });

  it.each(['', 'null', '{', '[["a"]]', '[["a",{"pins":[{"kind":"move"}]}]]', '{"a":1}'])(
    'are none where the memory holds %j',
    (text) => {
      const memory = memoryOf();
      memory.stored.set('tringle-decisions', text);
      expect(recallDecisions(memory, 'a')).toBeNull();
      expect(keepDecisions(memory, 'a', decisionsWith(1))).toBe(true);
      expect(recallDecisions(memory, 'a')).toEqual(decisionsWith(1));
    },
  );

  it('tells scores apart by their bytes, their length and the part chosen', () => {
    const keys = [
      fileOf('score'),
      fileOf('scorf'),
      fileOf('scor'),
      fileOf('score', 'P1'),
      fileOf('score', 'P2'),
      fileOf(''),
    ].map(keyOfFile);
    expect(new Set(keys).size).toBe(keys.length);
    expect(keyOfFile(fileOf('score', 'P1'))).toBe(keyOfFile(fileOf('score', 'P1')));
  });
});
