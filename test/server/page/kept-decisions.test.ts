import { describe, expect, it } from 'vitest';
import { type Decisions, NO_DECISIONS } from '../../../engine/decisions/model.ts';
import {
  keepDecisions,
  keyOfFile,
  type Memory,
  recallDecisions,
} from '../../../server/page/client/opening/kept-decisions.ts';

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

const workWith = (decisions: number): Decisions => ({
  ...NO_DECISIONS,
  omit: Array.from({ length: decisions }, (_, bar) => ({ bar, beat: '1', pitch: 'C♯4' })),
});

const fileOf = (text: string, part: string | null = null) => ({
  bytes: new TextEncoder().encode(text),
  part,
});

describe('decisions kept in the browser', () => {
  it('comes back for the same score, and for no other', () => {
    const memory = memoryOf();
    expect(keepDecisions(memory, 'a', workWith(2))).toBe(true);
    expect(recallDecisions(memory, 'a')).toEqual(workWith(2));
    expect(recallDecisions(memory, 'b')).toBeNull();
  });

  it('is the latest: emptied decisions is empty, not forgotten', () => {
    const memory = memoryOf();
    keepDecisions(memory, 'a', workWith(2));
    keepDecisions(memory, 'a', NO_DECISIONS);
    expect(recallDecisions(memory, 'a')).toEqual(NO_DECISIONS);
  });

  it('gives up the oldest scores where there are too many', () => {
    const memory = memoryOf();
    for (let i = 0; i < 70; i += 1) keepDecisions(memory, `${i}`, workWith(1));
    expect(recallDecisions(memory, '0')).toBeNull();
    expect(recallDecisions(memory, '69')).toEqual(workWith(1));
  });

  it('makes room in a memory that is full', () => {
    const memory = memoryOf(400);
    keepDecisions(memory, 'a', workWith(4));
    expect(keepDecisions(memory, 'b', workWith(4))).toBe(true);
    expect(recallDecisions(memory, 'a')).toBeNull();
    expect(recallDecisions(memory, 'b')).toEqual(workWith(4));
  });

  it('says so where it cannot be kept', () => {
    expect(keepDecisions(SHUT_OFF, 'a', workWith(1))).toBe(false);
    expect(keepDecisions(memoryOf(10), 'a', workWith(1))).toBe(false);
    expect(recallDecisions(SHUT_OFF, 'a')).toBeNull();
  });

  it.each(['', 'null', '{', '[["a"]]', '[["a",{"pins":[{"kind":"move"}]}]]', '{"a":1}'])(
    'is none where the memory holds %j',
    (text) => {
      const memory = memoryOf();
      memory.stored.set('tringle-decisions', text);
      expect(recallDecisions(memory, 'a')).toBeNull();
      expect(keepDecisions(memory, 'a', workWith(1))).toBe(true);
      expect(recallDecisions(memory, 'a')).toEqual(workWith(1));
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
