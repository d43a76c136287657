/** What one upload holds of the budget. */
export interface UploadReservation {
  /** @returns whether there was room for so many bytes more */
  readonly take: (bytes: number) => boolean;
  /** Gives everything back; may be called again. */
  readonly release: () => void;
}

/** Bounds the bytes that all uploads hold at one time. */
export interface UploadBudget {
  readonly open: () => UploadReservation;
  readonly heldBytes: () => number;
}

export const createUploadBudget = (limitBytes: number): UploadBudget => {
  let held = 0;
  return {
    open: () => {
      let own = 0;
      return {
        take: (bytes) => {
          if (held + bytes > limitBytes) return false;
          held += bytes;
          own += bytes;
          return true;
        },
        release: () => {
          held -= own;
          own = 0;
        },
      };
    },
    heldBytes: () => held,
  };
};
