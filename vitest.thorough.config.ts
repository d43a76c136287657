import { defineConfig, mergeConfig } from 'vitest/config';
import usual, { THOROUGH_TIMEOUT_MS } from './vitest.config.ts';

/** Every claim on every real score and every case: an hour and more. */
export default mergeConfig(
  usual,
  defineConfig({ test: { env: { TRINGLE_THOROUGH: '1' }, testTimeout: THOROUGH_TIMEOUT_MS } }),
);
