import { runCommand } from './command/run-command.ts';

// The service by itself, for a container: the address comes from PORT and HOST of the environment.
process.exitCode = await runCommand(['serve']);
