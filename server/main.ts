import { compileLater } from './command/compile-later.ts';
import { runCommand } from './command/run-command.ts';

compileLater();
// The service by itself, for a container: the address comes from PORT and HOST of the environment.
process.exitCode = await runCommand(['serve']);
