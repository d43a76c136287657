import type { Endpoint } from './endpoint.ts';
import { JOB_ENDPOINTS } from './job-endpoints.ts';
import { LOOK_UP_ENDPOINTS } from './look-up-endpoints.ts';
import { SCORE_ENDPOINTS } from './score-endpoints.ts';
import { SERVICE_ENDPOINTS } from './service-endpoints.ts';

/** Everything that can be asked of the service, in the order in which it is described. */
export const ENDPOINTS: readonly Endpoint[] = [
  ...SCORE_ENDPOINTS,
  ...LOOK_UP_ENDPOINTS,
  ...JOB_ENDPOINTS,
  ...SERVICE_ENDPOINTS,
];
