import type { HandFindingCode } from '../catalogue.ts';
import type { Finding } from '../model.ts';

export type HandFinding = Finding<HandFindingCode>;
