/** Where the service listens. */
export interface Address {
  readonly host: string;
  /** 0 asks for any free port. */
  readonly port: number;
}

export const DEFAULT_ADDRESS: Address = { host: '127.0.0.1', port: 8017 };
