import type { InstallCheck } from '../checks/index.js';

/** An install check with the captures it was made from. */
export interface Installation {
  readonly file: string;
  /** The capture after a vend; null without one. */
  readonly second: string | null;
  readonly check: InstallCheck;
}
