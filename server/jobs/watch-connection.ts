import type { Redis } from 'ioredis';

/** What is told of a connection: once when it is lost, and once when it is there again. */
export type TellConnection = (state: 'lost' | 'restored') => void;

/** Follows a connection that is tried again by itself; one that is closed on purpose is not lost. */
export const watchConnection = (connection: Pick<Redis, 'on'>, tell: TellConnection): void => {
  let isLost = false;
  const become = (lost: boolean): void => {
    if (lost === isLost) return;
    isLost = lost;
    tell(lost ? 'lost' : 'restored');
  };
  connection.on('reconnecting', () => become(true));
  connection.on('ready', () => become(false));
};
