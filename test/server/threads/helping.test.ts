import { MessageChannel } from 'node:worker_threads';
import { afterEach, describe, expect, it } from 'vitest';
import type { DrawingTask, Drawn } from '../../../render/index.ts';
import { createLender } from '../../../server/threads/helping/lend-threads.ts';
import {
  createClaims,
  endHelp,
  giveBack,
  helpAt,
  helperAt,
  type SharedEnd,
} from '../../../server/threads/helping/shared-tasks.ts';

const LAYOUT = {} as DrawingTask['layout'];

const TASKS = ['first', 'second', 'third', 'fourth'].map(
  (mei): DrawingTask => ({ kind: 'unbroken', mei, layout: LAYOUT }),
);

const ports: SharedEnd['port'][] = [];

afterEach(() => {
  for (const port of ports.splice(0)) port.close();
});

/** Both ends in one thread: the helper is called when it would have its turn, and ends after so many drawings. */
const share = () => {
  const { port1, port2 } = new MessageChannel();
  ports.push(port1, port2);
  const claims = createClaims();
  const drawn: string[] = [];
  const help = (most: number, outcome: (task: DrawingTask) => Drawn = ({ mei }) => [`<${mei}>`]): void =>
    helpAt({ claims, port: port2 }, (task) => {
      drawn.push(task.mei);
      if (drawn.length === most) endHelp(claims);
      return outcome(task);
    });
  return { claims, drawn, help, helper: helperAt({ claims, port: port1 }) };
};

describe('a score that two threads draw', () => {
  it('is drawn by the helper from the end, and what it has not begun is left to the other', () => {
    const { drawn, help, helper } = share();
    const fetches = helper.offer(TASKS);
    help(2);
    expect(drawn).toEqual(['fourth', 'third']);
    expect(fetches.map((fetch) => fetch())).toEqual([undefined, undefined, ['<third>'], ['<fourth>']]);
  });

  it('has nothing drawn twice', () => {
    const { drawn, help, helper } = share();
    const fetches = helper.offer(TASKS);
    expect([fetches[3]!(), fetches[0]!()]).toEqual([undefined, undefined]);
    help(2);
    expect(drawn).toEqual(['third', 'second']);
  });

  it('tells that the layout cannot load something, as the layout itself does', () => {
    const { help, helper } = share();
    const [fetch] = helper.offer(TASKS.slice(0, 1));
    help(1, () => null);
    expect(fetch!()).toBeNull();
  });

  it('gets back what the helper broke down over', () => {
    const { help, helper } = share();
    const [fetch] = helper.offer(TASKS.slice(0, 1));
    expect(() =>
      help(2, () => {
        throw new Error('the layout engine broke down');
      }),
    ).toThrow('broke down');
    expect(fetch!()).toBeUndefined();
  });

  it('gets back what a thread had claimed that died', () => {
    const { claims, help, helper } = share();
    const [fetch] = helper.offer(TASKS.slice(0, 1));
    help(1, () => {
      giveBack(claims);
      return [];
    });
    // Whether it was given back before or after it was drawn, nobody waits in vain.
    expect(fetch!()).toEqual([]);
    giveBack(claims);
    expect(helper.offer(TASKS)[0]!()).toBeUndefined();
  });

  it('draws by itself what is more than can be shared', () => {
    const { helper } = share();
    const many = Array.from({ length: 5000 }, () => TASKS[0]!);
    expect(helper.offer(many).every((fetch) => fetch() === undefined)).toBe(true);
  });
});

/** A pool of two threads, in which helpers come back when they are told to. */
const lendOfTwo = () => {
  let inside = 0;
  const helpers: { readonly end: SharedEnd; readonly comeBack: () => void }[] = [];
  const lender = createLender(
    () => 2 - inside,
    (end) => new Promise<void>((comeBack) => helpers.push({ end, comeBack })),
  );
  const begin = () => {
    inside += 1;
    const job = lender.begin();
    ports.push(job.own.port);
    return () => {
      inside -= 1;
      job.end();
    };
  };
  const isWanted = (helper: number): boolean => Atomics.load(helpers[helper]!.end.claims, 1) === 0;
  return { begin, helpers, isWanted };
};

describe('a thread without a job', () => {
  it('helps the one that has a job', () => {
    const { begin, helpers, isWanted } = lendOfTwo();
    begin();
    expect(helpers.length).toBe(1);
    expect(isWanted(0)).toBe(true);
  });

  it('is called back when somebody else’s score comes', () => {
    const { begin, isWanted } = lendOfTwo();
    begin();
    begin();
    expect(isWanted(0)).toBe(false);
  });

  it('is called back when the score is drawn', () => {
    const { begin, isWanted } = lendOfTwo();
    begin()();
    expect(isWanted(0)).toBe(false);
  });

  it('helps the score that is left when another is done, and not before the last helper is back', async () => {
    const { begin, helpers, isWanted } = lendOfTwo();
    const endFirst = begin();
    begin();
    endFirst();
    expect(helpers.length).toBe(1);
    helpers[0]!.comeBack();
    await Promise.resolve();
    await Promise.resolve();
    expect(helpers.length).toBe(2);
    expect(isWanted(1)).toBe(true);
  });
});
