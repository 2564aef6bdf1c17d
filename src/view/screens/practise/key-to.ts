import type { Command } from '../../../control/command';
import type { AppParts } from '../../app-context';

/** What is printed on the key that gives a command; undefined where none does, or before the keys are there. */
export const keyTo = (app: AppParts, command: Command): string | undefined =>
  app.isComplete ? app.controls.keyTo(command) : undefined;
